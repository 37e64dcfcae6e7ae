//! Building fast: numbers open by themselves, chains of parts by keys, joining two shafts, placing again.

use super::*;

impl Script {
    /// Types into the field that is open.
    fn number(&mut self, text: &str) -> &mut Self {
        let field = self.session.editing().expect("a number is open").field.clone();
        self.type_into(&field, text)
    }

    /// A number and Tab.
    fn tab(&mut self, text: &str) -> &mut Self {
        self.number(text).input(Input::NextField { back: false })
    }

    /// A number and Enter.
    fn enter(&mut self, text: &str) -> &mut Self {
        self.number(text).input(Input::EndEdit)
    }
}

#[test]
fn a_train_is_typed_with_its_teeth() {
    let mut script = Script::empty();
    script.key("o").key("m");
    let editing = script
        .session
        .editing()
        .expect("the first number is open")
        .clone();
    assert_eq!((editing.field, editing.fresh), (teeth("g4", 0), true));
    script.tab("14");
    assert_eq!(
        script.session.editing().map(|editing| editing.field.clone()),
        Some(teeth("g4", 1))
    );
    script.enter("42");
    assert_eq!(script.selected(), ["shaft-s3"]);
    assert!(
        script
            .effects
            .contains(&Effect::Focus(Target::Shaft(Id::from("s3"))))
    );
    script.key("m").tab("13").enter("52").key("n").enter("3");
    assert_eq!(script.ratio("s5"), "1/12");
    assert_eq!(script.selected(), ["shaft-s5"]);
    assert!(
        script.announced().contains("s5, ratio one twelfth"),
        "{}",
        script.announced()
    );
}

#[test]
fn a_number_not_typed_into_lets_letters_and_undo_through() {
    let mut script = Script::empty();
    script.key("m").key("m");
    assert_eq!(script.ratio("s4"), "1/9");
    script.input(Input::Key(KeyPress::new("z", false, true, false)));
    assert!(script.session.editing().is_none());
    assert_eq!(script.session.layout().shafts.len(), 2);
}

#[test]
fn esc_in_the_number_keeps_the_part_and_goes_on_from_its_output() {
    let mut script = Script::empty();
    script.key("m").input(Input::CancelEdit);
    assert!(script.session.editing().is_none());
    assert_eq!(script.selected(), ["shaft-s2"]);
    assert_eq!(script.session.layout().elements.len(), 1);
}

#[test]
fn a_part_dropped_by_the_pointer_opens_its_number_and_shift_keeps_it_in_hand() {
    let mut script = Script::empty();
    script.input(Input::TrayDrop(Kind::Mesh, Point::new(300.0, 300.0)));
    assert_eq!(script.selected(), ["element-g3"]);
    script.tab("10").enter("40");
    assert_eq!(
        (script.ratio("s2").as_str(), script.selected()),
        ("−1/4", vec!["element-g3".to_owned()])
    );
}

#[test]
fn shift_tab_goes_back_and_what_is_wrong_stays_open() {
    let mut script = Script::empty();
    script.key("m").tab("14").input(Input::NextField { back: true });
    assert_eq!(
        script.session.editing().map(|editing| editing.field.clone()),
        Some(teeth("g3", 0))
    );
    script.tab("none");
    let editing = script.session.editing().expect("it stays open");
    assert_eq!(editing.field, teeth("g3", 0));
    assert!(editing.problem.is_some());
}

#[test]
fn joining_chooses_any_shaft_and_the_next_part_joins_the_two() {
    let mut script = Script::empty();
    script.keys("mmm").key("Escape").key("Home");
    assert_eq!(script.selected(), ["shaft-s1"]);
    script.shift("j");
    assert_eq!(script.selected(), ["shaft-s1", "shaft-s6"]);
    assert_eq!(
        script.announced(),
        "From s1 to s6: a part's key joins them, arrow keys choose another shaft"
    );
    assert!(script.session.scene().overlay.band.is_some());
    script.key("ArrowLeft").key("k");
    assert_eq!(
        script.outline().last().map(String::as_str),
        Some("clutch8: dog clutch on s1 s4")
    );
    assert!(script.session.scene().overlay.band.is_none());
    script.key("Home").shift("j").key("Escape");
    assert_eq!(script.selected(), ["shaft-s1"]);
}

#[test]
fn placing_again_takes_the_numbers_along() {
    let mut script = Script::empty();
    script.key("m").tab("14").enter("42").shift("a").shift("a");
    assert_eq!(script.ratio("s6"), "−1/27");
}

#[test]
fn a_new_part_dropped_on_a_connection_goes_into_it() {
    let mut script = Script::empty();
    script.key("m").key("Escape");
    let at = script.session.view().to_screen(
        script
            .session
            .scene()
            .place_of(&Target::Element(Id::from("g3")))
            .expect("it is drawn"),
    );
    script.input(Input::TrayOver(Kind::Mesh, at));
    assert_eq!(
        script.session.scene().elements[0].emphasis,
        crate::scene::Emphasis::Lit
    );
    script.input(Input::TrayDrop(Kind::Mesh, at));
    let outline = script.outline();
    assert_eq!(
        outline[outline.len() - 2..],
        ["g3: gear mesh on s1 s4", "g5: gear mesh on s4 s2"]
    );
    assert_eq!(script.ratio("s2"), "1/9");
    script.key("Escape").act(Action::Undo);
    assert_eq!(script.ratio("s2"), "−1/3");
}

/// A torque-shifted two-speed with a summing differential, by keys alone.
#[test]
fn a_two_speed_is_built_by_keys() {
    let mut script = Script::empty();
    script.key("o").key("q").tab("0.1").enter("0.05");
    script.key("m").tab("12").enter("36");
    script.key("m").tab("20").enter("20");
    assert_eq!(script.selected(), ["shaft-s8"]);
    script.key("ArrowLeft").key("ArrowLeft");
    assert_eq!(script.selected(), ["shaft-s6"]);
    script.key("m").tab("12").enter("24");
    script.key("]").key("k").key("m").tab("12").enter("24");
    assert_eq!(script.selected(), ["shaft-s14"]);
    script.shift("j");
    assert_eq!(script.selected(), ["shaft-s14", "shaft-s8"]);
    script.key("d");
    assert_eq!(script.selected(), ["shaft-s16"]);
    script.key("[").key("ArrowLeft").key("ArrowDown");
    assert_eq!(script.selected(), ["shaft-s14"]);
    script.key("h").key("End");
    assert_eq!(script.selected(), ["shaft-s16"]);
    script.key("m").tab("12").enter("24").key("v").enter("1.4");
    assert_eq!(ratios(&script, "s19"), ["−1/12", "−1/16"]);
}

/// The ratio of a shaft in every position.
fn ratios(script: &Script, shaft: &str) -> Vec<String> {
    let positions = &script.session.report().positions;
    let ratio = |position| crate::summary::ratio_of(position, &Id::from(shaft));
    positions
        .iter()
        .map(|position| {
            ratio(position).map_or_else(String::new, |ratio| crate::RatioText::new(ratio).exact())
        })
        .collect()
}

#[test]
fn what_is_put_beyond_the_edge_comes_into_view_with_its_number() {
    let mut script = Script::empty();
    script.input(Input::Resize(Size {
        width: 370.0,
        height: 460.0,
    }));
    script.input(Input::TrayDrop(Kind::Mesh, Point::new(190.0, 230.0)));
    script.keys("Enter");
    let first = script.session.layout().shafts.first().expect("a shaft").at;
    let at = script.session.view().to_screen(Point::new(first[0], first[1]));
    script.input(Input::TrayDrop(Kind::Crank, at));
    number_is_in_view(&script);
    // The headline grows with what it says, and the drawing gets lower.
    script.input(Input::Resize(Size {
        width: 370.0,
        height: 300.0,
    }));
    number_is_in_view(&script);
}

fn number_is_in_view(script: &Script) {
    let editing = script.session.editing().expect("an open number");
    let place = editing.place.expect("it is on the drawing");
    assert_eq!(Some(place), script.session.edit_place(&editing.field));
    let at = script.session.view().to_screen(place.centre());
    let size = script.session.view().size;
    assert!(
        (0.0..=size.width).contains(&at.x) && (0.0..=size.height).contains(&at.y),
        "{at:?}"
    );
}
