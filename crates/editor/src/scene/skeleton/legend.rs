//! The legend of a skeleton: only symbols that are on it, each with a sample in the box of a legend's row (34 × 24 about its middle
//! height).

use layshaft_layout::{ElementKind, MeshForm, WheelForm};

use super::Sheet;
use super::ends::Grip;
use super::train::Form;
use crate::legend::{Legend, Sign};
use crate::scene::items::Standing;
use crate::scene::picture::LineType::{Chain, Hatching, Outline, Solid, Thin};

type Sample = &'static [(crate::scene::LineType, &'static str)];

const BEARING: Sample = &[
    (Outline, "M2 0H32"),
    (Thin, "M10 -4H24M10 4H24"),
    (
        Hatching,
        "M12 -4l3 -5M17 -4l3 -5M22 -4l3 -5M12 4l-3 5M17 4l-3 5M22 4l-3 5",
    ),
];
const HOLLOW: Sample = &[(Outline, "M2 0H32M10 -5H32M10 5H32")];
const SENSE: Sample = &[
    (Outline, "M2 0H32"),
    (Thin, "M15 -9A6 9 0 0 1 15 8"),
    (Solid, "M13 10L16 3L20 6z"),
];
const GEAR: Sample = &[(
    Outline,
    "M17 -9V-1M12 -9H22M17 0V9M12 -1.500H22M12 1.500H22M12 9H22",
)];
const RING: Sample = &[(Outline, "M8 -9H26V0M12 -6H20M16 -6V2M12 2H20M26 0H32")];
const TURNED: Sample = &[
    (Thin, "M12 -6A10 10 0 0 1 22 4"),
    (Solid, "M22 7L19.4 1L24.2 1.400z"),
];
const WORM: Sample = &[
    (Outline, "M6 -5H28V5H6z"),
    (Thin, "M10 5l4 -10M16 5l4 -10M22 5l4 -10"),
];
const CHAIN: Sample = &[(Chain, "M14 -11V11M20 -11V11"), (Outline, "M11 -9H23M11 9H23")];
const BELT: Sample = &[
    (Thin, "M15 -11V11M19 -11V11"),
    (Outline, "M12 -11H22V-4H12zM12 4H22V11H12z"),
];
const WHEELS: Sample = &[(Outline, "M12 -11H22V-1H12zM12 0H22V11H12z")];
const CLOSED: Sample = &[(
    Outline,
    "M2 0H13M13 -8V8M32 0H21M21 -8V8M13 -8H18M13 8H18M21 -4H16M21 4H16",
)];
const OPEN: Sample = &[
    (Outline, "M2 0H10M32 0H24"),
    (Thin, "M10 -8V8M24 -8V8M10 -8H16M10 8H16M24 -4H18M24 4H18"),
];
const ONE_WAY: Sample = &[
    (Outline, "M2 0H10M10 -8V8M32 0H24M24 -8V8"),
    (Solid, "M21 0L13 -5V5z"),
];
const SLIP: Sample = &[
    (Outline, "M2 0H11M11 -9V9M32 0H23M23 -9V9"),
    (
        Thin,
        "M13.500 -5a3.500 3.500 0 1 0 7 0a3.500 3.500 0 1 0 -7 0M13.500 5a3.500 3.500 0 1 0 7 0a3.500 3.500 0 1 0 -7 0",
    ),
];
const SWITCH: Sample = &[
    (Outline, "M2 0H9M9 -9V9M32 0H25M25 -9V9"),
    (Thin, "M9 -4l2 -3l4 6l4 -6l4 6l2 -3M9 5H25"),
    (Solid, "M17 5L14 10H20z"),
];
const BRAKE: Sample = &[
    (Outline, "M10 6H24M17 6V11M10 3H24"),
    (Thin, "M17 3V-4M8 -4H26"),
    (Hatching, "M11 -4l3 -5M16 -4l3 -5M21 -4l3 -5"),
];
const PLANETS: Sample = &[(
    Outline,
    "M6 -10H26V4M12 -7H20M16 -7V1M12 1H20M16 4V11M12 4H20M9 -3H16M9 -3V11",
)];
const CAGE: Sample = &[(
    Outline,
    "M4 -10H30V0M4 -10V0M17 -10V-6M12 -6H22M10 -4V9M24 -4V9M9 -2L13 -7M25 -2L21 -7",
)];
const COPY: Sample = &[(Outline, "M2 -8H20M14 8H32"), (Chain, "M12 -8V0H22V8")];

impl Sheet<'_> {
    pub(super) fn legend(&self, has_groups: bool) -> Legend {
        let group = (
            has_groups,
            crate::scene::grouped::SIGN,
            "What belongs to one group",
        );
        Legend {
            scale: None,
            slow: None,
            signs: self
                .signs()
                .into_iter()
                .chain([group])
                .filter(|(used, ..)| *used)
                .map(|(_, sample, words)| (Sign::Lines(sample), words))
                .collect(),
        }
    }

    fn signs(&self) -> Vec<(bool, Sample, &'static str)> {
        let elements = &self.input.layout.elements;
        let any = |fits: fn(&ElementKind) -> bool| elements.iter().any(|element| fits(&element.kind));
        let train = &self.setting.train;
        let clutch = |grip: Grip| {
            let mut clutches = train.stations.iter().enumerate().filter(|(number, _)| {
                matches!(
                    self.setting.element(*number).map(|element| &element.kind),
                    Some(ElementKind::Clutch(_))
                )
            });
            clutches.any(|(number, station)| station.form == Form::Coupling && self.grip(number) == grip)
        };
        let turning = (0..self.input.layout.shafts.len())
            .any(|shaft| self.standing(shaft) == Standing::Turning && self.turns(shaft).is_some());
        vec![
            (
                self.lines.iter().any(|line| !line.bearings.is_empty()),
                BEARING,
                "A shaft in a bearing of the frame",
            ),
            (
                self.lines
                    .iter()
                    .any(|line| line.radius > 0.0 && !line.runs.is_empty()),
                HOLLOW,
                "A hollow shaft round another",
            ),
            (
                turning,
                SENSE,
                "Turning: the side toward you moves with the arrow",
            ),
            (
                any(|kind| matches!(kind, ElementKind::Mesh(mesh) if mesh.form == MeshForm::External)),
                GEAR,
                "Gears in mesh, side view",
            ),
            (any(is_ring), RING, "A wheel within a ring"),
            (
                any(is_square),
                TURNED,
                "Square to this axis, turned into the plane",
            ),
            (any(|kind| matches!(kind, ElementKind::Worm(_))), WORM, "Worm"),
            (
                any(|kind| matches!(kind, ElementKind::Chain(_))),
                CHAIN,
                "Chain on its sprockets",
            ),
            (
                any(|kind| matches!(kind, ElementKind::Belt(_))),
                BELT,
                "Belt on its pulleys",
            ),
            (
                any(|kind| matches!(kind, ElementKind::FrictionWheel(_))),
                WHEELS,
                "Friction wheels",
            ),
            (
                any(|kind| matches!(kind, ElementKind::Planetary(_) | ElementKind::Stepped(_))),
                PLANETS,
                "Planets on their carrier, sun and ring",
            ),
            (
                any(|kind| matches!(kind, ElementKind::Differential(_))),
                CAGE,
                "Differential: bevel gears in their cage",
            ),
            (clutch(Grip::Closed), CLOSED, "Clutch, engaged"),
            (clutch(Grip::Open), OPEN, "Clutch, open"),
            (
                any(|kind| matches!(kind, ElementKind::OneWay(_))),
                ONE_WAY,
                "One-way clutch, arrow toward what it drives",
            ),
            (
                any(|kind| matches!(kind, ElementKind::SlipClutch(_))),
                SLIP,
                "Slip clutch",
            ),
            (
                any(|kind| matches!(kind, ElementKind::TorqueSwitch(_))),
                SWITCH,
                "Torque switch",
            ),
            (
                any(|kind| matches!(kind, ElementKind::Brake(_))),
                BRAKE,
                "Brake on the frame",
            ),
            (
                train.pieces.iter().any(|piece| piece.copy_of.is_some()),
                COPY,
                "One shaft, drawn in two places",
            ),
        ]
    }
}

fn is_ring(kind: &ElementKind) -> bool {
    match kind {
        ElementKind::Mesh(mesh) => mesh.form == MeshForm::Internal,
        ElementKind::FrictionWheel(wheels) => wheels.form == WheelForm::Internal,
        _ => false,
    }
}

fn is_square(kind: &ElementKind) -> bool {
    matches!(kind, ElementKind::Worm(_))
        || matches!(kind, ElementKind::Mesh(mesh) if mesh.form == MeshForm::Bevel)
}
