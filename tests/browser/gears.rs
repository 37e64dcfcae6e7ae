//! Gears for a ratio: which of the gears in the bin slow down 13.36 times, by pointer and typing.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

async fn count(page: &Page, selector: &str) -> anyhow::Result<u64> {
    let script = format!("return document.querySelectorAll({selector:?}).length");
    Ok(page.script(&script).await?.as_u64().unwrap_or(0))
}

async fn type_into(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.named("textbox", field).await?.focus(page.session()).await?;
    page.press("Ctrl+A").await?;
    page.enter(text).await?;
    page.press("Enter").await
}

/// So many gear meshes are on the bench.
async fn there_are(page: &Page, meshes: usize) -> anyhow::Result<()> {
    page.until(async || {
        let buttons = page.all("button").await?;
        let there = buttons
            .iter()
            .filter(|button| button.name.starts_with("gear mesh g"))
            .count();
        ensure!(there == meshes, "{there} meshes are on the bench");
        Ok(())
    })
    .await
}

#[test]
fn gears_that_slow_down_by_a_crooked_number_are_found_and_put_in() {
    journey("gears", async |page| {
        page.click("button", "gear mesh g2").await?;
        page.click("button", "Choose").await?;
        page.click("tab", "Gears").await?;
        page.see("Which of my gears make this ratio?").await?;
        type_into(page, "Ratio", "13.36 times slower").await?;
        page.see("13.36 turns in, 1 turn out").await?;
        page.see("11/147").await?;
        let trains = count(page, ".gears-stages").await?;
        ensure!(trains >= 4, "only {trains} trains are listed");
        page.see("in place of gear mesh g2").await?;
        page.see("also 8→42 · 11→28").await?;
        page.click("button", "Put in: 8 on 28, then 11 on 42").await?;
        there_are(page, 3).await?;
        page.click("button", "Undo").await?;
        there_are(page, 2).await
    });
}

#[test]
fn a_bin_is_typed_and_what_is_missing_is_said() {
    journey("bin", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Choose").await?;
        page.click("tab", "Gears").await?;
        type_into(page, "Bin", "12, 36").await?;
        type_into(page, "Ratio", "9.1 times slower").await?;
        page.see("The nearest is off by").await?;
        type_into(page, "Tolerance", "2").await?;
        page.see("1/9").await?;
        type_into(page, "Bin", "12, soup").await?;
        page.see("no gear").await?;
        page.see("still from the last one that could: 12").await?;
        type_into(page, "Bin", "12-15, 36").await?;
        page.see("5 tooth counts in the bin").await
    });
}
