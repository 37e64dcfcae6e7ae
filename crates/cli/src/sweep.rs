//! `layshaft sweep`: one or two inputs over their ranges, any results, on all cores.
//!
//! What a range and a result are and how they are typed stands here; finding a result by its path is in [`shown`], what paths
//! there can be in [`known`], printing in `print`.

mod known;
mod print;
mod shown;

use clap::Args;
use layshaft_choose::Input;
use layshaft_choose::map::MOST_POINTS;
use layshaft_choose::sweep::range_of;
use layshaft_layout::Layout;
use layshaft_report::report;
use rayon::prelude::*;
use serde_json::Value;

use crate::commands::{self, Done, read_layout};
use crate::failure::Failure;
use shown::Shown;

/// `layshaft sweep`
#[derive(Args)]
#[command(after_help = HELP)]
pub struct Sweep {
    /// The layout file; `-` reads standard input.
    file: String,
    /// What is varied, such as `elements.g1.efficiency=0.7..0.95/26`; twice: every pair of values, the second running faster.
    #[arg(
        long,
        value_name = "PATH=FROM..TO/POINTS",
        required = true,
        allow_hyphen_values = true
    )]
    vary: Vec<String>,
    /// Results to be shown; several may follow one another, and it may be repeated.
    #[arg(long, value_name = "OUTPUT", required = true, num_args = 1..)]
    show: Vec<String>,
    /// Set a field before, such as `elements.g1.teeth.0=24`; may be repeated.
    #[arg(long, value_name = "PATH=VALUE")]
    set: Vec<String>,
    /// Print JSON.
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print comma-separated values with a heading line.
    #[arg(long)]
    csv: bool,
}

const HELP: &str = "\
PATH is a field as for `solve --set`: elements.cart.mass_kg, elements.g1.teeth.0, shafts.mid.drag_nm. Besides,
elements.ID.ratio is the ratio of a connection as such (its second shaft's speed over its first's), whatever teeth would make
it, and material_pairs.WORD.friction the friction of a pair of materials in all elements that take theirs from it. POINTS
values are evenly spread from FROM to TO; tooth counts take whole numbers only, each once.

OUTPUT is a path into `solve --json`: positions.first.stall.pull_n, positions.second.shafts.axle.rpm. Lists are addressed by
the id of an entry (ports by their shaft) or by its number from 0. A path that does not begin with `positions` is looked up in
every position: stall.pull_n, elements.g1.loss_w, state.

JSON: {\"vary\": [{\"path\", \"values\"}], \"show\": [paths], \"rows\": [{\"at\": [values], \"values\": {path: result}}]}. A result that
does not apply is left out; so are all results where an input can't have its value.";

/// Values of one input.
pub struct Varied {
    /// As it was typed.
    pub path: String,
    /// What it is.
    pub input: Input,
    /// Its values in the order in which they were asked for.
    pub values: Vec<f64>,
}

/// One row of the result.
pub struct Row {
    /// The inputs' values.
    pub at: Vec<f64>,
    /// Per result shown.
    pub values: Vec<Option<Value>>,
}

impl Sweep {
    pub fn run(self) -> Done {
        let mut layout = read_layout(&self.file)?;
        for setting in &self.set {
            commands::apply_setting(&mut layout, setting)?;
        }
        report(&layout).map_err(|errors| Failure::computing(&self.file, &errors, &layout))?;
        if self.vary.len() > 2 {
            return Err(Failure::Usage(
                "--vary may stand twice, not more often".to_owned(),
            ));
        }
        let varied: Vec<Varied> = self
            .vary
            .iter()
            .map(|text| vary(&layout, text))
            .collect::<Result<_, _>>()?;
        if let [one, other] = &varied[..]
            && one.input.collides(&other.input, &layout)
        {
            return Err(Failure::Usage(format!(
                "--vary {} and --vary {} set the same input; vary two different ones",
                one.path, other.path
            )));
        }
        let count: usize = varied.iter().map(|varied| varied.values.len()).product();
        if count > MOST_POINTS {
            return Err(Failure::Usage(format!(
                "these are {count} points; at most {MOST_POINTS} are computed, so take fewer values"
            )));
        }
        let shown = Shown::of(&layout, &self.show)?;
        let rows: Vec<Row> = points(&varied)
            .into_par_iter()
            .map(|at| Row {
                values: shown.values(&settings(&varied, &at)),
                at,
            })
            .collect();
        commands::print(&if self.json {
            print::json(&varied, shown.paths(), &rows)
        } else if self.csv {
            print::csv(&varied, shown.paths(), &rows)
        } else {
            print::text(&varied, shown.paths(), &rows)
        })
    }
}

fn settings<'a>(varied: &'a [Varied], at: &[f64]) -> Vec<(&'a Input, f64)> {
    let inputs = varied.iter().map(|varied| &varied.input);
    inputs.zip(at.iter().copied()).collect()
}

/// Every value, or every pair of values, the last running fastest.
fn points(varied: &[Varied]) -> Vec<Vec<f64>> {
    varied.iter().fold(vec![Vec::new()], |points, varied| {
        let with = |point: &Vec<f64>| {
            let point = point.clone();
            varied
                .values
                .iter()
                .map(move |value| [point.clone(), vec![*value]].concat())
        };
        points.iter().flat_map(with).collect()
    })
}

/// Reads `PATH=FROM..TO/POINTS`.
fn vary(layout: &Layout, text: &str) -> Result<Varied, Failure> {
    let wrong = |why: &str| Failure::Usage(format!("--vary {text}: {why}"));
    let (path, range) = text
        .split_once('=')
        .ok_or_else(|| wrong("write PATH=FROM..TO/POINTS, such as elements.g1.efficiency=0.7..0.95/26"))?;
    let (ends, points) = range
        .rsplit_once('/')
        .ok_or_else(|| wrong("say how many values behind a slash, such as 0.7..0.95/26"))?;
    let (from, to) = ends
        .split_once("..")
        .ok_or_else(|| wrong("write the range as FROM..TO, such as 0.7..0.95"))?;
    let number = |text: &str| {
        let value = text.trim().parse::<f64>().ok().filter(|value| value.is_finite());
        value.ok_or_else(|| wrong(&format!("`{text}` is no number")))
    };
    let ends = [number(from)?, number(to)?];
    let points = points
        .trim()
        .parse()
        .map_err(|_| wrong(&format!("`{points}` is no whole number of values")))?;
    let input = Input::parse(layout, path.trim())
        .map_err(|problem| Failure::Layout(vec![format!("--vary {path}: {problem}")]))?;
    let mut values = range_of(layout, &input, ends, points).map_err(|problem| wrong(&problem.to_string()))?;
    if ends[0] > ends[1] {
        values.reverse();
    }
    Ok(Varied {
        path: path.trim().to_owned(),
        input,
        values,
    })
}
