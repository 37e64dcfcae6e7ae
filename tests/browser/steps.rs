//! Steps that several journeys take.

use layshaft_tests::browser::Page;

/// Goes to an empty bench.
pub async fn empty_bench(page: &Page) -> anyhow::Result<()> {
    page.goto("?bench=empty").await?;
    page.named("heading", "An empty bench").await.map(drop)
}

/// Builds two gear meshes in a row and folds all of it into one group, Gearbox.
pub async fn folded_gearbox(page: &Page) -> anyhow::Result<()> {
    two_stages(page).await?;
    page.press("Esc Ctrl+A Ctrl+G").await?;
    page.named("textbox", "Name of the group").await?;
    page.press("Ctrl+A").await?;
    page.enter("Gearbox").await?;
    page.press("Enter").await?;
    page.named("button", "group Gearbox, open, 5 parts").await?;
    page.click("button", "Fold or open").await?;
    page.named("button", "group Gearbox, folded, 5 parts")
        .await
        .map(drop)
}

/// Builds two gear meshes in a row by keys, 12 to 36 teeth each, from the shaft `s1` over `s2` to `s4`.
pub async fn two_stages(page: &Page) -> anyhow::Result<()> {
    empty_bench(page).await?;
    page.press("M").await?;
    page.named("button", "shaft s2").await?;
    page.press("M").await?;
    page.named("button", "shaft s4, ratio one ninth").await.map(drop)
}
