//! Hands on the bench: several things at once, the clipboard, groups, the menu, fingers.

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, journey, journey_on};

use super::steps;

/// Draws a selecting rectangle round the whole bench by the tool.
async fn select_all_by_area(page: &Page) -> anyhow::Result<()> {
    page.press("Esc Shift+B").await?;
    let (left, top) = page.middle("button", "shaft s1").await?;
    let (right, bottom) = page.middle("button", "shaft s4").await?;
    page.drag((left - 60, top - 60), (right + 60, bottom + 130)).await
}

#[test]
fn a_rectangle_selects_and_the_bar_aligns() {
    journey("marquee and align", async |page| {
        steps::two_stages(page).await?;
        let s2 = page.middle("button", "shaft s2").await?;
        page.drag(s2, (s2.0, s2.1 + 80)).await?;
        select_all_by_area(page).await?;
        page.named("toolbar", "5 selected").await?;
        page.click("button", "Align in a row").await?;
        page.until(async || {
            let [one, two, four] = [
                page.middle("button", "shaft s1").await?,
                page.middle("button", "shaft s2").await?,
                page.middle("button", "shaft s4").await?,
            ];
            ensure!(
                (one.1 - two.1).abs() < 2 && (two.1 - four.1).abs() < 2,
                "{one:?} {two:?} {four:?}"
            );
            Ok(())
        })
        .await?;
        page.press("Esc").await?;
        page.gone("toolbar", "5 selected").await
    });
}

#[test]
fn a_copy_is_pasted_as_one_step_and_into_a_text() {
    journey("copy and paste", async |page| {
        steps::two_stages(page).await?;
        page.press("Esc Ctrl+A Ctrl+C Ctrl+V").await?;
        page.named("toolbar", "5 selected").await?;
        page.named("button", "shaft s6").await?;
        page.press("Ctrl+Z").await?;
        page.gone("button", "shaft s6").await?;
        // What was copied is the text of a layout file, which a text field takes.
        page.press("Esc Esc Shift+D").await?;
        page.named("textbox", "Notes")
            .await?
            .focus(page.session())
            .await?;
        page.press("Ctrl+V").await?;
        page.until(async || {
            let notes = page.value_of("textbox", "Notes").await?;
            ensure!(
                notes.contains("\"layshaft\": 1") && notes.contains("Part of"),
                "the field holds {notes}"
            );
            Ok(())
        })
        .await
    });
}

#[test]
fn a_group_folds_into_one_node_with_its_ratio_and_opens_again() {
    journey("group", async |page| {
        steps::folded_gearbox(page).await?;
        page.gone("button", "shaft s2").await?;
        let node = page.middle("button", "group Gearbox, folded").await?;
        page.double_click_at(node).await?;
        page.named("button", "shaft s2").await?;
        page.press("Ctrl+Z Ctrl+Z Ctrl+Z Ctrl+Z").await?;
        page.gone("button", "group").await
    });
}

#[test]
fn the_menu_opens_by_key_is_walked_by_arrows_and_gives_the_focus_back() {
    journey("menu by key", async |page| {
        steps::two_stages(page).await?;
        let s1 = page.middle("button", "shaft s1").await?;
        page.click_at(s1).await?;
        page.press("Shift+F10").await?;
        page.named("menu", "shaft s1").await?;
        page.press("Down Down Up").await?;
        focus_is_on_role(page, "menuitem").await?;
        page.press("Esc").await?;
        page.gone("menu", "shaft s1").await?;
        page.until(async || {
            let label = page
                .script("return document.activeElement.getAttribute('aria-label')")
                .await?;
            ensure!(
                label.as_str().is_some_and(|label| label.starts_with("shaft s1")),
                "the focus is on {label}"
            );
            Ok(())
        })
        .await?;
        page.press("Shift+F10").await?;
        page.click("menuitem", "Duplicate").await?;
        page.named("button", "shaft s6").await.map(drop)
    });
}

#[test]
fn the_other_button_opens_the_menu_of_the_bare_bench() {
    journey("menu of the bench", async |page| {
        steps::empty_bench(page).await?;
        let (x, y) = page.middle("region", "Bench").await?;
        page.script(&format!(
            "const bench = document.getElementById('bench');
             bench.dispatchEvent(new MouseEvent('contextmenu', {{ bubbles: true, cancelable: true, clientX: {x}, clientY: {y} }}))"
        ))
        .await?;
        page.named("menu", "Bench").await?;
        page.click("menuitem", "Place gear mesh here").await?;
        page.named("button", "shaft s2").await.map(drop)
    });
}

#[test]
fn an_action_that_does_not_apply_says_why() {
    journey("actions that do not apply", async |page| {
        steps::empty_bench(page).await?;
        page.press("?").await?;
        page.enter("align left").await?;
        page.see("Select two or more things first").await
    });
}

#[test]
fn a_finger_that_rests_draws_a_rectangle_or_opens_the_menu() {
    let look = Look::PHONE;
    journey_on(look, "rest a finger", async |page| {
        page.goto("?bench=empty").await?;
        page.named("heading", "An empty bench").await?;
        let (x, y) = page.middle("region", "Bench").await?;
        touch(page, "touchStart", (x, y)).await?;
        tokio::time::sleep(std::time::Duration::from_millis(700)).await;
        touch(page, "touchEnd", (x, y)).await?;
        page.named("menu", "Bench").await?;
        page.click("menuitem", "Place gear mesh here").await?;
        let (left, top) = page.middle("button", "shaft s1").await?;
        let (right, bottom) = page.middle("button", "shaft s2").await?;
        touch(page, "touchStart", (left - 30, top - 50)).await?;
        tokio::time::sleep(std::time::Duration::from_millis(700)).await;
        for step in 1..=4 {
            let at = (
                left - 30 + (right - left + 60) * step / 4,
                top - 50 + (bottom - top + 100) * step / 4,
            );
            touch(page, "touchMove", at).await?;
        }
        touch(page, "touchEnd", (right + 30, bottom + 50)).await?;
        page.named("toolbar", "3 selected").await.map(drop)
    });
}

async fn touch(page: &Page, kind: &str, (x, y): (i64, i64)) -> anyhow::Result<()> {
    let points = if kind == "touchEnd" {
        serde_json::json!([])
    } else {
        serde_json::json!([{ "x": x, "y": y }])
    };
    let parameters = serde_json::json!({ "type": kind, "touchPoints": points });
    page.session()
        .cdp()
        .send_raw("Input.dispatchTouchEvent", parameters)
        .await?;
    Ok(())
}

async fn focus_is_on_role(page: &Page, role: &str) -> anyhow::Result<()> {
    page.until(async || {
        let focused = page
            .script("return document.activeElement.getAttribute('role')")
            .await?;
        ensure!(focused == role, "the focus is on a {focused}");
        Ok(())
    })
    .await
}
