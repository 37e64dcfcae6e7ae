//! `cargo xtask test`: the quick gates, then the journeys in a real browser over the page they built.

use anyhow::ensure;

use crate::chromium;
use crate::ci;
use crate::serve;
use crate::stage::{self, Log, Stage};
use crate::workspace::{self, cargo_native};

/// Runs all stages, or those asked for.
pub fn test(asked_for: &[String]) -> anyhow::Result<()> {
    let browser: Stage = ("browser", browser);
    let stages: Vec<Stage> = ci::STAGES.into_iter().chain([browser]).collect();
    stage::run("test", &stages, asked_for)
}

/// Serves what the stage `page` built and lets visitors walk through it.
fn browser(log: &mut Log) -> anyhow::Result<()> {
    let programs = chromium::find_or_install()?;
    ensure!(
        workspace::dist().join("index.html").is_file(),
        "there is no page yet; run `cargo xtask test page browser`"
    );
    let address = serve::in_background()?;
    let mut test = cargo_native("test");
    test.args(["--features", "layshaft-tests/browser", "--test", "browser"]);
    test.env("LAYSHAFT_BROWSER_URL", address);
    test.env("CHROMIUM", programs.browser)
        .env("CHROMEDRIVER", programs.driver);
    log.run_tests(&mut test)
}
