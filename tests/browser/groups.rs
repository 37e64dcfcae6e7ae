//! Groups in a browser: what a folded box says, and its frame on the skeleton and the plan.

use anyhow::ensure;
use layshaft_tests::browser::journey;

use super::steps;

#[test]
fn a_folded_group_has_a_frame_on_skeleton_and_plan_and_stays_selected() {
    journey("frames", async |page| {
        steps::folded_gearbox(page).await?;
        for (key, drawing) in [("Alt+2", "Skeleton drawing"), ("Alt+3", "Plan drawing")] {
            page.press(key).await?;
            page.named("group", drawing).await?;
            page.named("button", "group Gearbox, folded, 5 parts").await?;
            page.wait_for("the frame selected", async || {
                let selected =
                    "return document.querySelector('[id^=group-]').classList.contains('is-selected')";
                Ok(page.script(selected).await? == true)
            })
            .await?;
            let legend = page
                .script("return document.querySelector('.legend-entries').textContent")
                .await?;
            let said = legend.as_str().unwrap_or_default();
            ensure!(said.contains("What belongs to one group"), "{said}");
        }
        page.press("Alt+1").await?;
        page.named("group", "Flow drawing").await?;
        page.named("button", "group Gearbox, folded, 5 parts").await?;
        let legend = page
            .script("return document.querySelector('.legend-entries').textContent")
            .await?;
        let said = legend.as_str().unwrap_or_default();
        ensure!(said.contains("A folded group"), "{said}");
        Ok(())
    });
}

#[test]
fn a_frame_is_pressed_on_its_name() {
    journey("press a frame", async |page| {
        steps::folded_gearbox(page).await?;
        page.press("Esc Alt+2").await?;
        page.named("group", "Skeleton drawing").await?;
        page.named("button", "group Gearbox, folded, 5 parts").await?;
        let place = page
            .script(
                "const name = [...document.querySelectorAll('.labels text')].find(e => e.textContent === 'Gearbox');
                 const { x, y, width, height } = name.getBoundingClientRect();
                 return [Math.round(x + width / 2), Math.round(y + height / 2)]",
            )
            .await?;
        let (x, y): (i64, i64) = serde_json::from_value(place)?;
        page.click_at((x, y)).await?;
        page.named("toolbar", "Gearbox").await?;
        page.click("button", "Fold or open").await?;
        page.named("button", "group Gearbox, open, 5 parts")
            .await
            .map(drop)
    });
}
