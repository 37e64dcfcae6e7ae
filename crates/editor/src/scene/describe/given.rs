//! The numbers that a person gave: tooth counts and the like, each to be edited where it stands, and their ratio.

use layshaft_kinematics::Ratio;
use layshaft_layout::{
    Belt, Element, ElementKind, FrictionWheel, Hand, Id, MeshForm, Sense, SteppedRatio, WheelForm, WinchLoad,
};

use super::super::items::RunContent;
use super::super::text::{edit, ratio, text};
use super::Telling;
use crate::numbers::RatioText;
use crate::target::FieldRef;
use crate::units::Units;

/// The numbers that a person gave: tooth counts and the like, each to be edited where it stands.
pub fn given(element: &Element, backwards: bool, telling: Telling<'_>) -> Vec<RunContent> {
    let field =
        |path: &str, value: String, spoken: &str| edit(FieldRef::element(&element.id, path), value, spoken);
    // A number that the file keeps in a unit, as text of the unit shown, and that unit.
    let shown = |kept: f64, file_unit: &'static str| telling.units.scale(file_unit).text(kept);
    let unit = |file_unit: &'static str| telling.units.scale(file_unit).unit;
    let step = |exact: Option<Ratio>| {
        let exact = if backwards {
            exact.map(|ratio| ratio.recip())
        } else {
            exact
        };
        exact
            .filter(|_| telling.shown.ratio)
            .map(|exact| ratio(telling.hide, RatioText::new(&exact)))
    };
    let mut line = match &element.kind {
        ElementKind::Mesh(mesh) => pair(
            field("teeth.0", mesh.teeth[0].to_string(), &teeth_on(&mesh.a)),
            field("teeth.1", mesh.teeth[1].to_string(), &teeth_on(&mesh.b)),
            backwards,
        ),
        ElementKind::Chain(chain) => pair(
            field("teeth.0", chain.teeth[0].to_string(), &teeth_on(&chain.a)),
            field("teeth.1", chain.teeth[1].to_string(), &teeth_on(&chain.b)),
            backwards,
        ),
        ElementKind::Belt(Belt {
            a, b, diameters_mm, ..
        })
        | ElementKind::FrictionWheel(FrictionWheel {
            a, b, diameters_mm, ..
        }) => {
            let mut line = pair(
                field("diameters_mm.0", shown(diameters_mm[0], "mm"), &diameter_on(a)),
                field("diameters_mm.1", shown(diameters_mm[1], "mm"), &diameter_on(b)),
                backwards,
            );
            line.push(RunContent::Quiet(unit("mm").to_owned()));
            line
        }
        ElementKind::Worm(worm) => pair(
            field("starts", worm.starts.to_string(), "starts of the worm"),
            field("teeth", worm.teeth.to_string(), "teeth of the wheel"),
            backwards,
        ),
        ElementKind::Planetary(set) => vec![
            RunContent::Quiet("sun".to_owned()),
            field("teeth.sun", set.sun_teeth.to_string(), "teeth of the sun"),
            RunContent::Quiet("ring".to_owned()),
            field("teeth.ring", set.ring_teeth.to_string(), "teeth of the ring"),
        ],
        ElementKind::Stepped(set) => stepped(&set.ratio, field),
        ElementKind::SlipClutch(clutch) => vec![
            RunContent::Quiet("to".to_owned()),
            field(
                "limit_nm",
                shown(clutch.limit_nm, "N·m"),
                "torque at which it slips",
            ),
            RunContent::Quiet(unit("N·m").to_owned()),
        ],
        ElementKind::TorqueSwitch(switch) => vec![
            RunContent::Quiet("up".to_owned()),
            field(
                "up_nm",
                shown(switch.up_nm, "N·m"),
                "torque above which it shifts",
            ),
            RunContent::Quiet("back".to_owned()),
            field(
                "down_nm",
                shown(switch.down_nm, "N·m"),
                "torque below which it shifts back",
            ),
            RunContent::Quiet(unit("N·m").to_owned()),
        ],
        ElementKind::Differential(_)
        | ElementKind::Clutch(_)
        | ElementKind::Brake(_)
        | ElementKind::OneWay(_)
        | ElementKind::Motor(_) => {
            vec![RunContent::Name(element.id.to_string())]
        }
        ElementKind::Crank(crank) => vec![
            field(
                "speed_rpm",
                shown(crank.speed_rpm, "rpm"),
                &format!("speed in {}", telling.units.scale("rpm").spoken),
            ),
            text(unit("rpm")),
        ],
        ElementKind::Load(load) => vec![
            field(
                "torque_nm",
                shown(load.torque_nm, "N·m"),
                &format!("resisting torque in {}", telling.units.scale("N·m").spoken),
            ),
            text(unit("N·m")),
        ],
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => vec![
                field("mass_kg", shortest(mass), "hanging mass in kilograms"),
                text("kg"),
            ],
            WinchLoad::Pull(pull) => vec![
                field(
                    "pull_n",
                    shown(pull, "N"),
                    &format!("line pull in {}", telling.units.scale("N").spoken),
                ),
                text(unit("N")),
            ],
        },
        ElementKind::Vehicle(vehicle) => vec![
            field("mass_kg", shortest(vehicle.mass_kg), "mass in kilograms"),
            text("kg at"),
            field("slope_deg", shortest(vehicle.slope_deg), "slope in degrees"),
            text("°"),
        ],
    };
    line.extend(step(step_ratio(&element.kind)));
    line
}

/// The torque at which a belt, a pair of wheels or a brake slips, where one was given.
pub fn limits(element: &Element, units: Units) -> Option<Vec<RunContent>> {
    let (path, limit) = match &element.kind {
        ElementKind::Belt(belt) => ("slip_nm", belt.slip_nm?),
        ElementKind::FrictionWheel(wheels) => ("slip_nm", wheels.slip_nm?),
        ElementKind::Brake(brake) => ("limit_nm", brake.limit_nm?),
        _ => return None,
    };
    Some(vec![
        RunContent::Quiet("to".to_owned()),
        edit(
            FieldRef::element(&element.id, path),
            units.scale("N·m").text(limit),
            "torque at which it slips",
        ),
        RunContent::Quiet(units.scale("N·m").unit.to_owned()),
    ])
}

fn pair(first: RunContent, second: RunContent, backwards: bool) -> Vec<RunContent> {
    let (first, second) = if backwards {
        (second, first)
    } else {
        (first, second)
    };
    vec![first, text(":"), second]
}

fn stepped(given: &SteppedRatio, field: impl Fn(&str, String, &str) -> RunContent) -> Vec<RunContent> {
    match given {
        SteppedRatio::Basic([n, d]) => vec![
            field("basic_ratio.0", n.to_string(), "basic ratio, numerator"),
            text("/"),
            field("basic_ratio.1", d.to_string(), "basic ratio, denominator"),
        ],
        SteppedRatio::Teeth { first, second, .. } => vec![
            field(
                "teeth.0.0",
                first[0].to_string(),
                "teeth of the first central gear",
            ),
            text(":"),
            field("teeth.0.1", first[1].to_string(), "teeth of its planet"),
            text("="),
            field("teeth.1.0", second[0].to_string(), "teeth of the other planet"),
            text(":"),
            field(
                "teeth.1.1",
                second[1].to_string(),
                "teeth of the second central gear",
            ),
        ],
    }
}

fn teeth_on(shaft: &Id) -> String {
    format!("teeth on {shaft}")
}

fn diameter_on(shaft: &Id) -> String {
    format!("wheel diameter on {shaft}")
}

/// The shortest decimal that reads back as the same number, with a real minus sign.
#[must_use]
pub fn shortest(value: f64) -> String {
    format!("{value}").replace('-', "\u{2212}")
}

/// Turns of the second shaft for one turn of the first, for elements that join two.
#[must_use]
pub fn step_ratio(kind: &ElementKind) -> Option<Ratio> {
    let over = |n: Ratio, d: Ratio, same: bool| {
        use num_traits::Zero;
        (!d.is_zero()).then(|| if same { n / d } else { -(n / d) })
    };
    let whole = |n: u32| Ratio::from_integer(n.into());
    match kind {
        ElementKind::Mesh(mesh) => {
            let same = match mesh.form {
                MeshForm::External => false,
                MeshForm::Internal => true,
                MeshForm::Bevel => mesh.sense == Sense::Same,
            };
            over(whole(mesh.teeth[0]), whole(mesh.teeth[1]), same)
        }
        ElementKind::Chain(chain) => over(whole(chain.teeth[0]), whole(chain.teeth[1]), true),
        ElementKind::Worm(worm) => over(whole(worm.starts), whole(worm.teeth), worm.hand == Hand::Right),
        ElementKind::Belt(belt) => over(
            decimal(belt.diameters_mm[0])?,
            decimal(belt.diameters_mm[1])?,
            !belt.crossed,
        ),
        ElementKind::FrictionWheel(wheels) => over(
            decimal(wheels.diameters_mm[0])?,
            decimal(wheels.diameters_mm[1])?,
            wheels.form == WheelForm::Internal,
        ),
        _ => None,
    }
}

/// The exact value of the shortest decimal text of a number (0.1 is one tenth).
fn decimal(value: f64) -> Option<Ratio> {
    let text = format!("{value}");
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let digits: num_bigint::BigInt = format!("{whole}{part}").parse().ok()?;
    let denominator = num_bigint::BigInt::from(10).pow(u32::try_from(part.len()).ok()?);
    Some(Ratio::new(digits, denominator))
}
