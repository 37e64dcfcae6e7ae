//! Changing numbers where they stand on the drawing.

use anyhow::ensure;
use layshaft_tests::browser::journey;

use super::steps;

#[test]
fn a_tooth_count_is_computed_with_at_every_keystroke_and_undone_at_once() {
    journey("edit a tooth count", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Ctrl+A").await?;
        page.enter("4").await?;
        page.named("button", "shaft s4, ratio 1").await?;
        page.enter("8").await?;
        page.named("button", "shaft s4, ratio one twelfth").await?;
        page.press("Enter").await?;
        page.named("button", "teeth on s4: 48").await?;
        page.press("Ctrl+Z").await?;
        page.named("button", "shaft s4, ratio one ninth").await?;
        page.press("Ctrl+Shift+Z").await?;
        page.named("button", "shaft s4, ratio one twelfth")
            .await
            .map(drop)
    });
}

#[test]
fn a_count_that_cannot_be_is_answered_where_it_was_typed() {
    journey("a gear of no teeth", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Ctrl+A").await?;
        page.enter("0").await?;
        page.until(async || {
            let answers = page.all("alert").await?;
            ensure!(!answers.is_empty(), "nothing answers");
            Ok(())
        })
        .await?;
        page.press("Esc").await?;
        page.named("button", "teeth on s4: 36").await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn arrow_keys_step_a_number() {
    journey("step a tooth count", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Up Enter").await?;
        page.named("button", "teeth on s4: 37").await.map(drop)
    });
}

#[test]
fn what_is_deleted_comes_back() {
    journey("delete and undo", async |page| {
        steps::two_stages(page).await?;
        page.press("Delete").await?;
        page.gone("button", "shaft s4").await?;
        page.press("Ctrl+Z").await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn a_finding_below_the_headline_is_mended_by_its_button() {
    journey("repair", async |page| {
        steps::empty_bench(page).await?;
        page.press("P").await?;
        page.named("button", "planetary set").await?;
        page.click("DisclosureTriangle", "1 more finding").await?;
        page.click("button", "Put a brake on").await?;
        page.named("button", "brake").await?;
        page.gone("button", "Put a brake on").await?;
        page.press("Ctrl+Z").await?;
        page.named("DisclosureTriangle", "1 more finding").await?;
        page.gone("button", "brake").await
    });
}
