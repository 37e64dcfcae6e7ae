//! Runs stages one after another, says which one is on and how long each took, and keeps the closing lines of the
//! test runners for the end.

use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, bail, ensure};

/// A stage: its name, which the command line may ask for, and its work.
pub type Stage = (&'static str, fn(&mut Log) -> anyhow::Result<()>);

/// A stage that is begun while earlier ones run, as soon as the one named first has its turn: the page is linked on one
/// core for minutes, and no later stage of the native gates needs it.
const AHEAD: (&str, &str) = ("tests", "page");

/// What the stages leave for the end.
#[derive(Default)]
pub struct Log {
    closing_lines: Vec<String>,
}

/// Runs the stages of a command in order, or those that were asked for, and stops at the first that fails. One may be begun
/// ahead of its turn, so that times add up to more than the whole.
pub fn run(command: &str, stages: &[Stage], asked_for: &[String]) -> anyhow::Result<()> {
    let chosen = choose(stages, asked_for)?;
    let mut log = Log::default();
    let mut times = Vec::new();
    let start = Instant::now();
    let outcome = std::thread::scope(|scope| {
        let mut ahead = None;
        for (index, (name, work)) in chosen.iter().enumerate() {
            eprintln!("\n== {}/{} {name}", index + 1, chosen.len());
            if *name == AHEAD.0
                && let Some((later, work)) = chosen[index..].iter().find(|(later, _)| *later == AHEAD.1)
            {
                eprintln!("  {later} begins beside it");
                ahead = Some(scope.spawn(|| timed(*work)));
            }
            let (outcome, took, theirs) = match ahead.take_if(|_| *name == AHEAD.1) {
                Some(begun) => begun.join().expect("a stage reports its failure"),
                None => timed(*work),
            };
            eprintln!(
                "== {name}: {} after {:.1} s",
                verdict(&outcome),
                took.as_secs_f64()
            );
            times.push((*name, took));
            log.closing_lines.extend(theirs.closing_lines);
            outcome
                .with_context(|| format!("stage “{name}” failed; again: `cargo xtask {command} {name}`"))?;
        }
        Ok(())
    });
    log.print(&times, start.elapsed());
    outcome
}

/// Does the work of a stage: how it ended, how long it took and what it leaves for the end.
fn timed(work: fn(&mut Log) -> anyhow::Result<()>) -> (anyhow::Result<()>, Duration, Log) {
    let mut log = Log::default();
    let begun = Instant::now();
    let outcome = work(&mut log);
    (outcome, begun.elapsed(), log)
}

fn choose(stages: &[Stage], asked_for: &[String]) -> anyhow::Result<Vec<Stage>> {
    for name in asked_for {
        if !stages.iter().any(|(known, _)| known == name) {
            let names: Vec<_> = stages.iter().map(|(known, _)| *known).collect();
            bail!("there is no stage “{name}”; there are {}", names.join(", "));
        }
    }
    let wanted = |(name, _): &&Stage| asked_for.is_empty() || asked_for.iter().any(|asked| asked == name);
    Ok(stages.iter().filter(wanted).copied().collect())
}

fn verdict(outcome: &anyhow::Result<()>) -> &'static str {
    if outcome.is_ok() { "ok" } else { "FAILED" }
}

impl Log {
    /// Runs tests, passing on what they print and keeping their closing lines. A run of no tests at all fails.
    pub fn run_tests(&mut self, command: &mut Command) -> anyhow::Result<()> {
        let mut child = command
            .stdout(Stdio::piped())
            .spawn()
            .context("cannot start cargo")?;
        let output = child.stdout.take().expect("its output is piped");
        let kept_before = self.closing_lines.len();
        for line in BufReader::new(output).lines() {
            let line = line?;
            println!("{line}");
            if line.starts_with("test result:") {
                self.closing_lines.push(line);
            }
        }
        let status = child.wait()?;
        ensure!(status.success(), "tests failed ({status})");
        let ran_some = self.closing_lines[kept_before..]
            .iter()
            .any(|line| !line.contains(" 0 passed"));
        ensure!(ran_some, "not one test ran");
        Ok(())
    }

    /// Keeps a line of a stage's own for the end.
    pub fn note(&mut self, line: String) {
        self.closing_lines.push(line);
    }

    fn print(&self, times: &[(&str, Duration)], whole: Duration) {
        println!("\nTime per stage:");
        for (name, took) in times {
            println!("  {name:<16} {:>7.1} s", took.as_secs_f64());
        }
        println!("  {:<16} {:>7.1} s", "together", whole.as_secs_f64());
        if !self.closing_lines.is_empty() {
            println!("\nClosing lines of the test runners:");
        }
        // Runs of nothing are left out: most crates have no doc tests, and their zeros would hide the rest.
        for line in self
            .closing_lines
            .iter()
            .filter(|line| !line.contains("ok. 0 passed; 0 failed; 0 ignored"))
        {
            println!("  {line}");
        }
    }
}
