//! Shift positions and the further sheets: ledger, working, positions side by side, actions, demos.

use anyhow::ensure;
use layshaft_tests::browser::journey;

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
        page.named("searchbox", "Search the actions")
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
