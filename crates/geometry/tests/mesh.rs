//! Second roads to outlines: flanks against an involute traced by a taut string, and two outlines that turn together.

use std::f64::consts::PI;

use layshaft_geometry::{Gear, Pair, inv, involute, outline, profile_angle};

type Point = [f64; 2];

fn radius([x, y]: Point) -> f64 {
    x.hypot(y)
}

/// The string's end is as far from where it leaves the base circle as the piece of the circle that it came off.
#[test]
fn the_involute_is_what_a_taut_string_traces() {
    for step in 0..50 {
        let roll = f64::from(step) * 0.03;
        let [x, y] = involute(10.0, roll);
        let leaves = [10.0 * libm::cos(roll), 10.0 * libm::sin(roll)];
        let string = radius([x - leaves[0], y - leaves[1]]);
        assert!((string - 10.0 * roll).abs() < 1e-9, "{roll}");
        // Its angle is the involute function of its profile angle.
        let found = libm::atan2(y, x);
        let expected = inv(profile_angle(10.0, radius([x, y])));
        assert!((found - expected).abs() < 1e-7, "{roll}");
    }
}

/// Every point of the flank above the fillet lies on the traced involute of the tooth's thickness.
#[test]
fn flanks_lie_on_the_involute() {
    for gear in [
        Gear::external(24, 2.0),
        Gear::external(40, 1.0).with_shift(0.2),
        Gear::external(90, 0.5),
    ] {
        let half = gear.half_angle(gear.pitch_radius_mm());
        let turned = half + inv(gear.pressure_angle);
        let mut seen = 0;
        for point in outline(&gear, 0.001) {
            let [x, y] = point;
            let angle = libm::atan2(y, x);
            let on_flank =
                radius(point) > gear.pitch_radius_mm() && radius(point) < gear.tip_radius_mm() - 1e-9;
            if !on_flank || angle < 0.0 || angle > PI / gear.count() {
                continue;
            }
            let traced = turned - inv(profile_angle(gear.base_radius_mm(), radius(point)));
            assert!((angle - traced).abs() < 1e-9, "{gear:?} at {point:?}");
            seen += 1;
        }
        assert!(seen >= 2, "{gear:?}");
    }
}

#[test]
fn an_outline_has_its_tips_its_roots_and_its_teeth() {
    for (gear, sizes) in [
        (Gear::external(12, 1.0), [4.75, 7.0]),
        (Gear::external(20, 2.0), [17.5, 22.0]),
        (Gear::ring(60, 1.0), [29.0, 31.25]),
    ] {
        let radii: Vec<f64> = outline(&gear, 0.01).into_iter().map(radius).collect();
        let least = radii.iter().copied().fold(f64::INFINITY, f64::min);
        let most = radii.iter().copied().fold(0.0, f64::max);
        assert!(
            (least - sizes[0]).abs() < 1e-9 && (most - sizes[1]).abs() < 1e-9,
            "{least} {most}"
        );
        let pitch = gear.pitch_radius_mm();
        let crossings =
            (0..radii.len()).filter(|n| (radii[*n] < pitch) != (radii[(n + 1) % radii.len()] < pitch));
        assert_eq!(crossings.count(), 2 * gear.teeth as usize);
    }
}

/// A coarser outline stays within its tolerance of a fine one.
#[test]
fn the_tolerance_is_kept() {
    for gear in [
        Gear::external(9, 2.0),
        Gear::external(31, 2.0),
        Gear::ring(50, 2.0),
    ] {
        let fine = outline(&gear, 1e-4);
        let coarse = outline(&gear, 0.02);
        assert!(coarse.len() < fine.len());
        for point in fine.iter().take(fine.len() / gear.teeth as usize) {
            let nearest = edges(&coarse)
                .map(|(from, to)| from_piece(from, to, *point))
                .fold(f64::INFINITY, f64::min);
            assert!(nearest < 0.021, "{gear:?}: {nearest}");
        }
    }
}

#[test]
fn no_tooth_count_breaks_an_outline() {
    for teeth in 0..60 {
        for shift in [-0.6, 0.0, 0.4, 1.3] {
            for gear in [
                Gear::external(teeth, 1.0).with_shift(shift),
                Gear::ring(teeth, 1.0).with_shift(shift),
            ] {
                let points = outline(&gear, 0.01);
                assert!(points.iter().flatten().all(|part| part.is_finite()), "{gear:?}");
            }
        }
    }
}

/// Two outlines turned together over a tooth never run into one another by more than they are inexact, and always touch.
fn check_mesh(pair: Pair) {
    const TOLERANCE: f64 = 2e-4;
    let (first, second) = (outline(&pair.first, TOLERANCE), outline(&pair.second, TOLERANCE));
    let distance = pair.centre_distance_mm();
    let steps = 7;
    for step in 0..steps {
        let turn = 2.0 * PI / pair.first.count() * f64::from(step) / f64::from(steps);
        let back = turn * pair.first.count() / pair.second.count();
        let half_tooth = PI / pair.second.count();
        // A ring stands to the left with what turns in it on its right; both turn the same way.
        let (at, turned) = if pair.is_internal() {
            (-distance, back + half_tooth)
        } else {
            (distance, PI - back + half_tooth)
        };
        let first = placed(&first, 0.0, turn);
        let second = placed(&second, at, turned);
        let deepest = deepest(&first, &second, &pair);
        assert!(deepest < 20.0 * TOLERANCE, "{pair:?} at {step}: {deepest} deep");
        let gap = gap(&first, &second, pair.first.module_mm);
        assert!(gap < 20.0 * TOLERANCE, "{pair:?} at {step}: {gap} apart");
    }
}

#[test]
fn gears_in_true_phase_touch_and_never_overlap() {
    for (first, second) in [(18, 18), (20, 40), (24, 61), (10, 14), (12, 36), (8, 24)] {
        check_mesh(Pair {
            first: Gear::external(first, 1.0),
            second: Gear::external(second, 1.0),
        });
    }
}

#[test]
fn a_gear_in_a_ring_touches_and_never_overlaps() {
    for (first, second) in [(20, 70), (24, 72), (36, 60)] {
        let pair = Pair {
            first: Gear::external(first, 1.0),
            second: Gear::ring(second, 1.0),
        };
        assert_eq!(pair.faults(), []);
        check_mesh(pair);
    }
}

fn placed(points: &[Point], at: f64, turned: f64) -> Vec<Point> {
    let (sine, cosine) = (libm::sin(turned), libm::cos(turned));
    points
        .iter()
        .map(|[x, y]| [x * cosine - y * sine + at, x * sine + y * cosine])
        .collect()
}

/// How deep the corners of one outline lie within the solid of the other, at most.
fn deepest(first: &[Point], second: &[Point], pair: &Pair) -> f64 {
    let ring = pair.is_internal();
    let reach = pair.first.tip_radius_mm() + 1e-9;
    let near = |point: &&Point| radius(**point) < reach;
    let in_first = second
        .iter()
        .filter(near)
        .filter(|point| contains(first, **point));
    let in_second = first.iter().filter(|point| contains(second, **point) != ring);
    let depth_first = in_first.map(|point| from_outline(first, *point));
    let depth_second = in_second.map(|point| from_outline(second, *point));
    depth_first.chain(depth_second).fold(0.0, f64::max)
}

/// How far apart they are at the nearest.
fn gap(first: &[Point], second: &[Point], module: f64) -> f64 {
    let reach = first.iter().copied().map(radius).fold(0.0, f64::max) + module;
    let near: Vec<Point> = second
        .iter()
        .copied()
        .filter(|point| radius(*point) < reach)
        .collect();
    let of_second = near.iter().map(|point| from_outline(first, *point));
    of_second.fold(f64::INFINITY, f64::min)
}

fn edges(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    (0..points.len()).map(|n| (points[n], points[(n + 1) % points.len()]))
}

fn contains(outline: &[Point], [x, y]: Point) -> bool {
    let crosses = |(from, to): &(Point, Point)| {
        (from[1] > y) != (to[1] > y) && x < from[0] + (y - from[1]) / (to[1] - from[1]) * (to[0] - from[0])
    };
    edges(outline).filter(crosses).count() % 2 == 1
}

fn from_outline(outline: &[Point], point: Point) -> f64 {
    edges(outline)
        .map(|(from, to)| from_piece(from, to, point))
        .fold(f64::INFINITY, f64::min)
}

fn from_piece(from: Point, to: Point, point: Point) -> f64 {
    let along = [to[0] - from[0], to[1] - from[1]];
    let length = along[0] * along[0] + along[1] * along[1];
    let share = if length > 0.0 {
        (((point[0] - from[0]) * along[0] + (point[1] - from[1]) * along[1]) / length).clamp(0.0, 1.0)
    } else {
        0.0
    };
    radius([
        from[0] + along[0] * share - point[0],
        from[1] + along[1] * share - point[1],
    ])
}
