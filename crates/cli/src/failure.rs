//! How a command fails: in sentences on standard error, with the exit status that says which kind it was.

use std::process::ExitCode;

use layshaft_editor::wording;
use layshaft_layout::{DocumentError, Layout};
use layshaft_report::ReportError;

/// Why a command did not do its work.
pub enum Failure {
    /// The layout has errors; one line each.
    Layout(Vec<String>),
    /// Wrong usage: a file that is not there, an unknown position.
    Usage(String),
}

impl Failure {
    /// Errors of a file, each with its path.
    pub fn document(file: &str, errors: &[DocumentError]) -> Self {
        Self::Layout(errors.iter().map(|error| format!("{file}: {error}")).collect())
    }

    /// Errors of a layout that can be read but not computed.
    pub fn computing(file: &str, errors: &[ReportError], layout: &Layout) -> Self {
        let line = |error: &ReportError| {
            let words = wording::report_error(error, layout);
            format!("{file}: {}: {}. {}", error.path, words.headline, words.detail)
        };
        Self::Layout(errors.iter().map(line).collect())
    }

    /// Prints it and gives the exit status.
    pub fn report(self) -> ExitCode {
        match self {
            Self::Layout(lines) => {
                for line in lines {
                    eprintln!("{line}");
                }
                ExitCode::from(1)
            }
            Self::Usage(sentence) => {
                eprintln!("layshaft: {sentence}");
                ExitCode::from(2)
            }
        }
    }
}
