//! Starts Chromium and its driver with a profile of their own. Its developer tools emulate any screen.

use std::process::Command;

use anyhow::Context;
use serde_json::json;
use tempfile::TempDir;
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::{ChromiumCapabilities, ChromiumLikeCapabilities, WebDriver};

use super::look::{Look, Viewport};
use super::program::{Program, Started, place};

/// Starts both programs with an empty profile.
pub async fn start() -> anyhow::Result<Started> {
    let profile = TempDir::with_prefix("layshaft-profile-")?;
    // The driver picks its own free port and prints it, so that journeys can run side by side.
    let driver = Program::start(
        Command::new(place("CHROMEDRIVER", "/usr/bin/chromedriver")).arg("--port=0"),
        |line| {
            let (_, port) = line.rsplit_once("successfully on port ")?;
            Some(port.trim_end_matches('.').to_owned())
        },
    )?;
    let address = format!("http://127.0.0.1:{}", driver.said);
    let session = WebDriver::new(&address, capabilities(&profile)?)
        .await
        .context("Chromium")?;
    Ok(Started {
        session,
        _driver: driver,
        _screen: None,
        _profile: profile,
    })
}

/// Makes the window look to the page as the given screen does.
pub async fn present_as(session: &WebDriver, look: Look) -> anyhow::Result<()> {
    let Viewport { width, height, touch } = look.viewport;
    let devtools = session.cdp();
    let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": touch });
    devtools
        .send_raw("Emulation.setDeviceMetricsOverride", metrics)
        .await?;
    devtools
        .send_raw("Emulation.setTouchEmulationEnabled", json!({ "enabled": touch }))
        .await?;
    let features = json!({ "features": [
        { "name": "prefers-color-scheme", "value": if look.dark { "dark" } else { "light" } },
        { "name": "prefers-reduced-motion", "value": if look.reduced_motion { "reduce" } else { "no-preference" } },
        { "name": "forced-colors", "value": if look.forced_colors { "active" } else { "none" } },
    ]});
    devtools.send_raw("Emulation.setEmulatedMedia", features).await?;
    Ok(())
}

fn capabilities(profile: &TempDir) -> anyhow::Result<ChromiumCapabilities> {
    let mut wanted = ChromiumCapabilities::new();
    // The driver knows only one browser by name, whatever its brand.
    wanted.as_mut().set("browserName", "chrome")?;
    wanted.set_binary(&place("CHROMIUM", "/usr/bin/chromium").to_string_lossy())?;
    wanted.set_browser_log_level(LoggingPrefsLogLevel::All)?;
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--disable-dev-shm-usage",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ] {
        wanted.add_arg(argument)?;
    }
    wanted.add_arg(&format!("--user-data-dir={}", profile.path().display()))?;
    Ok(wanted)
}
