//! What a journey works with: looking, pointing, typing and waiting on one page in one browser.
//!
//! Looking waits: each look is repeated until it succeeds or ten seconds have passed, because the page draws itself
//! in its own time. Doing does not wait.

use std::path::Path;
use std::time::{Duration, Instant};

use anyhow::{anyhow, ensure};
use serde_json::Value;
use thirtyfour::{WebDriver, WindowHandle};

use super::engine::Engine;
use super::look::{Look, Viewport};
use super::named::{self, Named};
use super::program::Started;
use super::{chromium, keys, rest, served_address};

/// How long a look is repeated. WebKit takes several times as long as Chromium for what a worker computes, the more so
/// with two journeys side by side.
const PATIENCE: Duration = Duration::from_secs(10);

/// The same in engines other than Chromium.
const MORE_PATIENCE: Duration = Duration::from_secs(30);

/// How long to rest between two looks.
const PAUSE: Duration = Duration::from_millis(50);

/// A point of the viewport, CSS pixels from its top left.
type Point = (i64, i64);

/// Keeps errors and warnings of the console from now on, for engines whose drivers do not hand them out.
const KEEP_COMPLAINTS: &str = "
    if (window.layshaftComplaints) return;
    const kept = window.layshaftComplaints = [];
    for (const level of ['error', 'warn']) {
        const own = console[level];
        console[level] = (...words) => { kept.push(`${level}: ${words.join(' ')}`); own.apply(console, words); };
    }
    addEventListener('error', event => kept.push(`error: ${event.message ?? event.target?.src}`), true);
    addEventListener('unhandledrejection', event => kept.push(`error: ${event.reason}`));";

/// The page in a browser of its own.
pub struct Page {
    engine: Engine,
    browser: Started,
    base: String,
}

impl Page {
    /// Starts a browser that has never seen the page and opens an address in it.
    pub async fn open_in_fresh_browser(address: &str, look: Look) -> anyhow::Result<Self> {
        let engine = Engine::asked_for();
        let page = Self {
            engine,
            browser: engine.start(look).await?,
            base: served_or(address),
        };
        let shown = async {
            page.present_as(look).await?;
            page.goto(address).await
        };
        match shown.await {
            Ok(()) => Ok(page),
            Err(error) => {
                // A session that nobody ends would leave its browser behind.
                page.close().await;
                Err(error)
            }
        }
    }

    /// The session underneath, for what the helpers here do not cover.
    pub fn session(&self) -> &WebDriver {
        &self.browser.session
    }

    /// The engine that shows it.
    pub const fn engine(&self) -> Engine {
        self.engine
    }

    /// Opens an address, given whole or from the page's own (`?bench=empty`, `#…`, empty), and waits until the page has
    /// drawn itself.
    pub async fn goto(&self, address: &str) -> anyhow::Result<()> {
        let whole = if address.contains("://") {
            address.to_owned()
        } else {
            format!("{}{address}", self.base)
        };
        self.session().goto(whole).await?;
        self.drawn().await
    }

    /// Opens the page a second time in the same browser and goes there; gives back the way to the first. It is a tab, or
    /// outside Chromium a window: WebKit's driver can't point into a tab that is not in front, Firefox's opens none beside a
    /// window of a size of its own.
    pub async fn open_beside(&self, look: Look) -> anyhow::Result<WindowHandle> {
        let session = self.session();
        let first = session.window().await?;
        let second = if self.engine == Engine::Chromium {
            session.new_tab().await?
        } else {
            session.new_window().await?
        };
        session.switch_to_window(second).await?;
        if self.engine == Engine::WebKit {
            self.resize(look.viewport).await?;
        }
        self.goto("").await?;
        Ok(first)
    }

    /// The address as it stands in the browser.
    pub async fn address(&self) -> anyhow::Result<String> {
        Ok(self.session().current_url().await?.to_string())
    }

    /// Loads the page again, as F5 does, and waits until it has drawn itself.
    pub async fn reload(&self) -> anyhow::Result<()> {
        if self.engine == Engine::Firefox {
            // Its driver reloads past the service worker, as a person does with Shift.
            self.script("window.layshaftLeft = true; location.reload()")
                .await?;
            let fresh = "return window.layshaftLeft === undefined && document.readyState === 'complete'";
            self.wait_for("the page to load again", async || {
                Ok(self.script(fresh).await? == true)
            })
            .await?;
        } else {
            self.session().refresh().await?;
        }
        self.drawn().await
    }

    async fn drawn(&self) -> anyhow::Result<()> {
        if self.engine != Engine::Chromium {
            self.script(KEEP_COMPLAINTS).await?;
        }
        let waits = "return document.querySelector('.waiting') !== null";
        self.wait_for("the page to draw itself", async || {
            Ok(self.script(waits).await? == false)
        })
        .await?;
        self.script(&rest::of_the_drawing()).await.map(drop)
    }

    /// Makes the window look to the page as the given screen does; in engines other than Chromium only its size.
    pub async fn present_as(&self, look: Look) -> anyhow::Result<()> {
        match self.engine {
            Engine::Chromium => chromium::present_as(self.session(), look).await,
            Engine::WebKit => self.resize(look.viewport).await,
            Engine::Firefox => self.open_window(look.viewport).await,
        }
    }

    /// Opens a window of just this size in place of the one there is: only such a one may be narrower than Firefox's bar.
    async fn open_window(&self, wanted: Viewport) -> anyhow::Result<()> {
        let Viewport { width, height, .. } = wanted;
        let before = self.session().window().await?;
        self.script(&format!(
            "window.open('about:blank', '_blank', 'popup,width={width},height={height}')"
        ))
        .await?;
        let windows = self.session().windows().await?;
        let fresh = windows.into_iter().find(|window| *window != before);
        self.session().close_window().await?;
        let fresh = fresh.ok_or_else(|| anyhow!("Firefox opens no window"))?;
        Ok(self.session().switch_to_window(fresh).await?)
    }

    /// Makes the window so large that the page in it has the size asked for.
    async fn resize(&self, wanted: Viewport) -> anyhow::Result<()> {
        let (mut width, mut height) = (i64::from(wanted.width), i64::from(wanted.height));
        for _ in 0..4 {
            let (outer_width, outer_height) = (width.try_into()?, height.try_into()?);
            self.session()
                .set_window_rect(0, 0, outer_width, outer_height)
                .await?;
            tokio::time::sleep(PAUSE).await;
            let inner = self.script("return [innerWidth, innerHeight]").await?;
            let short = |index: usize, of: u32| i64::from(of) - inner[index].as_i64().unwrap_or_default();
            let by = (short(0, wanted.width), short(1, wanted.height));
            if by == (0, 0) {
                return Ok(());
            }
            (width, height) = (width + by.0, height + by.1);
        }
        Err(anyhow!("the window does not take the size {wanted:?}"))
    }

    /// Waits for a thing of this role and name.
    pub async fn named(&self, role: &str, name: &str) -> anyhow::Result<Named> {
        self.until(async || {
            named::choose(&named::tree(self.session(), self.engine).await?, role, name).cloned()
        })
        .await
    }

    /// Waits until no thing of this role has a name that begins like this.
    pub async fn gone(&self, role: &str, start: &str) -> anyhow::Result<()> {
        self.until(async || {
            let left = self
                .all(role)
                .await?
                .into_iter()
                .find(|thing| thing.name.starts_with(start));
            ensure!(
                left.is_none(),
                "there still is a {role} named “{}”",
                left.map(|thing| thing.name).unwrap_or_default()
            );
            Ok(())
        })
        .await
    }

    /// All that has this role now, in reading order.
    pub async fn all(&self, role: &str) -> anyhow::Result<Vec<Named>> {
        let everything = self.everything().await?;
        Ok(everything
            .into_iter()
            .filter(|thing| thing.role == role)
            .collect())
    }

    /// All that assistive technology is told of, in reading order.
    pub async fn everything(&self) -> anyhow::Result<Vec<Named>> {
        named::tree(self.session(), self.engine).await
    }

    /// The same as a script works it out, which stands in where the browser does not tell.
    pub async fn everything_by_script(&self) -> anyhow::Result<Vec<Named>> {
        named::list(self.session()).await
    }

    /// Clicks the thing of this role and name, with the pointer at its middle.
    pub async fn click(&self, role: &str, name: &str) -> anyhow::Result<()> {
        let at = self.middle(role, name).await?;
        self.click_at(at).await
    }

    /// Clicks a point.
    pub async fn click_at(&self, (x, y): Point) -> anyhow::Result<()> {
        let chain = self
            .session()
            .action_chain_with_delay(None, Some(Duration::from_millis(20)));
        Ok(chain.move_to(x, y).click().perform().await?)
    }

    /// Clicks a point twice, fast.
    pub async fn double_click_at(&self, (x, y): Point) -> anyhow::Result<()> {
        let chain = self
            .session()
            .action_chain_with_delay(None, Some(Duration::from_millis(20)));
        Ok(chain.move_to(x, y).double_click().perform().await?)
    }

    /// Drags from one point to another in eight steps, as a hand does.
    pub async fn drag(&self, from: Point, to: Point) -> anyhow::Result<()> {
        self.drag_halfway(from, to).await?;
        let chain = self
            .session()
            .action_chain_with_delay(None, Some(Duration::from_millis(20)));
        Ok(chain.release().perform().await?)
    }

    /// The same without letting go, to see what shows in the middle of a drag.
    pub async fn drag_halfway(&self, from: Point, to: Point) -> anyhow::Result<()> {
        let mut chain = self
            .session()
            .action_chain_with_delay(None, Some(Duration::from_millis(20)));
        chain = chain.move_to(from.0, from.1).click_and_hold();
        for step in 1..=8 {
            chain = chain.move_to(
                from.0 + (to.0 - from.0) * step / 8,
                from.1 + (to.1 - from.1) * step / 8,
            );
        }
        Ok(chain.perform().await?)
    }

    /// The middle of a thing, in view and at rest. One that is drawn anew while it is waited for is looked for again.
    pub async fn middle(&self, role: &str, name: &str) -> anyhow::Result<Point> {
        self.until(async || self.named(role, name).await?.middle(self.session()).await)
            .await
    }

    /// Chooses the option whose text begins so from a list, as the keyboard would: the open list itself is drawn by the
    /// system, where no driver reaches.
    pub async fn choose(&self, list: &str, start: &str) -> anyhow::Result<()> {
        self.named("combobox", list).await?.focus(self.session()).await?;
        let chosen = self
            .script(&format!(
                "const list = document.activeElement;
                 const option = [...list.options].find(option => option.text.trim().startsWith({start:?}));
                 if (!option) return [...list.options].map(option => option.text).join(', ');
                 list.value = option.value;
                 list.dispatchEvent(new Event('change', {{ bubbles: true }}));
                 return true"
            ))
            .await?;
        ensure!(chosen == true, "{list} has no “{start}”; it has {chosen}");
        Ok(())
    }

    /// Presses keys by name: `press("Tab Tab Enter")`, `press("Ctrl+Z")`.
    pub async fn press(&self, names: &str) -> anyhow::Result<()> {
        self.settled().await?;
        keys::press(self.session(), names).await
    }

    /// Lets what the last step began come to its end: the drivers of WebKit and Firefox are back before the page has
    /// moved its focus, so that keys would go where it was.
    async fn settled(&self) -> anyhow::Result<()> {
        if self.engine == Engine::Chromium {
            return Ok(());
        }
        self.script(&rest::of_the_focus()).await.map(drop)
    }

    /// Types text where the focus is.
    pub async fn enter(&self, text: &str) -> anyhow::Result<()> {
        self.settled().await?;
        Ok(self.session().action_chain().send_keys(text).perform().await?)
    }

    /// Waits until the page shows this text.
    pub async fn see(&self, text: &str) -> anyhow::Result<()> {
        self.until(async || {
            let shown = self.text().await?;
            ensure!(
                shown.contains(text),
                "the page does not show “{text}”; it shows:\n{shown}"
            );
            Ok(())
        })
        .await
    }

    /// All text of the page, spaces of every width as plain ones.
    pub async fn text(&self) -> anyhow::Result<String> {
        let text = self.script("return document.body.innerText").await?;
        let text = text.as_str().unwrap_or_default();
        Ok(text
            .chars()
            .map(|letter| {
                if letter.is_whitespace() && letter != '\n' {
                    ' '
                } else {
                    letter
                }
            })
            .collect())
    }

    /// Text of the thing of this role and name.
    pub async fn text_of(&self, role: &str, name: &str) -> anyhow::Result<String> {
        self.named(role, name).await?.text(self.session()).await
    }

    /// What the field of this name holds.
    pub async fn value_of(&self, role: &str, name: &str) -> anyhow::Result<String> {
        self.named(role, name).await?.value(self.session()).await
    }

    /// Runs JavaScript in the page and gives what it returns.
    pub async fn script(&self, body: &str) -> anyhow::Result<Value> {
        Ok(self.session().execute(body, Vec::new()).await?.json().clone())
    }

    /// Repeats a look until it succeeds; gives the last failure when patience ends.
    pub async fn until<T>(&self, look: impl AsyncFn() -> anyhow::Result<T>) -> anyhow::Result<T> {
        let start = Instant::now();
        loop {
            match look().await {
                Err(error) if start.elapsed() >= self.patience() => return Err(error),
                Err(_) => tokio::time::sleep(PAUSE).await,
                seen => return seen,
            }
        }
    }

    const fn patience(&self) -> Duration {
        match self.engine {
            Engine::Chromium => PATIENCE,
            Engine::WebKit | Engine::Firefox => MORE_PATIENCE,
        }
    }

    /// Waits until a condition holds, which `what` puts into words.
    pub async fn wait_for(
        &self,
        what: &str,
        holds: impl AsyncFn() -> anyhow::Result<bool>,
    ) -> anyhow::Result<()> {
        self.until(async || {
            if holds().await? {
                Ok(())
            } else {
                Err(anyhow!("waited in vain for: {what}"))
            }
        })
        .await
    }

    /// Writes what is seen now to a PNG file.
    pub async fn screenshot(&self, path: &Path) -> anyhow::Result<()> {
        Ok(std::fs::write(path, self.session().screenshot_as_png().await?)?)
    }

    /// Errors and warnings of the console since the last call.
    pub async fn complaints(&self) -> anyhow::Result<Vec<String>> {
        if self.engine != Engine::Chromium {
            let kept = self
                .script("return window.layshaftComplaints?.splice(0) ?? []")
                .await?;
            let kept = kept.as_array().into_iter().flatten();
            return Ok(kept
                .map(|entry| entry.as_str().unwrap_or_default().to_owned())
                .collect());
        }
        let entries = self.session().browser_log().await?.into_iter();
        let complaints = entries.filter(|entry| entry.level == "SEVERE" || entry.level == "WARNING");
        Ok(complaints
            .map(|entry| format!("{}: {}", entry.level, entry.message))
            .collect())
    }

    /// Fails if the console holds an error or a warning.
    pub async fn console_is_quiet(&self) -> anyhow::Result<()> {
        let complaints = self.complaints().await?;
        ensure!(
            complaints.is_empty(),
            "the console complains:\n{}",
            complaints.join("\n")
        );
        Ok(())
    }

    /// What helps to understand a failure: the console and where a last screenshot lies.
    pub(super) async fn last_trace(&self, name: &str) -> String {
        let console = self.complaints().await.unwrap_or_default().join("\n");
        let folder = std::env::temp_dir().join("layshaft-journeys");
        let file = folder.join(format!(
            "{}.png",
            name.replace(|letter: char| !letter.is_alphanumeric(), "-")
        ));
        let written = std::fs::create_dir_all(&folder).is_ok() && self.screenshot(&file).await.is_ok();
        let place = if written {
            format!("screenshot: {}", file.display())
        } else {
            "no screenshot".to_owned()
        };
        format!("{console}\n{place}")
    }

    /// Ends the browser.
    pub async fn close(self) {
        // A session that is gone already is as good as ended; the driver and the profile follow by being dropped.
        let _ = self.browser.session.quit().await;
    }
}

/// The page's own address, which relative ones start from.
fn served_or(address: &str) -> String {
    if address.contains("://") {
        let end = address.find(['?', '#']).unwrap_or(address.len());
        address[..end].to_owned()
    } else {
        served_address()
    }
}
