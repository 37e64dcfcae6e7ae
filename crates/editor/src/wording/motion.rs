//! Findings about motion: what is jammed, free, unreached or tied twice.

use layshaft_kinematics::Ratio;
use layshaft_layout::{Command, Element, ElementKind, Id};
use layshaft_report::PathShare;

use super::{Context, Severity, Words, list, number};
use crate::catalogue::{self, Kind};
use crate::numbers::RatioText;
use crate::parts;
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
    let words = Words::new(
        Severity::Fault,
        format!(
            "Nothing can turn{}: {} lock one another",
            at.in_position(),
            list(elements)
        ),
        evidence,
    )
    .at_elements(elements);
    let switchable = |id: &&Id| {
        let kind = at.layout.element(id).map(|element| &element.kind);
        matches!(kind, Some(ElementKind::Clutch(_) | ElementKind::Brake(_)))
    };
    match elements.iter().rfind(switchable) {
        Some(joint) => release(words, at, joint),
        None => words,
    }
}

/// Offers to release a clutch or brake in the finding's position.
fn release(words: Words, at: Context<'_>, joint: &Id) -> Words {
    let Some(position) = at.position else { return words };
    words.with_repair(
        format!("Release {joint} in {}", at.position_name(position)),
        Input::SetEngaged {
            position: position.clone(),
            element: joint.clone(),
            on: false,
        },
    )
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
    let is_one_way = |id: &&Id| {
        at.layout
            .elements
            .iter()
            .any(|other| other.id == **id && matches!(other.kind, ElementKind::OneWay(_)))
    };
    let one_way = elements.iter().find(is_one_way);
    let (headline, detail) = if let (true, Some(one_way)) = (brakes.is_empty(), one_way) {
        (
            format!(
                "Nothing can turn{}: {one_way} lets the drive turn only the other way",
                at.in_position()
            ),
            "Reverse the drive, or give the one-way clutch the other sense.".to_owned(),
        )
    } else if brakes.is_empty() {
        (
            format!(
                "Nothing can turn{}: {} {} the drive to the frame",
                at.in_position(),
                list(elements),
                number(elements.len(), "ties", "tie")
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
    match brakes.first() {
        Some(brake) => release(words, at, brake),
        None => words,
    }
}

pub fn undetermined(at: Context<'_>, shafts: &[Id], elements: &[Id]) -> Words {
    if shafts.is_empty() {
        return Words::new(
            Severity::Fault,
            format!("No steady state was found{}", at.in_position()),
            "What can slip, overrun or stick agrees with itself in no way that was tried. Change a limit, or take one of these \
             parts out, and see which of them it is.",
        )
        .at_elements(elements);
    }
    let unbalanced = match elements {
        [] => String::new(),
        some => format!(" Nothing balances the torque of {}.", list(some)),
    };
    let words = Words::new(
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
    .at_elements(elements);
    with_brake(words, at, shafts)
}

pub fn free_shafts(at: Context<'_>, shafts: &[Id]) -> Words {
    let words = Words::new(
        Severity::Note,
        format!("{} can turn by {}", list(shafts), number(shafts.len(), "itself", "themselves")),
        "The drive does not settle the speed, and no torque goes that way. A brake or a load there would settle it."
            .to_owned(),
    )
    .at_shafts(shafts);
    with_brake(words, at, shafts)
}

/// Offers a brake on the first of some free shafts that does no work, on in the finding's position, or in all.
fn with_brake(words: Words, at: Context<'_>, shafts: &[Id]) -> Words {
    // What drives or is driven is not to be held.
    let works = |shaft: &Id| {
        let mut on = at.layout.elements_on(shaft);
        on.any(|element| {
            let kind = Kind::of(&element.kind);
            kind.is_source() || kind.is_load()
        })
    };
    let known = |shaft: &&Id| at.layout.shaft(shaft).is_some() && !works(shaft);
    let Some(shaft) = shafts.iter().find(known) else {
        return words;
    };
    let brake = Kind::Brake;
    let id = at.layout.next_element_id(brake.id_stem());
    let Some(kind) = catalogue::default_element(brake, std::slice::from_ref(shaft)) else {
        return words;
    };
    let element = Element {
        id: id.clone(),
        at: None,
        kind,
    };
    let positions = at.layout.effective_positions();
    let concerned = positions
        .iter()
        .filter(|position| at.position.is_none_or(|own| position.id == *own));
    let on = concerned.map(|position| Command::SetEngaged {
        position: position.id.clone(),
        element: id.clone(),
        engaged: true,
    });
    let index = at.layout.elements.len();
    let commands = std::iter::once(Command::AddElement { index, element }).chain(on);
    words.with_command(
        format!("Put a brake on {shaft}"),
        "add a brake",
        Command::Batch(commands.collect()),
    )
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

pub fn redundant_loop(at: Context<'_>, elements: &[Id], shares: &[PathShare]) -> Words {
    const MOST: usize = 4;
    let each: Vec<String> = shares
        .iter()
        .take(MOST)
        .map(|share| {
            let [low, high] = share.range.map(|torque| at.units.torque(torque).text());
            format!(
                "{} {} (from {low} to {high})",
                share.element,
                at.units.torque(share.torque).text()
            )
        })
        .collect();
    let evidence = if each.is_empty() {
        "Take the shares shown as a middle, and the true ones as anything between.".to_owned()
    } else {
        format!(
            "By stiffness they carry {}; the true shares may be anything in those ranges.",
            parts::list(&each)
        )
    };
    Words::new(
        Severity::Note,
        format!("{} carry one load by parallel paths", list(elements)),
        format!(
            "The ratios agree, so it turns; how the paths share the load depends on backlash and stiffness. {evidence} Leave \
             one out if it must be certain."
        ),
    )
    .at_elements(elements)
}
