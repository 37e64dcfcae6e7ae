//! Files, links, demos, and the way back.

use super::*;

#[test]
fn a_link_shows_the_same_layout_in_another_browser() {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::Share);
    let link = script.effects.iter().find_map(|effect| match effect {
        Effect::CopyLink(link) => Some(link.clone()),
        _ => None,
    });
    let mut other = Script::empty();
    other.input(Input::OpenLink(link.expect("a link")));
    assert_eq!(other.session.file_text(), script.session.file_text());
    assert_eq!(other.session.title_block(), script.session.title_block());
}

#[test]
fn a_damaged_link_says_so_and_keeps_the_bench() {
    let mut script = Script::demo("granary-hoist-stages");
    let before = script.session.file_text();
    let link = script.session.link();
    script.input(Input::OpenLink(link[..link.len() - 7].to_owned()));
    let message = script.session.message().expect("it is told");
    assert!(
        message.is_error && message.text.starts_with("This link is damaged"),
        "{message:?}"
    );
    assert_eq!(script.session.file_text(), before);
    script.input(Input::DismissMessage);
    assert!(script.session.message().is_none());
}

#[test]
fn an_address_without_a_layout_is_no_failure() {
    let mut script = Script::empty();
    script
        .input(Input::OpenLink("#top".to_owned()))
        .input(Input::OpenLink(String::new()));
    assert!(script.session.message().is_none());
}

#[test]
fn a_broken_file_lists_all_that_is_wrong() {
    let mut script = Script::demo("granary-hoist-stages");
    let before = script.session.file_text();
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "c", "teeth": [0, 12]}]}"#;
    script.input(Input::OpenText {
        text: text.to_owned(),
        name: "cart.json".to_owned(),
    });
    let message = script.session.message().expect("it is told");
    assert_eq!(
        message.text,
        "cart.json could not be opened; the bench is as it was."
    );
    assert!(message.lines.len() >= 2, "{message:?}");
    assert_eq!(script.session.file_text(), before);
}

#[test]
fn undo_goes_back_behind_an_opened_layout_and_redo_returns() {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::OpenDemo("trail-cart-a"));
    assert_eq!(
        script.session.title_block().title,
        "Trail cart, branch held by a worm"
    );
    script.act(Action::EmptyBench);
    assert!(script.session.scene().empty.is_some());
    script.act(Action::Undo).act(Action::Undo);
    assert!(script.session.title_block().title.starts_with("Granary hoist"));
    assert_eq!(script.session.undo_name(), None);
    script.act(Action::Redo).act(Action::Redo);
    assert!(script.session.scene().empty.is_some());
}

#[test]
fn every_demo_opens_and_has_a_headline_that_says_something() {
    for demo in crate::demos::DEMOS {
        let script = Script::demo(demo.id);
        let words = script.session.headline();
        assert!(words.headline.len() > 20, "{}: {}", demo.id, words.headline);
        assert_eq!(script.session.title_block().title, demo.name);
    }
}

#[test]
fn the_store_s_text_opens_again() {
    let script = Script::demo("trail-cart-b");
    let mut other = Script::empty();
    other.input(Input::OpenText {
        text: script.session.file_text(),
        name: "kept".to_owned(),
    });
    assert_eq!(other.session.layout(), script.session.layout());
}

#[test]
fn text_that_is_dropped_is_opened_like_a_file() {
    let hoist = Script::demo("granary-hoist-stages");
    let (text, link) = (hoist.session.file_text(), hoist.session.link());
    for dropped in [text.clone(), format!("https://example.org/{link}")] {
        let mut script = Script::empty();
        script.input(Input::Dropped(dropped));
        assert_eq!(script.session.file_text(), text);
    }
    let mut script = Script::empty();
    script.input(Input::Dropped("Buy milk".to_owned()));
    let message = script.session.message().expect("it is told");
    assert_eq!(
        message.text,
        "What was dropped could not be opened; the bench is as it was."
    );
}

#[test]
fn a_part_that_is_dropped_is_pasted() {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::SelectAll).act(Action::Delete);
    script.act(Action::Undo).input(Input::Select {
        targets: vec![crate::target::Target::Element("g1".into())],
        add: false,
        position: None,
    });
    let part = script.session.copied_text().expect("something to copy");
    let before = script.session.layout().elements.len();
    script.input(Input::Dropped(part));
    assert_eq!(script.session.layout().elements.len(), before + 1);
    assert_eq!(script.session.undo_name().as_deref(), Some("Undo paste 1 thing"));
}
