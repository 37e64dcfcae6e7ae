//! What an arrangement is like, fact by fact: its ratios, its teeth, what it is made of, what shifts and holds it.

use layshaft_choose::alternatives::{Alternative, Arrangement, CarriedIn, Gear};
use layshaft_layout::{Element, ElementKind, Layout};
use layshaft_quantity::Angle;

use super::Fact;
use crate::numbers;
use crate::units::Units;
use crate::wording::{exact_words, holds_words, parts_words, ratio_words, shift_words};

/// Facts of an arrangement; `wanted` are its ratios where these were asked for, `present` is the low gear now.
pub fn facts(
    alternative: &Alternative,
    layout: Option<&Layout>,
    wanted: Option<[f64; 2]>,
    present: Option<&Gear>,
    units: Units,
) -> Vec<Fact> {
    let [low, high] = &alternative.gears;
    let wanted = |gear: usize| wanted.map(|ratios| ratios[gear]);
    let mut all = vec![Fact {
        name: "Ratios",
        lines: vec![
            format!("Low {}", ratio_words(low.ratio, wanted(0))),
            format!("High {}", ratio_words(high.ratio, wanted(1))),
        ],
        small: exact_words(&alternative.gears),
    }];
    let mut add = |name: &'static str, lines: Vec<String>| {
        all.push(Fact {
            name,
            lines,
            small: None,
        });
    };
    if present.is_some_and(|gear| gear.exact.starts_with('-') != low.exact.starts_with('-')) {
        add(
            "Sense",
            vec!["The output turns the other way than now".to_owned()],
        );
    }
    if let (Some(one), Some(other)) = (low.slope, high.slope) {
        let [one, other] = [one, other].map(|slope| numbers::angle(Angle::degrees(slope)).text());
        add("Climbs", vec![format!("{one} in low, {other} in high")]);
    }
    if let Some(layout) = layout {
        add("Teeth", teeth(layout, alternative.arrangement));
    }
    add("Made of", vec![parts_words(&alternative.parts)]);
    add(
        "Shifts by",
        shift_words(alternative.arrangement.needs(), alternative.switching),
    );
    let holds = holds_words(&alternative.gears, units);
    if !holds.is_empty() {
        add("Holds", vec![holds]);
    }
    all
}

/// Tooth counts of what carries power in either gear, driver before driven, in the order of the layout.
fn teeth(layout: &Layout, arrangement: Arrangement) -> Vec<String> {
    let texts: Vec<String> = layout.elements.iter().filter_map(of_element).collect();
    let carried = arrangement.carried_in();
    let in_gear = |gear: CarriedIn| {
        let pairs = texts.iter().enumerate();
        let mine = pairs.filter(|(place, _)| {
            let carried = carried.get(*place).copied().unwrap_or(CarriedIn::Both);
            carried == gear || carried == CarriedIn::Both
        });
        let list: Vec<&str> = mine.map(|(_, text)| text.as_str()).collect();
        list.join(", ")
    };
    let (low, high) = (in_gear(CarriedIn::Low), in_gear(CarriedIn::High));
    if low == high {
        return vec![format!("Low and high: {low}")];
    }
    let named = [("Low", low), ("High", high)];
    let driven = named.into_iter().filter(|(_, list)| !list.is_empty());
    driven.map(|(name, list)| format!("{name}: {list}")).collect()
}

fn of_element(element: &Element) -> Option<String> {
    match &element.kind {
        ElementKind::Mesh(mesh) => Some(format!("{} on {}", mesh.teeth[0], mesh.teeth[1])),
        ElementKind::Worm(worm) => Some(format!("worm on {}", worm.teeth)),
        ElementKind::Planetary(set) => {
            let planet = set.ring_teeth.saturating_sub(set.sun_teeth) / 2;
            let count = set.count.unwrap_or(1);
            Some(format!(
                "sun {}, ring {}, {count} planets of {planet}",
                set.sun_teeth, set.ring_teeth
            ))
        }
        _ => None,
    }
}
