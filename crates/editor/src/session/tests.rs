//! Scripted sessions without a browser: pointer, keys and fields as a person would use them.

mod building;
mod choosing_units;
mod comparing;
mod dragging;
mod editing;
mod gears;
mod groups;
mod hands;
mod influence;
mod keyboard;
mod large;
mod opening;
mod plan;
mod pointing;
mod positions;
mod random;
mod reading;
mod reworking;
mod running;
mod shelf;
mod skeleton;
mod sweeping;
mod two_speeds;

use super::*;
use crate::actions::Action;
use crate::catalogue::Kind;
use crate::geometry::{Point, Size};
use crate::keys::KeyPress;
use crate::target::FieldRef;
use crate::tools::{Button, Modifiers, Phase, Pointer, PointerKind};

/// A session with the few words that scripts are made of.
pub struct Script {
    pub session: Session,
    pub effects: Vec<Effect>,
}

impl Script {
    /// An empty bench of 1000 × 700, bench and screen coordinates the same.
    pub fn empty() -> Self {
        let mut script = Self {
            session: Session::empty(),
            effects: Vec::new(),
        };
        script.input(Input::Resize(Size {
            width: 1000.0,
            height: 700.0,
        }));
        script.session.view.origin = Point::default();
        script.session.view.zoom = 1.0;
        script.session.follows = false;
        script
    }

    /// A demo in a view of 1400 × 900.
    pub fn demo(id: &str) -> Self {
        let demo = crate::demos::demo(id).expect("a demo");
        Self::of(layshaft_layout::decode(demo.text).expect("demos are sound"))
    }

    /// A layout in a view of 1400 × 900.
    pub fn of(layout: Layout) -> Self {
        let mut script = Self {
            session: Session::new(layout),
            effects: Vec::new(),
        };
        script.input(Input::Resize(Size {
            width: 1400.0,
            height: 900.0,
        }));
        script
    }

    pub fn input(&mut self, input: Input) -> &mut Self {
        self.effects = self.session.handle(input);
        self
    }

    pub fn act(&mut self, action: Action) -> &mut Self {
        self.input(Input::Act(action))
    }

    pub fn key(&mut self, key: &str) -> &mut Self {
        self.input(Input::Key(KeyPress::new(key, false, false, false)))
    }

    /// Several keys, one after the other.
    pub fn keys(&mut self, keys: &str) -> &mut Self {
        for key in keys.chars() {
            self.key(&key.to_string());
        }
        self
    }

    pub fn shift(&mut self, key: &str) -> &mut Self {
        self.input(Input::Key(KeyPress::new(key, true, false, false)))
    }

    pub fn pointer(&mut self, phase: Phase, x: f64, y: f64) -> &mut Self {
        self.input(Input::Pointer(Pointer {
            phase,
            id: 1,
            at: Point::new(x, y),
            button: Button::Primary,
            kind: PointerKind::Mouse,
            modifiers: Modifiers::default(),
        }))
    }

    pub fn click(&mut self, x: f64, y: f64) -> &mut Self {
        self.pointer(Phase::Move, x, y)
            .pointer(Phase::Down, x, y)
            .pointer(Phase::Up, x, y)
    }

    /// Down, some steps, up.
    pub fn drag(&mut self, from: (f64, f64), to: (f64, f64)) -> &mut Self {
        self.pointer(Phase::Down, from.0, from.1);
        self.drag_on(from, to).pointer(Phase::Up, to.0, to.1)
    }

    /// Some steps with the button down.
    pub fn drag_on(&mut self, from: (f64, f64), to: (f64, f64)) -> &mut Self {
        for step in 1..=4 {
            let share = f64::from(step) / 4.0;
            let at = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
            self.pointer(Phase::Move, at.0, at.1);
        }
        self
    }

    /// Takes a kind in hand and clicks.
    pub fn place(&mut self, kind: Kind, x: f64, y: f64) -> &mut Self {
        self.act(Action::Place(kind)).click(x, y)
    }

    pub fn type_into(&mut self, field: &FieldRef, text: &str) -> &mut Self {
        self.input(Input::Type {
            field: field.clone(),
            text: text.to_owned(),
        })
    }

    /// The layout in one line for each thing, as far as tests care: `g3 mesh s1 s2 [12, 36]`.
    pub fn outline(&self) -> Vec<String> {
        outline(self.session.layout())
    }

    pub fn check(&self, expected: &[&str]) -> &Self {
        assert_eq!(self.outline(), expected);
        self
    }

    pub fn ratio(&self, shaft: &str) -> String {
        let position = &self.session.report().positions[0];
        let ratio = crate::summary::ratio_of(position, &Id::from(shaft));
        ratio.map_or_else(|| "none".to_owned(), |ratio| crate::RatioText::new(ratio).exact())
    }

    pub fn announced(&self) -> String {
        let said = self.effects.iter().filter_map(|effect| match effect {
            Effect::Announce(text) => Some(text.as_str()),
            _ => None,
        });
        said.collect::<Vec<_>>().join("; ")
    }

    pub fn selected(&self) -> Vec<String> {
        self.session.selection().iter().map(Target::key).collect()
    }
}

pub fn outline(layout: &Layout) -> Vec<String> {
    let shafts = layout
        .shafts
        .iter()
        .map(|shaft| format!("{} at {} {}", shaft.id, shaft.at[0], shaft.at[1]));
    let elements = layout.elements.iter().map(|element| {
        let ports = crate::parts::ports(&element.kind);
        let on: Vec<&str> = ports.iter().map(|port| port.shaft.as_str()).collect();
        let kind = Kind::of(&element.kind).entry().name.to_lowercase();
        format!("{}: {kind} on {}", element.id, on.join(" "))
    });
    shafts.chain(elements).collect()
}

pub fn teeth(element: &str, n: usize) -> FieldRef {
    FieldRef::element(&Id::from(element), &format!("teeth.{n}"))
}
