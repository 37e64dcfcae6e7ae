//! Pictures of all demos are read by another program's parser, hold their words as text and refer to nothing outside.

use super::*;
use crate::build_sheet::BuildChoice;
use crate::demos::DEMOS;
use crate::drawings::Drawing;
use crate::session::{Input, Session};
use crate::{Action, actions};

fn sheets() -> Vec<(String, Sheet)> {
    let mut all = Vec::new();
    for demo in DEMOS {
        let layout = layshaft_layout::decode(demo.text).expect("sound");
        let mut session = Session::new(layout);
        for drawing in [Drawing::Flow, Drawing::Skeleton, Drawing::Plan] {
            session.handle(Input::Act(actions::Action::Show(drawing)));
            all.push((
                format!("{} {drawing:?}", demo.id),
                session.drawing_sheet(&Ink::PAPER, None),
            ));
        }
    }
    all
}

#[test]
fn every_picture_is_sound_xml_and_stands_alone() {
    for (name, sheet) in sheets() {
        let document = roxmltree::Document::parse(&sheet.svg).expect(&name);
        let root = document.root_element();
        assert_eq!(
            root.tag_name().namespace(),
            Some("http://www.w3.org/2000/svg"),
            "{name}"
        );
        let size = |attribute| {
            root.attribute(attribute)
                .and_then(|text| text.parse::<f64>().ok())
        };
        assert!(
            size("width").is_some_and(|width| (width - sheet.width).abs() < 0.01),
            "{name}"
        );
        assert!(
            size("height").is_some_and(|height| (height - sheet.height).abs() < 0.01),
            "{name}"
        );
        assert!(!sheet.svg.contains("NaN") && !sheet.svg.contains("inf"), "{name}");
        for node in document.descendants().filter(|node| node.is_element()) {
            for attribute in node.attributes() {
                let value = attribute.value();
                assert_ne!(attribute.name(), "href", "{name}");
                assert!(
                    !value.contains("var(") && !value.contains("http"),
                    "{name}: {value}"
                );
                assert!(
                    !value.contains("url(") || value == "url(#heat)",
                    "{name}: {value}"
                );
            }
        }
    }
}

#[test]
fn a_picture_says_what_the_sheet_says() {
    let demo = crate::demos::demo("granary-hoist-stages").expect("a demo");
    let session = Session::new(layshaft_layout::decode(demo.text).expect("sound"));
    let sheet = session.drawing_sheet(&Ink::SLATE, None);
    let document = roxmltree::Document::parse(&sheet.svg).expect("sound");
    let texts: Vec<&str> = document
        .descendants()
        .filter(|node| node.tag_name().name() == "text")
        .filter_map(|node| node.text())
        .collect();
    for wanted in ["drum", "14", "42", "Overall ratio", "1/12", "0.0833"] {
        assert!(
            texts.iter().any(|text| text.contains(wanted)),
            "{wanted}: {texts:?}"
        );
    }
    assert!(sheet.svg.contains(Ink::SLATE.paper) && !sheet.svg.contains(Ink::PAPER.paper));
}

#[test]
fn names_with_signs_of_xml_do_no_harm() {
    let mut session = Session::empty();
    session.handle(Input::Act(Action::EmptyBench));
    let mut layout = (**session.layout()).clone();
    layout.title = "a < b & \"c\" \u{1}> ]]>".to_owned();
    let session = Session::new(layout);
    let sheet = session.drawing_sheet(&Ink::PRINT, None);
    let document = roxmltree::Document::parse(&sheet.svg).expect("sound");
    let title = document
        .descendants()
        .find(|node| node.tag_name().name() == "title");
    assert!(
        title
            .and_then(|node| node.text())
            .is_some_and(|text| text.starts_with("a < b & \"c\""))
    );
}

#[test]
fn the_drawing_chosen_on_the_build_sheet_is_the_one_saved_from_there() {
    let demo = crate::demos::demo("granary-hoist-stages").expect("a demo");
    let mut session = Session::new(layshaft_layout::decode(demo.text).expect("sound"));
    let saved = |session: &mut Session| {
        let file = actions::PictureFile::Svg;
        let effects = session.handle(Input::Face { file, face: None });
        effects.into_iter().find_map(|effect| match effect {
            crate::Effect::Download { name, .. } => Some(name),
            _ => None,
        })
    };
    session.handle(Input::ChooseBuild(BuildChoice {
        drawing: Drawing::Skeleton,
        ..BuildChoice::default()
    }));
    assert_eq!(saved(&mut session).as_deref(), Some("flow.svg"));
    session.handle(Input::Act(Action::Toggle(actions::Panel::Build)));
    assert_eq!(saved(&mut session).as_deref(), Some("skeleton.svg"));
}

#[test]
fn a_saved_picture_holds_the_face_of_the_page() {
    let font = include_bytes!("../../../../static/fonts/sofia-sans-semi-condensed-latin-wght-normal.woff2");
    let demo = crate::demos::demo("granary-hoist-stages").expect("a demo");
    let mut session = Session::new(layshaft_layout::decode(demo.text).expect("sound"));
    let save = Input::Act(Action::SaveDrawing(actions::PictureFile::Svg));
    let asked = session.handle(save);
    assert!(asked.contains(&crate::Effect::ReadFace(actions::PictureFile::Svg)));
    for (face, holds) in [(Some(font.as_slice().into()), true), (None, false)] {
        let file = actions::PictureFile::Svg;
        let saved = session.handle(Input::Face { file, face });
        let text = saved.into_iter().find_map(|effect| match effect {
            crate::Effect::Download { text, .. } => Some(text),
            _ => None,
        });
        let text = text.expect("it is saved with the face and without");
        let document = roxmltree::Document::parse(&text).expect("sound");
        let mut nodes = document.descendants();
        let style = nodes.find(|node| node.tag_name().name() == "style");
        let style = style.and_then(|node| node.text()).unwrap_or_default();
        let read = style
            .split_once("base64,")
            .and_then(|(_, rest)| rest.split_once(')'))
            .map(|(data, _)| base64::Engine::decode(&base64::engine::general_purpose::STANDARD, data));
        assert_eq!(read.is_some(), holds);
        if let Some(read) = read {
            assert!(style.starts_with("@font-face{font-family:'Sofia Sans Semi Condensed';"));
            assert_eq!(read.as_deref(), Ok(font.as_slice()));
        }
        assert!(
            text.len() < if holds { 100_000 } else { 40_000 },
            "{}",
            text.len()
        );
    }
}
