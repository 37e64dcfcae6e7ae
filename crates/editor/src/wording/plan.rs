//! Sentences about the plan.

use layshaft_geometry::PairFault;
use layshaft_layout::Id;

use crate::plan::check::Fault;
use crate::plan::parts::ASSUMED_SIDE_TEETH;
use crate::scene::Remark;
use crate::target::Target;

/// Cautions beside outlines for cutting.
pub const CUTTING: [&str; 4] = [
    "Outlines are true to size, without play: cut or print one pair as a test piece and check that it turns freely.",
    "Nothing is taken off for the width of the cut: set that on the machine.",
    "Wear eye protection, and follow the instructions of the machine's maker for guards, fumes and fire.",
    "For hobby models only: printed and cut gears fail without warning. Nothing may hang over or drive people.",
];

/// Millimetres to a hundredth, with a narrow space before the unit.
#[must_use]
pub fn mm(length: f64) -> String {
    let rounded = (length * 100.0).round() / 100.0;
    format!("{rounded}\u{202F}mm")
}

/// A fault as a sentence with what it selects.
#[must_use]
pub fn remark(fault: &Fault) -> Remark {
    let elements = |ids: &[Id]| ids.iter().cloned().map(Target::Element).collect::<Vec<_>>();
    let (text, targets) = match fault {
        Fault::Distance {
            element,
            wanted,
            found,
        } => (
            format!(
                "{element} needs its axes {} apart; on the plan they are {} apart.",
                mm(*wanted),
                mm(*found)
            ),
            vec![Target::Element(element.clone())],
        ),
        Fault::Collision {
            elements: both,
            layer,
        } => (
            format!(
                "{} and {} strike each other in layer {layer}. Put one of them into another layer.",
                both[0], both[1]
            ),
            elements(both),
        ),
        Fault::ShaftThrough { shaft, element } => (
            format!("Shaft {shaft} runs through a wheel of {element}. Move it, or change the layers."),
            vec![Target::Shaft(shaft.clone()), Target::Element(element.clone())],
        ),
        Fault::NoBore { shaft, nearest } => (
            match nearest {
                Some(distance) => format!(
                    "No bore is where {shaft} stands; the nearest is {} off.",
                    mm(*distance)
                ),
                None => format!("No bore is near {shaft}."),
            },
            vec![Target::Shaft(shaft.clone())],
        ),
        Fault::BoreDistance {
            element,
            wanted,
            offered,
        } => (
            format!(
                "{element} needs {} between axes, which no two bores have{}.",
                mm(*wanted),
                match offered[..] {
                    [one, other] => format!("; the nearest are {} and {}", mm(one), mm(other)),
                    [one] => format!("; the nearest is {}", mm(one)),
                    _ => String::new(),
                }
            ),
            vec![Target::Element(element.clone())],
        ),
        Fault::Pair { element, fault } => (pair(element, *fault), vec![Target::Element(element.clone())]),
        Fault::Undercut { element, teeth } => (
            format!(
                "{element}: {teeth} teeth are undercut at the root, and weaker. From 17 teeth on they are not."
            ),
            vec![Target::Element(element.clone())],
        ),
        Fault::PlanetsCollide { element, count } => (
            format!("The {count} planets of {element} strike one another. Take fewer."),
            vec![Target::Element(element.clone())],
        ),
        Fault::PlanetsUneven {
            element,
            teeth,
            count,
        } => (
            format!(
                "{element}: {teeth} teeth do not divide by {count} planets, so they stand a little unevenly."
            ),
            vec![Target::Element(element.clone())],
        ),
        Fault::RingShifted { element } => (
            format!("{element}: the ring is not the sun and two planets; such a set needs shifted profiles."),
            vec![Target::Element(element.clone())],
        ),
        Fault::NoTeeth { element } => (
            format!("{element} gives a basic ratio and no teeth, so it has no size to draw."),
            vec![Target::Element(element.clone())],
        ),
        Fault::AssumedModule { elements: assumed } => (
            "A module of 1\u{202F}mm is assumed. Set yours in Details with nothing selected.".to_owned(),
            elements(assumed),
        ),
        Fault::AssumedSides { elements: assumed } => (
            format!("Side gears of {ASSUMED_SIDE_TEETH} teeth are assumed where a differential gives none."),
            elements(assumed),
        ),
        Fault::AssumedEnds => (
            "Shafts are taken to end at their outermost wheels; bearings beyond them need room of their own."
                .to_owned(),
            Vec::new(),
        ),
        Fault::AssumedPlanets { elements: assumed } => (
            "Three planets are assumed where no count is given.".to_owned(),
            elements(assumed),
        ),
    };
    Remark {
        text,
        targets,
        is_wrong: fault.is_wrong(),
    }
}

fn pair(element: &Id, fault: PairFault) -> String {
    match fault {
        PairFault::DoesNotFitInside => format!("{element}: the ring is not larger than the gear in it."),
        PairFault::TipsStrike => {
            format!("{element}: the tips of ring and gear strike each other. Take a ring of more teeth.")
        }
        PairFault::RingTipsReachTooFar => {
            format!(
                "{element}: the ring's tips reach below the gear's flanks. Take more teeth, or cut the ring's tips back."
            )
        }
        PairFault::ContactBreaks => {
            format!("{element}: at times no pair of teeth is in contact. Take more teeth.")
        }
    }
}
