//! What is written on the skeleton: tooth counts at their gears, names at shafts, given numbers at the rest.
//!
//! Everything finds a place where it covers nothing, beginning with the numbers, whose place says what they mean.

use layshaft_layout::{Element, ElementKind};

use super::pairs::Wheel;
use crate::geometry::{Point, Rect};
use crate::scene::crowd::Crowd;
use crate::scene::describe::{self, Telling};
use crate::scene::items::{Label, RunContent};
use crate::scene::spread;
use crate::scene::text::{self, Letters, Lines};
use crate::target::Target;

/// Where lines of text go: beside a place, with half the size of what is there.
#[derive(Clone, Debug)]
pub struct Note {
    /// The lines.
    pub lines: Lines,
    /// The place.
    pub at: Point,
    /// Half the size of what is there.
    pub half: (f64, f64),
    /// Below rather than above.
    pub below: bool,
}

/// Finds room for the notes of one thing and makes a label of them.
pub fn label(target: &Target, notes: Vec<Note>, crowd: &mut Crowd, letters: Letters) -> Option<Label> {
    let mut whole: Option<Label> = None;
    for note in notes {
        let size = text::room(&note.lines, letters);
        let (bounds, leader) = spread::settle(crowd, note.at, note.half, size, note.below);
        let set = text::set(note.lines, target.clone(), "label", bounds, leader, letters);
        whole = Some(match whole {
            None => set,
            Some(mut all) => {
                all.bounds = all.bounds.union(&set.bounds);
                all.lines.extend(set.lines);
                all.leader = all.leader.or(set.leader);
                all
            }
        });
    }
    whole
}

/// The numbers of a pair, each at its own wheel.
pub fn at_wheels(element: &Element, wheels: [Wheel; 2], telling: Telling<'_>) -> Vec<Note> {
    let Some(numbers) = numbers(element, telling) else {
        return Vec::new();
    };
    let first_is_upper = wheels[0].y <= wheels[1].y;
    let inner = is_inner(&element.kind);
    wheels
        .into_iter()
        .zip(numbers)
        .enumerate()
        .map(|(n, (wheel, line))| {
            let upper = (n == 0) == first_is_upper;
            let out = if upper { -1.0 } else { 1.0 };
            // A pinion within a ring has its number beside itself.
            let at = if inner && n == 0 {
                wheel.y
            } else {
                wheel.y + out * wheel.radius
            };
            let half = if inner && n == 0 {
                (7.0, wheel.radius)
            } else {
                (7.0, 1.0)
            };
            Note {
                lines: vec![line],
                at: Point::new(wheel.x, at),
                half,
                below: !upper,
            }
        })
        .collect()
}

const fn is_inner(kind: &ElementKind) -> bool {
    match kind {
        ElementKind::Mesh(mesh) => matches!(mesh.form, layshaft_layout::MeshForm::Internal),
        ElementKind::FrictionWheel(wheels) => matches!(wheels.form, layshaft_layout::WheelForm::Internal),
        _ => false,
    }
}

/// The two numbers that say how large the wheels are, as they stand on the flow drawing, each with the sign of what it counts.
fn numbers(element: &Element, telling: Telling<'_>) -> Option<[Vec<RunContent>; 2]> {
    let (before, after) = match &element.kind {
        ElementKind::Belt(_) | ElementKind::FrictionWheel(_) => (["d", "d"], None),
        ElementKind::Worm(worm) => (["", "z"], Some(if worm.starts == 1 { "start" } else { "starts" })),
        _ => (["z", "z"], None),
    };
    let given = describe::element_lines(element, None, telling)
        .into_iter()
        .next()?;
    let mut edits = given
        .into_iter()
        .filter(|run| matches!(run, RunContent::Edit { .. }));
    let mut line = |sign: &str, after: Option<&str>| {
        let quiet = |text: &str| RunContent::Quiet(text.to_owned());
        let mut line = Vec::with_capacity(2);
        line.extend((!sign.is_empty()).then(|| quiet(sign)));
        line.push(edits.next()?);
        line.extend(after.map(quiet));
        Some(line)
    };
    Some([line(before[0], after)?, line(before[1], None)?])
}

/// A note beside the whole of a symbol.
pub fn beside(lines: Lines, room: Rect, below: bool) -> Note {
    Note {
        lines,
        at: room.centre(),
        half: (room.width / 2.0, room.height / 2.0),
        below,
    }
}
