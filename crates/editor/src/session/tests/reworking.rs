//! Inserting, turning round, other kinds, merging and splitting, through actions: one step of undo each, all told.

use super::*;

fn shaft(id: &str) -> Target {
    Target::Shaft(Id::from(id))
}

fn element(id: &str) -> Target {
    Target::Element(Id::from(id))
}

impl Script {
    fn pick(&mut self, targets: &[Target]) -> &mut Self {
        self.input(Input::Select {
            targets: targets.to_vec(),
            add: false,
            position: None,
        })
    }
}

/// A motor, two meshes and a winch: s1, s3, s5.
fn hoist() -> Script {
    let mut script = Script::empty();
    script.keys("ommn").key("Escape");
    script
}

fn check_undone(mut script: Script, before: &[String]) {
    script.act(Action::Undo);
    assert_eq!(script.outline(), before);
}

#[test]
fn an_idler_turns_the_sense_round_and_its_teeth_are_open() {
    let mut script = hoist();
    let before = script.outline();
    script.pick(&[element("g4")]).act(Action::InsertIdler);
    assert_eq!(script.ratio("s5"), "−1/9");
    assert!(script.session.editing().is_some_and(|editing| editing.fresh));
    assert!(
        script
            .announced()
            .starts_with("Idler of 12 teeth inserted into g4: s5, ratio minus one ninth"),
        "{}",
        script.announced()
    );
    script.input(Input::CancelEdit);
    check_undone(script, &before);
}

#[test]
fn a_stage_goes_behind_and_what_lies_beyond_moves_on() {
    let mut script = hoist();
    let before = script.outline();
    script
        .pick(&[element("g4")])
        .act(Action::InsertStage)
        .input(Input::CancelEdit);
    assert_eq!(script.ratio("s5"), "−1/27");
    check_undone(script, &before);
}

#[test]
fn turned_round_and_back() {
    let mut script = hoist();
    script.pick(&[element("g4"), element("g6")]).act(Action::Reverse);
    assert_eq!(script.ratio("s5"), "9");
    script.act(Action::Reverse);
    assert_eq!(script.ratio("s5"), "1/9");
    script.pick(&[element("motor2")]).act(Action::Reverse);
    assert_eq!(
        script.announced(),
        "motor2 is the same both ways round, so turning it changes nothing"
    );
}

#[test]
fn another_kind_on_the_same_shafts() {
    let mut script = hoist();
    script.pick(&[element("g4")]);
    let names: Vec<&str> = script
        .session
        .kind_choices()
        .iter()
        .map(|choice| choice.name)
        .collect();
    assert!(names.contains(&"Chain") && names.contains(&"Worm"));
    script.act(Action::ChangeInto(Kind::Chain));
    assert_eq!(script.ratio("s5"), "−1/9");
    assert!(
        script.announced().starts_with(
            "g4 changed from gear mesh to chain; its second shaft turns the other way round: s5"
        ),
        "{}",
        script.announced()
    );
    script.act(Action::ChangeInto(Kind::Motor));
    assert!(script.session.message().is_some_and(|message| message.is_error));
    script
        .pick(&[element("winch7")])
        .act(Action::ChangeInto(Kind::Vehicle));
    assert!(script.outline().contains(&"winch7: vehicle on s5".to_owned()));
}

#[test]
fn one_shaft_of_two_and_two_of_one() {
    let mut script = hoist();
    let before = script.outline();
    script.pick(&[shaft("s3"), element("g6")]).act(Action::SplitShaft);
    assert!(
        script.outline().contains(&"g6: gear mesh on s8 s5".to_owned()),
        "{:?}",
        script.outline()
    );
    assert_eq!(script.selected(), ["shaft-s8"]);
    script.pick(&[shaft("s3"), shaft("s8")]).act(Action::MergeShafts);
    assert_eq!(script.outline(), before);
    assert_eq!(script.selected(), ["shaft-s3"]);
    script.pick(&[shaft("s1"), shaft("s3")]).act(Action::MergeShafts);
    assert_eq!(
        script.announced(),
        "gear mesh g4 joins s1 and s3, and can't have two ends on one shaft: delete it first"
    );
}

#[test]
fn only_what_is_selected_is_set_out() {
    let mut script = hoist();
    script.pick(&[element("g6")]).act(Action::ArrangeSelected);
    assert_eq!(script.announced(), "2 shafts set out anew");
    script.pick(&[element("winch7")]).act(Action::ArrangeSelected);
    assert!(script.announced().starts_with("Select two shafts or more"));
}

#[test]
fn nothing_selected_is_told_what_to_select() {
    let mut script = hoist();
    script.pick(&[]);
    for action in [
        Action::InsertIdler,
        Action::InsertStage,
        Action::Reverse,
        Action::ChangeInto(Kind::Chain),
        Action::MergeShafts,
        Action::SplitShaft,
    ] {
        script.act(action);
        assert!(
            script.announced().starts_with("Select "),
            "{}",
            script.announced()
        );
    }
}
