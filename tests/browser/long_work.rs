//! Long work beside the page: how far it is, stopping it, asking for something else meanwhile; and what happens where the
//! browser starts no worker, or the worker breaks.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

/// Zooms a few times and gives the middle of the times, in ms, from each turn of the wheel until it was drawn. Turns come
/// from a timer, so that one that had to wait for the page counts with its waiting.
const ZOOM: &str = r"
    const picture = document.querySelector('main svg'), box = picture.getBoundingClientRect(), took = [];
    let due = performance.now() + 60;
    const turn = () => {
        const began = due;
        picture.dispatchEvent(new WheelEvent('wheel', { bubbles: true, cancelable: true, ctrlKey: true,
            deltaY: took.length % 2 ? 40 : -40, clientX: box.x + box.width / 2, clientY: box.y + box.height / 2 }));
        requestAnimationFrame(() => setTimeout(() => {
            took.push(performance.now() - began);
            due = performance.now() + 60;
            if (took.length < 15) setTimeout(turn, 60);
            else window.zoomed = took.sort((one, other) => one - other)[7];
        }));
    };
    setTimeout(turn, 60);
";

/// Keeps the worker that the page starts where a journey can reach it.
const KEEP_WORKER: &str = "const Own = Worker; window.Worker = function (script, options) { return window.kept = new Own(script, options) }";

/// Asks for what takes a while: results drawn many times from ranges of all losses.
async fn begin(page: &Page) -> anyhow::Result<()> {
    page.named("button", "vehicle cart").await?;
    page.script(KEEP_WORKER).await?;
    page.click("button", "Choose").await?;
    page.click("tab", "What matters").await?;
    page.click("button", "All losses ±").await?;
    page.named("textbox", "Efficiency of g1").await?;
    page.script("document.querySelectorAll('#choose-part details').forEach(fold => fold.open = true)")
        .await?;
    type_into(page, "Draws", "20000").await?;
    page.named("progressbar", "How far it is").await.map(drop)
}

/// Draws others.
async fn draw_anew(page: &Page, seed: &str) -> anyhow::Result<()> {
    type_into(page, "Seed", seed).await
}

async fn type_into(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.named("textbox", field).await?.focus(page.session()).await?;
    page.press("Ctrl+A").await?;
    page.enter(text).await
}

#[test]
fn the_page_goes_on_beside_long_work_which_can_be_stopped() {
    journey("long work", async |page| {
        begin(page).await?;
        page.script(ZOOM).await?;
        let zoomed = "return window.zoomed ?? null";
        page.wait_for("the page to be zoomed", async || {
            Ok(!page.script(zoomed).await?.is_null())
        })
        .await?;
        let took = page.script(zoomed).await?.as_f64().unwrap_or(f64::INFINITY);
        ensure!(took < 100.0, "the page took {took} ms for an input");

        page.click("button", "Stop").await?;
        page.see("Stopped.").await?;
        page.gone("progressbar", "How far it is").await?;

        // Asking for something else begins anew; asking again meanwhile leaves only the last.
        draw_anew(page, "2").await?;
        page.named("progressbar", "How far it is").await?;
        draw_anew(page, "31").await?;
        page.named("progressbar", "How far it is").await?;
        page.click("button", "Stop").await?;
        page.gone("progressbar", "How far it is").await
    });
}

#[test]
fn a_worker_that_breaks_is_told_of_and_replaced() {
    journey("a broken worker", async |page| {
        begin(page).await?;
        let breaks = "window.first = kept; kept.dispatchEvent(new ErrorEvent('error', { cancelable: true }))";
        page.script(breaks).await?;
        page.see("could not be computed because of a fault").await?;
        draw_anew(page, "2").await?;
        page.named("progressbar", "How far it is").await?;
        ensure!(
            page.script("return kept !== first").await? == true,
            "no other worker was started"
        );
        page.click("button", "Stop").await
    });
}

#[test]
fn without_workers_the_page_does_the_work_itself() {
    journey("no worker", async |page| {
        page.named("button", "vehicle cart").await?;
        page.script("window.Worker = function () { throw new Error('refused') }")
            .await?;
        page.click("button", "Choose").await?;
        let drawn = "return document.querySelectorAll('#choose-part svg.plot').length";
        page.wait_for(
            "a plot",
            async || Ok(page.script(drawn).await?.as_u64() > Some(0)),
        )
        .await
    });
}
