//! How smoothly the page goes on layouts of 30 and 300 elements: `cargo xtask bench page`. Each line stands beside the same
//! inputs on a still picture of the same size, which only moves its view or one of its parts. The flow drawing is panned,
//! dragged on and typed into; skeleton and plan are panned.

use layshaft_layout::link;
use layshaft_tests::browser::pace::{Work, measure, yardstick};
use layshaft_tests::browser::{Look, Page, block_on, served_address};
use layshaft_tests::large;

fn main() -> anyhow::Result<()> {
    println!(
        "{:<10} {:<9} {:<6} {:>10} {:>8} {:>9}   {:>10} {:>8} {:>7}",
        "elements", "drawing", "work", "median ms", "95 % ms", "changed", "still, med", "95 % ms", "ratio"
    );
    block_on(async {
        for elements in [30, 300] {
            for work in Work::ALL {
                line(elements, "Flow", work).await?;
            }
            for drawing in ["Skeleton", "Plan"] {
                line(elements, drawing, Work::Pan).await?;
            }
        }
        Ok(())
    })
}

/// One browser for each, so that none inherits what another left.
async fn line(elements: usize, drawing: &str, work: Work) -> anyhow::Result<()> {
    let page = Page::open_in_fresh_browser(&served_address(), Look::DESKTOP.without_motion()).await?;
    page.goto("?bench=empty").await?;
    page.goto(&format!("?large{}", link::encode(&large::layout(elements))))
        .await?;
    page.click("button", drawing).await?;
    page.wait_for("the drawing", async || {
        let parts = "return document.querySelector('svg.bench :is(.shaft, .drawn)') !== null";
        Ok(page.script(parts).await? == true)
    })
    .await?;
    let ours = measure(&page, work).await?;
    let still = yardstick(&page, work).await?;
    println!(
        "{elements:<10} {drawing:<9} {:<6} {:>10.1} {:>8.1} {:>9}   {:>10.1} {:>8.1} {:>7.2}",
        work.name(),
        ours.median_ms,
        ours.most_ms,
        ours.changed,
        still.median_ms,
        still.most_ms,
        ours.median_ms / still.median_ms
    );
    page.close().await;
    Ok(())
}
