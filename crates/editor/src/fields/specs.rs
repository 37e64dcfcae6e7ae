//! Which fields a thing has: path in the file, label, unit, hint, and how each is edited.

mod ends;
mod holds;
mod joints;

use layshaft_layout::ElementKind;
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
    /// Whether it stands in the fold for what most builders leave as it is.
    pub seldom: bool,
}

impl Spec {
    /// Puts it into the fold.
    fn seldom(self) -> Self {
        Self { seldom: true, ..self }
    }
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
    /// A shaft, and what may stand there instead.
    Shaft(Instead),
    /// On or off.
    Toggle,
    /// A name.
    Name,
    /// Materials of two surfaces.
    MaterialPair,
    /// Material of a gear.
    Material,
    /// A shift position.
    Position,
    /// Two numbers side by side: `16; 10`. Where the file has an object instead of a list, their names in it.
    Two(Option<[&'static str; 2]>),
}

/// What may stand instead of a shaft.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Instead {
    /// Nothing.
    Nothing,
    /// The fixed frame.
    Frame,
    /// No shaft: the entry is left out.
    None,
}

fn spec(path: &str, label: &str, hint: &'static str, edit: Edit) -> Spec {
    Spec {
        path: path.to_owned(),
        label: label.to_owned(),
        hint,
        edit,
        seldom: false,
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
    spec(
        path,
        label,
        "The shaft that this end sits on",
        Edit::Shaft(Instead::Frame),
    )
}

fn end_shaft(path: &str) -> Spec {
    spec(
        path,
        "Shaft",
        "The shaft that it sits on",
        Edit::Shaft(Instead::Nothing),
    )
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
const TEETH_LOSS: &str =
    "Power out over power in, such as 0.9 or 90 %; left empty, materials or friction below decide";
const BASIC_LOSS: &str = "With the carrier held, such as 0.92; left empty it is lossless";
const SET_LOSS: &str = "With the carrier held, such as 0.92; left empty, materials or friction below decide";

/// Where the loss of gears comes from: typed, from materials, or from a friction.
fn tooth_loss(hint: &'static str) -> Vec<Spec> {
    vec![
        efficiency(hint),
        spec(
            "material_pair",
            "Materials",
            "Instead of an efficiency: what the teeth are made of, and whether they are greased",
            Edit::MaterialPair,
        ),
        spec(
            "friction",
            "Tooth friction",
            "Instead of both: the coefficient, such as 0.2 for dry plastic",
            number(QuantityKind::Plain, "", 0.01, true),
        )
        .seldom(),
    ]
}

/// Loss of the meshes of a set, with the pins of its planets.
fn set_loss() -> Vec<Spec> {
    let mut fields = tooth_loss(SET_LOSS);
    fields.push(
        spec(
            "pin_friction",
            "Friction of planet pins",
            "Counts where no efficiency is typed; 0 for none",
            number(QuantityKind::Plain, "", 0.01, false),
        )
        .seldom(),
    );
    fields.push(
        spec(
            "pin_ratio",
            "Pin over planet",
            "Radius of a pin over pitch radius of its planet",
            number(QuantityKind::Share, "", 0.05, false),
        )
        .seldom(),
    );
    fields
}

fn pretension() -> Spec {
    spec(
        "pretension_n",
        "Pull at rest",
        "In each strand; it loads plain bearings",
        number(QuantityKind::Force, "N", 1.0, false),
    )
    .seldom()
}

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
        spec(
            "overhang",
            "Overhang",
            "Load of the bearings over load applied: 1 where it sits between them, more where it sticks out",
            number(QuantityKind::Plain, "", 0.1, false),
        )
        .seldom(),
        spec(
            "inertia_kgm2",
            "Moment of inertia",
            "Of the shaft with its gears; counts in runs only",
            number(QuantityKind::Plain, "kg·m²", 1e-5, false),
        )
        .seldom(),
        spec(
            "axis_mm",
            "Place of its axis, mm",
            "Two numbers, x and y seen along the shafts, such as 0; 24; then forces on its bearings are added with their \
             directions",
            Edit::Two(None),
        )
        .seldom(),
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
        ElementKind::Mesh(mesh) => joints::mesh(mesh.form),
        ElementKind::Chain(_) => [joints::teeth_pair("sprocket"), ends(), joints::chain_extras()].concat(),
        ElementKind::Belt(_) => joints::belt(),
        ElementKind::FrictionWheel(_) => joints::friction_wheel(),
        ElementKind::Worm(_) => joints::worm(),
        ElementKind::Differential(_) => joints::differential(),
        ElementKind::Planetary(_) => joints::planetary(),
        ElementKind::Stepped(set) => joints::stepped(&set.ratio),
        ElementKind::Clutch(_) => ends(),
        ElementKind::Brake(_) => holds::brake(),
        ElementKind::OneWay(_) => holds::one_way(),
        ElementKind::SlipClutch(_) => holds::slip_clutch(),
        ElementKind::TorqueSwitch(_) => holds::torque_switch(),
        ElementKind::Motor(_) => ends::motor(),
        ElementKind::Crank(_) => ends::crank(),
        ElementKind::Load(_) => ends::load(),
        ElementKind::Vehicle(vehicle) => ends::vehicle(vehicle),
        ElementKind::Winch(winch) => ends::winch(winch.load),
    }
}

fn ends() -> Vec<Spec> {
    vec![shaft("a", "First shaft"), shaft("b", "Second shaft")]
}
