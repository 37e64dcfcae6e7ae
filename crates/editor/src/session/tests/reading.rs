//! What a page reads: sheets, words, hidden answers, the view.

use super::*;
use crate::working::Piece;

#[test]
fn the_title_block_says_what_the_sheet_comes_to() {
    let script = Script::demo("granary-hoist-stages");
    let block = script.session.title_block();
    let rows: Vec<String> = block
        .rows
        .iter()
        .map(|row| format!("{} {} {}", row.label, row.value.text(), row.also))
        .collect();
    assert!(rows[0].starts_with("Overall ratio 1/12 0.0833"), "{rows:?}");
    assert!(
        rows.iter()
            .any(|row| row.starts_with("Pulls") && row.ends_with("until the motor stalls")),
        "{rows:?}"
    );
}

#[test]
fn the_summing_hoist_pulls_less_than_half() {
    let pull = |demo: &str| {
        let script = Script::demo(demo);
        let stall = script.session.report().positions[0]
            .stall
            .clone()
            .expect("it can pull");
        stall.pull.expect("a rope").to_newtons()
    };
    assert!(pull("granary-hoist-summing") < 0.5 * pull("granary-hoist-stages"));
}

#[test]
fn findings_select_what_they_speak_of() {
    let mut script = Script::demo("trail-cart-a");
    let words = script.session.headline();
    assert!(!words.places.is_empty());
    script.input(Input::Select {
        targets: words.places.clone(),
        add: false,
        position: words.position.clone(),
    });
    assert_eq!(**script.session.selection(), words.places);
    assert_eq!(Some(script.session.position()), words.position.as_ref());
}

#[test]
fn a_jam_is_the_headline() {
    let mut script = Script::empty();
    let text = include_str!("jammed.layshaft.json");
    script.input(Input::OpenText {
        text: text.to_owned(),
        name: "jammed".to_owned(),
    });
    assert_eq!(
        script.session.headline().headline,
        "Nothing can turn: ab, bc and ca lock one another"
    );
    let scene = script.session.scene();
    assert!(
        scene
            .shafts
            .iter()
            .all(|shaft| shaft.standing == crate::scene::Standing::Jammed && shaft.period_s.is_none())
    );
}

#[test]
fn hidden_answers_are_nowhere() {
    let mut script = Script::demo("granary-hoist-stages");
    script.act(Action::HideAnswers);
    let session = &script.session;
    let texts = [
        format!("{:?}", session.scene()),
        format!("{:?}", session.ledger()),
        format!("{:?}", session.title_block()),
        format!("{:?}", session.comparison()),
        format!("{:?}", session.headline()),
        format!("{:?}", session.working().map(|sheet| sheet.lines)),
    ];
    for text in texts {
        assert!(
            !text.contains("one twelfth") && !text.contains("\"12\"), decimal"),
            "{text}"
        );
        assert!(!text.contains("rpm\", unit_spoken"), "{text}");
    }
    assert!(session.findings().is_empty());
}

#[test]
fn answers_are_revealed_one_by_one() {
    let mut script = Script::demo("granary-hoist-stages");
    script
        .act(Action::HideAnswers)
        .act(Action::Toggle(Panel::Working));
    let blanks = |script: &Script| {
        let sheet = script.session.working().expect("a working");
        sheet
            .lines
            .iter()
            .filter(|line| line.pieces.contains(&Piece::Blank))
            .count()
    };
    assert_eq!(blanks(&script), 2);
    script.input(Input::Reveal(1));
    assert_eq!(blanks(&script), 1);
    script.act(Action::HideAnswers);
    assert_eq!(blanks(&script), 0);
}

#[test]
fn lit_lines_are_lit_on_the_drawing() {
    let mut script = Script::demo("granary-hoist-stages");
    let sheet = script.session.working().expect("a working");
    script.input(Input::Light(sheet.lines[1].places.clone()));
    let lit = script
        .session
        .scene()
        .elements
        .iter()
        .filter(|item| item.emphasis == crate::scene::Emphasis::Lit)
        .count();
    assert_eq!(lit, 1);
    script.input(Input::Light(Vec::new()));
    assert!(
        script
            .session
            .scene()
            .elements
            .iter()
            .all(|item| item.emphasis == crate::scene::Emphasis::Plain)
    );
}

#[test]
fn fitting_shows_everything_and_follows_the_window() {
    let mut script = Script::demo("trail-cart-a");
    for (width, height) in [(1440.0, 900.0), (390.0, 600.0), (300.0, 200.0)] {
        script.input(Input::Resize(Size { width, height }));
        let (scene, view) = (script.session.scene(), script.session.view());
        let corner = view.to_screen(Point::new(scene.bounds.x, scene.bounds.y));
        let other = view.to_screen(Point::new(scene.bounds.right(), scene.bounds.bottom()));
        assert!(
            corner.x >= 0.0 && corner.y >= 0.0 && other.x <= width && other.y <= height,
            "{width}: {corner:?} {other:?}"
        );
    }
    script.input(Input::Zoom {
        at: Point::new(100.0, 100.0),
        by: 2.0,
    });
    let zoom = script.session.view().zoom;
    script.input(Input::Resize(Size {
        width: 1000.0,
        height: 800.0,
    }));
    assert!(
        (script.session.view().zoom - zoom).abs() < 1e-12,
        "who has zoomed keeps it"
    );
}

/// Letters are set larger where they would be small, and larger labels need more room: whatever was seen before, the
/// fit must come to rest with all of it inside.
#[test]
fn every_demo_fits_whatever_was_seen_before() {
    for demo in crate::demos::DEMOS {
        let mut script = Script::demo(demo.id);
        for step in 0..120 {
            let width = 300.0 + 9.0 * f64::from(step);
            for size in [[1374.0, 390.0], [width, 334.0]] {
                let [width, height] = size;
                script.input(Input::Resize(Size { width, height }));
                let (scene, view) = (script.session.scene(), script.session.view());
                let corner = view.to_screen(Point::new(scene.bounds.x, scene.bounds.y));
                let other = view.to_screen(Point::new(scene.bounds.right(), scene.bounds.bottom()));
                let inside = corner.x >= 0.0 && corner.y >= 0.0 && other.x <= width && other.y <= height;
                assert!(inside, "{} at {width} by {height}: {corner:?} {other:?}", demo.id);
            }
        }
    }
}

#[test]
fn the_ledger_has_a_row_for_every_shaft_and_every_end() {
    let script = Script::demo("granary-hoist-stages");
    let table = script.session.ledger().expect("it can be computed");
    assert_eq!(table.rows.iter().filter(|row| row.group == "Shafts").count(), 3);
    assert_eq!(
        table.rows.iter().filter(|row| row.group == "Connections").count(),
        6
    );
    assert!(
        table
            .rows
            .iter()
            .all(|row| row.cells.len() == table.columns.len())
    );
    assert!(table.csv().lines().count() == 10);
}

#[test]
fn details_follow_the_selection() {
    let mut script = Script::demo("granary-hoist-stages");
    assert_eq!(
        script.session.details().map(|details| details.title).as_deref(),
        Some("This layout")
    );
    script.input(Input::Focus(Target::Element(Id::from("g1"))));
    let details = script.session.details().expect("a mesh");
    assert_eq!(details.title, "g1, gear mesh");
    assert!(details.fields.iter().any(|field| field.field.path == "teeth.0"));
    assert!(details.results.iter().any(|row| row.label == "Efficiency"));
}

#[test]
fn arranging_sets_layers_from_the_drive() {
    let mut script = Script::demo("granary-hoist-summing");
    script.act(Action::Arrange);
    let layout = script.session.layout();
    let places: std::collections::BTreeSet<_> = layout
        .shafts
        .iter()
        .map(|shaft| (shaft.at[0].to_bits(), shaft.at[1].to_bits()))
        .collect();
    assert_eq!(places.len(), layout.shafts.len(), "no two in one place");
    script.act(Action::Undo);
    assert_eq!(script.session.undo_name(), None);
}

#[test]
fn positions_that_are_as_they_should_be_are_told_apart_by_their_pull() {
    let script = Script::demo("trail-cart-b");
    let headline = script.session.headline().headline;
    let second = headline
        .strip_prefix("Second climbs ")
        .expect("the stronger one comes first");
    assert!(second.contains("°, First "), "{headline}");
}

#[test]
fn tables_are_sorted_and_saved_as_a_person_wants_them() {
    use crate::session::Effect;
    use crate::table::TableName;
    let mut script = Script::demo("granary-hoist-stages");
    let names = |script: &Script| -> Vec<String> {
        let table = script.session.ledger().expect("computed");
        table.rows.iter().map(|row| row.cells[0].text()).collect()
    };
    let before = names(&script);
    script
        .session
        .handle(Input::SortTable(TableName::Ledger, "Power"));
    assert_ne!(names(&script), before);
    script
        .session
        .handle(Input::SortTable(TableName::Ledger, "Power"));
    script
        .session
        .handle(Input::SortTable(TableName::Ledger, "Power"));
    assert_eq!(names(&script), before);
    script.session.handle(Input::ShowColumn {
        table: TableName::Ledger,
        column: "Loss from",
        shown: false,
    });
    script
        .session
        .handle(Input::SetUnit(crate::units::Switchable::Torque, "kgf·cm"));
    let effects = script
        .session
        .handle(Input::Act(Action::SaveTable(TableName::Ledger)));
    let Some(Effect::Download { name, text }) = effects.first() else {
        panic!("nothing was saved: {effects:?}");
    };
    assert_eq!(name, "ledger.csv");
    assert!(
        text.starts_with("Name,Part,Ratio,Speed (rpm),Torque (kgf·cm),Power (W),Loss (W),Efficiency (%)\r\n"),
        "{text}"
    );
    let kept = script.session.preferences();
    let mut other = Script::demo("granary-hoist-stages");
    other.session.handle(Input::SetPreferences(kept.clone()));
    assert_eq!(other.session.preferences(), kept);
}

#[test]
fn a_number_that_is_pressed_says_where_it_comes_from() {
    let mut script = Script::demo("granary-hoist-stages");
    script.session.handle(Input::Explain {
        target: Target::Element("g2".into()),
        end: 1,
    });
    assert_eq!(script.session.panel(), Some(crate::Panel::Working));
    let found = script.session.explanation().expect("it has numbers");
    assert!(found.lines[0].contains("× 52/13 ×"), "{found:?}");
    script.act(Action::HideAnswers);
    assert_eq!(script.session.explanation(), None);
}

/// Whatever units are chosen, headline and findings speak in them and the document stays as it is.
#[test]
fn units_change_what_is_told_and_nothing_else() {
    let mut script = Script::demo("granary-hoist-stages");
    let file = script.session.file_text();
    assert!(script.session.headline().headline.contains("\u{202F}N"));
    script
        .session
        .handle(Input::SetUnit(crate::units::Switchable::Force, "kgf"));
    let headline = script.session.headline().headline;
    assert!(headline.contains("\u{202F}kgf"), "{headline}");
    assert_eq!(script.session.file_text(), file);
    script.act(Action::NextUnit(crate::units::Switchable::Force));
    assert!(script.session.headline().headline.contains("\u{202F}N"));
}
