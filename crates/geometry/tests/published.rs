//! Sizes of gears against published tables and against figures worked out by hand.

use layshaft_geometry::{
    Gear, Pair, PairFault, chain_links, crossed_belt_mm, least_teeth_without_undercut, open_belt_mm,
    sprocket_diameter_mm,
};

#[track_caller]
fn check(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
}

/// "Elements of metric gear technology", Stock Drive Products / Sterling Instrument, table 10-1: m 10, 20°, 12 teeth,
/// x +0.3, and a rack of module 3.
#[test]
fn thickness_and_chord_are_those_of_the_table() {
    let gear = Gear::external(12, 10.0).with_shift(0.3);
    check(gear.thickness_mm(gear.pitch_radius_mm()), 17.8918, 5e-5);
    check(
        gear.half_angle(gear.pitch_radius_mm()).to_degrees(),
        8.54270,
        5e-6,
    );
    check(gear.chord_mm(), 17.8256, 5e-5);
    check(gear.chordal_addendum_mm(), 13.6657, 5e-5);
    check(gear.tip_radius_mm() - gear.pitch_radius_mm(), 13.0, 1e-9);
    // A rack's tooth is half its pitch, whatever the count.
    let wide = Gear::external(1000, 3.0);
    check(wide.thickness_mm(wide.pitch_radius_mm()), 4.7124, 5e-5);
}

/// The same publication, section 4.3, gives 32 teeth at 14.5° and 18 at 20°; 25° worked by hand, 11.2.
#[test]
fn counts_without_undercut_are_those_published() {
    for (degrees, count) in [(14.5_f64, 32.0), (20.0, 18.0), (25.0, 12.0)] {
        let least = least_teeth_without_undercut(degrees.to_radians(), 0.0);
        assert!(least.ceil() == count, "{degrees}: {least}");
    }
    assert!(Gear::external(17, 1.0).is_undercut() && !Gear::external(18, 1.0).is_undercut());
    assert!(!Gear::external(12, 1.0).with_shift(0.3).is_undercut());
    assert!(!Gear::ring(12, 1.0).is_undercut());
}

/// Worked by hand from the formula of ISO 21771, standard gears of 20°, undercut left out; the last at 0.35 rad.
#[test]
fn contact_ratios() {
    let pair = |first, second| Pair {
        first: Gear::external(first, 2.0),
        second: Gear::external(second, 2.0),
    };
    for (first, second, expected) in [(17, 17, 1.515), (12, 24, 1.511), (20, 40, 1.635)] {
        check(pair(first, second).contact_ratio(), expected, 5e-4);
    }
    let turned = Pair {
        first: pair(30, 60).first.with_pressure_angle(0.35),
        second: pair(30, 60).second.with_pressure_angle(0.35),
    };
    check(turned.contact_ratio(), 1.716, 5e-4);
}

#[test]
fn centre_distances() {
    let external = Pair {
        first: Gear::external(14, 1.5),
        second: Gear::external(42, 1.5),
    };
    check(external.centre_distance_mm(), 42.0, 1e-12);
    let internal = Pair {
        first: Gear::external(20, 2.0),
        second: Gear::ring(80, 2.0),
    };
    check(internal.centre_distance_mm(), 60.0, 1e-12);
}

/// A handbook rule for 20° full-depth teeth, from memory: about twelve teeth between ring and gear at least, fewer strike.
#[test]
fn a_ring_needs_more_teeth_than_what_turns_in_it() {
    let faults = |inner, ring| {
        Pair {
            first: Gear::external(inner, 1.0),
            second: Gear::ring(ring, 1.0),
        }
        .faults()
    };
    assert_eq!(faults(20, 80), []);
    assert!(faults(30, 33).contains(&PairFault::TipsStrike));
    assert_eq!(faults(30, 30), [PairFault::DoesNotFitInside]);
}

#[test]
fn belts_and_chains() {
    // Wheels of 30 and 10 whose belt leans by 30°: C = 20, straight parts 2 · 20 · cos 30°.
    let by_hand = 40.0 * libm::cos(30.0_f64.to_radians())
        + std::f64::consts::PI * 20.0
        + 2.0 * std::f64::consts::FRAC_PI_6 * 10.0;
    check(open_belt_mm([30.0, 10.0], 20.0).expect("apart"), by_hand, 1e-9);
    assert_eq!(open_belt_mm([50.0, 10.0], 20.0), None);
    assert_eq!(crossed_belt_mm([30.0, 10.0], 20.0), None);
    // Two sprockets of one size: exact.
    check(chain_links(12.7, [20, 20], 254.0).expect("apart"), 60.0, 1e-9);
    // ISO 606: 12.7 mm pitch and 18 teeth, 73.14 mm (from memory).
    check(sprocket_diameter_mm(12.7, 18), 73.14, 5e-3);
}
