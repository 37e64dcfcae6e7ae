//! The fields of a group: its name, and whether it is drawn as one thing.

use layshaft_layout::{Command, Group, Id, Layout};

use super::{Details, DetailsInput, Field, FieldKind, ResultRow, ResultValue, results, with_editing};
use crate::parts;
use crate::target::{FieldRef, Target};

/// Name, folding, and what belongs to it.
pub(super) fn group_details(input: DetailsInput<'_>, group: &Group) -> Details {
    let target = Target::Group(group.id.clone());
    let field = |path: &str, hint: &'static str, kind| {
        let reference = FieldRef {
            target: target.clone(),
            path: path.to_owned(),
        };
        with_editing(
            input,
            Field {
                text: text(input.layout, &group.id, path),
                field: reference,
                label: label(path).to_owned(),
                unit: "",
                hint: hint.into(),
                kind,
                problem: None,
            },
        )
    };
    let fields = vec![
        field("name", "Stands on the drawing", FieldKind::Text),
        field(
            "folded",
            "One thing on the flow drawing, a frame on the others; what is computed stays the same",
            FieldKind::Toggle,
        ),
    ];
    Details {
        fields,
        title: format!("{}, group", group.name),
        help: "Parts that were named together; they move together and fold into one.",
        seldom: Vec::new(),
        measured: None,
        results: members(input.layout, group)
            .into_iter()
            .chain(results::of_group(input.position, input.layout, group))
            .collect(),
        workings: Vec::new(),
        units: input.units,
        cautions: Vec::new(),
        target,
    }
}

/// What belongs to it, by name.
fn members(layout: &Layout, group: &Group) -> Vec<ResultRow> {
    let shafts: Vec<String> = layout
        .shafts_in(group)
        .map(|shaft| shaft.id.to_string())
        .collect();
    let elements: Vec<String> = layout
        .elements_in(group)
        .map(|element| parts::element_name(layout, &element.id))
        .collect();
    [("Shafts", shafts), ("Parts", elements)]
        .into_iter()
        .filter(|(_, names)| !names.is_empty())
        .map(|(label, names)| ResultRow {
            label: label.to_owned(),
            value: ResultValue::Text(parts::list(&names)),
        })
        .collect()
}

/// The text of a field as it is in force.
pub(super) fn text(layout: &Layout, id: &Id, path: &str) -> String {
    match (layout.group(id), path) {
        (Some(group), "name") => group.name.clone(),
        (Some(group), "folded") => group.folded.to_string(),
        _ => String::new(),
    }
}

/// What a field is called.
pub(super) fn label(path: &str) -> &'static str {
    match path {
        "name" => "Name of the group",
        _ => "Folded",
    }
}

/// The change that a typed text makes.
pub(super) fn command(layout: &Layout, id: &Id, path: &str, text: &str) -> Result<Command, String> {
    let mut groups = layout.groups.clone();
    let Some(group) = groups.iter_mut().find(|group| group.id == *id) else {
        return Err("This group is not there any more.".to_owned());
    };
    match (path, text.trim()) {
        ("name", "") => return Err("Give the group a name, such as Gearbox.".to_owned()),
        ("name", name) => group.name = name.to_owned(),
        _ => group.folded = text == "true",
    }
    Ok(Command::SetGroups(groups))
}
