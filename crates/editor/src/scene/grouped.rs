//! Groups on the skeleton and the plan: a frame of thin chain line round what belongs together, with the name written at it.
//!
//! Nothing folds there, since those drawings show how things lie. A folded group always has its frame, an open one while it
//! stands out; it is pressed on its line or its name.

use std::rc::Rc;

use layshaft_layout::{Group, Layout};

use super::crowd::Crowd;
use super::flow::FlowInput;
use super::items::{Emphasis, Label, RunContent};
use super::picture::{LineType, PictureItem, Reach, Stroke};
use super::spread;
use super::text::{self, Letters};
use crate::geometry::{Point, Rect};
use crate::groups;
use crate::target::Target;

/// Room between a frame and what is in it, in pixels, and the radius of its corners.
const MARGIN: f64 = 10.0;
const CORNER: f64 = 6.0;
/// Width and price that a frame's line counts with where labels look for a place: less than text, for the line of a label may
/// lead through it.
const LINE: f64 = 3.0;
const PRICE: f64 = 0.9 * spread::TEXT;
/// Room between a frame and its name.
const OFF: f64 = 2.0;

/// A frame in a legend.
pub const SIGN: &[(LineType, &str)] = &[(
    LineType::Chain,
    "M6 -10H28a5 5 0 0 1 5 5V5a5 5 0 0 1 -5 5H6a5 5 0 0 1 -5 -5V-5a5 5 0 0 1 5 -5z",
)];

/// What a screen reader says of any group first: name, how it stands, how much is in it.
#[must_use]
pub fn spoken(layout: &Layout, group: &Group) -> Vec<String> {
    let parts = groups::members(layout, group).len();
    let standing = if group.folded { "folded" } else { "open" };
    let count = if parts == 1 {
        "1 part".to_owned()
    } else {
        format!("{parts} parts")
    };
    vec![format!("group {}", group.name), standing.to_owned(), count]
}

/// How a picture is measured.
#[derive(Clone, Copy, Debug)]
pub struct Scale {
    /// Pixels for a unit of its plane.
    pub zoom: f64,
    /// Size of its letters.
    pub letters: Letters,
    /// Room in pixels over and under things for what is written there.
    pub writing: f64,
}

/// Keeps the lines of folded groups clear of labels that look for a place after this; frames are where they are expected, but
/// for labels of their own that stick out.
pub fn keep_clear<'r>(
    layout: &Layout,
    reach: impl Fn(&Target) -> Option<&'r [Reach]>,
    crowd: &mut Crowd,
    scale: Scale,
) {
    for group in layout.groups.iter().filter(|group| group.folded) {
        let members = groups::members(layout, group);
        let rooms = members.iter().filter_map(&reach).flatten().map(Reach::bounds);
        if let Some(room) = rooms.reduce(|all, one| all.union(&one)) {
            for (from, to) in sides(&around(&room, scale)) {
                crowd.take_line(from, to, LINE, PRICE);
            }
        }
    }
}

/// The frame round things that take this room, in pixels.
fn around(room: &Rect, scale: Scale) -> Rect {
    let room = room.scaled(scale.zoom).grown(MARGIN);
    Rect {
        y: room.y - scale.writing,
        height: room.height + 2.0 * scale.writing,
        ..room
    }
}

/// The frames that show on a picture with these items; names find room where they cover least.
#[must_use]
pub fn frames(
    input: &FlowInput<'_>,
    items: &[Rc<PictureItem>],
    crowd: &mut Crowd,
    scale: Scale,
) -> Vec<Rc<PictureItem>> {
    let mut frames: Vec<(Rect, &Group)> = Vec::new();
    for group in &input.layout.groups {
        let target = Target::Group(group.id.clone());
        if !group.folded && input.emphasis(&target) == Emphasis::Plain {
            continue;
        }
        if let Some(room) = room(group, items, scale) {
            frames.push((room, group));
        }
    }
    for (room, _) in &frames {
        for (from, to) in sides(room) {
            crowd.take_line(from, to, LINE, PRICE);
        }
    }
    let made = frames.into_iter();
    made.map(|(room, group)| Rc::new(frame(input, group, room, crowd, scale)))
        .collect()
}

/// The room of what is in a group and is drawn, with its labels, in pixels.
fn room(group: &Group, items: &[Rc<PictureItem>], scale: Scale) -> Option<Rect> {
    let within = items
        .iter()
        .filter(|item| item.target.id().is_some_and(|id| group.holds(id)));
    let reach = within.clone().flat_map(|item| &item.reach).map(Reach::bounds);
    let things = around(&reach.reduce(|all, one| all.union(&one))?, scale);
    let labels = within.filter_map(|item| item.label.as_ref());
    let labels = labels.map(|label| label.bounds.scaled(scale.zoom).grown(MARGIN / 2.0));
    Some(labels.fold(things, |all, one| all.union(&one)))
}

fn sides(room: &Rect) -> [(Point, Point); 4] {
    let corners = [
        Point::new(room.x, room.y),
        Point::new(room.right(), room.y),
        Point::new(room.right(), room.bottom()),
        Point::new(room.x, room.bottom()),
    ];
    [0, 1, 2, 3].map(|n| (corners[n], corners[(n + 1) % 4]))
}

fn frame(input: &FlowInput<'_>, group: &Group, room: Rect, crowd: &mut Crowd, scale: Scale) -> PictureItem {
    let target = Target::Group(group.id.clone());
    let unit = 1.0 / scale.zoom;
    let outline = room.scaled(unit);
    PictureItem {
        key: target.key(),
        spoken: spoken(input.layout, group).join(", "),
        at: outline.centre(),
        strokes: vec![Stroke::still(LineType::Chain, rounded(&outline, CORNER * unit))],
        reach: sides(&outline)
            .into_iter()
            .map(|(from, to)| Reach::Line(from, to))
            .collect(),
        label: Some(name(&target, group, &room, crowd, scale)),
        emphasis: input.emphasis(&target),
        target,
    }
}

/// Its name over or under the frame, at a corner or in the middle, where it covers least.
fn name(target: &Target, group: &Group, room: &Rect, crowd: &mut Crowd, scale: Scale) -> Label {
    let lines = vec![vec![RunContent::Name(group.name.clone())]];
    let (width, height) = text::room(&lines, scale.letters);
    let last = (room.right() - width).max(room.x);
    let mut best: Option<(f64, Rect)> = None;
    for (rank, y) in [room.y - OFF - height, room.bottom() + OFF]
        .into_iter()
        .enumerate()
    {
        for (place, x) in [room.x, last, (room.x + last) / 2.0].into_iter().enumerate() {
            let place_of = Rect { x, y, width, height };
            let price = crowd.price(&place_of) + rank as f64 * 3.0 + place as f64 * 2.0;
            if best.is_none_or(|(least, _)| price < least) {
                best = Some((price, place_of));
            }
        }
    }
    let bounds = best.map_or(*room, |(_, bounds)| bounds);
    crowd.take(bounds, spread::TEXT);
    text::set(lines, target.clone(), "label", bounds, None, scale.letters).scaled(1.0 / scale.zoom)
}

/// A rectangle with round corners as a path.
fn rounded(room: &Rect, radius: f64) -> String {
    let radius = radius.min(room.width / 2.0).min(room.height / 2.0);
    let (x, y) = (short(room.x + radius), short(room.y));
    let (across, down) = (
        short(room.width - 2.0 * radius),
        short(room.height - 2.0 * radius),
    );
    let r = short(radius);
    format!(
        "M{x} {y}h{across}a{r} {r} 0 0 1 {r} {r}v{down}a{r} {r} 0 0 1 -{r} {r}h-{across}a{r} {r} 0 0 1 -{r} -{r}v-{down}a{r} {r} 0 0 1 {r} -{r}z"
    )
}

/// A thousandth of a unit is fine enough.
fn short(value: f64) -> f64 {
    let rounded = (value * 1000.0).round() / 1000.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}
