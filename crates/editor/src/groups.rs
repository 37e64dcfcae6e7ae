//! Groups on the bench: what belongs to them, where they stand, what hides in the folded ones. The groups themselves are
//! in the layout; what draws them is in `scene`.

use std::collections::BTreeSet;

use layshaft_layout::{Group, Id, Layout};

use crate::geometry::{Point, Rect};
use crate::parts;
use crate::scene::element_places;
use crate::target::Target;

/// Shafts and elements, with those of selected groups in the place of the groups; each once, in the order of selecting.
#[must_use]
pub fn expanded(layout: &Layout, targets: &[Target]) -> Vec<Target> {
    let mut found: Vec<Target> = Vec::new();
    for target in targets {
        let all = match target {
            Target::Group(id) => layout
                .group(id)
                .map(|group| members(layout, group))
                .unwrap_or_default(),
            other => vec![other.clone()],
        };
        for target in all {
            if !found.contains(&target) {
                found.push(target);
            }
        }
    }
    found
}

/// The shafts and elements of a group.
#[must_use]
pub fn members(layout: &Layout, group: &Group) -> Vec<Target> {
    let shafts = layout
        .shafts_in(group)
        .map(|shaft| Target::Shaft(shaft.id.clone()));
    let elements = layout
        .elements_in(group)
        .map(|element| Target::Element(element.id.clone()));
    shafts.chain(elements).collect()
}

/// What stands for a thing on the flow drawing: the folded group that it hides in, else the thing itself.
#[must_use]
pub fn visible(layout: &Layout, target: &Target) -> Target {
    match target {
        Target::Shaft(id) | Target::Element(id) => layout
            .group_of(id)
            .filter(|group| group.folded)
            .map_or_else(|| target.clone(), |group| Target::Group(group.id.clone())),
        _ => target.clone(),
    }
}

/// All that can be selected on the flow drawing: shafts, elements, folded groups in the place of what is in them.
#[must_use]
pub fn all_visible(layout: &Layout) -> Vec<Target> {
    let shafts = layout.shafts.iter().map(|shaft| Target::Shaft(shaft.id.clone()));
    let elements = layout.elements.iter();
    let elements = elements.map(|element| Target::Element(element.id.clone()));
    let mut seen = BTreeSet::new();
    shafts
        .chain(elements)
        .map(|target| visible(layout, &target))
        .filter(|target| seen.insert(target.clone()))
        .collect()
}

/// The room that the shafts and symbols of a group take when it is open; none for an empty one.
#[must_use]
pub fn room(layout: &Layout, group: &Group, places: &[Point]) -> Option<Rect> {
    let shafts = layout
        .shafts_in(group)
        .map(|shaft| Rect::around(shaft.at.into(), 36.0, 36.0));
    let elements = layout.elements.iter().zip(places);
    let elements = elements
        .filter(|(element, _)| group.holds(&element.id))
        .map(|(_, at)| Rect::around(*at, 48.0, 32.0));
    shafts.chain(elements).reduce(|all, rect| all.union(&rect))
}

/// Where a folded group stands: in the middle of what is in it.
#[must_use]
pub fn place(layout: &Layout, group: &Group) -> Option<Point> {
    room(layout, group, &element_places(layout)).map(|room| room.centre())
}

/// The shafts outside a group that its elements sit on, in document order.
#[must_use]
pub fn outer_shafts<'l>(layout: &'l Layout, group: &Group) -> Vec<&'l Id> {
    let touched: BTreeSet<&Id> = layout
        .elements_in(group)
        .flat_map(|element| parts::ports(&element.kind))
        .map(|port| port.shaft)
        .collect();
    let shafts = layout.shafts.iter().map(|shaft| &shaft.id);
    shafts
        .filter(|id| touched.contains(id) && !group.holds(id))
        .collect()
}

/// What else belongs to a group of these: shafts that join only them, and elements between their shafts.
#[must_use]
pub fn completed(layout: &Layout, targets: &[Target]) -> BTreeSet<Id> {
    let mut ids: BTreeSet<Id> = targets.iter().filter_map(Target::id).cloned().collect();
    for shaft in &layout.shafts {
        let on: Vec<&Id> = layout.elements_on(&shaft.id).map(|element| &element.id).collect();
        if on.len() > 1 && on.iter().all(|id| ids.contains(*id)) {
            ids.insert(shaft.id.clone());
        }
    }
    for element in &layout.elements {
        let ports = parts::ports(&element.kind);
        let joins = ports.len() > 1
            && ports
                .iter()
                .all(|port| port.shaft.is_frame() || ids.contains(port.shaft));
        if joins {
            ids.insert(element.id.clone());
        }
    }
    ids
}

#[cfg(test)]
mod tests {
    use super::*;
    use layshaft_layout::decode;

    const HOIST: &str = include_str!("../../../tests/layouts/groups.layshaft.json");

    fn keys(targets: &[Target]) -> Vec<String> {
        targets.iter().map(Target::key).collect()
    }

    #[test]
    fn a_folded_group_stands_for_what_is_in_it() {
        let layout = decode(HOIST).expect("sound");
        let all = all_visible(&layout);
        assert_eq!(
            keys(&all),
            ["shaft-motor", "group-box", "shaft-drum", "element-m", "element-w"]
        );
        let expanded = expanded(&layout, &all);
        assert_eq!(expanded.len(), 7);
        let group = &layout.groups[0];
        assert_eq!(
            outer_shafts(&layout, group),
            [&Id::from("motor"), &Id::from("drum")]
        );
        assert_eq!(place(&layout, group).map(|at| at.x), Some(160.0));
    }

    #[test]
    fn what_lies_between_belongs_to_it() {
        let layout = decode(HOIST).expect("sound");
        let element = |id: &str| Target::Element(Id::from(id));
        let shaft = |id: &str| Target::Shaft(Id::from(id));
        let ids = |targets: &[Target]| {
            completed(&layout, targets)
                .iter()
                .map(Id::to_string)
                .collect::<Vec<_>>()
        };
        assert_eq!(ids(&[element("g1"), element("g2")]), ["g1", "g2", "mid"]);
        assert_eq!(ids(&[shaft("motor"), shaft("mid")]), ["g1", "mid", "motor"]);
    }
}
