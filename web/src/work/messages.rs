//! What page and worker say to each other, as JSON texts.

use layshaft_choose::task::{Answer, Job, Progress};
use serde::{Deserialize, Serialize};

/// From the page to its worker.
#[derive(Debug, Serialize, Deserialize)]
pub enum Order {
    /// Do this.
    Begin {
        /// The work's number.
        number: u64,
        /// The work.
        job: Job,
    },
    /// Nobody waits for this any more.
    Stop(u64),
    /// What was told last of this has been shown, which took the page so long.
    Shown {
        /// The work's number.
        number: u64,
        /// How long, in ms.
        took_ms: f64,
    },
}

/// From the worker to the page.
#[derive(Debug, Serialize, Deserialize)]
pub enum Word {
    /// Orders can be taken.
    Ready,
    /// Something about a piece of work.
    Of(u64, Told),
}

/// What is told of a piece of work.
#[derive(Debug, Serialize, Deserialize)]
pub enum Told {
    /// It is this far, and now and then so much of it is there already.
    UnderWay(Progress, Option<Answer>),
    /// It is done.
    Done(Answer),
    /// It can't be begun: a sentence.
    Failed(String),
}

/// As a text to be sent. Numbers that are none become nothing, and are refused by the other side.
pub fn written<T: Serialize>(message: &T) -> String {
    serde_json::to_string(message).unwrap_or_default()
}

/// Read again; none where it can't be.
pub fn read<'a, T: Deserialize<'a>>(text: &'a str) -> Option<T> {
    serde_json::from_str(text).ok()
}
