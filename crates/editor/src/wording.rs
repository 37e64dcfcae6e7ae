//! Words for people: from findings, errors and states to plain sentences that name things and say what to do.

use layshaft_layout::Layout;
use layshaft_report::{Finding, Report};

use crate::session::Input;
use crate::target::Target;

/// How much a finding matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The layout cannot do its job like this.
    Fault,
    /// It works, but not as one would expect.
    Warning,
    /// Good to know.
    Note,
    /// A plain result.
    Result,
}

/// A finding in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// How much it matters.
    pub severity: Severity,
    /// One sentence, as a figure's caption would say it; no full stop.
    pub headline: String,
    /// One or two sentences: the evidence, and what to try.
    pub detail: String,
    /// What it speaks of; pressing the finding selects these.
    pub places: Vec<Target>,
    /// The position it speaks of.
    pub position: Option<layshaft_layout::Id>,
    /// One change that would mend it, where there is one.
    pub repair: Option<Repair>,
    /// Cautions that belong to it.
    pub cautions: Vec<&'static str>,
}

/// A change offered by a finding.
#[derive(Clone, Debug, PartialEq)]
pub struct Repair {
    /// What the button says.
    pub label: String,
    /// What to hand to the session when it is pressed.
    pub input: Box<Input>,
}

/// A finding in words.
#[must_use]
pub fn finding(finding: &Finding, layout: &Layout, report: &Report) -> Words {
    let _ = (layout, report);
    Words {
        severity: Severity::Note,
        headline: finding.kind.code().to_owned(),
        detail: String::new(),
        places: Vec::new(),
        position: finding.position.clone(),
        repair: None,
        cautions: Vec::new(),
    }
}
