//! Outlines of gears for cutting: an SVG in millimetres, true to size.

use std::fmt::Write as _;

use layshaft_geometry::{Gear, Rim, outline};
use layshaft_layout::{ElementKind, Layout, MeshForm};

use super::Plan;
use super::parts::{Body, Wheel};
use crate::wording::plan::{CUTTING, mm};

/// How far a line may be from the true curve, in mm: a tenth of what a good cutter holds.
const TOLERANCE_MM: f64 = 0.005;
/// Teeth above which a gear is left out: nobody cuts it, and its file would take minutes to write.
const MOST_TEETH: u32 = 1000;
/// Room round each gear in mm, and the height of letters.
const GAP: f64 = 6.0;
const LETTERS: f64 = 3.0;
/// Width of the words under a gear, over the height of letters.
const WORDS: f64 = 16.0;
/// A row is about so wide in mm.
const ROW: f64 = 280.0;

/// Gears of one size.
struct Sort {
    gear: Gear,
    names: Vec<String>,
}

/// The outlines of all spur gears of a plan, those of one size once; none where there is no such gear. Bevel gears and worm
/// wheels have no outline that could be cut from a sheet.
#[must_use]
pub fn svg(layout: &Layout, plan: &Plan) -> Option<String> {
    let sorts = sorts(layout, plan);
    if sorts.is_empty() {
        return None;
    }
    let (mut body, mut x, mut y, mut row, mut wide) = (String::new(), GAP, GAP, 0.0_f64, ROW);
    for sort in &sorts {
        // The words under a small gear are wider than it.
        let radius = Body::Gear(sort.gear).outer_radius();
        let half = radius.max(LETTERS * WORDS / 2.0);
        if x > GAP && x + 2.0 * half > ROW {
            (x, y, row) = (GAP, y + row, 0.0);
        }
        write_gear(&mut body, sort, [x + half, y + radius], layout.plan.shaft_mm);
        x += 2.0 * half + GAP;
        wide = wide.max(x);
        row = row.max(2.0 * radius + 3.0 * LETTERS + GAP);
    }
    let notes = notes(layout, y + row + LETTERS);
    let high = y + row + LETTERS * 1.6 * (CUTTING.len() as f64 + 2.0) + GAP;
    let (wide, high) = (tidy(wide), tidy(high));
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" viewBox=\"0 0 {wide} {high}\">\n\
         <title>Gears of {}</title>\n<g fill=\"none\" stroke=\"#000\" stroke-width=\"0.1\">\n{body}</g>\n{notes}</svg>\n",
        escaped(&layout.title)
    ))
}

fn is_spur(kind: &ElementKind) -> bool {
    match kind {
        ElementKind::Mesh(mesh) => mesh.form != MeshForm::Bevel,
        other => !matches!(other, ElementKind::Worm(_)),
    }
}

fn sorts(layout: &Layout, plan: &Plan) -> Vec<Sort> {
    let mut sorts: Vec<Sort> = Vec::new();
    let spur = |wheel: &&Wheel| is_spur(&layout.elements[wheel.element].kind);
    for wheel in plan.wheels.iter().filter(spur) {
        let Body::Gear(gear) = wheel.body else { continue };
        if gear.teeth > MOST_TEETH {
            continue;
        }
        match sorts.iter_mut().find(|sort| sort.gear == gear) {
            Some(sort) => sort.names.push(wheel.name.clone()),
            None => sorts.push(Sort {
                gear,
                names: vec![wheel.name.clone()],
            }),
        }
    }
    sorts
}

fn write_gear(body: &mut String, sort: &Sort, [x, y]: [f64; 2], shaft_mm: f64) {
    let gear = &sort.gear;
    let (x, y) = (tidy(x), tidy(y));
    let _ = writeln!(body, "<g transform=\"translate({x} {y})\">");
    let _ = writeln!(
        body,
        "<path class=\"gear\" d=\"{}\"/>",
        path(&outline(gear, TOLERANCE_MM), 1e4)
    );
    let is_ring = gear.rim == Rim::Inner;
    let circle = if is_ring {
        Body::Gear(*gear).outer_radius()
    } else {
        shaft_mm / 2.0
    };
    if circle > 0.0 && (is_ring || circle < gear.root_radius_mm()) {
        let _ = writeln!(
            body,
            "<circle class=\"{}\" r=\"{}\"/>",
            if is_ring { "rim" } else { "bore" },
            tidy(circle)
        );
    }
    let below = Body::Gear(*gear).outer_radius() + LETTERS * 1.2;
    let _ = writeln!(
        body,
        "<text y=\"{}\" text-anchor=\"middle\" font-size=\"{LETTERS}\" font-family=\"sans-serif\" fill=\"#000\" stroke=\"none\">\
         {}{} teeth, module {}, {}°, {}×</text>\n</g>",
        tidy(below),
        if is_ring { "ring, " } else { "" },
        gear.teeth,
        tidy(gear.module_mm),
        tidy(gear.pressure_angle.to_degrees()),
        sort.names.len()
    );
}

fn notes(layout: &Layout, top: f64) -> String {
    let sizes = format!(
        "Scale 1:1, in millimetres. Bores {}, width of the cut {} (not taken off). Involutes of the basic rack of ISO 53. Bevel gears, worm wheels and gears of more than {MOST_TEETH} teeth are left out.",
        mm(layout.plan.shaft_mm),
        mm(layout.plan.kerf_mm)
    );
    let mut text = format!("<g font-size=\"{LETTERS}\" font-family=\"sans-serif\" fill=\"#000\">\n");
    for (line, words) in std::iter::once(sizes.as_str()).chain(CUTTING).enumerate() {
        let y = tidy(top + LETTERS * 1.6 * (line as f64 + 1.0));
        let _ = writeln!(text, "<text x=\"{GAP}\" y=\"{y}\">{}</text>", escaped(words));
    }
    text.push_str("</g>\n");
    text
}

/// Path data of a closed line; `digits` is one over the smallest step.
#[must_use]
pub fn path(points: &[[f64; 2]], digits: f64) -> String {
    let mut path = String::with_capacity(points.len() * 14);
    for (n, [x, y]) in points.iter().enumerate() {
        let tidy = |part: f64| (part * digits).round() / digits + 0.0;
        let _ = write!(
            path,
            "{}{} {}",
            if n == 0 { 'M' } else { 'L' },
            tidy(*x),
            tidy(*y)
        );
    }
    if !points.is_empty() {
        path.push('Z');
    }
    path
}

fn tidy(length: f64) -> f64 {
    (length * 1e4).round() / 1e4 + 0.0
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}
