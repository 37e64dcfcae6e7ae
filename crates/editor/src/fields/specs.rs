//! Which fields a thing has: path in the file, label, unit, hint, and how each is edited.

use layshaft_layout::{ElementKind, MeshForm, SteppedRatio, WinchLoad};
use layshaft_quantity::QuantityKind;

/// A field before it has a value.
#[derive(Clone, Debug, PartialEq)]
pub struct Spec {
    /// Its path within the thing.
    pub path: String,
    /// Its label.
    pub label: String,
    /// What it means, and what is taken where it is left empty.
    pub hint: &'static str,
    /// How it is edited.
    pub edit: Edit,
}

/// How a field is edited.
#[derive(Clone, Debug, PartialEq)]
pub enum Edit {
    /// A whole number.
    Count,
    /// A number with a unit.
    Number {
        /// What is measured.
        quantity: QuantityKind,
        /// The unit it is kept in.
        unit: &'static str,
        /// How far an arrow key goes.
        step: f64,
        /// Whether it may be left empty.
        optional: bool,
    },
    /// One of a few words.
    Choice(&'static [(&'static str, &'static str)]),
    /// A shaft; whether the frame may stand there.
    Shaft(bool),
    /// On or off.
    Toggle,
    /// A name.
    Name,
}

fn spec(path: &str, label: &str, hint: &'static str, edit: Edit) -> Spec {
    Spec {
        path: path.to_owned(),
        label: label.to_owned(),
        hint,
        edit,
    }
}

fn number(quantity: QuantityKind, unit: &'static str, step: f64, optional: bool) -> Edit {
    Edit::Number {
        quantity,
        unit,
        step,
        optional,
    }
}

fn count(path: &str, label: &str, hint: &'static str) -> Spec {
    spec(path, label, hint, Edit::Count)
}

fn shaft(path: &str, label: &str) -> Spec {
    spec(path, label, "The shaft that this end sits on", Edit::Shaft(true))
}

fn end_shaft(path: &str) -> Spec {
    spec(path, "Shaft", "The shaft that it sits on", Edit::Shaft(false))
}

fn efficiency(hint: &'static str) -> Spec {
    spec(
        "efficiency",
        "Efficiency",
        hint,
        number(QuantityKind::Share, "", 0.01, true),
    )
}

const PAIR_LOSS: &str = "Power out over power in, such as 0.9 or 90 %; left empty it is lossless";
const BASIC_LOSS: &str = "With the carrier held, such as 0.92; left empty it is lossless";

/// Fields of a shaft.
#[must_use]
pub fn of_shaft() -> Vec<Spec> {
    let torque = number(QuantityKind::Torque, "N·m", 0.001, false);
    vec![
        spec("id", "Name", "How the drawing and the tables call it", Edit::Name),
        spec(
            "drag_nm",
            "Drag",
            "Constant friction of its bearings and seals",
            torque,
        ),
        spec(
            "viscous_nms",
            "Viscous drag",
            "Friction that grows with speed, in N·m for one radian a second",
            number(QuantityKind::Plain, "N·m·s", 0.0001, false),
        ),
        spec(
            "journal_friction",
            "Bearing friction",
            "Coefficient of its plain bearings; 0 for none",
            number(QuantityKind::Plain, "", 0.01, false),
        ),
        spec(
            "journal_radius_mm",
            "Bearing radius",
            "Radius at which its plain bearings rub",
            number(QuantityKind::Length, "mm", 0.5, false),
        ),
    ]
}

/// Fields of an element, its name first.
#[must_use]
pub fn of_element(kind: &ElementKind) -> Vec<Spec> {
    let mut fields = vec![spec(
        "id",
        "Name",
        "How the drawing and the tables call it",
        Edit::Name,
    )];
    fields.extend(own(kind));
    fields
}

fn own(kind: &ElementKind) -> Vec<Spec> {
    match kind {
        ElementKind::Mesh(mesh) => self::mesh(mesh.form),
        ElementKind::Chain(_) => [teeth_pair("sprocket"), ends(), vec![efficiency(PAIR_LOSS)]].concat(),
        ElementKind::Belt(_) => belt(),
        ElementKind::Worm(_) => worm(),
        ElementKind::Differential(_) => vec![
            shaft("sides.0", "First side"),
            shaft("sides.1", "Second side"),
            shaft("carrier", "Carrier"),
            efficiency(BASIC_LOSS),
        ],
        ElementKind::Planetary(_) => planetary(),
        ElementKind::Stepped(set) => stepped(&set.ratio),
        ElementKind::Clutch(_) => ends(),
        ElementKind::Brake(_) => vec![end_shaft("shaft")],
        ElementKind::Motor(_) => motor(),
        ElementKind::Crank(_) => crank(),
        ElementKind::Load(_) => load(),
        ElementKind::Vehicle(vehicle) => self::vehicle(vehicle.shafts.len()),
        ElementKind::Winch(winch) => self::winch(winch.load),
    }
}

fn ends() -> Vec<Spec> {
    vec![shaft("a", "First shaft"), shaft("b", "Second shaft")]
}

fn teeth_pair(what: &str) -> Vec<Spec> {
    vec![
        count(
            "teeth.0",
            &format!("Teeth of the first {what}"),
            "Counted all round",
        ),
        count(
            "teeth.1",
            &format!("Teeth of the second {what}"),
            "Counted all round",
        ),
    ]
}

fn mesh(form: MeshForm) -> Vec<Spec> {
    const FORMS: &[(&str, &str)] = &[
        ("external", "Side by side"),
        ("internal", "In a ring gear"),
        ("bevel", "Bevel"),
    ];
    const SENSES: &[(&str, &str)] = &[("opposite", "Opposite ways"), ("same", "The same way")];
    let mut fields = teeth_pair("gear");
    if form == MeshForm::Internal {
        fields[1].label = "Teeth of the ring".to_owned();
    }
    fields.push(spec(
        "form",
        "Form",
        "How the two gears meet",
        Edit::Choice(FORMS),
    ));
    if form == MeshForm::Bevel {
        fields.push(spec(
            "sense",
            "They turn",
            "Depends on which side of the shaft the wheel sits",
            Edit::Choice(SENSES),
        ));
    }
    fields.extend(ends());
    fields.push(efficiency(PAIR_LOSS));
    fields.push(spec(
        "friction",
        "Tooth friction",
        "Instead of an efficiency: the coefficient, such as 0.2 for dry plastic",
        number(QuantityKind::Plain, "", 0.01, true),
    ));
    fields.push(spec(
        "module_mm",
        "Module",
        "Pitch diameter over tooth count",
        number(QuantityKind::Length, "mm", 0.1, true),
    ));
    fields.push(spec(
        "pressure_angle_deg",
        "Pressure angle",
        "20° for nearly all gears made today",
        number(QuantityKind::Angle, "°", 0.5, false),
    ));
    fields
}

fn belt() -> Vec<Spec> {
    let diameter = || number(QuantityKind::Length, "mm", 1.0, false);
    let mut fields = vec![
        spec(
            "diameters_mm.0",
            "First pulley",
            "Its diameter where the belt runs",
            diameter(),
        ),
        spec(
            "diameters_mm.1",
            "Second pulley",
            "Its diameter where the belt runs",
            diameter(),
        ),
        spec(
            "crossed",
            "Crossed",
            "A crossed belt turns the sense round",
            Edit::Toggle,
        ),
    ];
    fields.extend(ends());
    fields.push(efficiency(PAIR_LOSS));
    fields
}

fn worm() -> Vec<Spec> {
    const HANDS: &[(&str, &str)] = &[("right", "Right"), ("left", "Left")];
    let angle = |step| number(QuantityKind::Angle, "°", step, false);
    vec![
        count("starts", "Starts", "Threads that begin at the worm's end"),
        count("teeth", "Teeth of the wheel", "Counted all round"),
        spec(
            "lead_angle_deg",
            "Lead angle",
            "Slope of the thread; below about 5° the wheel can't turn the worm",
            angle(0.5),
        ),
        spec(
            "friction",
            "Friction",
            "Coefficient between thread and teeth: 0.2 dry plastic, 0.08 greased",
            number(QuantityKind::Plain, "", 0.01, false),
        ),
        spec(
            "hand",
            "Hand",
            "A right-handed worm keeps the sense as we count it",
            Edit::Choice(HANDS),
        ),
        shaft("worm", "Shaft of the worm"),
        shaft("wheel", "Shaft of the wheel"),
        spec(
            "pressure_angle_deg",
            "Pressure angle",
            "20° for nearly all gears made today",
            angle(0.5),
        ),
    ]
}

fn planetary() -> Vec<Spec> {
    const PLANETS: &[(&str, &str)] = &[("single", "Single"), ("double", "In pairs")];
    vec![
        count("teeth.sun", "Teeth of the sun", "Counted all round"),
        count("teeth.ring", "Teeth of the ring", "Counted all round, inside"),
        spec(
            "planets",
            "Planets",
            "Pairs of planets turn the sense of the ring round",
            Edit::Choice(PLANETS),
        ),
        shaft("sun", "Sun"),
        shaft("ring", "Ring"),
        shaft("carrier", "Carrier"),
        efficiency(BASIC_LOSS),
    ]
}

fn stepped(ratio: &SteppedRatio) -> Vec<Spec> {
    let mut fields = match ratio {
        SteppedRatio::Basic(_) => vec![
            count(
                "basic_ratio.0",
                "Basic ratio, above",
                "Turns of the first for turns of the second, carrier held",
            ),
            count(
                "basic_ratio.1",
                "Basic ratio, below",
                "Turns of the first for turns of the second, carrier held",
            ),
        ],
        SteppedRatio::Teeth { .. } => vec![
            count(
                "teeth.0.0",
                "Teeth of the first gear",
                "The central gear on the first shaft",
            ),
            count(
                "teeth.0.1",
                "Teeth of its planet",
                "The planet that it meshes with",
            ),
            count("teeth.1.0", "Teeth of the other planet", "On the same planet pin"),
            count(
                "teeth.1.1",
                "Teeth of the second gear",
                "The central gear on the second shaft",
            ),
        ],
    };
    fields.extend([
        shaft("first", "First gear"),
        shaft("second", "Second gear"),
        shaft("carrier", "Carrier"),
    ]);
    fields.push(efficiency(BASIC_LOSS));
    fields
}

fn motor() -> Vec<Spec> {
    let volts = |optional| number(QuantityKind::Voltage, "V", 0.5, optional);
    let amps = || number(QuantityKind::Current, "A", 0.01, false);
    vec![
        spec(
            "nominal_v",
            "Nominal voltage",
            "The voltage that the data sheet is for",
            volts(false),
        ),
        spec(
            "no_load_rpm",
            "No-load speed",
            "At nominal voltage with nothing on the shaft",
            number(QuantityKind::AngularSpeed, "rpm", 10.0, false),
        ),
        spec(
            "no_load_a",
            "No-load current",
            "At nominal voltage with nothing on the shaft",
            amps(),
        ),
        spec(
            "stall_nm",
            "Stall torque",
            "At nominal voltage, held still",
            number(QuantityKind::Torque, "N·m", 0.01, false),
        ),
        spec(
            "stall_a",
            "Stall current",
            "At nominal voltage, held still",
            amps(),
        ),
        spec(
            "supply_v",
            "Supply",
            "The voltage that you run it on; left empty: nominal",
            volts(true),
        ),
        spec(
            "supply_ohm",
            "Supply resistance",
            "Of battery and leads",
            number(QuantityKind::Resistance, "Ω", 0.1, false),
        ),
        end_shaft("shaft"),
    ]
}

fn crank() -> Vec<Spec> {
    vec![
        spec(
            "speed_rpm",
            "Speed",
            "Its sign is the way round",
            number(QuantityKind::AngularSpeed, "rpm", 5.0, false),
        ),
        spec(
            "limit_nm",
            "Torque limit",
            "The most it can give; left empty: as much as is needed",
            number(QuantityKind::Torque, "N·m", 0.1, true),
        ),
        end_shaft("shaft"),
    ]
}

fn load() -> Vec<Spec> {
    let plain = |unit, step| number(QuantityKind::Plain, unit, step, false);
    vec![
        spec(
            "torque_nm",
            "Torque",
            "Resists turning, whichever way",
            number(QuantityKind::Torque, "N·m", 0.05, false),
        ),
        spec(
            "viscous_nms",
            "Viscous",
            "Torque for one radian a second",
            plain("N·m·s", 0.001),
        ),
        spec(
            "fan_nms2",
            "Fan",
            "Torque for the square of one radian a second",
            plain("N·m·s²", 0.0001),
        ),
        end_shaft("shaft"),
    ]
}

const SENSES_OF_LOADS: &[(&str, &str)] = &[
    ("drive", "As the drive turns it"),
    ("positive", "Positive"),
    ("negative", "Negative"),
];

fn winch(load: WinchLoad) -> Vec<Spec> {
    let length = |step| number(QuantityKind::Length, "mm", step, false);
    let hanging = match load {
        WinchLoad::Mass(_) => spec(
            "mass_kg",
            "Hanging mass",
            "What it lifts",
            number(QuantityKind::Mass, "kg", 0.5, false),
        ),
        WinchLoad::Pull(_) => spec(
            "pull_n",
            "Line pull",
            "What pulls on the rope",
            number(QuantityKind::Force, "N", 5.0, false),
        ),
    };
    vec![
        hanging,
        spec("drum_mm", "Drum", "Its bare diameter", length(1.0)),
        spec("rope_mm", "Rope", "Its diameter", length(0.5)),
        count("layers", "Layer", "The layer being wound, 1 on the bare drum"),
        spec(
            "lifts",
            "Lifts when turned",
            "Which way round winds the rope up",
            Edit::Choice(SENSES_OF_LOADS),
        ),
        end_shaft("shaft"),
    ]
}

fn vehicle(wheel_shafts: usize) -> Vec<Spec> {
    let length = |optional| number(QuantityKind::Length, "mm", 5.0, optional);
    let mut fields = vec![
        spec(
            "mass_kg",
            "Mass",
            "With everything on board",
            number(QuantityKind::Mass, "kg", 0.1, false),
        ),
        spec(
            "slope_deg",
            "Slope",
            "What it is to climb",
            number(QuantityKind::Angle, "°", 1.0, false),
        ),
        spec("wheel_mm", "Wheels", "Their diameter", length(false)),
        spec(
            "rolling",
            "Rolling resistance",
            "Coefficient: 0.02 hard wheels on a floor, 0.1 on carpet",
            number(QuantityKind::Plain, "", 0.005, false),
        ),
        spec(
            "tyre_friction",
            "Grip",
            "Friction between tyre and ground; left empty: no limit",
            number(QuantityKind::Plain, "", 0.05, true),
        ),
        spec(
            "forward",
            "Forward when turned",
            "Which way round drives it on",
            Edit::Choice(SENSES_OF_LOADS),
        ),
    ];
    for n in 0..wheel_shafts {
        let label = if wheel_shafts == 1 {
            "Shaft".to_owned()
        } else {
            format!("Wheel shaft {}", n + 1)
        };
        fields.push(spec(
            &format!("shafts.{n}"),
            &label,
            "The shaft of a driven wheel",
            Edit::Shaft(false),
        ));
    }
    fields
}
