//! The page without a network, and a newer build of it. The page comes by way of a relay that can be cut.

use std::io::{Read as _, Write as _};
use std::net::{TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicU8, Ordering};
use std::time::{Duration, Instant};

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, block_on, served_address, visit};

/// What the relay does.
const PASSES_ON: u8 = 0;
/// It answers nothing, as a server that is gone.
const CUT: u8 = 1;
/// The service worker that it passes on is that of another build.
const NEWER: u8 = 2;

/// A server between the browser and the one under test.
struct Relay {
    address: String,
    state: Arc<AtomicU8>,
}

impl Relay {
    /// Ends with the process: it holds nothing that wants tidying up.
    fn start() -> anyhow::Result<Self> {
        let listener = TcpListener::bind("127.0.0.1:0")?;
        let address = format!("http://{}/", listener.local_addr()?);
        let state = Arc::new(AtomicU8::new(PASSES_ON));
        let seen = state.clone();
        std::thread::spawn(move || {
            for caller in listener.incoming().flatten() {
                let seen = seen.clone();
                std::thread::spawn(move || {
                    // Whoever hangs up is not missed.
                    let _ = pass_on(caller, &seen);
                });
            }
        });
        Ok(Self { address, state })
    }

    fn becomes(&self, state: u8) {
        self.state.store(state, Ordering::SeqCst);
    }
}

/// One request and its answer, unpacked. What the relay does is asked once the request is there: browsers open connections
/// ahead of time.
fn pass_on(mut caller: TcpStream, state: &AtomicU8) -> anyhow::Result<()> {
    let mut head = Vec::new();
    let mut byte = [0];
    while !head.ends_with(b"\r\n\r\n") && head.len() < 16_000 && caller.read(&mut byte)? == 1 {
        head.push(byte[0]);
    }
    let now = state.load(Ordering::SeqCst);
    if now == CUT {
        return Ok(());
    }
    let head = String::from_utf8_lossy(&head);
    let path = head.split(' ').nth(1).unwrap_or("/").to_owned();
    let served = served_address();
    let host = served.trim_start_matches("http://").trim_end_matches('/');
    let mut server = TcpStream::connect(host)?;
    write!(
        server,
        "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
    )?;
    let mut answer = Vec::new();
    server.read_to_end(&mut answer)?;
    if now == NEWER && path.ends_with("/service-worker.js") {
        answer = other_build(&answer);
    }
    caller.write_all(&answer)?;
    Ok(())
}

/// The same answer with another build's name in it, which is as long.
fn other_build(answer: &[u8]) -> Vec<u8> {
    let text = String::from_utf8_lossy(answer).into_owned();
    let start = text
        .find("BUILD = '")
        .map_or(0, |place| place + "BUILD = '".len());
    let mut other = text;
    other.replace_range(start..start + 8, "00000000");
    other.into_bytes()
}

/// Waits for what takes a while: a build is fetched as a whole.
async fn patiently(page: &Page, what: &str, holds: &str) -> anyhow::Result<()> {
    let start = Instant::now();
    while page.script(holds).await? != true {
        ensure!(
            start.elapsed() < Duration::from_secs(60),
            "waited in vain for: {what}"
        );
        tokio::time::sleep(Duration::from_millis(200)).await;
    }
    Ok(())
}

/// A visit by way of a relay, once the page is kept on the device.
fn kept_page(name: &str, steps: impl AsyncFnOnce(&Page, &Relay) -> anyhow::Result<()>) {
    let relay = Relay::start().expect("this machine has a free port");
    let outcome = block_on(visit(name, &relay.address, Look::DESKTOP, async |page| {
        let kept = "return (async () => { const worker = await navigator.serviceWorker.ready;
            return worker.active?.state === 'activated' && navigator.serviceWorker.controller !== null })()";
        patiently(page, "the page to be kept", kept).await?;
        steps(page, &relay).await
    }));
    if let Err(error) = outcome {
        panic!("{name}: {error:#}");
    }
}

#[test]
fn the_second_visit_works_without_a_network() {
    kept_page("offline", async |page, relay| {
        page.goto(&format!("{}?bench=empty", relay.address)).await?;
        page.press("M").await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        relay.becomes(CUT);
        page.reload().await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        page.press("M").await?;
        page.named("button", "shaft s4").await?;
        // A link opens too, and long work finds its worker.
        page.goto(&relay.address).await?;
        page.press("Shift+G").await?;
        page.named("heading", "Choose").await.map(drop)
    });
}

#[test]
fn a_newer_build_is_offered_and_loads_when_asked() {
    kept_page("newer build", async |page, relay| {
        page.goto(&format!("{}?bench=empty", relay.address)).await?;
        page.press("M").await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        relay.becomes(NEWER);
        page.script("return (async () => { (await navigator.serviceWorker.ready).update(); return true })()")
            .await?;
        let offered =
            "return document.querySelector('.notices').innerText.includes('A newer Layshaft is ready')";
        patiently(page, "the offer of the newer build", offered).await?;
        let caches = page
            .script("return (async () => { return (await caches.keys()).length })()")
            .await?;
        ensure!(
            caches == 2,
            "the newer build lies beside the one in use: {caches} caches"
        );
        page.click("button", "Load it").await?;
        page.gone("button", "Load it").await?;
        // Nothing is lost, and what the older build left is gone.
        page.named("button", "shaft s2, ratio minus one third").await?;
        page.wait_for("the older build to be gone", async || {
            let left = page
                .script("return (async () => { return (await caches.keys()).join() })()")
                .await?;
            Ok(left == "layshaft-00000000")
        })
        .await
    });
}
