//! `cargo xtask test`: the quick gates, then the journeys in real browsers over the page they built: in Chromium and WebKit
//! always, in Firefox with `--firefox`.

use std::collections::BTreeMap;

use anyhow::ensure;

use crate::engines::{self, Engine};
use crate::stage::{self, Log, Stage};
use crate::workspace::{self, cargo_native};
use crate::{ci, serve};

/// Runs all stages, or those asked for.
pub fn test(words: &[String]) -> anyhow::Result<()> {
    let (flags, asked_for): (Vec<&String>, Vec<&String>) =
        words.iter().partition(|word| word.starts_with("--"));
    let wants = |engine: &str| {
        flags.iter().any(|flag| flag.trim_start_matches("--") == engine)
            || asked_for.iter().any(|word| *word == engine)
    };
    let mut stages: Vec<Stage> = ci::STAGES.to_vec();
    stages.push(("chromium", |log| journeys(log, &engines::CHROMIUM)));
    stages.push(("webkit", |log| journeys(log, &engines::WEBKIT)));
    if wants("firefox") {
        stages.push(("firefox", |log| journeys(log, &engines::FIREFOX)));
    }
    let asked_for: Vec<String> = asked_for.into_iter().cloned().collect();
    stage::run("test", &stages, &asked_for)
}

/// Serves what the stage `page` built and lets visitors walk through it in one engine.
fn journeys(log: &mut Log, engine: &Engine) -> anyhow::Result<()> {
    let programs = engine.find_or_install()?;
    ensure!(
        workspace::dist().join("index.html").is_file(),
        "there is no page yet; run `cargo xtask test page {}`",
        engine.name.to_lowercase()
    );
    let kept = workspace::target_dir().join(format!("journeys-{}.txt", engine.name.to_lowercase()));
    // Of an earlier run; that there is none is as good.
    let _ = std::fs::remove_file(&kept);
    let mut test = cargo_native("test");
    test.args(["--features", "layshaft-tests/browser", "--test", "browser"]);
    test.env("LAYSHAFT_BROWSER_URL", serve::in_background()?)
        .env("LAYSHAFT_ENGINE", engine.name)
        .env("LAYSHAFT_JOURNEYS", &kept)
        .envs(programs);
    let outcome = log.run_tests(&mut test);
    for line in tally(&std::fs::read_to_string(&kept).unwrap_or_default()) {
        log.note(line);
    }
    outcome
}

/// What the journeys wrote down about themselves, counted; those left out are named with their reasons.
fn tally(kept: &str) -> Vec<String> {
    let mut engines: BTreeMap<&str, (usize, Vec<&str>)> = BTreeMap::new();
    for line in kept.lines() {
        let mut parts = line.splitn(3, '\t');
        let (Some(engine), Some(what), Some(journey)) = (parts.next(), parts.next(), parts.next()) else {
            continue;
        };
        let (driven, left_out) = engines.entry(engine).or_default();
        match what {
            "driven" => *driven += 1,
            _ => left_out.push(journey),
        }
    }
    let lines = engines.into_iter().flat_map(|(engine, (driven, left_out))| {
        let sum = format!("{engine}: {driven} journeys driven, {} left out", left_out.len());
        std::iter::once(sum).chain(
            left_out
                .into_iter()
                .map(|journey| format!("  left out: {journey}")),
        )
    });
    lines.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn journeys_are_counted_and_those_left_out_named() {
        let kept = "WebKit\tdriven\tone\nWebKit\tleft out\ttwo: no fingers\nWebKit\tdriven\tthree\n";
        assert_eq!(
            tally(kept),
            [
                "WebKit: 2 journeys driven, 1 left out",
                "  left out: two: no fingers"
            ]
        );
    }
}
