//! Parts that hold and let go, from the tray and by keys, and what is typed into their fields.

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, journey, journey_on};

use super::steps;

#[test]
fn each_new_part_is_laid_down_by_the_pointer() {
    journey("place what holds and lets go", async |page| {
        for (part, spoken) in [
            ("Friction wheels", "friction wheels wheels"),
            ("One-way clutch", "one-way clutch oneway"),
            ("Slip clutch", "slip clutch slip"),
            ("Torque switch", "torque switch switch"),
        ] {
            steps::empty_bench(page).await?;
            let bench = page.middle("region", "Bench").await?;
            let tray = page.middle("button", part).await?;
            page.drag(tray, bench).await?;
            page.named("button", spoken).await?;
            page.named("button", "shaft s2").await?;
        }
        Ok(())
    });
}

#[test]
fn a_belt_and_a_brake_take_a_limit_and_say_so() {
    journey("limits", async |page| {
        steps::empty_bench(page).await?;
        page.press("T").await?;
        page.named("button", "shaft s2").await?;
        page.press("Left Enter").await?;
        open_details(page, "belt belt3").await?;
        fill(page, "Slips at", "0,2").await?;
        page.named("button", "torque at which it slips: 0.2").await?;
        page.named(
            "button",
            "belt belt3, 12 to 36 millimetres, slips at 0.2 newton metres",
        )
        .await
        .map(drop)
    });
}

#[test]
fn a_one_way_clutch_is_placed_by_keys_and_overruns_when_turned_round() {
    journey("one-way clutch by keys", async |page| {
        steps::empty_bench(page).await?;
        page.press("Y").await?;
        page.named("button", "shaft s2").await?;
        page.press("L").await?;
        page.named("button", "load load").await?;
        page.click("button", "shaft s1").await?;
        page.press("A").await?;
        page.named("button", "hand crank").await?;
        page.named(
            "button",
            "one-way clutch oneway3, drives clockwise, from s1 to s2, engaged",
        )
        .await?;
        open_details(page, "one-way clutch oneway3").await?;
        choose(page, "Drives", "negative").await?;
        page.named(
            "button",
            "one-way clutch oneway3, drives anticlockwise, from s1 to s2, overruns",
        )
        .await
        .map(drop)
    });
}

#[test]
fn materials_say_what_stands_behind_them() {
    journey("materials", async |page| {
        steps::two_stages(page).await?;
        open_details(page, "gear mesh g3").await?;
        choose(page, "Materials", "acetal-acetal-dry").await?;
        page.see("Friction 0.21 to 0.35").await?;
        page.see("handbook range, from memory").await?;
        page.press("Esc Ctrl+Z").await?;
        page.gone("button", "no such thing").await
    });
}

#[test]
fn a_motor_measured_at_two_points_is_filled_in_and_undone_at_once() {
    journey("two measured points", async |page| {
        steps::empty_bench(page).await?;
        page.press("O").await?;
        page.named("button", "shaft s1").await?;
        open_details(page, "motor motor2").await?;
        page.script("document.querySelector('.fold:has(.measured)').open = true")
            .await?;
        for (name, text) in [
            ("Voltage in both", "6"),
            ("Speed, light load", "90"),
            ("Torque, light load", "0.1"),
            ("Current, light load", "0.6"),
            ("Speed, heavy load", "30"),
            ("Torque, heavy load", "much"),
            ("Current, heavy load", "1.6"),
        ] {
            fill(page, name, text).await?;
        }
        page.click("button", "Fill in the numbers").await?;
        page.see("“much” is no number").await?;
        fill(page, "Torque, heavy load", "0.3").await?;
        page.click("button", "Fill in the numbers").await?;
        holds(page, "No-load speed", "120").await?;
        holds(page, "Stall torque", "0.4").await?;
        page.click("button", "Undo").await?;
        holds(page, "No-load speed", "310").await
    });
}

#[test]
fn a_phone_lays_down_a_slip_clutch_by_taps() {
    journey_on(Look::PHONE, "slip clutch on a phone", async |page| {
        steps::empty_bench(page).await?;
        page.click("button", "Parts").await?;
        page.click("button", "Slip clutch").await?;
        let bench = page.middle("region", "Bench").await?;
        page.click_at(bench).await?;
        page.named("button", "slip clutch slip").await.map(drop)
    });
}

/// Selects a part on the drawing and opens the sheet with its fields.
async fn open_details(page: &Page, spoken: &str) -> anyhow::Result<()> {
    page.click("button", spoken).await?;
    page.click("button", "Details").await?;
    page.named("heading", "Details").await.map(drop)
}

async fn fill(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.named("textbox", field).await?.focus(page.session()).await?;
    page.press("Ctrl+A").await?;
    page.enter(text).await?;
    page.press("Tab").await
}

/// Chooses an option by its value, as the keyboard would, since the list itself is drawn by the system.
async fn choose(page: &Page, field: &str, value: &str) -> anyhow::Result<()> {
    page.named("combobox", field).await?.focus(page.session()).await?;
    page.script(&format!(
        "const list = document.activeElement; list.value = '{value}';
         list.dispatchEvent(new Event('change', {{ bubbles: true }}));"
    ))
    .await
    .map(drop)
}

async fn holds(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.until(async || {
        let found = page.value_of("textbox", field).await?;
        ensure!(found == text, "{field} holds {found}, not {text}");
        Ok(())
    })
    .await
}
