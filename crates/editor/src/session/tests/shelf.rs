//! The layouts kept in the browser, with a store and two tabs played by the test.

use super::*;
use crate::opening::{self, Opening};
use crate::shelf::{About, Record, ShelfEffect, ShelfInput};

/// A store that several tabs write to; what it answers waits until it is handed out.
#[derive(Default)]
struct Store {
    records: Vec<Record>,
    clock: f64,
}

impl Store {
    fn get(&self, id: &str) -> Option<&Record> {
        self.records.iter().find(|record| &*record.id == id)
    }

    fn keep(&mut self, record: Record) -> ShelfInput {
        self.clock += 1000.0;
        let stored = self.get(&record.id).cloned();
        if !record.may_follow(stored.as_ref()) {
            return ShelfInput::Refused {
                stored: Box::new(stored.expect("something is in the way")),
                refused: Box::new(record),
            };
        }
        let kept = record.following(stored.as_ref(), self.clock);
        self.records.retain(|other| other.id != kept.id);
        self.records.push(kept.clone());
        ShelfInput::Kept(Box::new(kept))
    }

    /// Carries out what a session asks for, and hands back the answers.
    fn serve(&mut self, script: &mut Script) {
        let mut effects = std::mem::take(&mut script.effects);
        while !effects.is_empty() {
            let answers: Vec<ShelfInput> = effects
                .drain(..)
                .filter_map(|effect| match effect {
                    Effect::Shelf(ShelfEffect::Keep(record)) => Some(self.keep(*record)),
                    Effect::Shelf(ShelfEffect::Forget(id)) => {
                        self.records.retain(|record| record.id != id);
                        None
                    }
                    _ => None,
                })
                .collect();
            for answer in answers {
                effects.extend(script.session.handle(Input::Shelf(answer)));
            }
        }
    }

    fn titles(&self) -> Vec<&str> {
        self.records.iter().map(|record| record.title.as_str()).collect()
    }
}

/// A page that opens with what the store has.
fn tab(name: &str, store: &mut Store, note: Option<String>) -> Script {
    let (session, effects) = opening::session(Opening {
        tab: name.to_owned(),
        records: store.records.clone(),
        note,
        wants_empty: false,
    });
    let mut script = Script { session, effects };
    store.serve(&mut script);
    script
}

impl Script {
    fn shelf(&mut self, input: ShelfInput, store: &mut Store) -> &mut Self {
        self.input(Input::Shelf(input));
        store.serve(self);
        self
    }

    fn retitle(&mut self, title: &str, store: &mut Store) -> &mut Self {
        let field = FieldRef {
            target: Target::Layout,
            path: "title".to_owned(),
        };
        self.type_into(&field, title).input(Input::EndEdit);
        store.serve(self);
        self
    }

    fn opens(&mut self, id: &str, store: &mut Store) -> &mut Self {
        self.act(Action::OpenDemo(demo_id(id)));
        store.serve(self);
        self
    }

    fn cards(&self) -> Vec<String> {
        let cards = self.session.shelf_sheet().cards;
        cards
            .iter()
            .map(|card| format!("{}{}", card.title, if card.is_here { " (here)" } else { "" }))
            .collect()
    }

    fn id_of(&self, title: &str) -> Rc<str> {
        let cards = self.session.shelf_sheet().cards;
        let card = cards.iter().find(|card| card.title == title);
        card.unwrap_or_else(|| panic!("no card “{title}” among {:?}", self.cards()))
            .id
            .clone()
    }

    fn title(&self) -> String {
        self.session.layout().title.clone()
    }

    fn notice(&self, about: About) -> Option<String> {
        let notices = self.session.notices();
        notices
            .iter()
            .find(|notice| notice.about == about)
            .map(|notice| notice.text.clone())
    }
}

fn demo_id(id: &str) -> &'static str {
    crate::demos::demo(id).expect("a demo").id
}

fn link_of(title: &str) -> String {
    let mut layout = layshaft_layout::decode(crate::demos::DEMOS[2].text).expect("sound");
    layout.title = title.to_owned();
    layshaft_layout::link::encode(&layout)
}

#[test]
fn a_layout_is_kept_from_its_first_change_and_no_demo_that_was_only_looked_at() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script
        .opens("clock-train", &mut store)
        .opens("wash-drum", &mut store);
    assert!(script.cards().is_empty());
    script.retitle("My drum", &mut store);
    assert_eq!(script.cards(), ["My drum (here)"]);
    script
        .opens("clock-train", &mut store)
        .retitle("My clock", &mut store);
    assert_eq!(script.cards(), ["My clock (here)", "My drum"]);
    assert_eq!(store.titles(), ["My drum", "My clock"]);
}

#[test]
fn the_page_opens_with_what_lay_on_the_bench() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.retitle("Cart", &mut store);
    let note = script.session.bench_note().to_json();
    let mut again = tab("b", &mut store, Some(note));
    assert_eq!(again.title(), "Cart");
    again.retitle("Cart two", &mut store);
    assert_eq!(store.titles(), ["Cart two"]);
    // What was opened and not changed is on the bench again too.
    again.input(Input::OpenLink(link_of("Sent")));
    store.serve(&mut again);
    let note = again.session.bench_note().to_json();
    assert_eq!(tab("c", &mut store, Some(note)).title(), "Sent");
}

#[test]
fn the_one_layout_of_the_first_version_becomes_a_record() {
    let mut store = Store::default();
    let mut layout = layshaft_layout::decode(crate::demos::DEMOS[0].text).expect("sound");
    let script = tab("a", &mut store, Some(layshaft_layout::encode(&layout)));
    assert!(
        script.cards().is_empty(),
        "a demo as it came is kept by the program"
    );
    layout.title = "Mine since long".to_owned();
    let script = tab("b", &mut store, Some(layshaft_layout::encode(&layout)));
    assert_eq!(script.cards(), ["Mine since long (here)"]);
    assert_eq!(store.titles(), ["Mine since long"]);
}

#[test]
fn an_empty_bench_on_request_opens_nothing_and_loses_nothing() {
    let mut store = Store::default();
    let link = layshaft_layout::link::decode(&link_of("Sent")).expect("sound");
    let (session, effects) = opening::session(Opening {
        tab: "a".to_owned(),
        records: Vec::new(),
        note: Some(crate::shelf::BenchNote::Text(layshaft_layout::encode(&link)).to_json()),
        wants_empty: true,
    });
    let mut script = Script { session, effects };
    store.serve(&mut script);
    assert!(script.session.layout().shafts.is_empty());
    assert_eq!(store.titles(), ["Sent"]);
}

#[test]
fn a_link_that_was_not_changed_is_kept_when_another_layout_takes_its_place() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.input(Input::OpenLink(link_of("First")));
    store.serve(&mut script);
    assert!(script.cards().is_empty());
    script.input(Input::OpenLink(link_of("Second")));
    store.serve(&mut script);
    assert_eq!(script.cards(), ["First"]);
    // The same link once more makes no second record.
    script.input(Input::OpenLink(link_of("First")));
    store.serve(&mut script);
    script.act(Action::EmptyBench);
    store.serve(&mut script);
    assert_eq!(script.cards(), ["Second", "First"]);
}

#[test]
fn going_back_to_a_record_brings_its_steps_back_too() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script
        .retitle("One", &mut store)
        .opens("clock-train", &mut store)
        .retitle("Two", &mut store);
    let one = script.id_of("One");
    script.shelf(ShelfInput::Open(one.clone()), &mut store);
    assert_eq!(script.title(), "One");
    script.act(Action::Undo);
    store.serve(&mut script);
    assert_eq!(script.session.record_here(), Some(&one));
    assert_eq!(script.title(), "Trail cart, branch held by a worm");
    assert_eq!(
        script.cards(),
        ["Trail cart, branch held by a worm (here)", "Two"]
    );
}

#[test]
fn rename_and_duplicate() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.retitle("One", &mut store);
    let one = script.id_of("One");
    script.shelf(ShelfInput::Duplicate(one.clone()), &mut store);
    let copy = script.id_of("One, copy");
    script.shelf(
        ShelfInput::Rename {
            id: copy.clone(),
            title: " Other ".to_owned(),
        },
        &mut store,
    );
    script.shelf(
        ShelfInput::Rename {
            id: one,
            title: "First".to_owned(),
        },
        &mut store,
    );
    assert_eq!(script.title(), "First");
    assert_eq!(store.titles(), ["Other", "First"]);
    assert!(
        script
            .session
            .undo_name()
            .is_some_and(|name| name.contains("rename"))
    );
    script.shelf(
        ShelfInput::Rename {
            id: copy.clone(),
            title: "  ".to_owned(),
        },
        &mut store,
    );
    script.shelf(ShelfInput::Open(copy), &mut store);
    assert_eq!(script.title(), "Other");
}

#[test]
fn what_is_deleted_can_be_brought_back() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.retitle("One", &mut store);
    let one = script.id_of("One");
    script.shelf(ShelfInput::Delete(one.clone()), &mut store);
    assert!(script.session.layout().shafts.is_empty() && store.records.is_empty());
    assert_eq!(
        script.session.shelf_sheet().deleted.as_deref(),
        Some("Deleted “One”.")
    );
    script.shelf(ShelfInput::BringBack, &mut store);
    assert_eq!((script.title().as_str(), store.titles()), ("One", vec!["One"]));
    assert_eq!(script.session.record_here(), Some(&one));
    assert_eq!(script.session.shelf_sheet().deleted, None);
    // The same by the keyboard's undo.
    script
        .shelf(ShelfInput::Delete(one), &mut store)
        .act(Action::Undo);
    store.serve(&mut script);
    assert_eq!(store.titles(), ["One"]);
}

#[test]
fn many_files_go_on_the_shelf_and_come_back_in_one() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    let files: Vec<(String, String)> = crate::demos::DEMOS
        .iter()
        .map(|demo| (format!("{}.json", demo.id), demo.text.to_owned()))
        .collect();
    script.shelf(ShelfInput::Import(files), &mut store);
    assert_eq!(store.records.len(), 8);
    assert!(
        store
            .records
            .iter()
            .all(|record| !record.picture.parts.is_empty())
    );
    script.act(Action::DownloadAll);
    let text = script.effects.iter().find_map(|effect| match effect {
        Effect::Download { text, .. } => Some(text.clone()),
        _ => None,
    });
    let file = vec![("all.json".to_owned(), text.expect("a file"))];
    script.shelf(ShelfInput::Import(file.clone()), &mut store);
    assert_eq!(store.records.len(), 8, "what is there is not kept twice");
    let mut other = Store::default();
    let mut elsewhere = tab("b", &mut other, None);
    elsewhere.shelf(ShelfInput::Import(file), &mut other);
    assert_eq!(other.titles(), store.titles());
}

#[test]
fn a_single_file_goes_on_the_bench_and_a_faulty_one_says_why() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    let file = |name: &str, text: &str| (name.to_owned(), text.to_owned());
    let hoist = crate::demos::DEMOS[2].text;
    script.shelf(ShelfInput::Import(vec![file("hoist.json", hoist)]), &mut store);
    assert!(script.title().starts_with("Granary hoist"));
    script.shelf(
        ShelfInput::Import(vec![file("hoist.json", hoist), file("b.json", "{}")]),
        &mut store,
    );
    let message = script.session.message().expect("it is told");
    assert_eq!(
        message.text,
        "One layout was put on the shelf; 1 could not be read."
    );
    assert!(message.lines[0].starts_with("b.json: "), "{:?}", message.lines);
}

#[test]
fn pictures_are_drawn_when_nothing_changes_for_a_moment() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.retitle("One", &mut store).retitle("Two", &mut store);
    assert!(script.session.picture_due().is_some());
    assert!(store.records[0].picture.parts.is_empty());
    script.shelf(ShelfInput::Settled, &mut store);
    assert!(!store.records[0].picture.parts.is_empty());
    assert_eq!(script.session.picture_due(), None);
}

/// Two tabs with the same record on their benches.
fn two_tabs(store: &mut Store) -> (Script, Script, Rc<str>) {
    let mut one = tab("a", store, None);
    one.retitle("Cart", store);
    let id = one.id_of("Cart");
    let mut other = tab("b", store, None);
    other.shelf(ShelfInput::Open(id.clone()), store);
    (one, other, id)
}

/// Tells a tab what another has kept.
fn tell(script: &mut Script, id: &str, store: &mut Store) {
    let record = store.get(id).expect("it is kept").clone();
    script.shelf(ShelfInput::Changed(Box::new(record)), store);
}

#[test]
fn the_second_tab_is_told_and_follows() {
    let mut store = Store::default();
    let (mut one, mut other, id) = two_tabs(&mut store);
    other.shelf(ShelfInput::AlsoOpen(id.clone()), &mut store);
    assert!(
        other
            .notice(About::OtherTab)
            .is_some_and(|text| text.contains("another tab"))
    );
    one.retitle("Crane", &mut store);
    tell(&mut other, &id, &mut store);
    assert_eq!(other.title(), "Crane");
    other.retitle("Hoist", &mut store);
    tell(&mut one, &id, &mut store);
    assert_eq!((one.title().as_str(), store.titles()), ("Hoist", vec!["Hoist"]));
    // Undo in the tab that followed shows what was there, and the other follows that.
    one.act(Action::Undo);
    store.serve(&mut one);
    tell(&mut other, &id, &mut store);
    assert_eq!(
        (one.title(), other.title()),
        ("Crane".to_owned(), "Crane".to_owned())
    );
}

#[test]
fn a_tab_that_was_asleep_keeps_its_own_as_a_copy() {
    let mut store = Store::default();
    let (mut one, mut other, id) = two_tabs(&mut store);
    one.retitle("Crane", &mut store);
    // The other was never told.
    other.retitle("Hoist", &mut store);
    assert_eq!(store.titles(), ["Crane", "Hoist, copy"]);
    assert_eq!(other.title(), "Hoist, copy");
    assert!(
        other
            .notice(About::Copy)
            .is_some_and(|text| text.contains("“Hoist, copy”"))
    );
    // Both go on by themselves.
    one.retitle("Crane 2", &mut store);
    tell(&mut other, &id, &mut store);
    other.retitle("Hoist 2", &mut store);
    assert_eq!(store.titles(), ["Crane 2", "Hoist 2"]);
}

/// A tab that had only its picture left to keep made a copy of what the other tab had changed meanwhile: nothing was done
/// in it, so it follows.
#[test]
fn a_picture_that_comes_too_late_makes_no_copy() {
    let mut store = Store::default();
    let (mut one, mut other, _) = two_tabs(&mut store);
    other.retitle("Crane", &mut store);
    // Not told of the next change, as one of two tabs that lie in the background.
    let mut late = store.records[0].clone();
    late.by = "c".into();
    late.title = "Theirs".to_owned();
    late.text = late.text.replace("Crane", "Theirs").into();
    late.revision += 1;
    store.records[0] = late;
    other.shelf(ShelfInput::Settled, &mut store);
    assert_eq!(store.titles(), ["Theirs"]);
    assert_eq!(other.title(), "Theirs");
    one.retitle("Mine", &mut store);
    assert_eq!(store.titles(), ["Theirs", "Mine, copy"]);
}

#[test]
fn a_change_on_its_way_while_another_tab_is_followed_becomes_a_copy() {
    let mut store = Store::default();
    let (mut one, mut other, id) = two_tabs(&mut store);
    let field = FieldRef {
        target: Target::Layout,
        path: "title".to_owned(),
    };
    other.type_into(&field, "Hoist").input(Input::EndEdit);
    let first = std::mem::take(&mut other.effects);
    other.type_into(&field, "Hoist 2").input(Input::EndEdit);
    let second = std::mem::take(&mut other.effects);
    one.retitle("Crane", &mut store);
    tell(&mut other, &id, &mut store);
    assert_eq!(other.title(), "Crane");
    for on_its_way in [first, second] {
        other.effects = on_its_way;
        store.serve(&mut other);
    }
    let mut titles = store.titles();
    titles.sort_unstable();
    assert_eq!(titles, ["Crane", "Hoist, copy"], "one copy, not two");
    assert_eq!(other.title(), "Crane");
    assert!(other.notice(About::Copy).is_some());
}

#[test]
fn what_is_being_typed_is_not_swept_away_by_another_tab() {
    let mut store = Store::default();
    let (mut one, mut other, id) = two_tabs(&mut store);
    let field = FieldRef {
        target: Target::Layout,
        path: "title".to_owned(),
    };
    other.type_into(&field, "Hoi");
    one.retitle("Crane", &mut store);
    tell(&mut other, &id, &mut store);
    other.type_into(&field, "Hoist").input(Input::EndEdit);
    store.serve(&mut other);
    assert_eq!(store.titles(), ["Crane", "Hoist, copy"]);
}

#[test]
fn work_on_a_copy_leaves_the_record_as_it_is() {
    let mut store = Store::default();
    let (mut one, mut other, _) = two_tabs(&mut store);
    other.act(Action::WorkOnCopy);
    store.serve(&mut other);
    one.retitle("Crane", &mut store);
    assert_eq!(store.titles(), ["Cart, copy", "Crane"]);
    assert_eq!(other.title(), "Cart, copy");
}

#[test]
fn a_record_deleted_in_another_tab_comes_back_with_the_next_change() {
    let mut store = Store::default();
    let (mut one, mut other, id) = two_tabs(&mut store);
    one.shelf(ShelfInput::Delete(id.clone()), &mut store);
    other.shelf(ShelfInput::Gone(id), &mut store);
    assert!(other.cards().is_empty());
    other
        .retitle("Cart", &mut store)
        .retitle("Cart again", &mut store);
    assert_eq!(store.titles(), ["Cart again"]);
}

#[test]
fn a_browser_that_keeps_nothing_says_so_once() {
    let mut script = Script::demo("wash-drum");
    script
        .input(Input::Shelf(ShelfInput::NoStore))
        .input(Input::Shelf(ShelfInput::NoStore));
    assert_eq!(script.session.notices().len(), 1);
    assert!(
        script
            .notice(About::Store)
            .is_some_and(|text| text.contains("keeps nothing"))
    );
    script.input(Input::Shelf(ShelfInput::Dismiss(About::Store)));
    assert!(script.session.notices().is_empty());
}

#[test]
fn a_newer_program_is_offered_and_loaded_only_when_asked() {
    let mut script = Script::demo("wash-drum");
    script.input(Input::Shelf(ShelfInput::UpdateReady));
    assert!(script.effects.is_empty());
    let offer = script.session.notices()[0].offers[0].1.clone();
    script.input(offer);
    let load = Effect::Shelf(ShelfEffect::LoadUpdate);
    assert!(script.effects.contains(&Effect::Save) && script.effects.contains(&load));
}

#[test]
fn a_sheet_inside_another_page_is_looked_at_only() {
    let mut session = opening::embedded(&link_of("Sent"));
    assert_eq!(session.layout().title, "Sent");
    let before = session.file_text();
    let mut effects = Vec::new();
    for input in [
        Input::Act(Action::Place(Kind::Mesh)),
        Input::Act(Action::EmptyBench),
        Input::Act(Action::Undo),
        Input::DoubleClick(Point::new(100.0, 100.0)),
        Input::Key(KeyPress::new("Delete", false, false, false)),
        Input::Key(KeyPress::new("m", false, false, false)),
        Input::Shelf(ShelfInput::Duplicate("x".into())),
    ] {
        effects.extend(session.handle(input));
    }
    assert_eq!((session.file_text(), effects.len()), (before.clone(), 0));
    // A drag moves the view, wherever it begins.
    let origin = session.view().origin;
    let mut script = Script { session, effects };
    script.drag((300.0, 200.0), (350.0, 240.0));
    assert_ne!(script.session.view().origin, origin);
    assert_eq!(script.session.file_text(), before);
    assert!(!script.effects.contains(&Effect::Save));
}

#[test]
fn a_card_that_is_dropped_is_opened_and_not_kept_twice() {
    let mut store = Store::default();
    let mut script = tab("a", &mut store, None);
    script.opens("wash-drum", &mut store).retitle("Drum", &mut store);
    let text = script.session.file_text();
    script.act(Action::EmptyBench);
    store.serve(&mut script);
    script.input(Input::Dropped(text));
    store.serve(&mut script);
    assert_eq!(script.title(), "Drum");
    assert!(script.session.record_here().is_some());
    assert_eq!(script.cards(), ["Drum (here)"]);
}
