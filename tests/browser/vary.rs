//! Varying inputs: which branch ratio pulls best, found from the first visit by pointer and by keyboard.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

const WORM: &str = "still less than First";
const GEARS: &str = "Second, plain gears, climbs most from 0.262 on";

/// The names of the lines that are plotted.
async fn lines(page: &Page) -> anyhow::Result<u64> {
    let script = "return document.querySelectorAll('.chart-field .plot-line').length";
    Ok(page.script(script).await?.as_u64().unwrap_or(0))
}

async fn reading(page: &Page) -> anyhow::Result<String> {
    let script = "return document.querySelector('.chart-field')?.getAttribute('aria-valuetext') ?? ''";
    Ok(page.script(script).await?.as_str().unwrap_or_default().to_owned())
}

#[test]
fn the_best_branch_ratio_is_found_by_pointer() {
    journey("vary by pointer", async |page| {
        page.click("button", "Choose").await?;
        page.see(WORM).await?;
        page.see(GEARS).await?;
        ensure!(
            lines(page).await? >= 3,
            "First, Second and Second through plain gears are not all plotted"
        );
        page.see("at 0.333 it stands still").await?;
        page.see("First then needs a brake on branch").await?;
        page.click("button", "Find gears for 0.268").await?;
        page.see("Which of my gears make this ratio?").await
    });
}

#[test]
fn the_best_branch_ratio_is_found_by_keyboard() {
    journey("vary by keyboard", async |page| {
        page.named("button", "Choose")
            .await?
            .focus(page.session())
            .await?;
        page.press("Enter").await?;
        page.see(GEARS).await?;
        let plot = "Read Steepest slope over ratio of wg";
        page.named("slider", plot).await?.focus(page.session()).await?;
        page.press("Right").await?;
        page.until(async || {
            let told = reading(page).await?;
            ensure!(
                told.contains("First 16.5°") && told.contains("Second 13.1°"),
                "it reads {told:?}"
            );
            Ok(())
        })
        .await?;
        page.press("End").await?;
        page.until(async || {
            let told = reading(page).await?;
            ensure!(
                told.starts_with("0.980:"),
                "End does not lead to the last value: {told:?}"
            );
            Ok(())
        })
        .await
    });
}

#[test]
fn a_field_is_varied_from_its_button_and_its_mark_changes_the_layout() {
    journey("vary a field", async |page| {
        page.click("button", "gear mesh g1").await?;
        page.click("button", "Details").await?;
        page.click("button", "Vary teeth of the first gear").await?;
        page.see("Teeth of the first gear, g1").await?;
        page.named("slider", "Teeth of the first gear, g1, now 12")
            .await?
            .focus(page.session())
            .await?;
        page.press("Right Right").await?;
        page.named("slider", "Teeth of the first gear, g1, now 14")
            .await?;
        page.press("Enter").await?;
        page.press("Ctrl+Z").await?;
        page.named("slider", "Teeth of the first gear, g1, now 12")
            .await
            .map(drop)
    });
}
