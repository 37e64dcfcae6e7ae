//! Outlines of gears as closed lines of straight pieces that keep within a stated distance of the true curve.
//!
//! A flank is the involute down to where the corner of the rack's tooth begins to cut, below it the path of that corner
//! (a trochoid; the corner is taken as sharp). Roots of rings have sharp corners. Gears of fewer than about six teeth
//! have no proper form of this rack: they come out as what is left, which is not to be cut.

use core::f64::consts::{FRAC_PI_4, PI};

use crate::gear::{Gear, Rim};

/// How often a piece of a flank is halved at most.
const MOST_HALVINGS: u32 = 6;
/// The least share of its pitch that a tooth keeps where nothing would be left.
const LEAST_SHARE: f64 = 0.02;

/// A point of an involute: `r = r_b √(1 + t²)`, turned from where it leaves the base circle by `t − atan t`, for the roll
/// angle `t` in radians.
///
/// ```
/// let [x, y] = layshaft_geometry::involute(10.0, 0.0);
/// assert_eq!([x, y], [10.0, 0.0]);
/// ```
#[must_use]
pub fn involute(base_radius_mm: f64, roll: f64) -> [f64; 2] {
    let (sine, cosine) = (libm::sin(roll), libm::cos(roll));
    [
        base_radius_mm * (cosine + roll * sine),
        base_radius_mm * (sine - roll * cosine),
    ]
}

/// The outline of a gear about (0, 0), the middle of one tooth on the positive x axis, as a closed line of points in order of
/// rising angle. No point of the true curve is farther from it than `tolerance_mm`.
///
/// A gear without teeth gives no points.
#[must_use]
pub fn outline(gear: &Gear, tolerance_mm: f64) -> Vec<[f64; 2]> {
    let tolerance = tolerance_mm.max(1e-6 * gear.module_mm);
    let flank = flank(gear, tolerance);
    let mut points = Vec::new();
    for tooth in 0..gear.teeth {
        let middle = 2.0 * PI * f64::from(tooth) / gear.count();
        tooth_points(gear, &flank, middle, tolerance, &mut points);
    }
    points
}

/// Half of one tooth: radius and half the angle that the tooth takes there, from the root to the tip.
fn flank(gear: &Gear, tolerance: f64) -> Vec<[f64; 2]> {
    let (root, tip) = (gear.root_radius_mm(), gear.tip_radius_mm());
    let profile = |share: f64| {
        // Close to the root the curve turns most.
        let radius = root + (tip - root) * share * share;
        [radius, tooth_half_angle(gear, radius)]
    };
    const COARSE: u32 = 6;
    let mut points = vec![profile(0.0)];
    for step in 0..COARSE {
        let share = |step: u32| f64::from(step) / f64::from(COARSE);
        refine(
            &profile,
            share(step),
            share(step + 1),
            tolerance,
            MOST_HALVINGS,
            &mut points,
        );
    }
    points
}

/// Adds the points of a piece without its first, halved until its middle lies close to its chord.
fn refine(
    profile: &impl Fn(f64) -> [f64; 2],
    from: f64,
    to: f64,
    tolerance: f64,
    halvings: u32,
    points: &mut Vec<[f64; 2]>,
) {
    let middle = f64::midpoint(from, to);
    let [start, between, end] = [from, middle, to].map(|share| polar(profile(share)));
    if halvings == 0 || from_chord(start, end, between) <= tolerance {
        points.push(profile(to));
        return;
    }
    refine(profile, from, middle, tolerance, halvings - 1, points);
    refine(profile, middle, to, tolerance, halvings - 1, points);
}

/// Half the angle of the solid tooth at a radius.
fn tooth_half_angle(gear: &Gear, radius: f64) -> f64 {
    let half_pitch = PI / gear.count();
    let least = LEAST_SHARE * half_pitch;
    match gear.rim {
        Rim::Inner => (half_pitch - gear.half_angle(radius).max(0.0)).clamp(0.0, half_pitch),
        Rim::Outer => (half_pitch - gap_half_angle(gear, radius)).clamp(least, half_pitch),
    }
}

/// Half the angle of the gap that the rack leaves at a radius.
///
/// The corner of the rack's tooth, `w` beside the middle of the gap and `h` below the rolling line, passes the radius `R` at
/// the angle `w/r + atan(s/(r − h)) − s/r` with `s = √(R² − (r − h)²)`. Where `h ≤ r sin² α`, its path meets the involute
/// without a corner at `R_f = √((r − h)² + (h / tan α)²)`; else it cuts into the involute.
///
/// # Source
/// Rolling of a rack on the pitch circle, worked out here; the meeting point as in J. E. Shigley, "Theory of Machines and
/// Mechanisms", chapter on spur gears (from memory).
fn gap_half_angle(gear: &Gear, radius: f64) -> f64 {
    let pitch_radius = gear.pitch_radius_mm();
    let root = gear.root_radius_mm();
    let tangent = libm::tan(gear.pressure_angle);
    let depth = pitch_radius - root;
    let half_width = (gear.module_mm * (FRAC_PI_4 - Gear::DEDENDUM * tangent)).max(0.0);
    let along = (radius * radius - root * root).max(0.0).sqrt();
    let by_corner = half_width / pitch_radius + libm::atan2(along, root) - along / pitch_radius;
    let by_flank = PI / gear.count() - gear.half_angle(radius);
    let sine = libm::sin(gear.pressure_angle);
    if depth <= pitch_radius * sine * sine {
        let meeting = (root * root + depth * depth / (tangent * tangent)).sqrt();
        return if radius < meeting { by_corner } else { by_flank };
    }
    if radius < gear.base_radius_mm() {
        by_corner
    } else {
        by_corner.max(by_flank)
    }
}

/// Adds one tooth: up its first flank, over its tip, down the other; the arc of the root to the next tooth comes last.
fn tooth_points(gear: &Gear, flank: &[[f64; 2]], middle: f64, tolerance: f64, points: &mut Vec<[f64; 2]>) {
    let half_pitch = PI / gear.count();
    points.extend(flank.iter().map(|[radius, half]| polar([*radius, middle - half])));
    if let Some([tip, half]) = flank.last() {
        arc(*tip, middle - half, middle + half, tolerance, points);
    }
    points.extend(
        flank
            .iter()
            .rev()
            .map(|[radius, half]| polar([*radius, middle + half])),
    );
    if let Some([root, half]) = flank.first() {
        arc(
            *root,
            middle + half,
            middle + 2.0 * half_pitch - half,
            tolerance,
            points,
        );
    }
}

/// Points between the ends of an arc.
fn arc(radius: f64, from: f64, to: f64, tolerance: f64, points: &mut Vec<[f64; 2]>) {
    // A chord over the angle 2 β is r (1 − cos β) ≈ r β² / 2 from its arc.
    let widest = 2.0 * (2.0 * tolerance / radius.max(1e-9)).sqrt();
    let mut pieces = 1_u32;
    while (to - from) / f64::from(pieces) > widest && pieces < 64 {
        pieces += 1;
    }
    points
        .extend((1..pieces).map(|n| polar([radius, from + (to - from) * f64::from(n) / f64::from(pieces)])));
}

fn polar([radius, angle]: [f64; 2]) -> [f64; 2] {
    [radius * libm::cos(angle), radius * libm::sin(angle)]
}

/// Distance of a point from the line through two others.
fn from_chord(start: [f64; 2], end: [f64; 2], point: [f64; 2]) -> f64 {
    let [along_x, along_y] = [end[0] - start[0], end[1] - start[1]];
    let [to_x, to_y] = [point[0] - start[0], point[1] - start[1]];
    let length = (along_x * along_x + along_y * along_y).sqrt();
    if length > 0.0 {
        (along_x * to_y - along_y * to_x).abs() / length
    } else {
        (to_x * to_x + to_y * to_y).sqrt()
    }
}
