//! What a drawing consists of.

use std::rc::Rc;

use layshaft_layout::Id;

use super::pace::Pace;
use crate::geometry::{Point, Rect};
use crate::legend::Legend;
use crate::numbers::RatioText;
use crate::target::{FieldRef, Target};

/// A whole drawing. Draw in this order: grid, elements' wires and ribbons, element symbols, shafts, labels, overlay.
#[derive(Clone, Debug)]
pub struct Scene {
    /// What it occupies; shows in full after "fit".
    pub bounds: Rect,
    /// Shafts, in document order.
    pub shafts: Vec<Rc<ShaftItem>>,
    /// Elements, in document order.
    pub elements: Vec<Rc<ElementItem>>,
    /// Groups: folded ones hide what is in them.
    pub groups: Vec<Rc<GroupItem>>,
    /// What only shows during a gesture.
    pub overlay: Overlay,
    /// How smoothly it moves.
    pub pace: Pace,
    /// What line types, widths and speeds mean here.
    pub legend: Rc<Legend>,
    /// What to do on a bench without anything on it.
    pub empty: Option<&'static str>,
}

impl PartialEq for Scene {
    /// Two drawings of a large layout share most of their items; what is shared is not looked into.
    fn eq(&self, other: &Self) -> bool {
        self.bounds == other.bounds
            && self.overlay == other.overlay
            && self.pace == other.pace
            && self.empty == other.empty
            && same_items(&self.shafts, &other.shafts)
            && same_items(&self.elements, &other.elements)
            && same_items(&self.groups, &other.groups)
            && same(&self.legend, &other.legend)
    }
}

fn same_items<T: PartialEq>(some: &[Rc<T>], others: &[Rc<T>]) -> bool {
    some.len() == others.len() && some.iter().zip(others).all(|(one, other)| same(one, other))
}

/// Whether two items are the same, which those that are shared are at once.
#[must_use]
pub fn same<T: PartialEq>(one: &Rc<T>, other: &Rc<T>) -> bool {
    Rc::ptr_eq(one, other) || one == other
}

impl Scene {
    /// Where a thing is drawn; none for what has no place, and for what is not on the drawing.
    #[must_use]
    pub fn place_of(&self, target: &Target) -> Option<Point> {
        match target {
            Target::Shaft(id) => self
                .shafts
                .iter()
                .find(|shaft| shaft.id == *id)
                .map(|shaft| shaft.at),
            Target::Element(id) => self
                .elements
                .iter()
                .find(|element| element.id == *id)
                .map(|element| element.at),
            Target::Group(id) => self
                .groups
                .iter()
                .find(|group| group.id == *id)
                .map(|group| group.room.centre()),
            Target::Position(_) | Target::Layout => None,
        }
    }
}

/// How much an item stands out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Emphasis {
    /// As drawn.
    #[default]
    Plain,
    /// Named by the finding or the line of working that is pointed at.
    Lit,
    /// Selected.
    Selected,
    /// Selected, and what the keyboard acts on.
    Focused,
}

/// How a shaft moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It turns.
    Turning,
    /// It stands still, though nothing holds it by name (no source, stalled).
    AtRest,
    /// Held at speed zero by a brake, the frame or friction.
    Held,
    /// Its speed is not settled.
    Free,
    /// Nothing engaged joins it to the drive.
    Unreached,
    /// The train is jammed.
    Jammed,
}

/// A shaft on the flow drawing: a circle with a turning marker.
#[derive(Clone, Debug, PartialEq)]
pub struct ShaftItem {
    /// Its id.
    pub id: Id,
    /// `shaft-<id>`, unique on the page.
    pub key: String,
    /// What a screen reader says.
    pub spoken: String,
    /// Centre.
    pub at: Point,
    /// Radius of the circle.
    pub radius: f64,
    /// Whether ratios refer to it: drawn with a second circle.
    pub is_drive: bool,
    /// How it moves.
    pub standing: Standing,
    /// How long its marker takes for one turn on the screen, in seconds; none: it does not turn.
    pub period_s: Option<f64>,
    /// Whether the marker turns clockwise on the screen (positive speed).
    pub clockwise: bool,
    /// Where its marker stands, in degrees clockwise, while a run is shown; none: it turns by itself.
    pub turned_deg: Option<f64>,
    /// Name, ratio, speed, torque.
    pub label: Label,
    /// How much it stands out.
    pub emphasis: Emphasis,
    /// Whether it is drawn apart while a gesture moves it; here then nothing shows.
    pub is_away: bool,
}

/// An element on the flow drawing: a symbol, wires to its shafts, ribbons of power along them.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementItem {
    /// Its id.
    pub id: Id,
    /// `element-<id>`, unique on the page.
    pub key: String,
    /// What a screen reader says.
    pub spoken: String,
    /// Centre of its symbol.
    pub at: Point,
    /// The symbol, in its own box.
    pub symbol: Symbol,
    /// Turn of the symbol in degrees (clockwise) round its centre.
    pub angle_deg: f64,
    /// One for each port, in the order of the kind's fields.
    pub wires: Vec<Wire>,
    /// Where loss leaves.
    pub loss: Option<Sliver>,
    /// Its label; none where there is nothing to say.
    pub label: Option<Label>,
    /// The mark of circulating power, drawn beside the symbol.
    pub loop_tag: Option<Label>,
    /// What hands nothing on in this position, off or overrunning: drawn thin and open.
    pub open: bool,
    /// How it stands where that is worth a mark, and the mark's place from the centre.
    pub mark: Option<(Mark, Point)>,
    /// Part of a loop of circulating power: ribbons with doubled edges.
    pub in_loop: bool,
    /// How much it stands out.
    pub emphasis: Emphasis,
    /// Whether it is drawn apart while a gesture moves it; here then nothing shows.
    pub is_away: bool,
}

/// A group on the flow drawing: folded it is a box with wires to the shafts outside it, open a frame round its parts.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupItem {
    /// Its id.
    pub id: Id,
    /// `group-<id>`, unique on the page.
    pub key: String,
    /// What a screen reader says.
    pub spoken: String,
    /// The box or the frame.
    pub room: Rect,
    /// Whether it is one thing.
    pub folded: bool,
    /// One for each shaft outside it, with the power that goes in or comes out there; none where it is open.
    pub wires: Vec<Wire>,
    /// Folded: where all loss inside leaves.
    pub loss: Option<Sliver>,
    /// Folded: whether power goes round inside it, or through it.
    pub in_loop: bool,
    /// Folded: two lines along its long sides where power goes round inside and no wire shows it.
    pub double_edge: Option<String>,
    /// Folded: the mark of circulating power inside, drawn beside the box.
    pub loop_tag: Option<Label>,
    /// Its name, in the box with what goes through it.
    pub label: Label,
    /// How much it stands out.
    pub emphasis: Emphasis,
    /// Whether it is drawn apart while a gesture moves it; here then nothing shows.
    pub is_away: bool,
}

/// How an element stands, as a mark at its symbol.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// It holds by its own friction.
    Holds,
    /// It slips at its limit.
    Slips,
    /// What it drives runs ahead of it.
    Overruns,
}

impl Mark {
    /// Radius of the circle that it is drawn in.
    pub const RADIUS: f64 = 9.0;

    /// The mark as a path round (0, 0): the frame's strokes under a stem, a wave, two chevrons.
    #[must_use]
    pub const fn path(self) -> &'static str {
        match self {
            Self::Holds => "M0 -6V2M-5.5 2H5.5M-3 2l-2.5 3.5M1 2l-2.5 3.5M5 2l-2.5 3.5",
            Self::Slips => "M-6 0q3 -6 6 0t6 0",
            Self::Overruns => "M-5 -4l4 4l-4 4M0.5 -4l4 4l-4 4",
        }
    }
}

/// Line drawing of a kind in a box of 48 × 32 with its centre at (24, 16).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Symbol {
    /// Thick outlines.
    pub thick: &'static str,
    /// Thin lines: shafts, marks.
    pub thin: &'static str,
    /// Thin chain lines: axes and pitch circles.
    pub chain: &'static str,
    /// Short strokes of the fixed frame.
    pub hatching: &'static str,
    /// Half the width and height that are really drawn on: connections end there.
    pub half: (u8, u8),
}

/// A line from an element to one of its shafts, with the power along it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wire {
    /// The shaft; `frame` for the fixed frame.
    pub shaft: Id,
    /// Which end of the element it is: `a`, `sides.0`, `carrier`. While the element is selected, a small handle at
    /// [`Self::handle`] shows that the end can be led to another shaft.
    pub role: String,
    /// Its end at the shaft's circle.
    pub from: Point,
    /// Its end at the symbol's box.
    pub to: Point,
    /// Path of the plain line, from the shaft to the element.
    pub path: String,
    /// Strokes of the frame where the port is fixed to it.
    pub hatching: Option<String>,
    /// The power along it; none where none flows.
    pub ribbon: Option<Ribbon>,
}

impl Wire {
    /// Where the handle of this end stands.
    #[must_use]
    pub fn handle(&self) -> Point {
        self.from + (self.to - self.from).unit() * 6.0_f64.min(self.from.distance(self.to) / 2.0)
    }
}

/// Power along a straight piece of a connection.
#[derive(Clone, Debug, PartialEq)]
pub struct Ribbon {
    /// Closed outline.
    pub outline: String,
    /// Two more lines along its edges where the power only goes round.
    pub double_edge: Option<String>,
    /// Where its own coordinates begin: the end at which power enters.
    pub origin: Point,
    /// Direction of the flow in degrees, clockwise from the right.
    pub angle_deg: f64,
    /// Length along the flow.
    pub length: f64,
    /// Width, which shows the power.
    pub width: f64,
    /// All chevrons as one open path in the ribbon's own coordinates (x along the flow, y across), one pitch apart.
    /// Moving them by one pitch along x brings them onto themselves and leaves them on the ribbon.
    pub chevrons: String,
    /// Distance between chevrons.
    pub pitch: f64,
    /// How long chevrons take for one pitch, in seconds.
    pub period_s: f64,
}

/// A hatched sliver that peels off where power becomes heat.
#[derive(Clone, Debug, PartialEq)]
pub struct Sliver {
    /// Closed outline, to be hatched.
    pub outline: String,
    /// Its width, which shows the loss.
    pub width: f64,
    /// The room it takes.
    pub bounds: Rect,
    /// What a pointer over it is told: `0.195 W becomes heat`.
    pub title: String,
}

/// A few short lines of text that belong to something and cover nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// Unique on the page.
    pub key: String,
    /// What it speaks of.
    pub target: Target,
    /// The room it takes.
    pub bounds: Rect,
    /// Lines from top to bottom.
    pub lines: Vec<LabelLine>,
    /// A thin line to what it speaks of, where it had to move away.
    pub leader: Option<(Point, Point)>,
    /// Size of its letters, in bench units.
    pub letter_size: f64,
}

impl Label {
    /// The same in a plane with so many units for one of this.
    #[must_use]
    pub fn scaled(mut self, by: f64) -> Self {
        self.bounds = self.bounds.scaled(by);
        self.leader = self.leader.map(|(from, to)| (from * by, to * by));
        self.letter_size *= by;
        for line in &mut self.lines {
            line.top *= by;
            line.height *= by;
            line.baseline *= by;
            for run in &mut line.runs {
                run.x *= by;
                run.width *= by;
            }
        }
        self
    }
}

/// A line of a label.
#[derive(Clone, Debug, PartialEq)]
pub struct LabelLine {
    /// Upper edge of its room.
    pub top: f64,
    /// Height of its room.
    pub height: f64,
    /// Height of the base line, in bench coordinates.
    pub baseline: f64,
    /// Pieces from left to right.
    pub runs: Vec<Run>,
}

/// A piece of a label's line.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Left end, in bench coordinates.
    pub x: f64,
    /// The room kept for it.
    pub width: f64,
    /// What it says.
    pub content: RunContent,
}

impl Run {
    /// The middle of its room.
    #[must_use]
    pub fn middle(&self) -> f64 {
        self.x + self.width / 2.0
    }
}

/// What a piece of a label says.
#[derive(Clone, Debug, PartialEq)]
pub enum RunContent {
    /// Words or numbers.
    Text(String),
    /// The name of the thing, set strong.
    Name(String),
    /// An exact ratio, set as a fraction.
    Ratio(RatioText),
    /// Words set quietly: units of what is not given, "free".
    Quiet(String),
    /// A number that can be edited where it stands.
    Edit {
        /// The field.
        field: FieldRef,
        /// Its text.
        text: String,
        /// What it is: `teeth on motor`.
        spoken: String,
    },
    /// A blank in place of an answer, while answers are hidden.
    Blank,
}

/// Things that only show during a gesture.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Overlay {
    /// A symbol that would be placed here on release or click.
    pub ghost: Option<Ghost>,
    /// A line being drawn from one shaft to another.
    pub band: Option<(Point, Point)>,
    /// A rectangle that selects.
    pub marquee: Option<Rect>,
    /// Lines that show what a dragged thing is aligned with.
    pub guides: Vec<(Point, Point)>,
    /// Gaps that are equally wide, each from end to end.
    pub gaps: Vec<(Point, Point)>,
    /// The shaft that a release would connect to.
    pub drop_shaft: Option<Id>,
}

/// A symbol that would be placed.
#[derive(Clone, Debug, PartialEq)]
pub struct Ghost {
    /// The symbol.
    pub symbol: Symbol,
    /// Its centre.
    pub at: Point,
    /// Circles of the shafts that would be made.
    pub shafts: Vec<Point>,
}
