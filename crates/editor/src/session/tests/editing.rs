//! Typing into fields.

use super::*;

fn mesh() -> Script {
    let mut script = Script::empty();
    script.keys("om");
    script
}

#[test]
fn every_keystroke_is_seen_and_all_of_them_are_one_change() {
    let mut script = mesh();
    let field = teeth("g4", 1);
    script.type_into(&field, "1");
    assert_eq!(script.ratio("s3"), "−12");
    script.type_into(&field, "18");
    assert_eq!(script.ratio("s3"), "−2/3");
    assert!(
        !script.session.file_text().contains("18"),
        "nothing is stored before it is done"
    );
    script.input(Input::EndEdit);
    assert!(script.effects.contains(&Effect::Save));
    script.act(Action::Undo);
    assert_eq!(script.ratio("s3"), "−1/3");
}

#[test]
fn what_is_wrong_is_said_at_the_field_and_the_last_good_layout_stays() {
    let mut script = mesh();
    let field = teeth("g4", 1);
    script.type_into(&field, "24").type_into(&field, "24x9");
    assert_eq!(script.ratio("s3"), "−1/2", "the last good text is still shown");
    let problem = script
        .session
        .editing()
        .and_then(|editing| editing.problem.clone());
    assert_eq!(
        problem.as_deref(),
        Some("“24x9” is no number. Type a whole number, such as 24.")
    );
    script.input(Input::EndEdit);
    assert_eq!(script.ratio("s3"), "−1/3", "and what was never right is not kept");
    assert!(
        script.session.editing().is_some(),
        "the field keeps its text and its sentence"
    );
    script.type_into(&field, "48").input(Input::EndEdit);
    assert_eq!(
        (script.ratio("s3"), script.session.editing()),
        ("−1/4".to_owned(), None)
    );
}

#[test]
fn a_tooth_count_of_nothing_is_refused_in_a_sentence() {
    let mut script = mesh();
    script.type_into(&teeth("g4", 0), "0");
    let problem = script
        .session
        .editing()
        .and_then(|editing| editing.problem.clone());
    assert_eq!(problem.as_deref(), Some("A gear needs at least 1 tooth, got 0."));
}

#[test]
fn esc_puts_back_what_was() {
    let mut script = mesh();
    script.type_into(&teeth("g4", 1), "99").input(Input::CancelEdit);
    assert_eq!(
        (script.ratio("s3"), script.session.editing()),
        ("−1/3".to_owned(), None)
    );
    assert_eq!(
        script.session.undo_name().as_deref(),
        Some("Undo place gear mesh g4")
    );
}

#[test]
fn arrow_keys_step_a_field_and_leave_one_change() {
    let mut script = mesh();
    let field = teeth("g4", 0);
    for _ in 0..6 {
        script.input(Input::StepField {
            field: field.clone(),
            by: 1,
        });
    }
    assert_eq!(script.ratio("s3"), "−1/2");
    script.input(Input::EndEdit).act(Action::Undo);
    assert_eq!(script.ratio("s3"), "−1/3");
}

#[test]
fn decimals_step_as_people_count() {
    let mut script = mesh();
    let field = FieldRef::element(&Id::from("g4"), "efficiency");
    for _ in 0..3 {
        script.input(Input::StepField {
            field: field.clone(),
            by: -1,
        });
    }
    assert_eq!(
        script.session.editing().map(|editing| editing.text.as_str()),
        Some("0.87")
    );
}

#[test]
fn a_shaft_takes_a_new_name_everywhere() {
    let mut script = mesh();
    script
        .type_into(&FieldRef::shaft(&Id::from("s3"), "id"), "drum")
        .input(Input::EndEdit);
    assert_eq!(
        script.outline()[1..],
        [
            "drum at 740 360",
            "motor2: motor on s1",
            "g4: gear mesh on s1 drum"
        ]
    );
    assert_eq!(script.selected(), ["shaft-drum"]);
    script.type_into(&FieldRef::shaft(&Id::from("drum"), "id"), "s1");
    let problem = script
        .session
        .editing()
        .and_then(|editing| editing.problem.clone());
    assert_eq!(
        problem.as_deref(),
        Some("The id `s1` is already taken; choose another.")
    );
}

#[test]
fn the_title_is_edited_in_its_block() {
    let mut script = mesh();
    script.type_into(
        &FieldRef {
            target: Target::Layout,
            path: "title".to_owned(),
        },
        "Hoist",
    );
    assert_eq!(script.session.title_block().title, "Hoist");
    script.input(Input::EndEdit);
    assert_eq!(script.session.file_name(), "hoist.layshaft.json");
}

#[test]
fn beginning_elsewhere_ends_what_was_being_typed() {
    let mut script = mesh();
    script.type_into(&teeth("g4", 0), "18");
    script.input(Input::BeginEdit(teeth("g4", 1)));
    assert_eq!(script.ratio("s3"), "−1/2");
    assert_eq!(
        script
            .session
            .editing()
            .map(|editing| editing.field.path.as_str()),
        Some("teeth.1")
    );
}

#[test]
fn a_repair_is_one_change() {
    let mut script = Script::empty();
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42]},
        {"id": "c", "kind": "crank", "shaft": "a", "speed_rpm": 60},
        {"id": "l", "kind": "load", "shaft": "b", "torque_nm": 1}]}"#;
    script.input(Input::OpenText {
        text: text.to_owned(),
        name: "lossless".to_owned(),
    });
    let note = script
        .session
        .findings()
        .into_iter()
        .find(|words| words.repair.is_some())
        .expect("no loss is given");
    let repair = note.repair.expect("it has one");
    assert_eq!(repair.label, "Set efficiency 0.9");
    script.input(*repair.input);
    assert!(
        script
            .session
            .findings()
            .iter()
            .all(|words| words.repair.is_none())
    );
    script.act(Action::Undo);
    assert!(!script.session.file_text().contains("efficiency"));
}
