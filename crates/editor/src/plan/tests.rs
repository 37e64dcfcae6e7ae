//! Places, layers, phases and outlines of whole layouts.

use layshaft_layout::{Layout, decode};

use super::check::{Fault, faults};
use super::parts::{Body, Bond};
use super::*;

fn layout(shafts: &str, elements: &str, plan: &str) -> Layout {
    let text =
        format!(r#"{{"layshaft": 1, "shafts": [{shafts}], "elements": [{elements}], "plan": {{{plan}}}}}"#);
    decode(&text).expect("sound")
}

const THREE: &str = r#"{"id": "a"}, {"id": "b"}, {"id": "c"}"#;

fn mesh(id: &str, a: &str, b: &str, teeth: [u32; 2]) -> String {
    format!(
        r#"{{"id": "{id}", "kind": "mesh", "a": "{a}", "b": "{b}", "teeth": [{}, {}]}}"#,
        teeth[0], teeth[1]
    )
}

/// Every distance that wheels need is there.
fn check_closes(layout: &Layout) -> Plan {
    let plan = Plan::of(layout);
    for link in &plan.links {
        if let Bond::Apart(wanted) = link.bond {
            let found = plan.at[link.axes[0]].distance(plan.at[link.axes[1]]);
            assert!((found - wanted).abs() < 1e-9, "{found} is not {wanted}");
        }
    }
    plan
}

#[test]
fn three_distances_close_a_triangle() {
    let elements = [
        mesh("g1", "a", "b", [20, 40]),
        mesh("g2", "b", "c", [20, 30]),
        mesh("g3", "a", "c", [30, 36]),
    ];
    check_closes(&layout(THREE, &elements.join(","), ""));
}

#[test]
fn a_train_goes_on_straight_and_needs_few_layers() {
    let elements = [mesh("g1", "a", "b", [14, 42]), mesh("g2", "b", "c", [13, 52])];
    let plan = check_closes(&layout(THREE, &elements.join(","), ""));
    assert_eq!(plan.layers, [1, 2]);
    assert!(plan.at[1].x > 27.0 && plan.at[2].x > plan.at[1].x);
    // An idler is one gear in two meshes, in one layer.
    let idler = [mesh("g1", "a", "b", [14, 20]), mesh("g2", "b", "c", [20, 30])];
    let plan = check_closes(&layout(THREE, &idler.join(","), ""));
    assert_eq!(plan.layers, [1, 1]);
}

#[test]
fn bores_at_the_right_distance_are_taken() {
    let shafts = r#"{"id": "a"}, {"id": "b"}"#;
    let fitting = layout(
        shafts,
        &mesh("g", "a", "b", [20, 60]),
        r#""bores": "square", "pitch_mm": 8"#,
    );
    let plan = Plan::of(&fitting);
    assert_eq!(
        faults(&fitting, &plan)
            .iter()
            .filter(|fault| fault.is_wrong())
            .count(),
        0
    );
    let other = layout(
        shafts,
        &mesh("g", "a", "b", [20, 59]),
        r#""bores": "square", "pitch_mm": 8"#,
    );
    let found = faults(&other, &Plan::of(&other));
    let offered = found.iter().find_map(|fault| match fault {
        Fault::BoreDistance { wanted, offered, .. } => Some((*wanted, offered.clone())),
        _ => None,
    });
    let (wanted, offered) = offered.expect("39.5 mm is no distance of such bores");
    assert_eq!(wanted, 39.5);
    assert_eq!(offered[1], 40.0);
    // Four by two bores: no sum of two squares lies between 20 and 25.
    assert!((offered[0] - 1280.0_f64.sqrt()).abs() < 1e-9, "{offered:?}");
}

#[test]
fn a_wrong_distance_is_told_with_both_numbers() {
    let shafts = r#"{"id": "a", "axis_mm": [0, 0]}, {"id": "b", "axis_mm": [29, 0]}"#;
    let layout = layout(shafts, &mesh("g", "a", "b", [14, 42]), "");
    let found = faults(&layout, &Plan::of(&layout));
    assert!(
        found.contains(&Fault::Distance {
            element: "g".into(),
            wanted: 28.0,
            found: 29.0
        }),
        "{found:?}"
    );
}

#[test]
fn gears_forced_into_one_layer_strike() {
    let elements = [mesh("g1", "a", "b", [14, 42]), mesh("g2", "b", "c", [13, 52])];
    let chosen = r#""layers": [{"element": "g1", "layer": 1}, {"element": "g2", "layer": 1}]"#;
    let layout = layout(THREE, &elements.join(","), chosen);
    let found = faults(&layout, &Plan::of(&layout));
    assert!(
        found
            .iter()
            .any(|fault| matches!(fault, Fault::Collision { layer: 1, .. })),
        "{found:?}"
    );
}

/// Teeth of one stand in gaps of the other: on the line of centres a tooth's middle meets a gap's middle, whatever the turn.
fn check_meshes(plan: &Plan) {
    for link in plan
        .links
        .iter()
        .filter(|link| matches!(link.bond, Bond::Apart(_)))
    {
        let [one, other] = link.wheels.map(|wheel| &plan.wheels[wheel]);
        let (Body::Gear(first), Body::Gear(second)) = (one.body, other.body) else {
            continue;
        };
        let way = plan.at[link.axes[1]] - plan.at[link.axes[0]];
        let toward = libm::atan2(way.y, way.x);
        let share = |phase: f64, gear: &layshaft_geometry::Gear, from: f64| {
            ((from - phase) * gear.count() / core::f64::consts::TAU).rem_euclid(1.0)
        };
        let ring = second.rim == layshaft_geometry::Rim::Inner;
        let toward = if ring {
            toward + core::f64::consts::PI
        } else {
            toward
        };
        let back = if ring {
            toward
        } else {
            toward + core::f64::consts::PI
        };
        let (a, b) = (
            share(one.phase, &first, toward),
            share(other.phase, &second, back),
        );
        let sum = if ring { a - b } else { a + b };
        assert!(
            ((sum - 0.5).rem_euclid(1.0) - 0.5).abs() > 0.499_999,
            "{} {}: {a} {b}",
            one.name,
            other.name
        );
    }
}

#[test]
fn demos_have_a_plan_whose_teeth_mesh() {
    for demo in crate::demos::DEMOS {
        let layout = decode(demo.text).expect("demos are sound");
        let plan = Plan::of(&layout);
        check_meshes(&plan);
        assert!(
            plan.at.iter().all(|at| at.x.is_finite() && at.y.is_finite()),
            "{}",
            demo.id
        );
        assert_eq!(plan, Plan::of(&layout), "{}", demo.id);
    }
}

/// What a reader of the file measures: tip diameter of each path, and how often its outline crosses the pitch circle.
#[test]
fn outlines_for_cutting_measure_what_they_should() {
    let elements = [mesh("g1", "a", "b", [14, 42]), mesh("g2", "b", "c", [20, 30])];
    let layout = layout(THREE, &elements.join(","), r#""module_mm": 1.5, "shaft_mm": 3"#);
    let svg = cut::svg(&layout, &Plan::of(&layout)).expect("there are gears");
    let size = |name: &str| {
        let start = svg.find(&format!(" {name}=\"")).expect("it has a size") + name.len() + 3;
        svg[start..]
            .split("mm")
            .next()
            .and_then(|text| text.parse::<f64>().ok())
            .expect("in mm")
    };
    let view = format!("viewBox=\"0 0 {} {}\"", size("width"), size("height"));
    assert!(svg.contains(&view), "one unit is a millimetre");
    let paths: Vec<Vec<[f64; 2]>> = svg.split("class=\"gear\" d=\"M").skip(1).map(points).collect();
    assert_eq!(paths.len(), 4);
    for (path, teeth) in paths.iter().zip([14_u32, 42, 20, 30]) {
        let radii: Vec<f64> = path.iter().map(|[x, y]| x.hypot(*y)).collect();
        let tip = 2.0 * radii.iter().copied().fold(0.0, f64::max);
        let pitch = 1.5 * f64::from(teeth) / 2.0;
        assert!(
            (tip - 1.5 * (f64::from(teeth) + 2.0)).abs() < 0.01,
            "{teeth}: {tip}"
        );
        let crossings =
            (0..radii.len()).filter(|n| (radii[*n] < pitch) != (radii[(n + 1) % radii.len()] < pitch));
        assert_eq!(crossings.count(), 2 * teeth as usize);
    }
    assert_eq!(svg.matches("class=\"bore\" r=\"1.5\"").count(), 4);
    assert!(svg.contains("eye protection") && svg.contains("test piece"));
}

fn points(text: &str) -> Vec<[f64; 2]> {
    let text = text.split('Z').next().unwrap_or_default();
    let pair = |pair: &str| {
        let mut numbers = pair.split(' ').map(|number| number.parse().expect("a number"));
        [numbers.next().expect("x"), numbers.next().expect("y")]
    };
    text.split('L').map(pair).collect()
}

#[test]
fn a_dragged_axis_snaps_to_where_it_meshes() {
    let elements = [mesh("g1", "a", "b", [20, 40]), mesh("g2", "b", "c", [20, 30])];
    let layout = layout(THREE, &elements.join(","), "");
    let plan = Plan::of(&layout);
    let near = plan.at[0] + Point::new(0.0, 31.0);
    let rest = snap::snap(&layout, &plan, 1, near, 3.0);
    assert_eq!(
        (rest.at, rest.partners),
        (plan.at[0] + Point::new(0.0, 30.0), vec![0])
    );
    let far = plan.at[0] + Point::new(0.0, 60.0);
    assert_eq!(snap::snap(&layout, &plan, 1, far, 3.0).at, far);
}
