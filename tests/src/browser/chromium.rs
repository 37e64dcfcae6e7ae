//! Starts Chromium and its driver with a profile of their own, and ends both.
//!
//! The driver picks its own free port and prints it, so that journeys can run side by side.

use std::io::{BufRead, BufReader, Read};
use std::path::PathBuf;
use std::process::{Child, ChildStdout, Command, Stdio};

use anyhow::{Context, bail};
use serde_json::json;
use tempfile::TempDir;
use thirtyfour::common::log::LoggingPrefsLogLevel;
use thirtyfour::{ChromiumCapabilities, ChromiumLikeCapabilities, WebDriver};

/// Size of the page's window in CSS pixels, and whether it is touched or pointed at.
#[derive(Clone, Copy, Debug)]
pub struct Viewport {
    /// Width, CSS pixels.
    pub width: u32,
    /// Height, CSS pixels.
    pub height: u32,
    /// Fingers rather than a mouse.
    pub touch: bool,
}

/// How a visitor's screen presents itself to the page.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Size and kind of the screen.
    pub viewport: Viewport,
    /// The system asks for a dark page.
    pub dark: bool,
    /// The system asks for no motion.
    pub reduced_motion: bool,
}

impl Look {
    /// A desktop, light.
    pub const DESKTOP: Self = Self::light(1440, 900, false);
    /// A tablet held upright, light.
    pub const TABLET: Self = Self::light(820, 1180, true);
    /// A phone, light.
    pub const PHONE: Self = Self::light(390, 844, true);

    const fn light(width: u32, height: u32, touch: bool) -> Self {
        Self {
            viewport: Viewport { width, height, touch },
            dark: false,
            reduced_motion: false,
        }
    }

    /// The same screen after dusk.
    #[must_use]
    pub const fn in_the_dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// The same screen for someone who asked for no motion.
    #[must_use]
    pub const fn without_motion(self) -> Self {
        Self {
            reduced_motion: true,
            ..self
        }
    }
}

/// A running browser. The order of the fields is the order of ending: the session first, which ends Chromium, then
/// the driver, then the profile on disk.
pub struct Chromium {
    /// The session that commands go to.
    pub session: WebDriver,
    _driver: Driver,
    _profile: TempDir,
}

impl Chromium {
    /// Starts both programs with an empty profile.
    pub async fn start(look: Look) -> anyhow::Result<Self> {
        let profile = TempDir::with_prefix("layshaft-profile-")?;
        let driver = Driver::start()?;
        let session = WebDriver::new(&driver.address, capabilities(&profile)?)
            .await
            .context("Chromium")?;
        let started = Self {
            session,
            _driver: driver,
            _profile: profile,
        };
        started.present_as(look).await?;
        Ok(started)
    }

    /// Makes the window look to the page as the given screen does.
    pub async fn present_as(&self, look: Look) -> anyhow::Result<()> {
        let Viewport { width, height, touch } = look.viewport;
        let devtools = self.session.cdp();
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
        ]});
        devtools.send_raw("Emulation.setEmulatedMedia", features).await?;
        Ok(())
    }

    /// Ends the session, and with it Chromium.
    pub async fn stop(self) {
        // A session that is gone already is as good as ended; the driver and the profile follow by being dropped.
        let _ = self.session.quit().await;
    }
}

fn capabilities(profile: &TempDir) -> anyhow::Result<ChromiumCapabilities> {
    let mut wanted = ChromiumCapabilities::new();
    // The driver knows only one browser by name, whatever its brand.
    wanted.as_mut().set("browserName", "chrome")?;
    wanted.set_binary(&program("CHROMIUM", "chromium").to_string_lossy())?;
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

/// Where a program is: as the variable says, else where Debian puts it.
fn program(variable: &str, name: &str) -> PathBuf {
    std::env::var_os(variable).map_or_else(|| PathBuf::from("/usr/bin").join(name), PathBuf::from)
}

/// The driver, a child of this process that ends with its owner.
struct Driver {
    child: Child,
    address: String,
}

impl Driver {
    fn start() -> anyhow::Result<Self> {
        let path = program("CHROMEDRIVER", "chromedriver");
        let mut command = Command::new(&path);
        command
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        let mut child = command.spawn().with_context(|| {
            format!(
                "cannot start {}; `cargo xtask test` says what to install",
                path.display()
            )
        })?;
        let printed = child.stdout.take().expect("its output is piped");
        match printed_port(printed) {
            Ok(port) => Ok(Self {
                child,
                address: format!("http://127.0.0.1:{port}"),
            }),
            Err(error) => {
                let _ = child.kill();
                Err(error)
            }
        }
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // Fails only if it has ended already, which is what is wanted.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Reads on until the driver says which port it took.
fn printed_port(output: ChildStdout) -> anyhow::Result<u16> {
    let mut lines = BufReader::new(output);
    let mut line = String::new();
    while lines.read_line(&mut line)? > 0 {
        if let Some((_, port)) = line.trim_end().rsplit_once("successfully on port ") {
            let port = port.trim_end_matches('.').parse()?;
            // Someone must go on reading, or the driver stops when the pipe is full.
            std::thread::spawn(move || lines.read_to_end(&mut Vec::new()));
            return Ok(port);
        }
        line.clear();
    }
    bail!("the driver of Chromium ended before it said which port it took")
}
