//! `cargo xtask bench`: runs the benches and sets each result beside its yardstick.
//!
//! A group of benches measures one job by several functions; the one named `layshaft` is ours, the others are
//! yardsticks of the same job. A ratio above 1 says that ours is that many times faster. Outside of the gates: times
//! differ from machine to machine.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use anyhow::{Context, ensure};
use serde_json::Value;

use crate::{build, engines, serve, workspace};

/// Name of our function in every group.
const OURS: &str = "layshaft";

/// One measured function: mean time, ns.
struct Measured {
    function: String,
    mean_ns: f64,
}

/// Runs the benches (`words` are passed on, as a filter) and prints the table; `page` is a bench of its own.
pub fn bench(words: &[String]) -> anyhow::Result<()> {
    if words == ["page"] {
        return page();
    }
    // Second-exact file times would otherwise leave out what is measured in the first second.
    let start = SystemTime::now() - std::time::Duration::from_secs(2);
    let mut cargo = workspace::cargo(&["bench", "-p", "layshaft-bench", "--benches", "--"]);
    workspace::run(cargo.args(words))?;
    let mut jobs = BTreeMap::new();
    collect(&workspace::target_dir().join("criterion"), start, &mut jobs)?;
    ensure!(!jobs.is_empty(), "no bench ran; is the filter right?");
    print_table(&jobs);
    Ok(())
}

/// Builds and serves the page and has it driven in Chromium, on layouts of two sizes.
fn page() -> anyhow::Result<()> {
    build::build(build::Profile::Web)?;
    let mut pace = workspace::cargo(&[
        "run",
        "-q",
        "-p",
        "layshaft-tests",
        "--features",
        "browser",
        "--bin",
        "pace",
    ]);
    pace.env("LAYSHAFT_BROWSER_URL", serve::in_background()?)
        .envs(engines::CHROMIUM.find_or_install()?);
    workspace::run(&mut pace)
}

/// Reads all that was measured since `start`.
fn collect(
    folder: &Path,
    start: SystemTime,
    jobs: &mut BTreeMap<String, Vec<Measured>>,
) -> anyhow::Result<()> {
    for entry in std::fs::read_dir(folder).with_context(|| format!("no results in {}", folder.display()))? {
        let path = entry?.path();
        let fresh = path.join("new/estimates.json");
        if fresh
            .metadata()
            .and_then(|data| data.modified())
            .is_ok_and(|written| written >= start)
        {
            let (job, measured) = read(&path.join("new"))?;
            jobs.entry(job).or_default().push(measured);
        } else if path.is_dir() {
            collect(&path, start, jobs)?;
        }
    }
    Ok(())
}

fn read(folder: &Path) -> anyhow::Result<(String, Measured)> {
    let json = |name: &str| -> anyhow::Result<Value> {
        let path: PathBuf = folder.join(name);
        let text =
            std::fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
        Ok(serde_json::from_str(&text)?)
    };
    let about = json("benchmark.json")?;
    let word = |name: &str| about[name].as_str().unwrap_or_default();
    let job = format!("{} {}", word("group_id"), word("value_str"));
    let mean_ns = json("estimates.json")?["mean"]["point_estimate"]
        .as_f64()
        .context("a mean is a number")?;
    Ok((
        job.trim_end().to_owned(),
        Measured {
            function: word("function_id").to_owned(),
            mean_ns,
        },
    ))
}

fn print_table(jobs: &BTreeMap<String, Vec<Measured>>) {
    println!(
        "\n{:<44} {:>12}   {:<28} {:>12} {:>8}",
        "job", OURS, "yardstick", "its time", "ratio"
    );
    for (job, measured) in jobs {
        let ours = measured
            .iter()
            .find(|one| one.function == OURS || one.function.is_empty());
        let ours_text = ours.map_or("–".to_owned(), |one| in_words(one.mean_ns));
        let others: Vec<_> = measured
            .iter()
            .filter(|one| !ours.is_some_and(|ours| std::ptr::eq(ours, *one)))
            .collect();
        if others.is_empty() {
            println!("{job:<44} {ours_text:>12}");
        }
        for other in others {
            let ratio = ours.map_or("–".to_owned(), |one| {
                format!("{:.2}", other.mean_ns / one.mean_ns)
            });
            println!(
                "{job:<44} {ours_text:>12}   {:<28} {:>12} {ratio:>8}",
                other.function,
                in_words(other.mean_ns)
            );
        }
    }
    println!("A ratio above 1: {OURS} is that many times faster than the yardstick; below 1: slower.");
}

/// A time in the unit that suits it.
fn in_words(nanoseconds: f64) -> String {
    match nanoseconds {
        ns if ns < 1e3 => format!("{ns:.0} ns"),
        ns if ns < 1e6 => format!("{:.2} µs", ns / 1e3),
        ns if ns < 1e9 => format!("{:.2} ms", ns / 1e6),
        ns => format!("{:.2} s", ns / 1e9),
    }
}
