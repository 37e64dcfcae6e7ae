//! The plan in a browser: shown, turned in mesh, dragged, its layers and its outlines.

use anyhow::ensure;
use layshaft_tests::browser::journey;

use super::steps;

#[test]
fn the_plan_shows_gears_and_takes_a_drag_back() {
    journey("drag on the plan", async |page| {
        steps::two_stages(page).await?;
        page.press("Alt+3").await?;
        page.named("group", "Plan drawing").await?;
        let before = page.middle("button", "shaft s4").await?;
        page.drag(before, (before.0, before.1 + 60)).await?;
        let lower = async || Ok(page.middle("button", "shaft s4").await?.1 > before.1 + 20);
        page.wait_for("the shaft lower down", lower).await?;
        page.press("Ctrl+Z").await?;
        let back = async || Ok((page.middle("button", "shaft s4").await?.1 - before.1).abs() < 6);
        page.wait_for("the shaft where it was", back).await
    });
}

#[test]
fn all_gears_turn_from_one_beginning() {
    journey("turn in step", async |page| {
        steps::two_stages(page).await?;
        page.press("Alt+3").await?;
        page.named("toolbar", "Plan").await?;
        let out_of_step = "return document.getAnimations().filter(a => a.animationName === 'turn' && a.startTime !== 0).length";
        let in_step = async || Ok(page.script(out_of_step).await?.as_u64() == Some(0));
        page.wait_for("all in step", in_step).await?;
        page.click("button", "Lift apart").await?;
        page.click("button", "Stop").await?;
        let turning = page
            .script("return document.querySelectorAll('.turned.is-turning').length")
            .await?;
        ensure!(turning.as_u64() == Some(0), "still turning: {turning}");
        Ok(())
    });
}
