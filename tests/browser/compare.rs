//! Variants side by side: the trail cart, another demo and a changed state, one of them put on the bench and taken off again.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

/// Opens the sheet at its part.
async fn open(page: &Page) -> anyhow::Result<()> {
    page.named("button", "vehicle cart").await?;
    page.click("button", "Choose").await?;
    page.click("tab", "Compare").await?;
    page.named("table", "Variants side by side").await.map(drop)
}

/// Adds what stands in the list under a name that begins so.
async fn add(page: &Page, name: &str) -> anyhow::Result<()> {
    page.choose("Add a column", name).await?;
    page.click("button", "Add").await
}

/// Waits until a column of a row says this.
async fn says(page: &Page, row: &str, column: usize, text: &str) -> anyhow::Result<()> {
    let script = format!(
        "return [...document.querySelectorAll('.compare tbody')]
            .find(row => row.querySelector('th')?.textContent === {row:?})
            ?.querySelectorAll('td')[{column}]?.innerText ?? ''"
    );
    page.until(async || {
        let said = page.script(&script).await?;
        let said: String = said.as_str().unwrap_or_default().split_whitespace().collect();
        let wanted: String = text.split_whitespace().collect();
        ensure!(said.contains(&wanted), "{row}, column {column} says {said}");
        Ok(())
    })
    .await
}

async fn count(page: &Page, selector: &str, wanted: u64) -> anyhow::Result<()> {
    let script = format!("return document.querySelectorAll({selector:?}).length");
    page.wait_for(&format!("{wanted} of {selector}"), async || {
        Ok(page.script(&script).await?.as_u64() == Some(wanted))
    })
    .await
}

#[test]
fn a_demo_and_a_changed_state_stand_beside_the_cart() {
    journey("compare", async |page| {
        open(page).await?;
        add(page, "Trail cart, diff").await?;
        says(page, "Ratio, drive to load", 1, "▲ ×2.00").await?;
        says(page, "Shafts", 1, "▼ 2 fewer").await?;
        // The plot of both comes from the worker.
        count(page, ".compare-plot svg.plot", 1).await?;

        page.click("button", "Keep the bench as it is").await?;
        says(page, "Gears", 0, "= same").await?;
        page.click("button", "mass in kilograms").await?;
        page.named("textbox", "Mass").await?;
        page.press("Ctrl+A").await?;
        page.enter("2.8").await?;
        page.press("Enter").await?;
        // What was kept is what the bench is measured against, unless another is chosen.
        says(page, "Steepest slope", 0, "▼").await?;
        page.click("button", "Measure against The bench").await?;
        says(page, "Steepest slope", 2, "▲").await?;

        page.click(
            "button",
            "Put Trail cart, differential locked or held on the bench",
        )
        .await?;
        page.gone("button", "worm").await?;
        says(page, "Ratio, drive to load", 1, "= same").await?;
        page.press("Ctrl+Z").await?;
        page.named("button", "worm wg").await?;
        says(page, "Ratio, drive to load", 1, "▲ ×2.00").await?;

        page.click("button", "Take Trail cart, differential locked or held away")
            .await?;
        count(page, ".compare thead th", 2).await
    });
}

#[test]
fn a_variant_is_named_and_looked_at_in_one_position() {
    journey("name a variant", async |page| {
        open(page).await?;
        page.click("button", "Keep the bench as it is").await?;
        let field = page.named("textbox", "Name of variant B").await?;
        field.focus(page.session()).await?;
        page.press("Ctrl+A").await?;
        page.enter("As found").await?;
        page.press("Enter").await?;
        page.named("button", "Put As found on the bench").await?;
        page.choose("Position of As found", "Second").await?;
        says(page, "Ratio, drive to load", 1, "1 16").await
    });
}
