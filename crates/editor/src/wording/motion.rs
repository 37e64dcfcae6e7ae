//! Findings about motion: what is jammed, free, unreached or tied twice.

use layshaft_kinematics::Ratio;
use layshaft_layout::{ElementKind, Id};

use super::{Context, Severity, Words, list, number};
use crate::numbers::RatioText;
use crate::session::Input;

pub fn jammed_loop(at: Context<'_>, elements: &[Id], product: Option<&Ratio>) -> Words {
    let evidence = match product {
        Some(product) => format!(
            "Round this loop one turn comes back as {}, so no gear in it can move. Take one of them out, or change \
             tooth counts until it comes back as exactly one turn.",
            turns(product)
        ),
        None => {
            "Their ratios contradict one another, so none of them can move. Take one of them out, or let a \
                 clutch open in this position."
                .to_owned()
        }
    };
    Words::new(
        Severity::Fault,
        format!(
            "Nothing can turn{}: {} lock one another",
            at.in_position(),
            list(elements)
        ),
        evidence,
    )
    .at_elements(elements)
}

fn turns(product: &Ratio) -> String {
    let text = RatioText::new(product);
    if product.is_integer() && text.numerator == "1" {
        format!("{} turn", text.exact())
    } else if product.is_integer() {
        format!("{} turns", text.text())
    } else {
        format!("{} of a turn", text.text())
    }
}

pub fn jammed_brakes(at: Context<'_>, elements: &[Id]) -> Words {
    let is_brake = |id: &&Id| {
        at.layout
            .elements
            .iter()
            .any(|other| other.id == **id && matches!(other.kind, ElementKind::Brake(_)))
    };
    let brakes: Vec<Id> = elements.iter().filter(is_brake).cloned().collect();
    let (headline, detail) = if brakes.is_empty() {
        (
            format!(
                "Nothing can turn{}: {} tie the drive to the frame",
                at.in_position(),
                list(elements)
            ),
            "Put one of them on a shaft of its own instead of the fixed frame.".to_owned(),
        )
    } else {
        (
            format!(
                "Nothing can turn{}: {} {} the drive",
                at.in_position(),
                list(&brakes),
                number(brakes.len(), "holds", "hold")
            ),
            "Release a brake in this position, or put a clutch or differential between brake and drive."
                .to_owned(),
        )
    };
    let words = Words::new(Severity::Fault, headline, detail).at_elements(elements);
    match (brakes.first(), at.position) {
        (Some(brake), Some(position)) => words.with_repair(
            format!("Release {brake} in {}", at.position_name(position)),
            Input::SetEngaged {
                position: position.clone(),
                element: brake.clone(),
                on: false,
            },
        ),
        _ => words,
    }
}

pub fn undetermined(at: Context<'_>, shafts: &[Id], elements: &[Id]) -> Words {
    let unbalanced = match elements {
        [] => String::new(),
        some => format!(" Nothing balances the torque of {}.", list(some)),
    };
    Words::new(
        Severity::Fault,
        format!(
            "{} {} free{}, so the load gets no torque",
            list(shafts),
            number(shafts.len(), "spins", "spin"),
            at.in_position()
        ),
        format!(
            "The drive does not settle {} speed.{unbalanced} A brake, a load or a second drive on {} would.",
            number(shafts.len(), "its", "their"),
            number(shafts.len(), "it", "one of them"),
        ),
    )
    .at_shafts(shafts)
    .at_elements(elements)
}

pub fn free_shafts(shafts: &[Id]) -> Words {
    Words::new(
        Severity::Note,
        format!("{} can turn by {}", list(shafts), number(shafts.len(), "itself", "themselves")),
        "The drive does not settle the speed, and no torque goes that way. A brake or a load there would settle it."
            .to_owned(),
    )
    .at_shafts(shafts)
}

pub fn unreached(shafts: &[Id]) -> Words {
    Words::new(
        Severity::Note,
        format!(
            "{} {} not joined to the drive",
            list(shafts),
            number(shafts.len(), "is", "are")
        ),
        "Join it with a mesh, a chain or an engaged clutch, or delete what is not needed.".to_owned(),
    )
    .at_shafts(shafts)
}

pub fn redundant_loop(elements: &[Id]) -> Words {
    Words::new(
        Severity::Note,
        format!("{} carry one load by parallel paths", list(elements)),
        "The ratios agree, so it turns; how the paths share the load depends on backlash and stiffness. Take the \
         shares shown as a middle, and the true ones as anything between."
            .to_owned(),
    )
    .at_elements(elements)
}
