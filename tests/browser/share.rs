//! The layout in a link and in the browser's own store.

use anyhow::ensure;
use layshaft_tests::browser::{Look, journey, visit};

use super::steps;

#[test]
fn a_link_shows_the_same_layout_in_a_browser_that_has_never_been_here() {
    journey("share", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        ensure!(link.matches('#').count() == 1, "a link has one #: {link}");
        let ratio = page.text_of("region", "Title block").await?;

        visit("shared link", &link, Look::PHONE, async |other| {
            other.named("button", "shaft s4, ratio one ninth").await?;
            let same = other.text_of("region", "Title block").await?;
            ensure!(same == ratio, "here:\n{ratio}\nthere:\n{same}");
            Ok(())
        })
        .await
    });
}

#[test]
fn a_damaged_link_says_so_and_leaves_the_bench_alone() {
    journey("damaged link", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        let damaged = link.split_at(link.len() - 20).0;
        page.script(&format!("location.hash = new URL('{damaged}').hash"))
            .await?;
        page.until(async || {
            let text = page.text().await?.to_lowercase();
            ensure!(
                text.contains("link") && text.contains("damaged"),
                "nothing is said of the damage:\n{text}"
            );
            Ok(())
        })
        .await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn a_reload_brings_the_layout_back() {
    journey("reload", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Up Up Up Up Enter").await?;
        page.named("button", "teeth on s4: 40").await?;
        // The store is written a moment after the last change, as one write for many keystrokes.
        tokio::time::sleep(std::time::Duration::from_secs(2)).await;
        page.reload().await?;
        page.named("button", "teeth on s4: 40").await.map(drop)
    });
}
