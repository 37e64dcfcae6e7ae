//! A real browser for tests: started fresh for each journey, watched for console messages, ended with it.
//!
//! A journey says what a person does: things are found by role and spoken name (`page.click("button", "Share")`),
//! because what cannot be named cannot be used by everyone. `engine` says which browser it is; `chromium`, `webkit` and
//! `firefox` start it with the screen that `look` describes, `page` is what a journey works with, `named` finds things by
//! role and name, `keys` reads key names, `rest` waits until it stands still, `pace` measures it, `record` keeps which
//! journeys ran and `undriven` which cannot.

mod chromium;
mod engine;
mod firefox;
mod keys;
mod look;
mod named;
pub mod pace;
mod page;
mod program;
mod record;
mod rest;
mod undriven;
mod webkit;

pub use engine::Engine;
pub use look::{Look, Viewport};
pub use named::Named;
pub use page::Page;

/// Names the variable that holds the address of the served page.
pub const ADDRESS: &str = "LAYSHAFT_BROWSER_URL";

/// Runs one journey over the served page in a fresh browser on a desktop, and fails on any console error or warning.
///
/// # Panics
/// If a step fails. The message gives the step, the console and the file of a last screenshot.
pub fn journey(name: &str, steps: impl AsyncFnOnce(&Page) -> anyhow::Result<()>) {
    journey_on(Look::DESKTOP, name, steps);
}

/// The same on a screen of choice.
///
/// # Panics
/// As [`journey`] does.
pub fn journey_on(look: Look, name: &str, steps: impl AsyncFnOnce(&Page) -> anyhow::Result<()>) {
    let engine = Engine::asked_for();
    if let Some(reason) = undriven::reason(name, engine) {
        record::left_out(name, engine, reason);
        return;
    }
    if let Err(error) = block_on(visit(name, &served_address(), look, steps)) {
        panic!("{name} in {}: {error:#}", engine.name());
    }
    record::driven(name, engine);
}

/// Opens an address in a fresh browser, takes the steps, looks at the console and ends the browser, whatever happened.
/// A journey may make such a visit of its own, as when a link is sent to someone else.
///
/// # Errors
/// If a step fails or the console holds an error or a warning; with the console and the file of a last screenshot.
pub async fn visit(
    name: &str,
    address: &str,
    look: Look,
    steps: impl AsyncFnOnce(&Page) -> anyhow::Result<()>,
) -> anyhow::Result<()> {
    let page = Page::open_in_fresh_browser(address, look).await?;
    let mut outcome = steps(&page).await;
    if outcome.is_ok() {
        outcome = page.console_is_quiet().await;
    }
    if let Err(error) = outcome {
        outcome = Err(anyhow::anyhow!("{error:#}\n{}", page.last_trace(name).await));
    }
    page.close().await;
    outcome
}

/// The address that `cargo xtask test` serves the page at.
///
/// # Panics
/// If there is none: the page needs building and serving first.
pub fn served_address() -> String {
    std::env::var(ADDRESS).unwrap_or_else(|_| {
        panic!("run `cargo xtask test`, or start `cargo xtask serve` and put the address it prints into {ADDRESS}")
    })
}

/// Drives one future on this thread.
///
/// # Panics
/// If the system gives no timer or socket.
pub fn block_on<T>(future: impl Future<Output = T>) -> T {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime
        .expect("the system gives timers and sockets")
        .block_on(future)
}
