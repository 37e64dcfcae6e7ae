//! Shift positions.

use super::*;

#[test]
fn a_second_position_begins_as_a_copy_of_the_first() {
    let mut script = Script::empty();
    script.keys("amk").act(Action::AddPosition);
    assert_eq!(
        script
            .session
            .positions()
            .iter()
            .map(|(_, name)| name.as_str())
            .collect::<Vec<_>>(),
        ["First", "Second"]
    );
    assert_eq!(script.session.position().as_str(), "p7");
    let plan = script.session.engagement();
    assert_eq!(plan.elements.len(), 1);
    assert!(
        plan.positions.iter().all(|position| position.engaged == [true]),
        "a placed clutch is on at once"
    );
}

#[test]
fn x_engages_and_releases_in_the_position_shown_only() {
    let mut script = Script::empty();
    script.keys("amk").act(Action::AddPosition).key("ArrowLeft");
    assert_eq!(script.selected(), ["element-clutch6"]);
    script.key("x");
    assert_eq!(script.announced(), "clutch6 is off");
    let plan = script.session.engagement();
    assert_eq!(
        plan.positions
            .iter()
            .map(|position| position.engaged[0])
            .collect::<Vec<_>>(),
        [true, false]
    );
    assert!(
        script
            .session
            .scene()
            .elements
            .last()
            .is_some_and(|element| element.open)
    );
    script.key("1");
    assert!(
        script
            .session
            .scene()
            .elements
            .last()
            .is_some_and(|element| !element.open)
    );
}

#[test]
fn removing_and_undoing_keeps_a_position_shown() {
    let mut script = Script::empty();
    script
        .keys("am")
        .act(Action::AddPosition)
        .act(Action::RemovePosition);
    assert_eq!(script.session.positions().len(), 1);
    assert_eq!(script.session.position().as_str(), "only");
    script.act(Action::RemovePosition);
    assert_eq!(script.announced(), "A layout has at least one position");
    script.act(Action::Undo).act(Action::Undo);
    assert_eq!(
        script.session.positions(),
        [(Id::from("only"), "Only".to_owned())]
    );
}

#[test]
fn switching_is_told_and_changes_nothing_in_the_document() {
    let mut script = Script::demo("trail-cart-a");
    let before = script.session.file_text();
    script.key("2");
    assert!(
        script.announced().starts_with("Position Second: Second pulls 18"),
        "{}",
        script.announced()
    );
    assert_eq!(script.session.file_text(), before);
    assert_eq!(script.session.undo_name(), None);
    script.key("]");
    assert_eq!(
        script.session.positions()[0].0,
        *script.session.position(),
        "after the last comes the first"
    );
}

#[test]
fn a_position_is_named() {
    let mut script = Script::demo("trail-cart-a");
    let (id, _) = script.session.positions()[1].clone();
    let field = FieldRef {
        target: Target::Position(id),
        path: "name".to_owned(),
    };
    script.type_into(&field, "Crawl").input(Input::EndEdit);
    assert_eq!(script.session.positions()[1].1, "Crawl");
    assert!(
        script.session.headline().headline.starts_with("Crawl pulls"),
        "{:?}",
        script.session.headline()
    );
}
