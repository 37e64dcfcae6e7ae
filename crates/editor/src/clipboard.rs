//! What copying takes along and what pasting makes of it. The clipboard holds the text of a layout file, so that a part
//! can be pasted into a letter and back, and a whole layout or a link into the bench.
//!
//! A part is told from a whole layout by a note in its `view`: which layout it was taken from, and which of its shafts
//! are there only because copied elements have ends on them.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_layout::link::{self, LinkError};
use layshaft_layout::{Command, DocumentError, Element, Group, Id, Layout, Position, Shaft, decode, encode};
use serde_json::{Value, json};

use crate::catalogue::Kind;
use crate::geometry::{Point, Rect};
use crate::parts;
use crate::placement::{GRID, ROW_PITCH, on_grid};
use crate::target::Target;

/// How far from what it was copied from a duplicate stands.
pub const BESIDE: Point = Point::new(2.0 * GRID, 6.0 * GRID);
/// How far a pasted part moves on where something stands already.
const STEP: Point = Point::new(2.0 * GRID, 2.0 * GRID);
/// Shafts that are nearer to each other than this can't be told apart.
const APART: f64 = 2.5 * GRID;
/// What every link has in it; without it any word would be read as one.
const LINK_MARK: &str = "#l=";
/// Steps after which a place is taken that is not free.
const MOST_STEPS: usize = 50;

/// What was copied, or may be pasted.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    layout: Layout,
    /// Shafts that were not copied themselves.
    ends: BTreeSet<Id>,
    /// The title of the layout that it was taken from; none for a whole layout.
    of: Option<String>,
}

/// Why a text could not be pasted.
#[derive(Clone, Debug, PartialEq)]
pub enum NotAPart {
    /// There is no layout in it.
    NoLayout,
    /// A file with these errors.
    Errors(Vec<DocumentError>),
    /// A link that could not be opened.
    Link(LinkError),
}

/// A change that pastes a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Pasting {
    /// The change.
    pub command: Command,
    /// What it makes: shafts, then elements.
    pub made: Vec<Target>,
}

impl Part {
    /// Takes shafts and elements out of a layout; none where there is nothing to take.
    #[must_use]
    pub fn of(layout: &Layout, targets: &[Target]) -> Option<Self> {
        let is_taken = |target: Target| targets.contains(&target);
        let elements: Vec<Element> = layout
            .elements
            .iter()
            .filter(|element| is_taken(Target::Element(element.id.clone())))
            .cloned()
            .collect();
        let copied: BTreeSet<&Id> = layout
            .shafts
            .iter()
            .map(|shaft| &shaft.id)
            .filter(|id| is_taken(Target::Shaft((*id).clone())))
            .collect();
        let ends: BTreeSet<Id> = elements
            .iter()
            .flat_map(|element| parts::ports(&element.kind))
            .map(|port| port.shaft)
            .filter(|shaft| !shaft.is_frame() && !copied.contains(*shaft))
            .cloned()
            .collect();
        if elements.is_empty() && copied.is_empty() {
            return None;
        }
        let shafts = layout.shafts.iter();
        let shafts: Vec<Shaft> = shafts
            .filter(|shaft| copied.contains(&shaft.id) || ends.contains(&shaft.id))
            .cloned()
            .collect();
        let taken = |id: &Id| copied.contains(id) || elements.iter().any(|element| element.id == *id);
        let groups = layout.groups.iter();
        let groups: Vec<Group> = groups
            .filter(|group| group.members.iter().all(&taken))
            .cloned()
            .collect();
        let mut part = Layout {
            title: format!("Part of {}", layout.title),
            material_pair: layout.material_pair,
            positions: positions_for(layout, &elements),
            shafts,
            elements,
            groups,
            ..Layout::new()
        };
        let of = layout.title.clone();
        part.carried
            .insert("view".to_owned(), json!({"part": {"of": of, "ends": ends}}));
        Some(Self {
            layout: part,
            ends,
            of: Some(of),
        })
    }

    /// Reads a part, a whole layout, or a link to one.
    ///
    /// # Errors
    /// Why there is nothing to paste.
    pub fn read(text: &str) -> Result<Self, NotAPart> {
        let text = text.trim();
        let layout = if text.starts_with('{') {
            decode(text).map_err(NotAPart::Errors)?
        } else if !text.contains(LINK_MARK) {
            return Err(NotAPart::NoLayout);
        } else {
            match link::decode(text) {
                Ok(layout) => layout,
                Err(LinkError::NotALink) => return Err(NotAPart::NoLayout),
                Err(LinkError::Document(errors)) => return Err(NotAPart::Errors(errors)),
                Err(error) => return Err(NotAPart::Link(error)),
            }
        };
        let note = layout.carried.get("view").and_then(|view| view.get("part"));
        let named = note.and_then(|note| note.get("ends")).and_then(Value::as_array);
        let ends = named
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .map(Id::from);
        let ends = ends.filter(|id| layout.shaft(id).is_some()).collect();
        let of = note.and_then(|note| Some(note.get("of")?.as_str()?.to_owned()));
        Ok(Self { ends, of, layout })
    }

    /// Its text: a layout file that can be opened by itself.
    #[must_use]
    pub fn text(&self) -> String {
        encode(&self.layout)
    }

    /// Whether it is a layout of its own rather than a part that was copied.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.of.is_none()
    }

    /// The layout that it comes as.
    #[must_use]
    pub fn into_layout(self) -> Layout {
        self.layout
    }

    /// Its title.
    #[must_use]
    pub fn title(&self) -> &str {
        &self.layout.title
    }

    /// How many shafts and elements it brings.
    #[must_use]
    pub fn count(&self) -> usize {
        self.layout.shafts.len() - self.ends.len() + self.layout.elements.len()
    }

    /// Whether it seems to have been taken from this layout: the title is the same and the shafts that were not copied
    /// are there, where they were.
    #[must_use]
    pub fn is_from(&self, layout: &Layout) -> bool {
        let stands = |id: &Id| {
            let (here, there) = (layout.shaft(id), self.layout.shaft(id));
            here.zip(there).is_some_and(|(here, there)| here.at == there.at)
        };
        self.of.as_ref() == Some(&layout.title) && self.ends.iter().all(stands)
    }

    /// The shafts that pasting makes anew.
    fn new_shafts<'p>(&'p self, into: &'p Layout, keeps_ends: bool) -> impl Iterator<Item = &'p Shaft> + 'p {
        let is_kept = move |id: &Id| keeps_ends && self.ends.contains(id) && into.shaft(id).is_some();
        self.layout.shafts.iter().filter(move |shaft| !is_kept(&shaft.id))
    }

    /// How far everything has to move so that the middle of what is made anew comes to a place, or near it where the
    /// same was pasted there before.
    #[must_use]
    pub fn way_to(&self, at: Point, into: &Layout, keeps_ends: bool) -> Point {
        let places: Vec<Point> = self
            .new_shafts(into, keeps_ends)
            .map(|shaft| shaft.at.into())
            .collect();
        let Some(bounds) = bounds(&places) else {
            return BESIDE;
        };
        let mut by = on_grid(at - bounds.centre());
        let is_taken = |by: Point| {
            let mut made = places.iter().map(|place| *place + by);
            made.any(|place| {
                let mut others = into.shafts.iter();
                others.any(|shaft| Point::from(shaft.at).distance(place) < APART)
            })
        };
        for _ in 0..MOST_STEPS {
            if !is_taken(by) {
                break;
            }
            by = by + STEP;
        }
        by
    }

    /// The place beside what it was copied from.
    #[must_use]
    pub fn place_beside(&self, into: &Layout) -> Option<Point> {
        let shafts = self.new_shafts(into, true);
        let places: Vec<Point> = shafts.map(|shaft| shaft.at.into()).collect();
        bounds(&places).map(|bounds| bounds.centre() + BESIDE)
    }

    /// How far a whole layout has to move so that it stands below another one.
    #[must_use]
    pub fn way_below(&self, other: &Layout) -> Point {
        let places =
            |layout: &Layout| -> Vec<Point> { layout.shafts.iter().map(|shaft| shaft.at.into()).collect() };
        match (bounds(&places(&self.layout)), bounds(&places(other))) {
            (Some(own), Some(other)) => on_grid(Point::new(
                other.x - own.x,
                other.bottom() + 1.5 * ROW_PITCH - own.y,
            )),
            _ => Point::default(),
        }
    }

    /// The change that puts it into a layout, moved by so much. Names that are free are kept, others are made anew;
    /// with `keeps_ends` elements stay joined to the shafts that were not copied, where these are there.
    #[must_use]
    pub fn pasted(&self, into: &Layout, keeps_ends: bool, by: Point) -> Pasting {
        let shafts: Vec<&Shaft> = self.new_shafts(into, keeps_ends).collect();
        let elements = &self.layout.elements;
        let names = Names::new(into, &shafts, elements);
        let moved = |at: [f64; 2]| [(at[0] + by.x).round(), (at[1] + by.y).round()];
        let (mut commands, mut made) = (Vec::new(), Vec::new());
        for shaft in shafts {
            let id = names.shafts[&shaft.id].clone();
            made.push(Target::Shaft(id.clone()));
            let at = moved(shaft.at);
            // A copy in the same layout can't have its axis where the first one has it.
            let axis_mm = shaft.axis_mm.filter(|_| !keeps_ends);
            let shaft = Shaft {
                id,
                at,
                axis_mm,
                ..shaft.clone()
            };
            commands.push(Command::AddShaft {
                index: usize::MAX,
                shaft,
            });
        }
        for element in elements {
            let id = names.elements[&element.id].clone();
            made.push(Target::Element(id.clone()));
            let mut copy = Element {
                id,
                at: element.at.map(moved),
                kind: element.kind.clone(),
            };
            for port in parts::ports(&element.kind) {
                if let Some(shaft) = names.shafts.get(port.shaft) {
                    copy.set_port(&port.path, shaft);
                }
            }
            commands.push(Command::AddElement {
                index: usize::MAX,
                element: copy,
            });
        }
        commands.extend(self.engaged(into, &names));
        commands.extend(self.grouped(into, &names));
        Pasting {
            command: Command::Batch(commands),
            made,
        }
    }

    /// What is engaged in a position stays so in the position of the same name.
    fn engaged<'p>(&'p self, into: &'p Layout, names: &'p Names) -> impl Iterator<Item = Command> + 'p {
        let known = into.effective_positions();
        let positions = self.layout.positions.iter();
        let positions = positions.filter(move |position| known.iter().any(|other| other.id == position.id));
        positions.flat_map(move |position| {
            let engaged = position.engaged.iter().filter_map(|id| names.elements.get(id));
            engaged.map(move |element| Command::SetEngaged {
                position: position.id.clone(),
                element: element.clone(),
                engaged: true,
            })
        })
    }

    /// Groups that came along, beside those that are there.
    fn grouped(&self, into: &Layout, names: &Names) -> Option<Command> {
        let mut groups = into.groups.clone();
        for group in &self.layout.groups {
            let named = |id: &Id| {
                let shaft = names.shafts.get(id).filter(|_| self.layout.shaft(id).is_some());
                shaft
                    .into_iter()
                    .chain(names.elements.get(id))
                    .cloned()
                    .collect::<Vec<Id>>()
            };
            let mut members: Vec<Id> = group.members.iter().flat_map(named).collect();
            let mut seen = BTreeSet::new();
            members.retain(|id| seen.insert(id.clone()));
            if members.is_empty() {
                continue;
            }
            groups.push(Group {
                id: names.free(into, &group.id, &groups),
                members,
                ..group.clone()
            });
        }
        (groups.len() > into.groups.len()).then_some(Command::SetGroups(groups))
    }
}

/// The positions that elements need beside them: all of them, where one is engaged or shifts.
fn positions_for(layout: &Layout, elements: &[Element]) -> Vec<Position> {
    let shifts = |element: &Element| Kind::of(&element.kind) == Kind::TorqueSwitch;
    let is_copied = |id: &Id| elements.iter().any(|element| element.id == *id);
    let mut positions = layout.positions.clone();
    for position in &mut positions {
        position.engaged.retain(&is_copied);
    }
    let needed = elements.iter().any(shifts) || positions.iter().any(|position| !position.engaged.is_empty());
    if needed { positions } else { Vec::new() }
}

fn bounds(places: &[Point]) -> Option<Rect> {
    let rects = places.iter().map(|place| Rect::between(*place, *place));
    rects.reduce(|all, rect| all.union(&rect))
}

/// What pasted things are called.
struct Names {
    shafts: BTreeMap<Id, Id>,
    elements: BTreeMap<Id, Id>,
}

impl Names {
    fn new(into: &Layout, shafts: &[&Shaft], elements: &[Element]) -> Self {
        let is_free = |id: &Id| {
            into.shaft(id).is_none()
                && into.element(id).is_none()
                && into.position(id).is_none()
                && into.group(id).is_none()
        };
        let all = shafts.iter().map(|shaft| &shaft.id);
        let all = all.chain(elements.iter().map(|element| &element.id));
        let kept: BTreeSet<Id> = all.filter(|id| is_free(id)).cloned().collect();
        let mut maker = into.id_maker();
        let mut name = |id: &Id, stem: Option<&str>| {
            if kept.contains(id) {
                return id.clone();
            }
            loop {
                let made = match stem {
                    Some(stem) => maker.element(stem),
                    None => maker.shaft(),
                };
                if !kept.contains(&made) {
                    return made;
                }
            }
        };
        Self {
            shafts: shafts
                .iter()
                .map(|shaft| (shaft.id.clone(), name(&shaft.id, None)))
                .collect(),
            elements: elements
                .iter()
                .map(|element| {
                    let stem = Kind::of(&element.kind).id_stem();
                    (element.id.clone(), name(&element.id, Some(stem)))
                })
                .collect(),
        }
    }

    /// The id of a group, or one that nothing bears.
    fn free(&self, into: &Layout, id: &Id, groups: &[Group]) -> Id {
        let is_taken = |id: &Id| {
            groups.iter().any(|group| group.id == *id)
                || self
                    .shafts
                    .values()
                    .chain(self.elements.values())
                    .any(|other| other == id)
        };
        if !is_taken(id) && into.shaft(id).is_none() && into.element(id).is_none() {
            return id.clone();
        }
        let mut maker = into.id_maker();
        loop {
            let made = maker.group();
            if !is_taken(&made) {
                return made;
            }
        }
    }
}

#[cfg(test)]
mod tests;
