//! Arbitrary commands for a given layout. Most fit it; some name what is not there, so that refusals are tried too.

use layshaft_powerflow::materials::PAIRS;
use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::json;

use super::{element_kind, shaft_body, shaft_id, text};
use crate::document::*;
use crate::edit::{Command, Owner};

/// What a command is made from, before the layout that it is for is known.
#[derive(Clone, Debug)]
pub struct Seed {
    which: u8,
    picks: [Index; 3],
    kind: ElementKind,
    shaft: Shaft,
    text: String,
    flag: bool,
}

/// Any seeds of commands.
pub fn seeds() -> impl Strategy<Value = Vec<Seed>> {
    let ids = (0..6).map(shaft_id).collect();
    let seed = (
        0_u8..25,
        any::<[Index; 3]>(),
        element_kind(ids),
        shaft_body(),
        text(),
        any::<bool>(),
    );
    proptest::collection::vec(seed, 1..24).prop_map(|seeds| {
        let made = |(which, picks, kind, shaft, text, flag)| Seed {
            which,
            picks,
            kind,
            shaft,
            text,
            flag,
        };
        seeds.into_iter().map(made).collect()
    })
}

impl Seed {
    /// The command that this seed becomes for a layout.
    #[must_use]
    pub fn command(&self, layout: &Layout) -> Command {
        let (shaft, element, position) = (self.shaft(layout), self.element(layout), self.position(layout));
        let at = self.shaft.at;
        let index = self.picks[2].index(14);
        match self.which {
            0 => Command::SetTitle(self.text.clone()),
            1 => Command::SetDrive(self.flag.then_some(shaft)),
            2 => Command::SetCarried {
                name: "bin".to_owned(),
                value: self.flag.then(|| json!([12, 15])),
            },
            3 => Command::AddShaft {
                index,
                shaft: Shaft {
                    id: layout.next_shaft_id(),
                    ..self.shaft.clone()
                },
            },
            4 => Command::RemoveShaft { id: shaft },
            5 => Command::ReplaceShaft {
                shaft: Shaft {
                    id: shaft,
                    ..self.shaft.clone()
                },
            },
            6 => Command::MoveShafts {
                moves: vec![(shaft.clone(), at), (shaft, [at[1], at[0]])],
            },
            7 => Command::RenameShaft {
                from: shaft,
                to: layout.next_shaft_id(),
            },
            8 | 9 => Command::AddElement {
                index,
                element: self.made(layout.next_element_id("e")),
            },
            10 => Command::RemoveElement { id: element },
            11 => Command::ReplaceElement {
                element: self.made(element),
            },
            12 => Command::MoveElements {
                moves: vec![(element, self.flag.then_some(at))],
            },
            13 => Command::RenameElement {
                from: element,
                to: layout.next_element_id("e"),
            },
            14 => self.set_port(layout, element, shaft),
            15 => Command::SetField {
                owner: Owner::Element(element),
                field: if self.flag { "efficiency" } else { "friction" }.to_owned(),
                value: Some(json!(0.3)),
            },
            16 => Command::AddPosition {
                index,
                position: self.new_position(layout.next_position_id()),
            },
            17 => Command::RemovePosition { id: position },
            18 => Command::MovePosition {
                id: position,
                to: index,
            },
            19 => Command::RenamePosition {
                from: position,
                to: layout.next_position_id(),
            },
            20 => Command::SetMaterialPair(self.flag.then(|| self.pair().to_owned())),
            21 => Command::SetCourse(self.course()),
            22 => Command::SetGroups(self.groups(layout)),
            23 => {
                let mut plan = layout.plan.clone();
                plan.set_layer(&element, self.flag.then_some(2));
                Command::SetPlan(Box::new(plan))
            }
            _ => Command::SetEngaged {
                position,
                element,
                engaged: self.flag,
            },
        }
    }

    fn shaft(&self, layout: &Layout) -> Id {
        pick(&self.picks[0], layout.shafts.iter().map(|shaft| &shaft.id))
    }

    fn element(&self, layout: &Layout) -> Id {
        pick(&self.picks[1], layout.elements.iter().map(|element| &element.id))
    }

    fn position(&self, layout: &Layout) -> Id {
        let positions = layout.effective_positions();
        pick(&self.picks[2], positions.iter().map(|position| &position.id))
    }

    /// A pair that is there, or one that is not.
    fn pair(&self) -> &'static str {
        let names: Vec<&str> = PAIRS.iter().map(|pair| pair.name).chain(["cheese"]).collect();
        names[self.picks[0].index(names.len())]
    }

    fn groups(&self, layout: &Layout) -> Vec<Group> {
        let bits = u16::try_from(self.picks[0].index(1 << 16)).unwrap_or(1);
        let seed = (self.text.clone(), bits, self.flag);
        super::grouped(layout, &seed).into_iter().collect()
    }

    fn course(&self) -> Vec<Stretch> {
        let slope_deg = self.shaft.at[0] % 89.0;
        let stretch = Stretch {
            length_m: 2.0,
            slope_deg,
        };
        vec![stretch; self.picks[1].index(3)]
    }

    fn made(&self, id: Id) -> Element {
        Element {
            id,
            at: self.flag.then_some(self.shaft.at),
            kind: self.kind.clone(),
        }
    }

    fn new_position(&self, id: Id) -> Position {
        Position {
            id,
            name: self.text.clone(),
            engaged: Vec::new(),
        }
    }

    fn set_port(&self, layout: &Layout, element: Id, shaft: Id) -> Command {
        let ports = layout.element(&element).map(Element::ports).unwrap_or_default();
        let role = if ports.is_empty() {
            "a".to_owned()
        } else {
            self.picks[2].get(&ports).0.to_string()
        };
        Command::SetPort { element, role, shaft }
    }
}

/// One of the ids, or one that nothing bears.
fn pick<'i>(index: &Index, ids: impl Iterator<Item = &'i Id>) -> Id {
    let mut ids: Vec<Id> = ids.cloned().collect();
    ids.push(Id::from("nobody"));
    index.get(&ids).clone()
}
