//! Findings about gears as bodies, each with the change that mends it.

use layshaft_layout::{Command, Id, Owner};
use layshaft_quantity::{Length, Torque};
use layshaft_report::MaterialPair;

use super::{Context, Severity, Words, list};
use crate::numbers::{self, significant};

pub fn teeth_overloaded(
    at: Context<'_>,
    element: &Id,
    torque: Torque,
    limit: Torque,
    measured: bool,
) -> Words {
    let behind = if measured {
        "That is where they were measured to skip."
    } else {
        "That is the low end of what the material stands in bending, worked out as if one tooth carried all; good enough for \
         hobby gears only."
    };
    Words::new(
        Severity::Warning,
        format!(
            "The teeth of {element} carry {}, they bear {}{}",
            at.units.torque(torque).text(),
            at.units.torque(limit).text(),
            at.in_position()
        ),
        format!("{behind} Wider gears, a larger module or less torque there help."),
    )
    .at_elements([element])
}

pub fn planet_assembly(element: &Id, count: u32, teeth: u32, fits: Option<u32>) -> Words {
    let words = Words::new(
        Severity::Warning,
        format!("{count} planets can't be put into {element} at equal distances"),
        format!(
            "The teeth of sun and ring that count, {teeth}, are not a multiple of {count}, so that the last planet does not \
             find its gaps. Change a tooth count or the number of planets."
        ),
    )
    .at_elements([element]);
    offer_count(words, element, fits)
}

pub fn planets_collide(element: &Id, count: u32, fits: Option<u32>) -> Words {
    let words = Words::new(
        Severity::Warning,
        format!("{count} planets have no room in {element}"),
        "Their tips would run into one another. Take fewer planets, or a larger sun with smaller planets.",
    )
    .at_elements([element]);
    offer_count(words, element, fits)
}

fn offer_count(words: Words, element: &Id, fits: Option<u32>) -> Words {
    match fits {
        Some(fits) => words.with_command(
            format!("Take {fits} planets"),
            "set the number of planets",
            Command::SetField {
                owner: Owner::Element(element.clone()),
                field: "count".to_owned(),
                value: Some(fits.into()),
            },
        ),
        None => words,
    }
}

pub fn centre_distance(
    at: Context<'_>,
    element: &Id,
    shaft: &Id,
    [found, wanted]: [Length; 2],
    axis_mm: [f64; 2],
) -> Words {
    let told = |length: Length| at.units.length(length).text();
    let words = Words::new(
        Severity::Warning,
        format!(
            "The axes of {element} are {} apart, its gears need {}",
            told(found),
            told(wanted)
        ),
        if found < wanted {
            "The gears would jam. Move an axis, or take gears with fewer teeth or a smaller module; profile shift may allow it."
        } else {
            "The gears would mesh loosely or not at all. Move an axis, or take gears with more teeth or a larger module; \
             profile shift may allow it."
        },
    )
    .at_elements([element])
    .at_shafts([shaft]);
    let Some(moved) = at.layout.shaft(shaft) else {
        return words;
    };
    let mut moved = moved.clone();
    moved.axis_mm = Some(axis_mm);
    words.with_command(
        format!("Move the axis of {shaft}"),
        "move an axis",
        Command::ReplaceShaft { shaft: moved },
    )
}

pub fn friction_range(at: Context<'_>, pair: &MaterialPair, elements: &[Id]) -> Words {
    let name = super::losses::pair_name(pair);
    let effect = at
        .report
        .positions
        .iter()
        .find(|report| at.position.is_none_or(|position| report.id == *position))
        .and_then(|report| report.range?.efficiency)
        .map(|[low, high]| {
            format!(
                " Over all such ranges the efficiency lies from {} to {}.",
                numbers::percent(low).text(),
                numbers::percent(high).text()
            )
        });
    Words::new(
        Severity::Note,
        format!(
            "{} {} as {name}: friction {} to {}, {}",
            list(elements),
            super::number(elements.len(), "rubs", "rub"),
            significant(pair.friction[0]),
            significant(pair.friction[1]),
            super::losses::standing_words(pair.standing)
        ),
        format!(
            "{} {} computed with the middle ({}).{} Measure a pull and type the friction to know better.",
            list(elements),
            super::number(elements.len(), "is", "are"),
            pair.source,
            effect.unwrap_or_default()
        ),
    )
    .at_elements(elements)
}
