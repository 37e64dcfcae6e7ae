//! A two-stage train from an empty bench: by pointer, and by keys alone.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

use super::steps;

#[test]
fn by_pointer() {
    journey("sketch by pointer", async |page| {
        steps::empty_bench(page).await?;
        let (x, y) = page.middle("region", "Bench").await?;
        drop_part(page, "Gear mesh", (x - 250, y)).await?;
        drop_on(page, "Gear mesh", "shaft s2").await?;
        drop_on(page, "Motor", "shaft s1").await?;
        drop_on(page, "Load", "shaft s4").await?;
        it_runs_nine_times_slower(page).await
    });
}

#[test]
fn by_keys_alone() {
    journey("sketch by keys", async |page| {
        steps::two_stages(page).await?;
        page.press("L").await?;
        page.named("button", "load load").await?;
        page.press("Left Left Left Left").await?;
        focus_is_on(page, "shaft s1").await?;
        page.press("O").await?;
        it_runs_nine_times_slower(page).await
    });
}

#[test]
fn a_part_in_hand_is_laid_down_by_a_click_and_put_back_by_esc() {
    journey("part in hand", async |page| {
        steps::empty_bench(page).await?;
        page.click("button", "Gear mesh").await?;
        page.press("Esc").await?;
        let bench = page.middle("region", "Bench").await?;
        page.click_at(bench).await?;
        page.named("heading", "An empty bench").await?;
        page.click("button", "Gear mesh").await?;
        page.click_at(bench).await?;
        page.named("button", "shaft s2, ratio minus one third")
            .await
            .map(drop)
    });
}

#[test]
fn a_dragged_shaft_goes_where_it_is_led_and_undo_leads_it_back() {
    journey("drag a shaft", async |page| {
        steps::two_stages(page).await?;
        let before = page.middle("button", "shaft s2").await?;
        page.drag(before, (before.0, before.1 + 120)).await?;
        let lower = async || Ok(page.middle("button", "shaft s2").await?.1 > before.1 + 60);
        page.wait_for("the shaft lower down", lower).await?;
        page.named("button", "shaft s4, ratio one ninth").await?;
        page.press("Ctrl+Z").await?;
        let back = async || Ok((page.middle("button", "shaft s2").await?.1 - before.1).abs() < 4);
        page.wait_for("the shaft where it was", back).await
    });
}

async fn drop_part(page: &Page, part: &str, at: (i64, i64)) -> anyhow::Result<()> {
    page.drag(page.middle("button", part).await?, at).await
}

async fn drop_on(page: &Page, part: &str, shaft: &str) -> anyhow::Result<()> {
    let at = page.middle("button", shaft).await?;
    drop_part(page, part, at).await
}

async fn focus_is_on(page: &Page, name: &str) -> anyhow::Result<()> {
    let focused = page
        .script("return document.activeElement.getAttribute('aria-label')")
        .await?;
    ensure!(
        focused.as_str().is_some_and(|label| label.starts_with(name)),
        "the focus is on {focused}, not on {name}"
    );
    Ok(())
}

async fn it_runs_nine_times_slower(page: &Page) -> anyhow::Result<()> {
    page.named("button", "shaft s1, the drive, ratio 1").await?;
    page.named("button", "shaft s4, ratio one ninth").await?;
    page.until(async || {
        let block = page.text_of("region", "Title block").await?;
        ensure!(
            block.contains("one ninth") && block.contains("rpm"),
            "the title block says: {block}"
        );
        Ok(())
    })
    .await
}
