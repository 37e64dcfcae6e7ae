//! What can be built instead of a branch that is subtracted: found, looked at, put on the bench, taken back.

use anyhow::ensure;
use layshaft_tests::browser::journey;

#[test]
fn what_beats_subtracting_a_branch_is_found_and_put_on_the_bench() {
    journey("two speeds", async |page| {
        page.named("heading", "Second pulls").await?;
        page.click("button", "See what can be built instead").await?;
        page.named("textbox", "Ratio in low").await?;
        page.see("Two gear pairs, the low one through a one-way clutch: 75 % more pull in low than now")
            .await?;
        let low = page.value_of("textbox", "Ratio in low").await?;
        ensure!(low == "1/16", "low begins with {low}");
        page.click("button", "Open as a layout: Two gear pairs, the low one")
            .await?;
        page.named("heading", "Low climbs 24.8").await?;
        page.gone("heading", "Second pulls").await?;
        page.see("on the bench").await?;
        page.press("Ctrl+Z").await?;
        page.named("heading", "Second pulls").await?;
        page.see("Trail cart, branch held by a worm").await
    });
}

#[test]
fn other_speeds_are_typed_and_found_at_once() {
    journey("other two speeds", async |page| {
        page.click("button", "Choose").await?;
        page.click("tab", "Two speeds").await?;
        page.see("16 turns in, 1 turn out").await?;
        page.click("textbox", "Ratio in low").await?;
        page.press("Ctrl+A").await?;
        page.enter("1/24").await?;
        page.see("24 turns in, 1 turn out").await?;
        page.see("Low 1/24").await?;
        page.press("Ctrl+A").await?;
        page.enter("24:1").await?;
        page.see("read both ways by builders").await
    });
}
