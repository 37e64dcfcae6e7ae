//! The engines that journeys are driven in, one at a time: a variable says which.

use super::look::Look;
use super::program::Started;
use super::{chromium, firefox, webkit};

/// Names the variable that says which engine journeys run in; Chromium where it is not set.
pub const ENGINE: &str = "LAYSHAFT_ENGINE";

/// A browser engine.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Engine {
    /// Chromium, with the accessibility tree and emulated screens of its developer tools.
    Chromium,
    /// WebKit, in the small browser that comes with WebKitGTK.
    WebKit,
    /// Firefox.
    Firefox,
}

impl Engine {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Chromium, Self::WebKit, Self::Firefox];

    /// The engine asked for.
    ///
    /// # Panics
    /// If the variable names none.
    #[must_use]
    pub fn asked_for() -> Self {
        let Some(name) = std::env::var_os(ENGINE) else {
            return Self::Chromium;
        };
        Self::ALL
            .into_iter()
            .find(|engine| engine.name().eq_ignore_ascii_case(&name.to_string_lossy()))
            .unwrap_or_else(|| {
                panic!(
                    "{ENGINE} is {}; it can be Chromium, WebKit or Firefox",
                    name.display()
                )
            })
    }

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Chromium => "Chromium",
            Self::WebKit => "WebKit",
            Self::Firefox => "Firefox",
        }
    }

    /// Starts a browser that has never been used.
    pub(super) async fn start(self, look: Look) -> anyhow::Result<Started> {
        match self {
            Self::Chromium => chromium::start().await,
            Self::WebKit => webkit::start(look).await,
            Self::Firefox => firefox::start(look).await,
        }
    }
}
