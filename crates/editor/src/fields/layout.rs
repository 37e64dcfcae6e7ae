//! The fields of the layout as a whole: what the details show where nothing is selected.

use std::borrow::Cow;

use layshaft_layout::Id;

use super::{Details, DetailsInput, Field, FieldKind, choices, with_editing};
use crate::target::{FieldRef, Target};

/// Name, drive, materials and notes.
pub(super) fn layout_details(input: DetailsInput<'_>) -> Details {
    let text = |path: &str, label: &str, text: &str, hint: Cow<'static, str>, kind| {
        let reference = FieldRef {
            target: Target::Layout,
            path: path.to_owned(),
        };
        with_editing(
            input,
            Field {
                field: reference,
                label: label.to_owned(),
                unit: "",
                text: text.to_owned(),
                hint,
                kind,
                problem: None,
            },
        )
    };
    let layout = input.layout;
    let mut drives = vec![(String::new(), "The first source's shaft".to_owned())];
    drives.extend(
        layout
            .shafts
            .iter()
            .map(|shaft| (shaft.id.to_string(), shaft.id.to_string())),
    );
    let drive = layout.drive.as_ref().map_or("", Id::as_str);
    Details {
        target: Target::Layout,
        title: "This layout".to_owned(),
        help: "Select a part to see its numbers here.",
        fields: vec![
            text(
                "title",
                "Name",
                &layout.title,
                "Stands in the title block".into(),
                FieldKind::Text,
            ),
            text(
                "drive",
                "Ratios refer to",
                drive,
                "The shaft whose ratio is 1".into(),
                FieldKind::Shaft(drives),
            ),
            text(
                "material_pair",
                "Materials",
                layout.material_pair.map_or("", |pair| pair.name),
                layout
                    .material_pair
                    .map_or("For all gears that give no loss of their own".into(), |pair| {
                        choices::pair_hint(pair).into()
                    }),
                FieldKind::Choice(choices::pairs("None: such gears are lossless")),
            ),
            text(
                "notes",
                "Notes",
                &layout.notes,
                "For yourself and whom you share it with".into(),
                FieldKind::LongText,
            ),
        ],
        seldom: Vec::new(),
        measured: None,
        results: Vec::new(),
        workings: Vec::new(),
        units: input.units,
        cautions: vec![crate::wording::general_caution()],
    }
}
