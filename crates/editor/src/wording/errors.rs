//! Words for layouts that can be read but not computed.

use layshaft_layout::{Id, Layout};
use layshaft_report::{ReportError, ReportProblem};

use super::{Severity, Words};
use crate::catalogue::Kind;
use crate::parts;
use crate::session::Input;
use crate::target::Target;

/// An error of the report in words.
#[must_use]
pub fn report_error(error: &ReportError, layout: &Layout) -> Words {
    match &error.problem {
        ReportProblem::TooManySources { position, source } => {
            let others = other_sources(layout, source);
            let mut words = Words::new(
                Severity::Fault,
                format!("{source} leaves no freedom: another source drives the same train already"),
                format!(
                    "Two sources on one train need a differential or an open clutch between them. Remove {}, or put a \
                     differential between the two.",
                    parts::element_name(layout, source)
                ),
            )
            .at_elements([source])
            .at_elements(&others)
            .with_repair(
                format!("Delete {source}"),
                Input::Remove { targets: vec![Target::Element(source.clone())] },
            );
            words.position = Some(position.clone());
            words
        }
    }
}

fn other_sources(layout: &Layout, source: &Id) -> Vec<Id> {
    let sources = layout
        .elements
        .iter()
        .filter(|element| Kind::of(&element.kind).is_source());
    sources
        .map(|element| element.id.clone())
        .filter(|id| id != source)
        .collect()
}
