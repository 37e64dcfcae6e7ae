//! The project's own commands: `cargo xtask build`, `serve`, `ci`, `test`, `bench`, `shots`.
//!
//! One file per command. A command reads its arguments here, does its work there, and answers a failure with one
//! sentence that says what to do. Nothing of the product lives in this crate and nothing depends on it.

use std::ffi::OsString;
use std::process::ExitCode;

use anyhow::Context;

mod bench;
mod build;
mod ci;
mod compress;
mod digest;
mod engines;
mod icon;
mod layers;
mod page;
mod serve;
mod shots;
mod stage;
mod test;
mod tidy;
mod wasm_target;
mod workspace;

const HELP: &str = "\
Usage: cargo xtask <command> [options]

  build [--dev]             make dist/, the static files of the page
  serve [--dev] [--port N] [--no-build]
                            build, then serve dist/ on 127.0.0.1 (default port 8017)
  ci [STAGE]...             the quick gates, or only those named
  test [--firefox] [STAGE]...
                            all that must pass: the quick gates, then the journeys in Chromium and
                            WebKit, with the flag in Firefox too
  bench [FILTER]...         the benches, each beside its yardstick
  bench page                how long the page takes for an input, on layouts of 30 and 300 elements
  shots [--dev] [--no-build] [--out FOLDER] [--click NAME]... [--tree] [PLACE]...
                            pictures of the page at three sizes, light and dark; a PLACE is what follows the
                            page's address (?bench=empty, #…), a NAME is a button to press first, --tree prints
                            what a screen reader is told

  --dev builds faster and without compression; the page is larger and slower.
";

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> anyhow::Result<()> {
    let arguments = Arguments::read()?;
    match arguments.command.as_str() {
        "build" => arguments
            .expect_no_more()
            .and_then(|()| build::build(arguments.profile)),
        "serve" => arguments.expect_no_more().and_then(|()| serve::serve(&arguments)),
        "ci" => stage::run("ci", &ci::STAGES, &arguments.words()),
        "test" => test::test(&arguments.words()),
        "bench" => bench::bench(&arguments.words()),
        "shots" => shots::shots(&arguments),
        "help" => {
            print!("{HELP}");
            Ok(())
        }
        unknown => anyhow::bail!("there is no command “{unknown}”; `cargo xtask help` lists them"),
    }
}

/// What the command line asked for; each command reads the fields it knows.
struct Arguments {
    command: String,
    profile: build::Profile,
    port: u16,
    build_first: bool,
    /// What only the command itself understands, as typed.
    rest: Vec<OsString>,
}

impl Arguments {
    fn read() -> anyhow::Result<Self> {
        let mut words = std::env::args_os().skip(1);
        let command = words.next().unwrap_or_else(|| "help".into());
        let mut found = Self {
            command: command.to_string_lossy().into_owned(),
            profile: build::Profile::Web,
            port: serve::USUAL_PORT,
            build_first: true,
            rest: Vec::new(),
        };
        while let Some(word) = words.next() {
            match word.to_str() {
                Some("--dev") => found.profile = build::Profile::Dev,
                Some("--no-build") => found.build_first = false,
                Some("--port") => found.port = port(words.next())?,
                _ => found.rest.push(word),
            }
        }
        Ok(found)
    }

    /// What only the command understands, as text.
    fn words(&self) -> Vec<String> {
        self.rest
            .iter()
            .map(|word| word.to_string_lossy().into_owned())
            .collect()
    }

    /// For commands that know no words but the common ones.
    fn expect_no_more(&self) -> anyhow::Result<()> {
        match self.rest.first() {
            None => Ok(()),
            Some(word) => anyhow::bail!(
                "`cargo xtask {}` does not know “{}”; `cargo xtask help` lists what there is",
                self.command,
                word.to_string_lossy()
            ),
        }
    }
}

fn port(word: Option<OsString>) -> anyhow::Result<u16> {
    let number = word
        .as_ref()
        .and_then(|word| word.to_str())
        .and_then(|word| word.parse().ok());
    number.context("--port wants a number from 0 to 65535, as in `cargo xtask serve --port 8018`")
}
