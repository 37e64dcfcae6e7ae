//! Arbitrary elements: every kind with every field, on few shafts.

use layshaft_powerflow::materials::{MATERIALS, Material};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use proptest::strategy::Union;

use super::{length_mm, material_pair, not_negative};
use crate::document::*;

/// Any element that is sound among these shafts, of which there must be at least two.
pub fn element_kind(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    Union::new([
        mesh(shafts.clone()).boxed(),
        two_ends(shafts.clone()).boxed(),
        joint(shafts.clone()).boxed(),
        worm(shafts.clone()).boxed(),
        three_ends(shafts.clone()).boxed(),
        one_end(shafts.clone()).boxed(),
        vehicle(shafts).boxed(),
    ])
}

fn efficiency() -> impl Strategy<Value = Option<f64>> {
    option::of(prop_oneof![select(vec![1.0, 0.9, 0.1]), 1e-3..1.0])
}

fn teeth() -> impl Strategy<Value = u32> {
    prop_oneof![8_u32..80, select(vec![1, 999_983, 1_000_000])]
}

/// A tooth count with a larger one.
fn ring_and_inside() -> impl Strategy<Value = (u32, u32)> {
    (1_u32..500_000, 1_u32..500_000).prop_map(|(inside, more)| (inside + more, inside))
}

/// Two different shafts, one of which may be the frame.
fn two_shafts(shafts: Vec<Id>) -> impl Strategy<Value = [Id; 2]> {
    let frame = Id::from(FRAME);
    let pairs = subsequence(shafts, 2).prop_shuffle();
    (pairs, 0..8).prop_map(move |(pair, odds)| match odds {
        0 => [pair[0].clone(), frame.clone()],
        1 => [frame.clone(), pair[1].clone()],
        _ => [pair[0].clone(), pair[1].clone()],
    })
}

/// Three ends that are not all on one shaft.
fn three_shafts(shafts: Vec<Id>) -> impl Strategy<Value = [Id; 3]> {
    let third = select([shafts.clone(), vec![Id::from(FRAME)]].concat());
    (two_shafts(shafts), third, 0_usize..3).prop_map(|([a, b], c, turn)| {
        let mut ends = [a, b, c];
        ends.rotate_left(turn);
        ends
    })
}

fn loss() -> impl Strategy<Value = MeshLoss> {
    prop_oneof![
        Just(MeshLoss::NotGiven),
        (1e-3..1.0).prop_map(MeshLoss::Efficiency),
        (0.0..0.5).prop_map(MeshLoss::Friction),
        material_pair().prop_map(MeshLoss::MaterialPair),
    ]
}

fn pins() -> impl Strategy<Value = Pins> {
    let given = (0.0..0.5, 0.0..1.0).prop_map(|(friction, ratio)| Pins { friction, ratio });
    prop_oneof![Just(Pins::NOT_GIVEN), given]
}

fn mesh(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    let material = select(MATERIALS.iter().collect::<Vec<&'static Material>>());
    let strength = (
        option::of(material),
        option::of(length_mm()),
        option::of(not_negative()),
    );
    let form = prop_oneof![
        (teeth(), teeth()).prop_map(|(a, b)| ([a, b], MeshForm::External, Sense::Opposite)),
        ring_and_inside().prop_map(|(ring, inside)| ([inside, ring], MeshForm::Internal, Sense::Opposite)),
        (teeth(), teeth(), select(vec![Sense::Opposite, Sense::Same])).prop_map(|(a, b, sense)| (
            [a, b],
            MeshForm::Bevel,
            sense
        )),
    ];
    (
        two_shafts(shafts),
        form,
        loss(),
        option::of(length_mm()),
        prop_oneof![Just(20.0), 0.0..44.9],
        strength,
    )
        .prop_map(
            |([a, b], (teeth, form, sense), loss, module_mm, pressure_angle_deg, strength)| {
                ElementKind::Mesh(Mesh {
                    a,
                    b,
                    teeth,
                    form,
                    sense,
                    loss,
                    module_mm,
                    pressure_angle_deg,
                    material: strength.0,
                    width_mm: strength.1,
                    skip_nm: strength.2,
                })
            },
        )
}

fn two_ends(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    (
        two_shafts(shafts),
        [teeth(), teeth()],
        [length_mm(), length_mm()],
        efficiency(),
        (
            option::of(length_mm()),
            option::of(not_negative()),
            not_negative(),
        ),
        any::<bool>(),
        0..4,
    )
        .prop_map(
            |([a, b], teeth, diameters_mm, efficiency, (pitch_mm, slip_nm, force), crossed, which)| {
                match which {
                    0 => ElementKind::Chain(Chain {
                        a,
                        b,
                        teeth,
                        efficiency,
                        pitch_mm,
                        pretension_n: force,
                    }),
                    1 => ElementKind::Belt(Belt {
                        a,
                        b,
                        diameters_mm,
                        crossed,
                        efficiency,
                        slip_nm,
                        pretension_n: force,
                    }),
                    2 => friction_wheel(
                        [a, b],
                        diameters_mm,
                        if crossed {
                            WheelForm::External
                        } else {
                            WheelForm::Internal
                        },
                        (efficiency, slip_nm, force),
                    ),
                    _ => ElementKind::Clutch(Clutch { a, b }),
                }
            },
        )
}

fn friction_wheel(
    [a, b]: [Id; 2],
    mut diameters_mm: [f64; 2],
    mut form: WheelForm,
    (efficiency, slip_nm, press_n): (Option<f64>, Option<f64>, f64),
) -> ElementKind {
    if diameters_mm[0] > diameters_mm[1] {
        diameters_mm.reverse();
    }
    if diameters_mm[0] >= diameters_mm[1] {
        form = WheelForm::External;
    }
    ElementKind::FrictionWheel(FrictionWheel {
        a,
        b,
        diameters_mm,
        form,
        efficiency,
        slip_nm,
        press_n,
    })
}

/// Joints that let go. Torque switches shift between two of the first three positions that [`layout`] makes.
fn joint(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    let positions = subsequence(vec!["p1", "p2", "p3"], 2).prop_shuffle();
    let sense = select(vec![OneWaySense::Positive, OneWaySense::Negative]);
    let torques = (-9.0..9.0, 1e-3..9.0);
    (
        two_shafts(shafts),
        not_negative(),
        sense,
        torques,
        positions,
        0..3,
    )
        .prop_map(
            |([a, b], limit_nm, sense, (down_nm, more), positions, which)| match which {
                0 => ElementKind::OneWay(OneWay { a, b, sense }),
                1 => ElementKind::SlipClutch(SlipClutch { a, b, limit_nm }),
                _ => ElementKind::TorqueSwitch(TorqueSwitch {
                    a,
                    b,
                    up_nm: down_nm + more,
                    down_nm,
                    from: Id::from(positions[0]),
                    to: Id::from(positions[1]),
                }),
            },
        )
}

fn worm(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    let hand = select(vec![Hand::Right, Hand::Left]);
    (
        two_shafts(shafts),
        1_u32..5,
        teeth(),
        hand,
        0.5..89.0,
        0.0..0.5,
        prop_oneof![Just(20.0), 0.0..44.9],
        (length_mm(), length_mm(), option::of(0.0..0.5), 0..3),
    )
        .prop_map(
            |([worm, wheel], starts, teeth, hand, lead_angle_deg, friction, pressure_angle_deg, thrust)| {
                // A collar rubs only where the wheel's size tells the thrust on it.
                let (wheel_mm, collar_mm, collar_friction, known) = thrust;
                ElementKind::Worm(Worm {
                    worm,
                    wheel,
                    starts,
                    teeth,
                    hand,
                    lead_angle_deg,
                    friction,
                    pressure_angle_deg,
                    wheel_mm: (known > 0).then_some(wheel_mm),
                    collar_mm: (known > 1).then_some(collar_mm),
                    collar_friction: collar_friction.filter(|_| known > 1),
                })
            },
        )
}

fn three_ends(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    let planets = select(vec![Planets::Single, Planets::Double]);
    let set = (ring_and_inside(), planets, option::of(1_u32..7));
    let bevel = option::of((teeth(), teeth()).prop_map(|(side, planet)| BevelTeeth { side, planet }));
    let losses = (loss(), pins(), bevel);
    (three_shafts(shafts), losses, set, stepped_ratio(), 0..3).prop_map(
        |(
            [first, second, carrier],
            (loss, pins, teeth),
            ((ring_teeth, sun_teeth), planets, count),
            ratio,
            which,
        )| {
            match which {
                0 => ElementKind::Differential(Differential {
                    sides: [first, second],
                    carrier,
                    teeth,
                    loss: if teeth.is_some() {
                        loss
                    } else {
                        without_teeth(loss)
                    },
                    pins,
                }),
                1 => ElementKind::Planetary(Planetary {
                    sun: first,
                    ring: second,
                    carrier,
                    sun_teeth,
                    ring_teeth,
                    planets,
                    loss,
                    pins,
                    count,
                }),
                _ => ElementKind::Stepped(Stepped {
                    first,
                    second,
                    carrier,
                    loss: match ratio {
                        SteppedRatio::Basic(_) => without_teeth(loss),
                        SteppedRatio::Teeth { .. } => loss,
                    },
                    ratio,
                    pins,
                }),
            }
        },
    )
}

/// A loss that can be given where tooth counts are not known.
fn without_teeth(loss: MeshLoss) -> MeshLoss {
    MeshLoss::typed(loss.efficiency())
}

fn stepped_ratio() -> impl Strategy<Value = SteppedRatio> {
    let part = || prop_oneof![1_i64..200, -200_i64..0, Just(1_000_000_000_000)];
    prop_oneof![
        [part(), part()].prop_map(SteppedRatio::Basic),
        (ring_and_inside(), ring_and_inside(), any::<[bool; 2]>()).prop_map(|(first, second, [one, two])| {
            SteppedRatio::Teeth {
                first: [first.0, first.1],
                second: [second.1, second.0],
                first_is_ring: one,
                second_is_ring: two,
            }
        }),
    ]
}

fn one_end(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    (
        select(shafts),
        [1e-3..1e3, 1e-3..1e3, 1e-3..1e3],
        [not_negative(), not_negative()],
        -99.0..99.0,
        0..5,
    )
        .prop_map(
            |(shaft, [one, two, three], [four, five], signed, which)| match which {
                0 => ElementKind::Brake(Brake {
                    shaft,
                    limit_nm: (signed > 0.0).then_some(four),
                }),
                1 => ElementKind::Motor(Motor {
                    shaft,
                    nominal_v: one,
                    no_load_rpm: two,
                    no_load_a: four,
                    stall_nm: three,
                    stall_a: four + one,
                    supply_v: (signed > 0.0).then_some(signed),
                    supply_ohm: five,
                    rotor_kgm2: four,
                    winding_c: if signed > 50.0 { 20.0 } else { signed.abs() },
                    battery_mah: (signed > 0.0).then_some(two),
                    heat_limit_w: (signed < 9.0).then_some(three),
                }),
                2 => ElementKind::Crank(Crank {
                    shaft,
                    speed_rpm: signed,
                    limit_nm: (signed > 0.0).then_some(four),
                }),
                3 => ElementKind::Load(Load {
                    shaft,
                    torque_nm: one,
                    viscous_nms: two,
                    fan_nms2: four,
                    inertia_kgm2: five,
                }),
                _ => ElementKind::Winch(Winch {
                    shaft,
                    drum_mm: one,
                    rope_mm: four,
                    layers: if signed > 0.0 { 1 } else { 3 },
                    load: if signed > 50.0 {
                        WinchLoad::Mass(two)
                    } else {
                        WinchLoad::Pull(five)
                    },
                    lifts: if signed > 0.0 {
                        LiftSense::Drive
                    } else {
                        LiftSense::Negative
                    },
                }),
            },
        )
}

fn vehicle(shafts: Vec<Id>) -> impl Strategy<Value = ElementKind> {
    let n = shafts.len();
    let driven = select(vec![DrivenAxles::All, DrivenAxles::Rear, DrivenAxles::Front]);
    let forward = select(vec![LiftSense::Drive, LiftSense::Positive, LiftSense::Negative]);
    let body = [
        option::of(length_mm()),
        option::of(length_mm()),
        option::of(length_mm()),
    ];
    let ground = (0.0..1.0, -90.0..90.0, option::of(0.0..1.5));
    (
        subsequence(shafts, 1..=n),
        length_mm(),
        not_negative(),
        ground,
        body,
        (driven, option::of(0.0..=1.0)),
        forward,
    )
        .prop_map(
            |(shafts, wheel_mm, mass_kg, ground, body, (driven, share), forward)| {
                ElementKind::Vehicle(Vehicle {
                    shafts,
                    wheel_mm,
                    mass_kg,
                    rolling: ground.0,
                    slope_deg: ground.1,
                    tyre_friction: ground.2,
                    wheelbase_mm: body[0],
                    cg_height_mm: body[1],
                    cg_from_rear_mm: body[2],
                    driven,
                    rear_share: share.filter(|_| driven == DrivenAxles::All),
                    forward,
                })
            },
        )
}
