//! Starts Firefox and its driver with a profile of their own. What the page learns of the screen is set as preferences.

use std::process::Command;

use anyhow::Context;
use serde_json::json;
use tempfile::TempDir;
use thirtyfour::{Capabilities, WebDriver};

use super::look::Look;
use super::program::{Program, Started, answers, free_port, place};

/// Starts driver and browser.
pub async fn start(look: Look) -> anyhow::Result<Started> {
    let profile = TempDir::with_prefix("layshaft-profile-")?;
    let (port, other) = (free_port()?, free_port()?);
    let mut command = Command::new(place("GECKODRIVER", "geckodriver"));
    command
        .args([
            "--port",
            &port.to_string(),
            "--websocket-port",
            &other.to_string(),
        ])
        // A profile from the driver, in a folder that ends with the journey.
        .env("TMPDIR", profile.path())
        // No window is larger than the screen, which is small where there is none.
        .env("MOZ_HEADLESS_WIDTH", "1600")
        .env("MOZ_HEADLESS_HEIGHT", "1300")
        .env("HOME", profile.path());
    let driver = Program::start_silently(&mut command)?;
    answers(port).await.context("the driver of Firefox")?;
    let session = WebDriver::new(&format!("http://127.0.0.1:{port}"), capabilities(look)?)
        .await
        .context("Firefox")?;
    Ok(Started {
        session,
        _driver: driver,
        _screen: None,
        _profile: profile,
    })
}

fn capabilities(look: Look) -> anyhow::Result<Capabilities> {
    let mut wanted = Capabilities::new();
    wanted.set("browserName", "firefox")?;
    let preferences = json!({
        "layout.css.prefers-color-scheme.content-override": u8::from(!look.dark),
        "ui.prefersReducedMotion": u8::from(look.reduced_motion),
        // 1 is coarse without hover, 6 is fine with hover.
        "ui.primaryPointerCapabilities": if look.viewport.touch { 1 } else { 6 },
        "ui.allPointerCapabilities": if look.viewport.touch { 1 } else { 6 },
        // Windows of any size are opened by a script.
        "dom.disable_open_during_load": false,
        "app.update.enabled": false,
        "datareporting.policy.dataSubmissionEnabled": false,
    });
    wanted.set(
        "moz:firefoxOptions",
        json!({
            "binary": place("FIREFOX", "/usr/bin/firefox-esr"),
            "args": ["-headless"],
            "prefs": preferences,
        }),
    )?;
    Ok(wanted)
}
