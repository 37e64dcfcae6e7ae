//! Groups on the flow drawing: a folded one as a box that power runs through, an open one as a frame round its parts.

mod inside;

use std::collections::BTreeMap;

use layshaft_layout::{Element, Group, Id, Layout};
use layshaft_quantity::Power;
use layshaft_report::PositionReport;

use super::super::crowd::Crowd;
use super::super::describe::Telling;
use super::super::grouped;
use super::super::items::{Emphasis, GroupItem, Label, RunContent, Sliver};
use super::super::ribbon;
use super::super::text::{self, Letters, Lines, answer, ratio};
use super::{Drawing, loops, wires};
use crate::geometry::{Point, Rect};
use crate::groups;
use crate::numbers::{self, RatioText};
use crate::target::Target;
use inside::Inside;

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
    /// Where heat leaves its box; found once all boxes stand.
    pub loss: Option<Sliver>,
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
        let inside = Inside {
            layout,
            group,
            position,
        };
        let across = inside.ratio_across(&outer);
        let lines = if group.folded {
            lines(inside, &outer, across.as_ref(), telling)
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
            loss: None,
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

/// Its name, its ratio with the shafts between which it is, then power in, what of it comes out and what becomes heat.
fn lines(inside: Inside<'_>, outer: &[&Id], across: Option<&RatioText>, telling: Telling<'_>) -> Lines {
    let mut lines = vec![vec![RunContent::Name(inside.group.name.clone())]];
    if let (Some(across), [first, second]) = (across.filter(|_| telling.shown.ratio), outer) {
        lines.push(vec![
            ratio(telling.hide, across.clone()),
            RunContent::Quiet(format!("{first} to {second}")),
        ]);
    }
    let powers = outer.iter().map(|shaft| inside.power_from(shaft));
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
    if let Some(loss) = inside.loss().filter(|_| telling.shown.power) {
        lines.push(vec![
            answer(telling.hide, &numbers::power(loss)),
            RunContent::Quiet("heat".to_owned()),
        ]);
    }
    lines
}

impl Drawing<'_> {
    /// A group as it is drawn.
    pub(super) fn group(&self, fold: &Fold<'_>, crowd: &mut Crowd) -> GroupItem {
        let target = Target::Group(fold.group.id.clone());
        let letters = self.input.shown.letters;
        let inside = self.inside(fold);
        let folded = fold.group.folded;
        let shows = folded && !self.input.hide_answers;
        let runs = self.runs_of(fold);
        let lines = fold.lines.clone();
        GroupItem {
            id: fold.group.id.clone(),
            key: target.key(),
            spoken: self.spoken_group(fold),
            room: fold.room,
            folded,
            wires: runs
                .iter()
                .map(|run| run.wire(self.scale.as_ref(), self.input.hide_answers))
                .collect(),
            loss: fold.loss.clone().filter(|_| shows),
            in_loop: shows && (inside.holds_whole_loop() || runs.iter().any(|run| run.looped)),
            double_edge: (shows && inside.holds_whole_loop()).then(|| ribbon::doubled(&fold.room)),
            loop_tag: self.loop_tag_of(fold, crowd).filter(|_| shows),
            emphasis: self.emphasis_of_group(&target, fold.group),
            is_away: false,
            label: text::set(lines, target, "label", fold.label_room, None, letters),
        }
    }

    /// The mark of circulating power beside the box, one line for each loop that is marked inside.
    fn loop_tag_of(&self, fold: &Fold<'_>, crowd: &mut Crowd) -> Option<Label> {
        let loops = self.inside(fold).loops();
        if loops.is_empty() || !fold.group.folded {
            return None;
        }
        let tags = loops.into_iter().map(loops::tag);
        let lines = tags.map(|tag| vec![RunContent::Name(tag)]).collect();
        let target = Target::Group(fold.group.id.clone());
        let key = format!("{}-loop", target.key());
        let (at, half) = fold.stand();
        Some(self.label(crowd, lines, (target, key), at, half, true))
    }

    fn inside<'f>(&'f self, fold: &Fold<'f>) -> Inside<'f> {
        Inside {
            layout: self.input.layout,
            group: fold.group,
            position: self.position,
        }
    }

    /// The wires of a folded group before they are drawn; none of an open one.
    fn runs_of(&self, fold: &Fold<'_>) -> Vec<wires::Run> {
        if !fold.group.folded {
            return Vec::new();
        }
        let inside = self.inside(fold);
        let shows = |power: &Power| self.scale.is_some_and(|scale| scale.shows(*power));
        let run = |shaft: &&Id| {
            let power = Some(inside.power_from(shaft)).filter(shows);
            let looped = power.is_some() && inside.loop_crosses(shaft);
            wires::run_of_group(shaft, fold.stand(), (power, looped), self)
        };
        fold.outer.iter().map(run).collect()
    }

    /// The sliver of heat at a folded group.
    pub(super) fn loss_of_group(&self, fold: &Fold<'_>) -> Option<Sliver> {
        let loss = self.inside(fold).loss().filter(|_| fold.group.folded);
        let (at, half) = fold.stand();
        wires::sliver(loss, at, half, &self.runs_of(fold), self.scale.as_ref())
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
        let mut said = grouped::spoken(self.input.layout, fold.group);
        if let [first, second] = &fold.outer[..] {
            said.push(format!("from {first} to {second}"));
        }
        if let Some(across) = fold.across.as_ref().filter(|_| !self.input.hide_answers) {
            said.push(format!("ratio {}", across.spoken()));
        }
        if fold.group.folded && !self.input.hide_answers {
            said.extend(self.inside(fold).spoken());
        }
        said.join(", ")
    }
}
