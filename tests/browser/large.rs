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

/// Whether the shaft is away from the drawing and shows in the picture of what is moved.
const IN_THE_HAND: &str = "
    const shaft = document.getElementById('shaft-s50');
    return shaft.classList.contains('is-away') && getComputedStyle(shaft).opacity === '0'
        && document.querySelectorAll('svg.is-afloat .shaft').length >= 1
        && document.querySelectorAll('svg.is-afloat :is([id], [tabindex])').length === 0;";
/// Whether the drawing is whole again.
const LET_GO: &str = "return document.querySelector('.is-away, .is-afloat') === null";

#[test]
fn what_is_dragged_on_a_large_layout_has_a_picture_of_its_own() {
    journey_on(
        Look::DESKTOP.without_motion(),
        "a large layout in the hand",
        async |page| {
            page.goto(&format!("?large{}", link::encode(&large::layout(90))))
                .await?;
            let from = page.middle("button", "shaft s50").await?;
            page.drag_halfway(from, (from.0 + 60, from.1 + 40)).await?;
            page.wait_for("the shaft in the hand", async || {
                Ok(page.script(IN_THE_HAND).await? == true)
            })
            .await?;
            page.session().action_chain().release().perform().await?;
            page.wait_for("the drawing whole again", async || {
                Ok(page.script(LET_GO).await? == true)
            })
            .await?;
            let to = page.middle("button", "shaft s50").await?;
            let moved = (to.0 - from.0, to.1 - from.1);
            ensure!(moved.0 > 30 && moved.1 > 15, "the shaft moved by {moved:?} alone");
            let focused = page.script("return document.activeElement.id").await?;
            ensure!(focused == "shaft-s50", "{focused} has the focus");
            Ok(())
        },
    );
}
