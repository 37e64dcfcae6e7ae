//! What is computed about the layout shown, computed again only when something that matters has changed.

use std::rc::Rc;

use layshaft_layout::{Layout, Shaft};
use layshaft_report::{Report, ReportError, report};

/// A layout with its report.
#[derive(Clone, Debug)]
pub struct Computed {
    layout: Rc<Layout>,
    report: Rc<Report>,
    errors: Rc<Vec<ReportError>>,
}

impl Computed {
    /// Computes everything.
    pub fn of(layout: &Rc<Layout>) -> Self {
        let (report, errors) = match report(layout) {
            Ok(report) => (report, Vec::new()),
            Err(errors) => (Report::default(), errors),
        };
        Self {
            layout: layout.clone(),
            report: Rc::new(report),
            errors: Rc::new(errors),
        }
    }

    /// Follows the layout; dragging a symbol or changing the title costs nothing.
    pub fn follow(&mut self, layout: &Rc<Layout>) {
        if same_train(&self.layout, layout) {
            self.layout = layout.clone();
        } else {
            *self = Self::of(layout);
        }
    }

    /// The report; without positions where the layout can't be computed.
    pub fn report(&self) -> &Rc<Report> {
        &self.report
    }

    /// Why the layout can't be computed.
    pub fn errors(&self) -> &[ReportError] {
        &self.errors
    }
}

/// Parts that are carried for others, but for how drawings are looked at.
fn carried(layout: &Layout) -> impl Iterator<Item = (&String, &serde_json::Value)> {
    layout.carried.iter().filter(|(name, _)| *name != "view")
}

/// Whether two layouts differ at most in where things stand and in words.
pub(super) fn same_train(one: &Layout, other: &Layout) -> bool {
    one.drive == other.drive
        && one.material_pair == other.material_pair
        && one.positions == other.positions
        && one.shafts.len() == other.shafts.len()
        && one.elements.len() == other.elements.len()
        && one.shafts.iter().zip(&other.shafts).all(|(a, b)| {
            Shaft {
                at: b.at,
                ..a.clone()
            } == *b
        })
        && one
            .elements
            .iter()
            .zip(&other.elements)
            .all(|(a, b)| a.id == b.id && a.kind == b.kind)
        && carried(one).eq(carried(other))
}
