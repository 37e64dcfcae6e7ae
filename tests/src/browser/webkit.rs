//! Starts WebKitGTK's small browser, its driver and a screen without a screen, each for one journey.
//!
//! What the page learns of the screen (dark, no motion) comes from the settings of GTK, which the driver hands on in
//! its environment. The browser's own bar of buttons would keep the window wider than a phone: a style makes it small.

use std::path::Path;
use std::process::Command;

use anyhow::Context;
use serde_json::json;
use tempfile::TempDir;
use thirtyfour::{Capabilities, WebDriver};

use super::look::Look;
use super::program::{Program, Started, answers, free_port, place};

/// Where Debian puts the browser.
const BROWSER: &str = "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser";

/// Shrinks what the browser has around the page.
const SMALL_BAR: &str =
    "* { min-width: 0; min-height: 0; padding: 0; margin: 0; border-width: 0; font-size: 1px; }";

/// Starts screen, driver and browser.
pub async fn start(look: Look) -> anyhow::Result<Started> {
    let profile = TempDir::with_prefix("layshaft-profile-")?;
    settings(profile.path(), look)?;
    let screen = screen(&place("XVFB", "/usr/bin/Xvfb"))?;
    let port = free_port()?;
    let mut command = Command::new(place("WEBKITDRIVER", "/usr/bin/WebKitWebDriver"));
    command
        .arg(format!("--port={port}"))
        .env("DISPLAY", format!(":{}", screen.said))
        .env("XDG_CONFIG_HOME", profile.path())
        .env("XDG_DATA_HOME", profile.path().join("data"))
        .env("XDG_CACHE_HOME", profile.path().join("cache"))
        .env("GTK_THEME", if look.dark { "Adwaita:dark" } else { "Adwaita" });
    let driver = Program::start_silently(&mut command)?;
    answers(port).await.context("the driver of WebKit")?;
    let session = WebDriver::new(&format!("http://127.0.0.1:{port}"), capabilities()?)
        .await
        .context("WebKit")?;
    Ok(Started {
        session,
        _driver: driver,
        _screen: Some(screen),
        _profile: profile,
    })
}

/// An X server that draws into memory; it finds a free number itself and prints it.
fn screen(program: &Path) -> anyhow::Result<Program> {
    let mut command = Command::new(program);
    command.args([
        "-displayfd",
        "1",
        "-screen",
        "0",
        "1600x1300x24",
        "-nolisten",
        "tcp",
    ]);
    Program::start(&mut command, |line| Some(line.to_owned()))
}

fn settings(folder: &Path, look: Look) -> anyhow::Result<()> {
    let folder = folder.join("gtk-3.0");
    std::fs::create_dir_all(&folder)?;
    let moves = u8::from(!look.reduced_motion);
    std::fs::write(
        folder.join("settings.ini"),
        format!("[Settings]\ngtk-enable-animations={moves}\n"),
    )?;
    Ok(std::fs::write(folder.join("gtk.css"), SMALL_BAR)?)
}

fn capabilities() -> anyhow::Result<Capabilities> {
    let mut wanted = Capabilities::new();
    wanted.set(
        "webkitgtk:browserOptions",
        json!({ "binary": place("WEBKIT", BROWSER), "args": ["--automation"] }),
    )?;
    Ok(wanted)
}
