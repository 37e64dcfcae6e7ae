//! The points on the map and their names, set so that none covers another.

use layshaft_powerflow::WorkPoint;

use super::{Mark, MarkKind, Plane, RIGHT, Working};
use crate::geometry::Point;
use crate::scene::{FONT_SIZE, text_width};
use crate::wording::motor_map as words;

/// Size of letters on the map, and the distance from one line of them to the next.
const LETTERS: f64 = 14.0;
const LINE: f64 = 17.0;
/// From a point to its name.
const GAP: f64 = 10.0;
/// Points closer than this are one.
const SAME: f64 = 2.0;

/// All marks, the best point first, so that what is in force lies over it.
pub fn marks(plane: &Plane, supply: [Point; 2], best: Option<&WorkPoint>, workings: &[Working]) -> Vec<Mark> {
    let mut marks: Vec<Mark> = Vec::new();
    if let Some(best) = best {
        marks.push(mark(plane, best, MarkKind::Best, words::best(best.efficiency)));
    }
    for working in workings {
        let Some(work) = &working.work else { continue };
        let kind = if working.current {
            MarkKind::Current
        } else {
            MarkKind::Other
        };
        join(&mut marks, mark(plane, work, kind, working.name.clone()));
    }
    marks.retain(|mark| plane.holds(mark.at));
    place_names(plane, supply, &mut marks);
    marks.sort_by_key(|mark| match mark.kind {
        MarkKind::Best => 0,
        MarkKind::Other => 1,
        MarkKind::Current => 2,
    });
    marks
}

fn mark(plane: &Plane, work: &WorkPoint, kind: MarkKind, text: String) -> Mark {
    Mark {
        at: plane.at(work.speed, work.torque),
        kind,
        text,
        label: None,
        leader: String::new(),
    }
}

/// Positions in which the motor does the same share a mark.
fn join(marks: &mut Vec<Mark>, mark: Mark) {
    let same = |other: &&mut Mark| {
        let apart = (other.at.x - mark.at.x).abs() + (other.at.y - mark.at.y).abs();
        other.kind != MarkKind::Best && apart < SAME
    };
    let Some(other) = marks.iter_mut().find(same) else {
        marks.push(mark);
        return;
    };
    other.text = format!("{}, {}", other.text, mark.text);
    if mark.kind == MarkKind::Current {
        other.kind = MarkKind::Current;
    }
}

/// All points lie on the line that falls to the right, so that the corner above it is free: names go up there, from the
/// lowest point to the highest, each clear of the one below.
fn place_names(plane: &Plane, [stall, no_load]: [Point; 2], marks: &mut [Mark]) {
    marks.sort_by(|one, other| other.at.y.total_cmp(&one.at.y));
    let right = plane.area.x + plane.area.width + RIGHT - 2.0;
    let fall = (no_load.y - stall.y) / (no_load.x - stall.x);
    let mut free_above = f64::INFINITY;
    for mark in marks {
        let width = text_width(&mark.text) * LETTERS / FONT_SIZE;
        let beside = mark.at.x + GAP + width <= right;
        let x = if beside { mark.at.x + GAP } else { right - width };
        // Where a name begins left of its point, it stands over the line there.
        let wanted = if beside {
            mark.at.y - 3.0
        } else {
            (mark.at.y - GAP).min(stall.y + fall * (x - stall.x) - 6.0)
        };
        let y = wanted.min(free_above - LINE);
        if x < plane.area.x || y < plane.area.y + LETTERS {
            continue;
        }
        if wanted - y > 4.0 {
            let foot = Point::new((mark.at.x + 4.0).clamp(x, right), y + 4.0);
            mark.leader = format!("M{:.1} {:.1}L{:.1} {:.1}", mark.at.x, mark.at.y, foot.x, foot.y);
        }
        mark.label = Some(Point::new(x, y));
        free_above = y;
    }
}
