//! From the gears of an arrangement to its layout: shafts, elements, what is engaged in low and high, where all is drawn.

use layshaft_layout::{Differential, ElementKind, Id, Layout, OneWaySense, Pins, Planetary, Planets};

use super::draft::Draft;
use super::ends::Ends;
use super::sizing::Sizing;
use super::{Arrangement, Switching};

/// The layout of a sizing, its title aside.
pub fn layout(sizing: &Sizing, ends: &Ends, mesh_efficiency: f64) -> Layout {
    let switching = ends.switching(sizing.arrangement);
    let draft = Draft::new(ends, mesh_efficiency, switching == Switching::Kept);
    match (sizing.arrangement, &sizing.unit[..]) {
        (Arrangement::ParallelPairs, [low, high]) => parallel_pairs(draft, *low, *high, &sizing.shared),
        (Arrangement::TwoLayshafts, [low, high]) => two_layshafts(draft, *low, *high, &sizing.shared),
        (Arrangement::OneWayPairs, [low, high]) => one_way_pairs(draft, *low, *high, &sizing.shared),
        (Arrangement::LayshaftLow, [first, second]) => {
            layshaft(draft, [*first, *second], true, &sizing.shared)
        }
        (Arrangement::LayshaftHigh, [first, second]) => {
            layshaft(draft, [*first, *second], false, &sizing.shared)
        }
        (Arrangement::RingHeld, [teeth]) => planetary(draft, *teeth, true, sizing),
        (Arrangement::SunHeld, [teeth]) => planetary(draft, *teeth, false, sizing),
        (Arrangement::SummingBrake, [first, second]) => {
            summing(draft, [*first, *second], Hold::Brake, &sizing.shared)
        }
        (Arrangement::SummingBackstop, [first, second]) => {
            summing(draft, [*first, *second], Hold::Backstop, &sizing.shared)
        }
        (Arrangement::SubtractingBrake, [direct, first, second]) => {
            subtracting_pairs(draft, *direct, [*first, *second], &sizing.shared)
        }
        (Arrangement::SubtractingWorm, [direct, worm]) => {
            subtracting_worm(draft, *direct, worm[1], &sizing.shared)
        }
        _ => side_held(draft, &sizing.shared),
    }
}

fn parallel_pairs(mut draft: Draft<'_>, low: [u32; 2], high: [u32; 2], shared: &[[u32; 2]]) -> Layout {
    let [input, low_gear, high_gear, out] = between(&mut draft, shared);
    draft.mesh(&input, &low_gear, low);
    draft.mesh(&input, &high_gear, high);
    let low_clutch = draft.clutch("low clutch", None, &low_gear, &out);
    let high_clutch = draft.clutch("high clutch", None, &high_gear, &out);
    draft.finish(&out, shared, &[low_clutch], &[high_clutch])
}

/// The first of the shared stages is the pinion of either layshaft on the last gear.
fn two_layshafts(mut draft: Draft<'_>, low: [u32; 2], high: [u32; 2], shared: &[[u32; 2]]) -> Layout {
    let (last, behind) = match shared {
        [last, behind @ ..] => (*last, behind),
        [] => ([1, 1], shared),
    };
    let input = draft.input.clone();
    let low_gear = draft.shaft("low gear", [150.0, -100.0]);
    let high_gear = draft.shaft("high gear", [150.0, 100.0]);
    let low_shaft = draft.shaft("low shaft", [300.0, -100.0]);
    let high_shaft = draft.shaft("high shaft", [300.0, 100.0]);
    let out = draft.out(behind, [450.0, 0.0]);
    draft.mesh(&input, &low_gear, low);
    draft.mesh(&input, &high_gear, high);
    let low_clutch = draft.clutch("low clutch", None, &low_gear, &low_shaft);
    let high_clutch = draft.clutch("high clutch", None, &high_gear, &high_shaft);
    draft.mesh(&low_shaft, &out, last);
    draft.mesh(&high_shaft, &out, last);
    draft.finish(&out, behind, &[low_clutch], &[high_clutch])
}

fn one_way_pairs(mut draft: Draft<'_>, low: [u32; 2], high: [u32; 2], shared: &[[u32; 2]]) -> Layout {
    let [input, low_gear, high_gear, out] = between(&mut draft, shared);
    draft.mesh(&input, &low_gear, low);
    draft.mesh(&input, &high_gear, high);
    let sense = draft.ends().against_source();
    draft.one_way(Some(&low_gear), &out, sense);
    let high_clutch = draft.clutch("high clutch", None, &high_gear, &out);
    draft.finish(&out, shared, &[], &[high_clutch])
}

/// Input, two loose gears, output.
fn between(draft: &mut Draft<'_>, shared: &[[u32; 2]]) -> [Id; 4] {
    let low = draft.shaft("low gear", [170.0, -90.0]);
    let high = draft.shaft("high gear", [170.0, 90.0]);
    let out = draft.out(shared, [340.0, 0.0]);
    [draft.input.clone(), low, high, out]
}

/// `over_for_low`: the way over the layshaft is the lower gear.
fn layshaft(mut draft: Draft<'_>, pairs: [[u32; 2]; 2], over_for_low: bool, shared: &[[u32; 2]]) -> Layout {
    let input = draft.input.clone();
    let lay = draft.shaft("layshaft", [110.0, 130.0]);
    let loose = draft.shaft("loose gear", [250.0, 130.0]);
    let out = draft.out(shared, [380.0, 0.0]);
    draft.mesh(&input, &lay, pairs[0]);
    draft.mesh(&lay, &loose, pairs[1]);
    let direct = draft.clutch("direct", None, &input, &out);
    let over = draft.clutch("lay clutch", None, &loose, &out);
    let (low, high) = if over_for_low {
        (over, direct)
    } else {
        (direct, over)
    };
    draft.finish(&out, shared, &[low], &[high])
}

/// Driven at the sun with the ring held, or at the ring with the sun held; locked up between both.
fn planetary(mut draft: Draft<'_>, teeth: [u32; 2], at_sun: bool, sizing: &Sizing) -> Layout {
    let input = draft.input.clone();
    let held = draft.shaft(if at_sun { "ring" } else { "sun" }, [150.0, -120.0]);
    let out = draft.out(&sizing.shared, [320.0, 0.0]);
    let (sun, ring) = if at_sun { (&input, &held) } else { (&held, &input) };
    let set = ElementKind::Planetary(Planetary {
        sun: sun.clone(),
        ring: ring.clone(),
        carrier: out.clone(),
        sun_teeth: teeth[0],
        ring_teeth: teeth[1],
        planets: Planets::Single,
        loss: draft.ends().planetary_loss(draft.mesh_efficiency()),
        pins: Pins::NOT_GIVEN,
        count: Some(sizing.planets),
    });
    let lock = draft.clutch("lock-up", Some([40.0, -90.0]), &input, &held);
    let brake = draft.brake(&held);
    draft.add("set", Some([180.0, 0.0]), set);
    draft.finish(&out, &sizing.shared, &[brake], &[lock])
}

/// A bevel differential driven at one side.
fn side_held(mut draft: Draft<'_>, shared: &[[u32; 2]]) -> Layout {
    let input = draft.input.clone();
    let held = draft.shaft("held side", [150.0, -120.0]);
    let out = draft.out(shared, [320.0, 0.0]);
    let lock = draft.clutch("lock-up", Some([40.0, -90.0]), &input, &held);
    let brake = draft.brake(&held);
    differential(&mut draft, [&input, &held], &out, [180.0, 0.0]);
    draft.finish(&out, shared, &[brake], &[lock])
}

fn differential(draft: &mut Draft<'_>, sides: [&Id; 2], carrier: &Id, at: [f64; 2]) {
    let kind = ElementKind::Differential(Differential {
        sides: sides.map(Clone::clone),
        carrier: carrier.clone(),
        teeth: None,
        loss: draft.ends().differential_loss(draft.mesh_efficiency()),
        pins: Pins::NOT_GIVEN,
    });
    draft.add("diff", Some(at), kind);
}

/// What holds a side of a differential.
#[derive(Clone, Copy)]
enum Hold {
    Brake,
    Backstop,
}

fn summing(mut draft: Draft<'_>, pairs: [[u32; 2]; 2], hold: Hold, shared: &[[u32; 2]]) -> Layout {
    let input = draft.input.clone();
    let first = draft.shaft("first side", [190.0, -90.0]);
    let gear = draft.shaft("second gear", [120.0, 110.0]);
    let second = draft.shaft("second side", [270.0, 110.0]);
    let out = draft.out(shared, [420.0, 0.0]);
    draft.mesh(&input, &first, pairs[0]);
    draft.mesh(&input, &gear, pairs[1]);
    let clutch = draft.clutch("clutch", None, &gear, &second);
    differential(&mut draft, [&first, &second], &out, [320.0, 0.0]);
    let low = match hold {
        Hold::Brake => vec![draft.brake(&second)],
        Hold::Backstop => {
            let sense: OneWaySense = draft.ends().against_source();
            draft.one_way(None, &second, sense);
            draft.say_sense();
            Vec::new()
        }
    };
    draft.finish(&out, shared, &low, &[clutch])
}

fn subtracting_pairs(
    mut draft: Draft<'_>,
    direct: [u32; 2],
    branch: [[u32; 2]; 2],
    shared: &[[u32; 2]],
) -> Layout {
    let input = draft.input.clone();
    let side = draft.shaft("side", [260.0, -90.0]);
    let idler = draft.shaft("idler", [80.0, 120.0]);
    let gear = draft.shaft("branch gear", [210.0, 120.0]);
    let held = draft.shaft("branch", [350.0, 120.0]);
    let out = draft.out(shared, [490.0, 0.0]);
    draft.mesh(&input, &side, direct);
    draft.mesh(&input, &idler, branch[0]);
    draft.mesh(&idler, &gear, branch[1]);
    let clutch = draft.clutch("clutch", None, &gear, &held);
    let brake = draft.brake(&held);
    differential(&mut draft, [&side, &held], &out, [390.0, 0.0]);
    draft.finish(&out, shared, &[clutch], &[brake])
}

fn subtracting_worm(mut draft: Draft<'_>, direct: [u32; 2], teeth: u32, shared: &[[u32; 2]]) -> Layout {
    let input = draft.input.clone();
    let side = draft.shaft("side", [230.0, -90.0]);
    let screw = draft.shaft("screw", [130.0, 120.0]);
    let branch = draft.shaft("branch", [310.0, 120.0]);
    let out = draft.out(shared, [450.0, 0.0]);
    draft.mesh(&input, &side, direct);
    let clutch = draft.clutch("clutch", None, &input, &screw);
    let worm = draft.ends().worm_between(screw, branch.clone(), teeth);
    draft.add("wg", None, ElementKind::Worm(worm));
    differential(&mut draft, [&side, &branch], &out, [350.0, 0.0]);
    draft.finish(&out, shared, &[clutch], &[])
}
