//! The skeleton in a browser: shown by key and by button, selected on, dragged on, edited on.

use anyhow::ensure;
use layshaft_tests::browser::journey;

use super::steps;

#[test]
fn key_and_button_show_it_and_the_selection_stays() {
    journey("show the skeleton", async |page| {
        steps::two_stages(page).await?;
        page.press("Alt+2").await?;
        page.named("group", "Skeleton drawing").await?;
        page.named("button", "shaft s4, ratio one ninth").await?;
        let selected = page
            .script("return document.querySelectorAll('.drawn.is-selected').length")
            .await?;
        ensure!(selected.as_u64() == Some(1), "selected: {selected}");
        page.click("button", "Flow").await?;
        page.named("group", "Flow drawing").await?;
        page.click("button", "Skeleton").await?;
        page.named("group", "Skeleton drawing").await.map(drop)
    });
}

#[test]
fn an_axis_goes_where_it_is_led_and_undo_leads_it_back() {
    journey("drag an axis", async |page| {
        steps::two_stages(page).await?;
        page.press("Alt+2").await?;
        page.named("group", "Skeleton drawing").await?;
        let before = page.middle("button", "shaft s4").await?;
        // Beside the gear, which stands in the middle of it.
        let bearing = (before.0 + 25, before.1);
        page.drag(bearing, (bearing.0, bearing.1 + 60)).await?;
        let lower = async || Ok(page.middle("button", "shaft s4").await?.1 > before.1 + 20);
        page.wait_for("the axis lower down", lower).await?;
        page.press("Ctrl+Z").await?;
        let back = async || Ok((page.middle("button", "shaft s4").await?.1 - before.1).abs() < 6);
        page.wait_for("the axis where it was", back).await
    });
}

#[test]
fn a_tooth_count_is_edited_where_it_stands() {
    journey("edit on the skeleton", async |page| {
        steps::two_stages(page).await?;
        page.press("Alt+2").await?;
        page.named("group", "Skeleton drawing").await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Ctrl+A").await?;
        page.enter("48").await?;
        page.press("Enter").await?;
        page.named("button", "shaft s4, ratio one twelfth")
            .await
            .map(drop)
    });
}
