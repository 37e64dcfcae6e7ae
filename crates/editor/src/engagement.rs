//! Which clutches and brakes are engaged in which position.

use layshaft_layout::{Element, ElementKind, Id, Layout};

/// The plan of all positions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Engagement {
    /// What can be engaged, in document order, each with its name for people.
    pub elements: Vec<(Id, String)>,
    /// Positions in document order.
    pub positions: Vec<PositionPlan>,
}

/// What is engaged in one position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PositionPlan {
    /// The position.
    pub id: Id,
    /// Its name.
    pub name: String,
    /// Whether it is the one shown.
    pub current: bool,
    /// Whether the element is engaged, one for each of [`Engagement::elements`].
    pub engaged: Vec<bool>,
}

/// The plan of a layout.
#[must_use]
pub fn engagement(layout: &Layout, current: &Id) -> Engagement {
    let elements: Vec<(Id, String)> = layout.elements.iter().filter_map(switchable).collect();
    let positions = layout
        .effective_positions()
        .into_iter()
        .map(|position| PositionPlan {
            current: position.id == *current,
            engaged: elements
                .iter()
                .map(|(id, _)| position.engaged.contains(id))
                .collect(),
            id: position.id,
            name: position.name,
        })
        .collect();
    Engagement { elements, positions }
}

fn switchable(element: &Element) -> Option<(Id, String)> {
    let kind = match element.kind {
        ElementKind::Clutch(_) => "Clutch",
        ElementKind::Brake(_) => "Brake",
        _ => return None,
    };
    Some((element.id.clone(), format!("{kind} {}", element.id)))
}
