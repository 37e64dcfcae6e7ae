//! Shift positions and the further sheets: ledger, working, positions side by side, actions, demos.

use anyhow::ensure;
use layshaft_tests::browser::{Look, journey, journey_on};

#[test]
fn positions_are_switched_and_compared() {
    journey("positions", async |page| {
        page.named("button", "shaft axle, ratio one twelfth").await?;
        page.click("tab", "Second").await?;
        page.gone("button", "shaft axle, ratio one twelfth").await?;
        page.click("button", "Positions").await?;
        page.until(async || {
            let tables = page.all("table").await?;
            ensure!(!tables.is_empty(), "no table sets the positions side by side");
            Ok(())
        })
        .await
    });
}

#[test]
fn the_working_is_written_out_and_can_be_hidden() {
    journey("working", async |page| {
        page.click("button", "Working").await?;
        page.named("combobox", "Shaft").await?;
        let lines = "return document.querySelectorAll('.working-lines > li').length";
        let some = async || Ok(page.script(lines).await?.as_u64() > Some(1));
        page.wait_for("lines of working", some).await?;
        page.press("U").await?;
        let blank = "return document.querySelectorAll('.hides-answers').length";
        page.wait_for("hidden answers", async || Ok(page.script(blank).await? == 1))
            .await
    });
}

/// The point of every position stands in the map and in the table below it; the map is told to who can't see it.
#[test]
fn a_motors_efficiency_map_is_opened_and_read() {
    journey("efficiency map", async |page| {
        page.click("button", "motor m").await?;
        page.click("button", "Details").await?;
        page.named("heading", "Details").await?;
        page.script("document.querySelector('.motor-map > summary').click()")
            .await?;
        let maps = "return document.querySelectorAll('svg.map .map-line').length";
        let some = async || Ok(page.script(maps).await?.as_u64() > Some(3));
        page.wait_for("lines of equal efficiency", some).await?;
        page.named("region", "Points on the efficiency map").await?;
        let texts = "return [...document.querySelectorAll('svg.map .is-strong, .map-table [aria-current] th')].map(e => e.textContent).join()";
        let first = async || Ok(page.script(texts).await?.as_str() == Some("First,First"));
        page.wait_for("the point of the position shown", first).await?;
        page.click("tab", "Second").await?;
        let second = async || Ok(page.script(texts).await?.as_str() == Some("Second,Second"));
        page.wait_for("the other position's point", second).await?;
        let images = page.all("image").await?;
        ensure!(
            images
                .iter()
                .any(|image| image.name.starts_with("Efficiency of m over speed and torque")),
            "the map is not told"
        );
        Ok(())
    });
}

#[test]
fn the_ledger_lists_every_shaft_and_element() {
    journey("ledger", async |page| {
        page.click("button", "Ledger").await?;
        page.until(async || {
            let tables = page.all("table").await?;
            ensure!(!tables.is_empty(), "there is no table");
            Ok(())
        })
        .await?;
        for name in ["motor", "axle", "g1", "wg", "cart"] {
            page.see(name).await?;
        }
        Ok(())
    });
}

#[test]
fn every_demo_opens_and_undo_brings_the_last_one_back() {
    journey("demos", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Layouts").await?;
        page.click("button", "Granary hoist, summing").await?;
        page.named("button", "winch").await?;
        page.click("button", "Granary hoist, two plain").await?;
        page.gone("button", "differential").await?;
        page.press("Ctrl+Z Ctrl+Z").await?;
        page.named("button", "vehicle cart").await.map(drop)
    });
}

#[test]
fn actions_are_found_by_their_words() {
    journey("actions", async |page| {
        page.named("button", "vehicle cart").await?;
        page.press("?").await?;
        page.named("combobox", "Search the actions")
            .await?
            .focus(page.session())
            .await?;
        page.enter("ledger").await?;
        page.press("Enter").await?;
        page.until(async || {
            let tables = page.all("table").await?;
            ensure!(!tables.is_empty(), "the ledger did not open");
            Ok(())
        })
        .await
    });
}

#[test]
fn a_sheet_on_a_phone_is_drawn_back_for_a_look_at_the_drawing() {
    journey_on(Look::PHONE, "sheet on a phone", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Choose").await?;
        page.gone("button", "vehicle cart").await?;
        page.click("button", "Drawing").await?;
        page.named("button", "vehicle cart").await?;
        page.gone("tab", "Compare").await?;
        page.click("button", "Drawing").await?;
        page.named("tab", "Compare").await.map(drop)
    });
}
