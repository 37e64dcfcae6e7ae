//! What a visitor finds who has never been here.

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, journey, journey_on};

#[test]
fn the_cart_is_on_the_bench_with_its_finding() {
    journey("first visit", async |page| {
        page.named("heading", "Second pulls").await?;
        page.named("button", "shaft axle, ratio one twelfth").await?;
        page.named("button", "vehicle cart").await?;
        let turning = "return document.querySelectorAll('.is-turning').length > 2";
        page.wait_for("turning marks", async || Ok(page.script(turning).await? == true))
            .await
    });
}

#[test]
fn a_finding_selects_what_it_speaks_of() {
    journey("finding", async |page| {
        page.click("button", "Second pulls").await?;
        let selected = "return [...document.querySelectorAll('svg [aria-pressed=true]')].map(e => e.id)";
        let found = async || {
            Ok(page
                .script(selected)
                .await?
                .as_array()
                .is_some_and(|ids| !ids.is_empty()))
        };
        page.wait_for("something selected on the drawing", found).await
    });
}

#[test]
fn nothing_sticks_out_of_any_screen() {
    for (name, look) in [
        ("desktop", Look::DESKTOP),
        ("tablet", Look::TABLET),
        ("phone", Look::PHONE),
    ] {
        for look in [look, look.in_the_dark()] {
            journey_on(look, name, async |page| {
                page.named("heading", "Second pulls").await?;
                fits(page).await
            });
        }
    }
}

#[test]
fn nothing_moves_for_who_asks_for_no_motion() {
    journey_on(Look::DESKTOP.without_motion(), "reduced motion", async |page| {
        page.named("heading", "Second pulls").await?;
        let running = "return document.getAnimations().filter(a => a.playState === 'running').length";
        let count = page.script(running).await?;
        ensure!(count == 0, "{count} animations are running");
        Ok(())
    });
}

/// No scroll bar at the foot of the page, and nothing that can be pressed lies beside it.
async fn fits(page: &Page) -> anyhow::Result<()> {
    let wider = page
        .script("return document.documentElement.scrollWidth - innerWidth")
        .await?;
    ensure!(
        wider.as_f64().is_some_and(|pixels| pixels <= 0.0),
        "the page is {wider} px wider than the screen"
    );
    let beside = page
        .script(
            "return [...document.querySelectorAll('header button, nav button, .sheet > * button')]
                .filter(e => e.checkVisibility())
                .filter(e => { const b = e.getBoundingClientRect(); return b.left < -1 || b.right > innerWidth + 1; })
                .map(e => e.ariaLabel || e.textContent)",
        )
        .await?;
    ensure!(beside == serde_json::json!([]), "beside the screen: {beside}");
    Ok(())
}

#[test]
fn a_phone_shows_the_parts_when_asked_and_lays_one_down_by_a_tap() {
    journey_on(Look::PHONE, "parts on a phone", async |page| {
        page.goto("?bench=empty").await?;
        page.click("button", "Parts").await?;
        page.click("button", "Gear mesh").await?;
        let bench = page.middle("region", "Bench").await?;
        page.click_at(bench).await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        fits(page).await
    });
}

#[test]
fn a_phone_gives_its_height_to_the_drawing_and_says_the_rest_on_request() {
    journey_on(Look::PHONE, "drawing on a phone", async |page| {
        page.named("heading", "Second pulls").await?;
        let share = "return document.getElementById('drawing').clientHeight / innerHeight";
        page.until(async || {
            let share = page.script(share).await?;
            ensure!(
                share.as_f64().is_some_and(|share| share > 0.4),
                "the drawing has {share} of the height"
            );
            Ok(())
        })
        .await?;
        page.click("button", "All results").await?;
        page.see("Motor off").await?;
        page.click("DisclosureTriangle", "Why, and").await?;
        page.see("lock the differential up").await
    });
}
