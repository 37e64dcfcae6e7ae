//! The flow drawing: shafts as nodes, elements as connections drawn as wide as the power they carry.
//!
//! Order of work: places of symbols, wires with their ribbons, labels where nothing is covered. Places depend on the
//! layout alone, so that nothing jumps when a number changes.

mod around;
mod folded;
mod kept;
mod legend;
mod loops;
mod wires;

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::{Element, Id, Layout, Shaft};
use layshaft_report::{ElementResult, Mode, PositionReport, ShaftResult, State};

use super::crowd::Crowd;
use super::describe::{self, Shown, Telling};
use super::items::{
    ElementItem, Emphasis, GroupItem, Label, Mark, Overlay, RunContent, Scene, ShaftItem, Sliver, Standing,
};
use super::pace::Pace;
use super::place::{SHAFT_RADIUS, SYMBOL, element_places_beside};
use super::ribbon::Scale;
use super::spread;
use super::text::{self, Lines};
use super::turning::{self, Turning};
use crate::catalogue::Kind;
use crate::geometry::{Point, Rect};
use crate::target::Target;
use crate::units::Units;
use folded::Fold;
use kept::{Kept, share};
use loops::{LoopPaths, loop_tags};

/// Everything that the flow drawing depends on.
#[derive(Clone, Copy, Debug)]
pub struct FlowInput<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// Results of all positions; the widths of all are drawn to one scale.
    pub positions: &'a [Rc<PositionReport>],
    /// The shaft that ratios refer to.
    pub drive: Option<&'a Id>,
    /// The position shown.
    pub position: &'a Id,
    /// What is selected, the focused thing last.
    pub selected: &'a [Target],
    /// What a finding or a line of working lights up.
    pub lit: &'a [Target],
    /// Which results labels show.
    pub shown: Shown,
    /// Whether answers are replaced by blanks.
    pub hide_answers: bool,
    /// Units in which numbers are told.
    pub units: Units,
    /// The drawing that was shown before: what is the same in both is shared.
    pub before: Option<&'a Scene>,
    /// What stays as it is beside what moved since then, as during a gesture.
    pub holds: Holds,
}

/// What of the drawing before stays as it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Holds {
    /// Nothing: everything looks for its place anew.
    Nothing,
    /// Places of symbols and labels; what they say may have changed.
    Places,
    /// All of what did not move: nothing but places and what stands out has changed.
    All,
}

impl FlowInput<'_> {
    /// How much a thing stands out, on every drawing.
    #[must_use]
    pub fn emphasis(&self, target: &Target) -> Emphasis {
        if self.selected.last() == Some(target) {
            Emphasis::Focused
        } else if self.selected.contains(target) {
            Emphasis::Selected
        } else if self.lit.contains(target) {
            Emphasis::Lit
        } else {
            Emphasis::Plain
        }
    }
}

/// What to do on an empty bench.
const EMPTY: &str = "Take a part from the tray and put it here, or press M for a gear mesh.";

/// Builds the drawing, without overlay.
#[must_use]
pub fn scene(input: FlowInput<'_>) -> Scene {
    let before = input.before;
    let drawing = Drawing::new(input);
    let mut crowd = drawing.crowd();
    let shafts: Vec<Rc<ShaftItem>> = input
        .layout
        .shafts
        .iter()
        .filter(|shaft| !drawing.hidden.contains_key(&shaft.id))
        .map(|shaft| {
            drawing.unmoved_shaft(&shaft.id).unwrap_or_else(|| {
                let item = drawing.shaft(shaft, &mut crowd);
                share(item, drawing.kept.shaft(&shaft.id))
            })
        })
        .collect();
    let mut joints = drawing.joints.iter().peekable();
    let elements: Vec<Rc<ElementItem>> = input
        .layout
        .elements
        .iter()
        .zip(&drawing.settled)
        .filter_map(|(element, settled)| {
            if let Some(joint) = joints.next_if(|joint| joint.element.id == element.id) {
                let item = drawing.element(element, joint, &mut crowd);
                return Some(share(item, drawing.kept.element(&element.id)));
            }
            settled.clone()
        })
        .collect();
    let groups: Vec<Rc<GroupItem>> = drawing
        .folds
        .iter()
        .map(|fold| {
            share(
                drawing.group(fold, &mut crowd),
                drawing.kept.group(&fold.group.id),
            )
        })
        .collect();
    Scene {
        bounds: bounds(&shafts, &elements, &groups),
        pace: Pace::for_elements(elements.len()),
        legend: share(
            drawing.legend(&shafts, &elements, &groups),
            before.map(|before| &before.legend),
        ),
        shafts,
        elements,
        groups,
        overlay: Overlay::default(),
        empty: input.layout.shafts.is_empty().then_some(EMPTY),
    }
}

/// What is looked up again and again while drawing.
struct Drawing<'a> {
    input: FlowInput<'a>,
    position: Option<&'a PositionReport>,
    shaft_results: BTreeMap<&'a Id, &'a ShaftResult>,
    element_results: BTreeMap<&'a Id, &'a ElementResult>,
    shaft_places: BTreeMap<&'a Id, Point>,
    joints: Vec<Joint<'a>>,
    /// For each element, how it was drawn before where nothing of that can have changed.
    settled: Vec<Option<Rc<ElementItem>>>,
    folds: Vec<Fold<'a>>,
    /// Shafts and elements in folded groups, with the number of their group.
    hidden: BTreeMap<&'a Id, usize>,
    scale: Option<Scale>,
    turning: Turning,
    tags: BTreeMap<&'a Id, String>,
    /// What was drawn before.
    kept: Kept<'a>,
}

/// Where and how an element stands, in document order.
struct Joint<'a> {
    element: &'a Element,
    at: Point,
    angle_deg: f64,
    half: (f64, f64),
    wires: Vec<wires::Run>,
    loss: Option<Sliver>,
    mark: Option<(Mark, Point)>,
}

impl<'a> Drawing<'a> {
    fn new(input: FlowInput<'a>) -> Self {
        let position = input
            .positions
            .iter()
            .find(|report| report.id == *input.position)
            .map(Rc::as_ref);
        let mut drawing = Self {
            input,
            position,
            shaft_results: position
                .iter()
                .flat_map(|p| &p.shafts)
                .map(|result| (&result.id, result))
                .collect(),
            element_results: position
                .iter()
                .flat_map(|p| &p.elements)
                .map(|result| (&result.id, result))
                .collect(),
            shaft_places: input
                .layout
                .shafts
                .iter()
                .map(|shaft| (&shaft.id, shaft.at.into()))
                .collect(),
            joints: Vec::new(),
            settled: Vec::new(),
            folds: Vec::new(),
            hidden: BTreeMap::new(),
            scale: Scale::for_positions(input.positions.iter().map(Rc::as_ref)),
            turning: position.map_or(Turning::Still, Turning::of),
            tags: position.map(loop_tags).unwrap_or_default(),
            kept: input.before.map(Kept::of).unwrap_or_default(),
        };
        let loops = position.map(LoopPaths::of).unwrap_or_default();
        drawing.kept.hold(input.layout, input.holds);
        let places = element_places_beside(input.layout, |element| drawing.kept.stands(&element.id));
        drawing.fold(&places);
        let elements = input.layout.elements.iter();
        drawing.settled = elements
            .map(|element| drawing.unmoved_element(&element.id))
            .collect();
        let elements = input.layout.elements.iter().zip(&drawing.settled);
        drawing.joints = elements
            .zip(places)
            .filter(|((element, settled), _)| settled.is_none() && !drawing.hidden.contains_key(&element.id))
            .map(|((element, _), at)| drawing.joint(element, at, &loops))
            .collect();
        drawing
    }

    /// The shaft as it was drawn before, where nothing of it can have changed.
    fn unmoved_shaft(&self, id: &Id) -> Option<Rc<ShaftItem>> {
        let item = self.kept.unmoved_shaft(id)?;
        let emphasis = self.input.emphasis(&Target::Shaft(id.clone()));
        (item.emphasis == emphasis).then(|| item.clone())
    }

    /// The element as it was drawn before, where nothing of it can have changed.
    fn unmoved_element(&self, id: &Id) -> Option<Rc<ElementItem>> {
        let item = self.kept.unmoved_element(id)?;
        let emphasis = self.input.emphasis(&Target::Element(id.clone()));
        (item.emphasis == emphasis).then(|| item.clone())
    }

    /// Puts what hides in folded groups where the groups stand.
    fn fold(&mut self, places: &[Point]) {
        if self.input.layout.groups.is_empty() {
            return;
        }
        self.folds = folded::folds(self.input.layout, places, self.position, self.telling());
        self.hidden = folded::hidden(self.input.layout, &self.folds);
        for (id, number) in &self.hidden {
            if let Some(place) = self.shaft_places.get_mut(id) {
                *place = self.folds[*number].stand().0;
            }
        }
        let losses: Vec<Option<Sliver>> = self.folds.iter().map(|fold| self.loss_of_group(fold)).collect();
        for (fold, loss) in self.folds.iter_mut().zip(losses) {
            fold.loss = loss;
        }
    }

    /// Half the box of the folded group that a shaft hides in.
    fn box_of(&self, shaft: &Id) -> Option<(f64, f64)> {
        self.hidden.get(shaft).map(|number| self.folds[*number].stand().1)
    }

    fn joint(&self, element: &'a Element, at: Point, loops: &LoopPaths<'_>) -> Joint<'a> {
        let (angle_deg, half) = wires::turn(element, at, self);
        let wires = wires::runs(element, at, half, self, loops);
        let result = self.element_results.get(&element.id).copied();
        let loss = wires::loss(result, at, half, &wires, self.scale.as_ref());
        Joint {
            element,
            at,
            angle_deg,
            half,
            wires,
            loss: loss.filter(|_| !self.input.hide_answers),
            mark: result
                .and_then(mark)
                .filter(|_| !self.input.hide_answers)
                .map(|mark| (mark, Point::new(half.0, -half.1))),
        }
    }

    fn telling(&self) -> Telling<'a> {
        Telling {
            position: self.position,
            shown: self.input.shown,
            hide: self.input.hide_answers,
            units: self.input.units,
        }
    }

    fn shaft(&self, shaft: &Shaft, crowd: &mut Crowd) -> ShaftItem {
        let target = Target::Shaft(shaft.id.clone());
        let at = Point::from(shaft.at);
        let result = self.shaft_results.get(&shaft.id).copied();
        let state = self.position.map_or(State::Runs, |position| position.state);
        let standing = result.map_or(Standing::AtRest, |result| turning::standing(result, state));
        let is_drive = self.input.drive == Some(&shaft.id);
        let period = result
            .filter(|_| standing == Standing::Turning)
            .and_then(|result| self.turning.period(result));
        let lines = describe::shaft_lines(&shaft.id, result, standing, self.telling());
        ShaftItem {
            id: shaft.id.clone(),
            key: target.key(),
            spoken: describe::shaft_spoken(&shaft.id, result, standing, is_drive, self.telling()),
            at,
            radius: SHAFT_RADIUS,
            is_drive,
            standing,
            period_s: period.map(|(seconds, _)| seconds),
            clockwise: period.is_none_or(|(_, clockwise)| clockwise),
            turned_deg: None,
            emphasis: self.input.emphasis(&target),
            is_away: false,
            label: self.label(
                crowd,
                lines,
                (target.clone(), target.key()),
                at,
                (SHAFT_RADIUS, SHAFT_RADIUS),
                true,
            ),
        }
    }

    fn element(&self, element: &Element, joint: &Joint<'_>, crowd: &mut Crowd) -> ElementItem {
        let target = Target::Element(element.id.clone());
        let result = self.element_results.get(&element.id).copied();
        let (at, half) = (joint.at, joint.half);
        let lines = describe::element_lines(element, result, self.telling());
        let tag = self.tags.get(&element.id).filter(|_| !self.input.hide_answers);
        let label_item = self.label(crowd, lines, (target.clone(), target.key()), at, half, false);
        let loop_tag = tag.map(|tag| {
            let lines = vec![vec![RunContent::Name(tag.clone())]];
            let key = format!("{}-loop", target.key());
            self.label(crowd, lines, (target.clone(), key), at, half, true)
        });
        ElementItem {
            id: element.id.clone(),
            key: target.key(),
            spoken: describe::element_spoken(element, result, self.telling()),
            at,
            symbol: Kind::of(&element.kind).entry().symbol,
            angle_deg: joint.angle_deg,
            wires: joint
                .wires
                .iter()
                .map(|run| run.wire(self.scale.as_ref(), self.input.hide_answers))
                .collect(),
            loss: joint.loss.clone(),
            label: Some(label_item),
            loop_tag,
            open: result
                .is_some_and(|result| matches!(result.mode, Some(Mode::Disengaged | Mode::Overrunning))),
            mark: joint.mark,
            in_loop: joint.wires.iter().any(|run| run.looped),
            emphasis: self.input.emphasis(&target),
            is_away: false,
        }
    }

    fn label(
        &self,
        crowd: &mut Crowd,
        lines: Lines,
        (target, key): (Target, String),
        at: Point,
        half: (f64, f64),
        below: bool,
    ) -> Label {
        let letters = self.input.shown.letters;
        let size = text::room(&lines, letters);
        let held = self.kept.place(&key, at, size);
        let (bounds, leader) = held.unwrap_or_else(|| spread::settle(crowd, at, half, size, below));
        let mut label = text::set(lines, target, "label", bounds, leader, letters);
        label.key = key;
        label
    }
}

/// How an element stands, where that is worth a mark.
const fn mark(result: &ElementResult) -> Option<Mark> {
    match result.mode {
        Some(Mode::Held) => Some(Mark::Holds),
        Some(Mode::Slipping) => Some(Mark::Slips),
        Some(Mode::Overrunning) => Some(Mark::Overruns),
        Some(Mode::Engaged | Mode::Disengaged) | None => None,
    }
}

fn bounds(shafts: &[Rc<ShaftItem>], elements: &[Rc<ElementItem>], groups: &[Rc<GroupItem>]) -> Rect {
    let shaft_rects = shafts.iter().flat_map(|shaft| {
        [
            Rect::around(shaft.at, 2.0 * shaft.radius, 2.0 * shaft.radius),
            shaft.label.bounds,
        ]
    });
    let element_rects = elements.iter().flat_map(|element| {
        let labels = element
            .label
            .iter()
            .chain(&element.loop_tag)
            .map(|label| label.bounds);
        labels.chain([Rect::around(element.at, SYMBOL.0, SYMBOL.0)])
    });
    shaft_rects
        .chain(element_rects)
        .chain(groups.iter().map(|group| group.room))
        .chain(groups.iter().flat_map(|group| {
            let tag = group.loop_tag.iter().map(|label| label.bounds);
            tag.chain(group.loss.iter().map(|loss| loss.bounds))
        }))
        .reduce(|all, rect| all.union(&rect))
        .unwrap_or_default()
}
