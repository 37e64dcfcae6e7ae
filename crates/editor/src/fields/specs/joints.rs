//! Fields of elements that join shafts: gears, belts, friction wheels, worms, planetary sets.

use layshaft_layout::{MeshForm, SteppedRatio};
use layshaft_quantity::QuantityKind;

use super::holds::torque_limit;
use super::{
    BASIC_LOSS, Edit, PAIR_LOSS, Spec, TEETH_LOSS, count, efficiency, ends, number, pretension, set_loss,
    shaft, spec, tooth_loss,
};

pub fn teeth_pair(what: &str) -> Vec<Spec> {
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

pub fn mesh(form: MeshForm) -> Vec<Spec> {
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
    fields.extend(tooth_loss(TEETH_LOSS));
    fields.extend([
        length(
            "module_mm",
            "Module",
            "Pitch diameter over tooth count; with a width, teeth get a strength",
        ),
        length("width_mm", "Face width", "Of the narrower gear"),
        spec(
            "material",
            "Material of the weaker gear",
            "For the strength of its teeth",
            Edit::Material,
        )
        .seldom(),
        torque_limit(
            "skip_nm",
            "Teeth skip at",
            "Torque at the first shaft as you measured it; left empty: not known",
            true,
        )
        .seldom(),
        spec(
            "pressure_angle_deg",
            "Pressure angle",
            "20° for nearly all gears made today",
            number(QuantityKind::Angle, "°", 0.5, false),
        )
        .seldom(),
    ]);
    fields
}

fn length(path: &str, label: &str, hint: &'static str) -> Spec {
    spec(path, label, hint, number(QuantityKind::Length, "mm", 0.5, true)).seldom()
}

pub fn chain_extras() -> Vec<Spec> {
    vec![
        efficiency(PAIR_LOSS),
        length(
            "pitch_mm",
            "Pitch",
            "Of the chain; with it, its pull loads plain bearings",
        ),
        pretension(),
    ]
}

pub fn differential() -> Vec<Spec> {
    let mut fields = vec![
        shaft("sides.0", "First side"),
        shaft("sides.1", "Second side"),
        shaft("carrier", "Carrier"),
    ];
    fields.extend(set_loss());
    let teeth = spec(
        "teeth",
        "Teeth of side and planet",
        "Two whole numbers, such as 16; 10; needed where the loss comes from materials or friction",
        Edit::Two(Some(["side", "planet"])),
    );
    fields.insert(5, teeth.seldom());
    fields
}

pub fn belt() -> Vec<Spec> {
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
        slips_at(),
    ];
    fields.extend(ends());
    fields.push(efficiency(PAIR_LOSS));
    fields.push(pretension());
    fields
}

fn slips_at() -> Spec {
    torque_limit(
        "slip_nm",
        "Slips at",
        "Torque at the first shaft; left empty: never",
        true,
    )
}

pub fn friction_wheel() -> Vec<Spec> {
    const FORMS: &[(&str, &str)] = &[("external", "Side by side"), ("internal", "One inside the other")];
    let diameter = || number(QuantityKind::Length, "mm", 1.0, false);
    let mut fields = vec![
        spec(
            "diameters_mm.0",
            "First wheel",
            "Its diameter where they touch",
            diameter(),
        ),
        spec(
            "diameters_mm.1",
            "Second wheel",
            "Its diameter where they touch",
            diameter(),
        ),
        spec("form", "Form", "How the two wheels meet", Edit::Choice(FORMS)),
        slips_at(),
    ];
    fields.extend(ends());
    fields.push(efficiency(PAIR_LOSS));
    let press = spec(
        "press_n",
        "Pressed with",
        "The force between the wheels, which loads plain bearings",
        number(QuantityKind::Force, "N", 1.0, false),
    );
    fields.push(press.seldom());
    fields
}

pub fn worm() -> Vec<Spec> {
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
        )
        .seldom(),
        length(
            "wheel_mm",
            "Wheel diameter",
            "Pitch diameter; with it, its forces load plain bearings",
        ),
        length(
            "collar_mm",
            "Thrust collar",
            "Mean diameter at which the worm rubs endwise; left empty: it does not",
        ),
        spec(
            "collar_friction",
            "Friction of the collar",
            "Left empty: that of the thread",
            number(QuantityKind::Plain, "", 0.01, true),
        )
        .seldom(),
    ]
}

pub fn planetary() -> Vec<Spec> {
    const PLANETS: &[(&str, &str)] = &[("single", "Single"), ("double", "In pairs")];
    let mut fields = vec![
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
    ];
    fields.extend(set_loss());
    let count = spec(
        "count",
        "How many planets",
        "Or pairs of planets; left empty: not said",
        number(QuantityKind::Plain, "", 1.0, true),
    );
    fields.push(count.seldom());
    fields
}

pub fn stepped(ratio: &SteppedRatio) -> Vec<Spec> {
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
    // Friction needs the tooth counts.
    match ratio {
        SteppedRatio::Basic(_) => fields.push(efficiency(BASIC_LOSS)),
        SteppedRatio::Teeth { .. } => fields.extend(set_loss()),
    }
    fields
}
