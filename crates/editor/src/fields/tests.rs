//! What the details panel shows and takes, field by field.

use super::*;

fn hoist() -> Layout {
    layshaft_layout::decode(
        r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "efficiency": 0.9},
        {"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 30, "rope_mm": 1, "layers": 1, "mass_kg": 6}]}"#,
    )
    .expect("sound")
}

fn check(element: &str, path: &str, typed: &str, expected: Result<&str, &str>) {
    let mut layout = hoist();
    let field = FieldRef::element(&Id::from(element), path);
    let outcome = edit(&layout, &field, typed, Units::default()).map(|command| {
        layout.apply(&command).expect("edit has tried it");
        current_text(&layout, &field)
    });
    assert_eq!(outcome.as_deref().map_err(String::as_str), expected);
}

#[test]
fn typing_sets_what_the_field_shows() {
    check("g", "teeth.0", "24", Ok("24"));
    check("g", "efficiency", "88 %", Ok("0.88"));
    check("g", "efficiency", "", Ok(""));
    check("w", "mass_kg", "500 g", Ok("0.5"));
    check("w", "drum_mm", "3,2 cm", Ok("32"));
}

#[test]
fn a_vehicle_takes_and_loses_driven_wheels() {
    let mut layout = hoist();
    let kind = crate::catalogue::default_element(crate::Kind::Vehicle, &[Id::from("a")]).expect("an element");
    let element = layshaft_layout::Element {
        id: Id::from("cart"),
        at: None,
        kind,
    };
    layout
        .apply(&Command::AddElement { index: 9, element })
        .expect("sound");
    let mut wheels = |path: &str, text: &str| {
        let command = edit(
            &layout,
            &FieldRef::element(&Id::from("cart"), path),
            text,
            Units::default(),
        )
        .expect("a sound change");
        layout.apply(&command).expect("edit has tried it");
        let cart = layout.element(&Id::from("cart")).expect("it is there");
        parts::ports(&cart.kind)
            .iter()
            .map(|port| port.shaft.to_string())
            .collect::<Vec<_>>()
    };
    assert_eq!(wheels("shafts.1", "b"), ["a", "b"]);
    assert_eq!(wheels("shafts.1", ""), ["a"]);
}

#[test]
fn materials_show_their_range_and_what_stands_behind_it() {
    let mut layout = hoist();
    let field = FieldRef::element(&Id::from("g"), "material_pair");
    let command = edit(&layout, &field, "acetal-acetal-dry", Units::default()).expect("a known pair");
    layout.apply(&command).expect("sound");
    let told = told_of_materials(&layout);
    assert!(
        told.contains("0.21 to 0.35")
            && told.contains("handbook range, from memory")
            && told.contains("VDI 2736"),
        "{told}"
    );
    // Choosing materials was enough: the efficiency made way.
    assert_eq!(
        current_text(&layout, &FieldRef::element(&Id::from("g"), "efficiency")),
        ""
    );
}

#[test]
fn gears_without_a_loss_say_that_the_layout_s_materials_count() {
    let mut layout = hoist();
    for (field, text) in [
        (FieldRef::element(&Id::from("g"), "efficiency"), ""),
        (
            FieldRef {
                target: Target::Layout,
                path: "material_pair".to_owned(),
            },
            "nylon-steel-greased",
        ),
    ] {
        let command = edit(&layout, &field, text, Units::default()).expect("a sound change");
        layout.apply(&command).expect("edit has tried it");
    }
    let told = told_of_materials(&layout);
    assert!(
        told.starts_with("The layout says Nylon on steel, greased."),
        "{told}"
    );
}

fn told_of_materials(layout: &Layout) -> String {
    let input = DetailsInput {
        layout,
        position: None,
        editing: None,
        hide_answers: false,
        units: Units::default(),
    };
    let details = details(input, &Target::Element(Id::from("g"))).expect("it is there");
    let field = details
        .fields
        .iter()
        .find(|field| field.field.path == "material_pair");
    field.expect("a mesh has it").hint.to_string()
}

#[test]
fn a_bad_entry_is_answered_in_a_sentence() {
    check("g", "teeth.0", "0", Err("A gear needs at least 1 tooth, got 0."));
    check(
        "g",
        "teeth.0",
        "many",
        Err("“many” is no number. Type a whole number, such as 24."),
    );
}

#[test]
fn every_field_that_is_shown_can_be_set_to_what_it_shows() {
    for entry in crate::catalogue::entries() {
        let mut layout = hoist();
        let shafts = [Id::from("a"), Id::from("b"), Id::from("c")];
        let extra = parts::new_shaft(&shafts[2], crate::Point::default());
        layout
            .apply(&Command::AddShaft {
                index: 9,
                shaft: extra,
            })
            .expect("a new shaft");
        let Some(kind) = crate::catalogue::default_element(entry.kind, &shafts) else {
            continue;
        };
        layout.positions = crate::catalogue::SWITCHED
            .map(|id| layshaft_layout::Position {
                id: Id::from(id),
                name: id.to_owned(),
                engaged: Vec::new(),
            })
            .to_vec();
        let element = layshaft_layout::Element {
            id: Id::from("x"),
            at: None,
            kind,
        };
        layout
            .apply(&Command::AddElement { index: 9, element })
            .expect("the default of a kind is sound");
        let input = DetailsInput {
            layout: &layout,
            position: None,
            editing: None,
            hide_answers: false,
            units: Units::default(),
        };
        let details = details(input, &Target::Element(Id::from("x"))).expect("it is there");
        for field in details.fields.into_iter().chain(details.seldom) {
            let outcome = edit(&layout, &field.field, &field.text, Units::default());
            assert!(
                outcome.is_ok(),
                "{} of {}: {outcome:?}",
                field.field.path,
                entry.name
            );
        }
    }
}

/// Showing a field in any units and leaving it as it is changes nothing, and what is typed is read in the unit shown.
#[test]
fn fields_are_shown_and_read_in_the_units_chosen() {
    let units = Units::from_kept_text("rad/s kgf·cm kgf in");
    for demo in crate::demos::DEMOS {
        let layout = layshaft_layout::decode(demo.text).expect(demo.name);
        let targets = layout
            .elements
            .iter()
            .map(|element| Target::Element(element.id.clone()))
            .chain(layout.shafts.iter().map(|shaft| Target::Shaft(shaft.id.clone())));
        for target in targets {
            let input = DetailsInput {
                layout: &layout,
                position: None,
                editing: None,
                hide_answers: false,
                units,
            };
            let details = details(input, &target).expect("it is there");
            for field in details.fields.iter().chain(&details.seldom) {
                assert_eq!(
                    edit(&layout, &field.field, &field.text, units),
                    Ok(Command::Batch(Vec::new())),
                    "{:?} {}",
                    field.field,
                    field.text
                );
            }
        }
    }
}

#[test]
fn a_field_shows_its_unit_and_takes_others() {
    let units = Units::from_kept_text("rad/s kgf·cm kgf in");
    let mut layout = layshaft_layout::decode(
        r#"{"layshaft": 1, "shafts": [{"id": "s"}], "elements": [{"id": "w", "kind": "winch", "shaft": "s", "drum_mm": 25.4, "pull_n": 5},
            {"id": "c", "kind": "crank", "shaft": "s", "speed_rpm": 60}]}"#,
    )
    .expect("sound");
    let winch = |path: &str| FieldRef::element(&Id::from("w"), path);
    assert_eq!(shown_text(&layout, &winch("drum_mm"), units), "1");
    for (path, typed, kept, shown) in [
        ("drum_mm", "1/2", "12.7", "0.5"),
        ("drum_mm", "30 mm", "30", "1.1811"),
        ("pull_n", "2", "19.6133", "2"),
        ("pull_n", "20 N", "20", "2.03943"),
    ] {
        let command = edit(&layout, &winch(path), typed, units).expect(typed);
        layout.apply(&command).expect(typed);
        assert_eq!(current_text(&layout, &winch(path)), kept, "{typed}");
        assert_eq!(shown_text(&layout, &winch(path), units), shown, "{typed}");
    }
    assert_eq!(
        edit(&layout, &winch("pull_n"), "2 kg", units),
        Err("kg is a mass; this is a force: N, kN, kgf, gf or lbf.".to_owned())
    );
}
