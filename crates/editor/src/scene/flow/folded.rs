//! Groups on the flow drawing: a folded one as a box that power runs through, an open one as a frame round its parts.

use std::collections::BTreeMap;

use layshaft_layout::{Element, Group, Id, Layout};
use layshaft_quantity::Power;
use layshaft_report::PositionReport;

use super::super::describe::Telling;
use super::super::items::{Emphasis, GroupItem, RunContent};
use super::super::ribbon::Scale;
use super::super::text::{self, Letters, Lines, answer, ratio};
use super::{Drawing, wires};
use crate::geometry::{Point, Rect};
use crate::groups;
use crate::numbers::{self, RatioText};
use crate::target::Target;

/// Least half of a folded group's box.
const LEAST_HALF: (f64, f64) = (34.0, 24.0);
/// Room between a box's edge and its text.
const PADDING: (f64, f64) = (14.0, 8.0);
/// Room between an open group's frame and its parts.
const MARGIN: (f64, f64) = (28.0, 44.0);
/// Room between a frame's corner and its name.
const NAME_INSET: Point = Point::new(8.0, 3.0);

/// A group and where it is drawn.
#[derive(Clone, Debug)]
pub struct Fold<'a> {
    pub group: &'a Group,
    /// Its box if it is folded, its frame if it is open.
    pub room: Rect,
    /// The room of its text.
    pub label_room: Rect,
    outer: Vec<&'a Id>,
    lines: Lines,
    across: Option<RatioText>,
}

impl Fold<'_> {
    /// Its middle and half its box.
    pub fn stand(&self) -> (Point, (f64, f64)) {
        (
            self.room.centre(),
            (self.room.width / 2.0, self.room.height / 2.0),
        )
    }
}

/// All groups of a layout.
pub fn folds<'a>(
    layout: &'a Layout,
    places: &[Point],
    position: Option<&PositionReport>,
    telling: Telling<'_>,
) -> Vec<Fold<'a>> {
    let drawn = layout.groups.iter().filter_map(|group| {
        let parts = groups::room(layout, group, places)?;
        let outer = groups::outer_shafts(layout, group);
        let across = ratio_across(&outer, position);
        let lines = if group.folded {
            lines(layout, group, &outer, across.as_ref(), position, telling)
        } else {
            vec![vec![RunContent::Name(group.name.clone())]]
        };
        let room = if group.folded {
            box_around(parts.centre(), &lines, telling.shown.letters)
        } else {
            let (width, height) = (parts.width + 2.0 * MARGIN.0, parts.height + 2.0 * MARGIN.1);
            Rect::around(parts.centre(), width, height)
        };
        let (width, height) = text::room(&lines, telling.shown.letters);
        let label_room = if group.folded {
            Rect::around(room.centre(), width, height)
        } else {
            Rect {
                x: room.x + NAME_INSET.x,
                y: room.y + NAME_INSET.y,
                width,
                height,
            }
        };
        Some(Fold {
            group,
            room,
            label_room,
            outer,
            lines,
            across,
        })
    });
    drawn.collect()
}

/// The shafts and elements that hide in folded groups, each with the number of its group.
pub fn hidden<'a>(layout: &'a Layout, folds: &[Fold<'_>]) -> BTreeMap<&'a Id, usize> {
    let mut found = BTreeMap::new();
    for (number, fold) in folds.iter().enumerate().filter(|(_, fold)| fold.group.folded) {
        let shafts = layout.shafts.iter().map(|shaft| &shaft.id);
        let elements = layout.elements.iter().map(|element: &Element| &element.id);
        let within = shafts.chain(elements).filter(|id| fold.group.holds(id));
        found.extend(within.map(|id| (id, number)));
    }
    found
}

fn box_around(centre: Point, lines: &Lines, letters: Letters) -> Rect {
    let (width, height) = text::room(lines, letters);
    Rect::around(
        centre,
        (width + 2.0 * PADDING.0).max(2.0 * LEAST_HALF.0),
        (height + 2.0 * PADDING.1).max(2.0 * LEAST_HALF.1),
    )
}

/// Speed of the second outer shaft over that of the first, where there are just these two.
fn ratio_across(outer: &[&Id], position: Option<&PositionReport>) -> Option<RatioText> {
    use num_traits::Zero as _;
    let [first, second] = outer else { return None };
    let ratio_of = |id: &Id| {
        let result = position?.shafts.iter().find(|result| result.id == *id)?;
        result.ratio.clone()
    };
    let (first, second) = (ratio_of(first)?, ratio_of(second)?);
    (!first.is_zero()).then(|| RatioText::new(&(second / first)))
}

/// Power from an outer shaft into all elements of a group that sit on it.
fn power_into(layout: &Layout, group: &Group, shaft: &Id, position: Option<&PositionReport>) -> Power {
    let results = position.into_iter().flat_map(|position| &position.elements);
    let inside = results.filter(|result| group.holds(&result.id) && layout.element(&result.id).is_some());
    let ports = inside.flat_map(|result| &result.ports);
    ports
        .filter(|port| port.shaft == *shaft)
        .map(|port| port.power)
        .sum()
}

/// Its name, its ratio with the shafts between which it is, then power in and what of it comes out.
fn lines(
    layout: &Layout,
    group: &Group,
    outer: &[&Id],
    across: Option<&RatioText>,
    position: Option<&PositionReport>,
    telling: Telling<'_>,
) -> Lines {
    let mut lines = vec![vec![RunContent::Name(group.name.clone())]];
    if let (Some(across), [first, second]) = (across.filter(|_| telling.shown.ratio), outer) {
        lines.push(vec![
            ratio(telling.hide, across.clone()),
            RunContent::Quiet(format!("{first} to {second}")),
        ]);
    }
    let powers = outer
        .iter()
        .map(|shaft| power_into(layout, group, shaft, position));
    let (entering, leaving) = powers.fold((0.0, 0.0), |(entering, leaving), power| {
        let watts = power.to_watts();
        (entering + watts.max(0.0), leaving - watts.min(0.0))
    });
    let mut carried = Vec::new();
    if telling.shown.power && entering > 1e-12 {
        carried.push(answer(telling.hide, &numbers::power(Power::watts(entering))));
    }
    if telling.shown.efficiency && entering > 1e-12 && leaving > 1e-12 {
        carried.push(answer(telling.hide, &numbers::percent(leaving / entering)));
    }
    lines.extend((!carried.is_empty()).then_some(carried));
    lines
}

impl Drawing<'_> {
    /// A group as it is drawn.
    pub(super) fn group(&self, fold: &Fold<'_>) -> GroupItem {
        let target = Target::Group(fold.group.id.clone());
        let letters = self.input.shown.letters;
        let wires = if fold.group.folded {
            self.wires_of(fold, self.scale.as_ref())
        } else {
            Vec::new()
        };
        GroupItem {
            id: fold.group.id.clone(),
            key: target.key(),
            spoken: self.spoken_group(fold),
            room: fold.room,
            folded: fold.group.folded,
            wires,
            emphasis: self.emphasis_of_group(&target, fold.group),
            label: text::set(
                fold.lines.clone(),
                target,
                "label",
                fold.label_room,
                None,
                letters,
            ),
        }
    }

    fn wires_of(&self, fold: &Fold<'_>, scale: Option<&Scale>) -> Vec<super::super::items::Wire> {
        let runs = fold.outer.iter().map(|shaft| {
            let power = power_into(self.input.layout, fold.group, shaft, self.position);
            let power = Some(power).filter(|power| scale.is_some_and(|scale| scale.shows(*power)));
            wires::run_of_group(shaft, fold.stand(), power, self)
        });
        runs.map(|run| run.wire(scale, self.input.hide_answers)).collect()
    }

    /// A folded group stands out with whatever in it does.
    fn emphasis_of_group(&self, target: &Target, group: &Group) -> Emphasis {
        let own = self.input.emphasis(target);
        if !group.folded {
            return own;
        }
        let inside = groups::members(self.input.layout, group);
        inside
            .iter()
            .map(|member| self.input.emphasis(member))
            .fold(own, Emphasis::max)
    }

    fn spoken_group(&self, fold: &Fold<'_>) -> String {
        let parts = groups::members(self.input.layout, fold.group).len();
        let standing = if fold.group.folded { "folded" } else { "open" };
        let mut said = vec![
            format!("group {}", fold.group.name),
            standing.to_owned(),
            if parts == 1 {
                "1 part".to_owned()
            } else {
                format!("{parts} parts")
            },
        ];
        if let [first, second] = &fold.outer[..] {
            said.push(format!("from {first} to {second}"));
        }
        if let Some(across) = fold.across.as_ref().filter(|_| !self.input.hide_answers) {
            said.push(format!("ratio {}", across.spoken()));
        }
        said.join(", ")
    }
}
