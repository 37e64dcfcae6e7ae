//! How long the page takes from an input to the next frame, on a large layout and on a still picture of the same size.
//!
//! A script in the page makes the inputs and takes the times, so that the driver costs nothing. Each time ends after the
//! frame that follows the input has been drawn; a page that has nothing to do takes what a frame takes.

use std::time::{Duration, Instant};

use anyhow::{Context, bail};
use serde_json::Value;

use super::page::Page;

/// How long forty inputs may take on a busy machine.
const LONGEST: Duration = Duration::from_secs(90);

/// What is done again and again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Work {
    /// The view is moved by the wheel.
    Pan,
    /// A shaft in the middle is dragged.
    Drag,
    /// A tooth count is typed into the field on the drawing.
    Edit,
}

impl Work {
    /// All of it, in the order of the table.
    pub const ALL: [Self; 3] = [Self::Pan, Self::Drag, Self::Edit];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pan => "pan",
            Self::Drag => "drag",
            Self::Edit => "edit",
        }
    }
}

/// Times of one kind of work.
#[derive(Clone, Copy, Debug)]
pub struct Pace {
    /// Half of the inputs took less, ms.
    pub median_ms: f64,
    /// All but one in twenty took less, ms.
    pub most_ms: f64,
    /// The most parts of the picture that one input changed.
    pub changed: u64,
}

/// Does some work on the page as it stands.
///
/// # Errors
/// If the page does not answer.
pub async fn measure(page: &Page, work: Work) -> anyhow::Result<Pace> {
    run(page, &format!("const work = {:?}, still = false;", work.name())).await
}

/// The same on a still picture of what the page shows: moving its view, or one group in it. Ends the page's own life.
///
/// # Errors
/// If the page does not answer.
pub async fn yardstick(page: &Page, work: Work) -> anyhow::Result<Pace> {
    run(page, &format!("const work = {:?}, still = true;", work.name())).await
}

async fn run(page: &Page, what: &str) -> anyhow::Result<Pace> {
    page.script(&format!("{what}\n{}", include_str!("pace.js")))
        .await?;
    let start = Instant::now();
    let times = loop {
        let times = page.script("return window.paced").await?;
        if let Some(times) = times.as_object() {
            break times.clone();
        }
        if start.elapsed() > LONGEST {
            bail!("the work is not done after {} s", LONGEST.as_secs());
        }
        tokio::time::sleep(Duration::from_millis(200)).await;
    };
    let mut took: Vec<f64> = times["took"]
        .as_array()
        .context("times are a list")?
        .iter()
        .filter_map(Value::as_f64)
        .collect();
    took.sort_by(f64::total_cmp);
    let at = |share: usize| took.get(took.len() * share / 100).copied().unwrap_or(f64::NAN);
    Ok(Pace {
        median_ms: at(50),
        most_ms: at(95),
        changed: times["changed"].as_u64().context("a count")?,
    })
}
