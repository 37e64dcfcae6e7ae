//! The commands: read, compute, print.

use std::io::{Read, Write};

use clap::Args;
use layshaft_layout::{Id, Layout, decode_bytes, encode, link, set_path};
use layshaft_report::{PositionReport, Report, report, report_with_other_states};

use crate::failure::Failure;
use crate::{json, text};

/// Where `cargo xtask serve` puts the page; any other address that serves it will do.
const USUAL_ADDRESS: &str = "http://127.0.0.1:8417/";

pub type Done = Result<(), Failure>;

/// `layshaft solve`
#[derive(Args)]
pub struct Solve {
    /// The layout file; `-` reads standard input.
    file: String,
    /// Only this shift position.
    #[arg(long, value_name = "ID")]
    position: Option<String>,
    /// Set a field before solving, such as `elements.g1.teeth.0=24`; may be repeated.
    #[arg(long, value_name = "PATH=VALUE")]
    set: Vec<String>,
    /// Print JSON.
    #[arg(long)]
    json: bool,
}

impl Solve {
    pub fn run(self) -> Done {
        let mut layout = read_layout(&self.file)?;
        for setting in &self.set {
            apply_setting(&mut layout, setting)?;
        }
        let report = report_with_other_states(&layout)
            .map_err(|errors| Failure::computing(&self.file, &errors, &layout))?;
        let report = match &self.position {
            None => report,
            Some(id) => only_position(report, id)?,
        };
        let printed = if self.json {
            json::solved(&layout, &report)
        } else {
            text::solved(&layout, &report)
        };
        print(&printed)
    }
}

pub fn apply_setting(layout: &mut Layout, setting: &str) -> Done {
    let (path, value) = setting.split_once('=').ok_or_else(|| {
        Failure::Usage(format!(
            "--set {setting}: write PATH=VALUE, such as elements.g1.teeth.0=24"
        ))
    })?;
    set_path(layout, path, value)
        .and_then(|command| layout.apply(&command))
        .map(drop)
        .map_err(|refusal| Failure::Layout(vec![format!("--set {path}: {refusal}")]))
}

fn only_position(report: Report, id: &str) -> Result<Report, Failure> {
    let known: Vec<&str> = report
        .positions
        .iter()
        .map(|position| position.id.as_str())
        .collect();
    if !known.contains(&id) {
        let known = known.join(", ");
        return Err(Failure::Usage(format!(
            "--position {id}: there is no such position; the layout has {known}"
        )));
    }
    let keep = |position: &Option<Id>| position.as_ref().is_none_or(|position| position.as_str() == id);
    Ok(Report {
        positions: report
            .positions
            .into_iter()
            .filter(|position: &std::rc::Rc<PositionReport>| position.id.as_str() == id)
            .collect(),
        findings: report
            .findings
            .into_iter()
            .filter(|finding| keep(&finding.position))
            .collect(),
        ..report
    })
}

/// `layshaft check`
#[derive(Args)]
pub struct Check {
    /// Layout files.
    #[arg(required = true)]
    files: Vec<String>,
}

impl Check {
    pub fn run(self) -> Done {
        let mut lines = Vec::new();
        for file in &self.files {
            let checked = read_layout(file).and_then(|layout| {
                report(&layout).map_err(|errors| Failure::computing(file, &errors, &layout))
            });
            match checked {
                Ok(_) => print(&format!("{file}: fine\n"))?,
                Err(Failure::Layout(errors)) => lines.extend(errors),
                Err(usage) => return Err(usage),
            }
        }
        if lines.is_empty() {
            Ok(())
        } else {
            Err(Failure::Layout(lines))
        }
    }
}

/// `layshaft schema`
pub fn schema() -> Done {
    let schema =
        serde_json::to_string_pretty(&layshaft_layout::schema()).expect("a JSON value can be written");
    print(&format!("{schema}\n"))
}

/// `layshaft link`
#[derive(Args)]
pub struct Link {
    /// The layout file; `-` reads standard input.
    file: String,
    /// Address of the page that is to open it.
    #[arg(long, default_value = USUAL_ADDRESS)]
    page: String,
}

impl Link {
    pub fn run(self) -> Done {
        let layout = read_layout(&self.file)?;
        let page = self.page.split('#').next().unwrap_or_default();
        let fragment =
            link::encode_checked(&layout).map_err(|error| Failure::Layout(vec![error.to_string()]))?;
        print(&format!(
            "{page}{fragment}
"
        ))
    }
}

/// `layshaft unlink`
#[derive(Args)]
pub struct Unlink {
    /// A link, or the part of it behind the `#`.
    url: String,
}

impl Unlink {
    pub fn run(self) -> Done {
        let layout = link::decode(&self.url).map_err(|error| Failure::Layout(vec![error.to_string()]))?;
        print(&encode(&layout))
    }
}

pub fn read_layout(file: &str) -> Result<Layout, Failure> {
    let bytes = read(file).map_err(|error| Failure::Usage(format!("{file} can't be read: {error}")))?;
    decode_bytes(&bytes).map_err(|errors| Failure::document(file, &errors))
}

fn read(file: &str) -> std::io::Result<Vec<u8>> {
    if file == "-" {
        let mut bytes = Vec::new();
        std::io::stdin().read_to_end(&mut bytes)?;
        return Ok(bytes);
    }
    std::fs::read(file)
}

/// Prints to standard output; a reader that has gone away is no failure.
pub fn print(printed: &str) -> Done {
    match std::io::stdout().write_all(printed.as_bytes()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Failure::Usage(format!("the result can't be written: {error}")))
        }
        _ => Ok(()),
    }
}
