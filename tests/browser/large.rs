//! A layout of three hundred elements goes as a small one does: an input changes what it is about and nothing else.

use anyhow::ensure;
use layshaft_layout::link;
use layshaft_tests::browser::pace::{Work, measure};
use layshaft_tests::browser::{Look, journey_on};
use layshaft_tests::large;

#[test]
fn a_drag_on_a_large_layout_changes_only_what_moves() {
    journey_on(
        Look::DESKTOP.without_motion(),
        "three hundred elements",
        async |page| {
            page.goto(&format!("?large{}", link::encode(&large::layout(300))))
                .await?;
            page.named("button", "motor m").await?;
            let parts = page
                .script("return document.querySelectorAll('svg.bench *').length")
                .await?;
            let parts = parts.as_u64().unwrap_or_default();
            ensure!(parts > 3000, "only {parts} parts are drawn");
            for (work, share) in [(Work::Pan, 100), (Work::Drag, 5)] {
                let pace = measure(page, work).await?;
                ensure!(
                    pace.changed <= parts / share,
                    "{work:?} changes {} of {parts} parts",
                    pace.changed
                );
            }
            Ok(())
        },
    );
}
