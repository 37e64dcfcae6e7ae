//! What tabs of this page tell one another: `kept`, `gone`, `on` (its bench) and `here` (on mine too), each of a record.

use gloo::events::EventListener;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{BroadcastChannel, MessageEvent};

const CHANNEL: &str = "layshaft-shelf";

/// Something that a tab tells the others about a record.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Word {
    /// I kept it.
    Kept,
    /// I deleted it.
    Gone,
    /// It is on my bench now; on whose else?
    On,
    /// It is on mine too.
    Here,
}

const WORDS: [(Word, &str); 4] = [
    (Word::Kept, "kept"),
    (Word::Gone, "gone"),
    (Word::On, "on"),
    (Word::Here, "here"),
];

thread_local! {
    static TABS: Option<BroadcastChannel> = BroadcastChannel::new(CHANNEL).ok();
}

/// Tells all other tabs.
pub fn tell(word: Word, id: &str) {
    let name = WORDS
        .iter()
        .find(|(other, _)| *other == word)
        .map_or("", |(_, name)| name);
    TABS.with(|tabs| {
        if let Some(tabs) = tabs {
            // Whoever misses it looks into the store when next seen.
            let _ = tabs.post_message(&JsValue::from_str(&format!("{name} {id}")));
        }
    });
}

/// Calls back with what other tabs tell; none where tabs can't talk.
pub fn listen(heard: impl Fn(Word, &str) + 'static) -> Option<EventListener> {
    let tabs = TABS.with(Clone::clone)?;
    Some(EventListener::new(&tabs, "message", move |event| {
        let Some(text) = event
            .dyn_ref::<MessageEvent>()
            .and_then(|event| event.data().as_string())
        else {
            return;
        };
        if let Some((name, id)) = text.split_once(' ')
            && let Some((word, _)) = WORDS.iter().find(|(_, other)| *other == name)
        {
            heard(*word, id);
        }
    }))
}
