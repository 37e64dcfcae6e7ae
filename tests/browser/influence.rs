//! Which numbers decide a result: the bars, from one of them to varying it, and ranges that make results uncertain.

use anyhow::{Context, ensure};
use layshaft_tests::browser::journey;

const BARS: &str = "return document.querySelectorAll('.influence-bar').length";
const FIRST_VARY: &str =
    "return document.querySelector('.influence-bar .influence-acts button').getAttribute('aria-label')";
const ROWS: &str = "return document.querySelectorAll('.known-results td.number').length";

#[test]
fn the_number_that_matters_most_is_varied_from_its_bar() {
    journey("influence", async |page| {
        page.click("button", "Choose").await?;
        page.click("tab", "What matters").await?;
        let some = async || Ok(page.script(BARS).await?.as_u64() > Some(3));
        page.wait_for("bars", some).await?;
        page.see("Per 1 % more of each").await?;

        // Ranges on all losses: every result gets its quantiles.
        page.click("button", "All losses ± 20 %").await?;
        let drawn = async || Ok(page.script(ROWS).await?.as_u64() >= Some(18));
        page.wait_for("quantiles of pull, slope and speed in both positions", drawn)
            .await?;
        page.named("region", "How far results are known").await?;
        page.named("button", "Take the range of Efficiency of g1 away")
            .await?;

        let name = page.script(FIRST_VARY).await?;
        let name = name.as_str().context("the first bar has a button")?.to_owned();
        ensure!(name.starts_with("Vary "), "{name}");
        page.click("button", &name).await?;
        let shown =
            "return document.getElementById('choose-tab-sweep').getAttribute('aria-selected') === 'true'";
        page.wait_for("the part that varies", async || {
            Ok(page.script(shown).await? == true)
        })
        .await
    });
}
