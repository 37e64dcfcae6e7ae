//! Runs in time: a course is laid out, the trail cart drives it, and the run is looked at by pointer and by keys.

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, journey, journey_on};

/// Lays out two stretches, the second up a slope, by typing.
pub async fn lay_out_a_course(page: &Page) -> anyhow::Result<()> {
    page.named("button", "vehicle cart").await?;
    page.click("button", "Run").await?;
    page.see("has no course yet").await?;
    page.click("button", "Add a stretch").await?;
    type_into(page, "Length of stretch 1", "150 cm").await?;
    page.click("button", "Add a stretch").await?;
    type_into(page, "Slope of stretch 2", "6").await?;
    let drawn =
        "return document.querySelector('.profile')?.getAttribute('aria-label')?.includes('3.00 metres long')";
    page.wait_for("the course from the side", async || {
        Ok(page.script(drawn).await? == true)
    })
    .await
}

async fn type_into(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.named("textbox", field).await?.focus(page.session()).await?;
    page.press("Ctrl+A").await?;
    page.enter(text).await?;
    page.press("Enter").await
}

/// Runs it from the keyboard, which also plays it, and stops it.
pub async fn run(page: &Page) -> anyhow::Result<()> {
    page.press("Ctrl+Enter").await?;
    page.see("after").await?;
    page.named("button", "Pause the run").await?;
    page.click("button", "Pause the run").await?;
    page.named("button", "Play the run").await.map(drop)
}

async fn count(page: &Page, selector: &str) -> anyhow::Result<u64> {
    let script = format!("return document.querySelectorAll({selector:?}).length");
    Ok(page.script(&script).await?.as_u64().unwrap_or(0))
}

async fn time(page: &Page) -> anyhow::Result<f64> {
    let value = page.value_of("slider", "Time in the run").await?;
    Ok(value.parse()?)
}

#[test]
fn a_course_is_driven_and_looked_at_by_keys() {
    journey("run a course", async |page| {
        lay_out_a_course(page).await?;
        run(page).await?;
        page.see("What happens").await?;
        ensure!(count(page, ".run-event").await? >= 1, "no event is listed");
        ensure!(count(page, ".plot-line").await? >= 5, "too few lines are plotted");
        page.named("slider", "Time in the run")
            .await?
            .focus(page.session())
            .await?;
        page.press("Home").await?;
        page.until(async || {
            ensure!(time(page).await? == 0.0, "Home does not go to the start");
            Ok(())
        })
        .await?;
        page.press("Right Right Right").await?;
        page.until(async || {
            ensure!(time(page).await? > 0.0, "arrow keys do not move the playhead");
            Ok(())
        })
        .await
    });
}

#[test]
fn an_event_goes_to_its_moment() {
    journey("go to an event", async |page| {
        lay_out_a_course(page).await?;
        run(page).await?;
        let last = "const all = document.querySelectorAll('.run-event'); const last = all[all.length - 1]; last.scrollIntoView(); last.click(); return null";
        page.script(last).await?;
        let at_end = "const time = document.querySelector('.run-time'); return time.value === time.max || time.max - time.value < 0.02";
        page.wait_for("the playhead at the end", async || {
            Ok(page.script(at_end).await? == true)
        })
        .await
    });
}

#[test]
fn a_stretch_is_removed_and_comes_back() {
    journey("undo a stretch", async |page| {
        lay_out_a_course(page).await?;
        page.click("button", "Remove stretch 2").await?;
        page.gone("textbox", "Slope of stretch 2").await?;
        page.click("button", "Undo").await?;
        page.named("textbox", "Slope of stretch 2").await.map(drop)
    });
}

#[test]
fn nothing_plays_by_itself_for_who_wants_stillness() {
    journey_on(Look::PHONE.without_motion(), "run without motion", async |page| {
        lay_out_a_course(page).await?;
        page.press("Ctrl+Enter").await?;
        page.see("Movement is reduced on this device").await?;
        let before = time(page).await?;
        page.named("slider", "Time in the run")
            .await?
            .focus(page.session())
            .await?;
        page.press("Right Right").await?;
        page.until(async || {
            ensure!(time(page).await? > before, "the time can't be moved by hand");
            Ok(())
        })
        .await
    });
}
