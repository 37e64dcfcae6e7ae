//! `layshaft find`: trains of gears for a ratio, from the gears at hand.

use clap::{Args, ValueEnum};
use layshaft_choose::gears::{GearAnswer, GearJob, GearTrain, MOST_STAGES, WantedSense, typed};
use layshaft_choose::task::{Answer, Job, carry_out};
use layshaft_editor::numbers::significant;
use serde_json::{Value, json};

use crate::commands::{Done, print};
use crate::failure::Failure;

/// `layshaft find`
#[derive(Args)]
pub struct Find {
    /// Output turns per input turn, such as 1/12 (twelve times slower) or 0.0748; its sign says nothing.
    #[arg(long, value_name = "RATIO", allow_hyphen_values = true)]
    ratio: String,
    /// Tooth counts of the gears at hand; `18x2` means two such gears, no mark as many as wanted.
    #[arg(long, value_name = "GEARS")]
    bin: String,
    /// Stages at most, 1 to 4.
    #[arg(long, value_name = "N", default_value = "2")]
    stages: String,
    /// Largest relative error, as 0.1% or 0.001; 0 for trains that make the ratio exactly.
    #[arg(
        long,
        value_name = "SHARE",
        default_value = "0.1%",
        allow_hyphen_values = true
    )]
    tolerance: String,
    /// Print the best K only.
    #[arg(long, value_name = "K", value_parser = clap::value_parser!(u32).range(1..))]
    limit: Option<u32>,
    /// Which way the output is to turn; every stage turns it round.
    #[arg(long)]
    sense: Option<Sense>,
    /// Let an idler turn the output round where it would turn the wrong way.
    #[arg(long)]
    idlers: bool,
    /// Print JSON.
    #[arg(long)]
    json: bool,
}

/// Trains that are listed without a limit, at most: more would not fit into memory.
const MOST_PRINTED: u32 = 2_000_000;

#[derive(Clone, Copy, ValueEnum)]
enum Sense {
    Same,
    Opposite,
}

impl Find {
    pub fn run(self) -> Done {
        let job = self.job()?;
        let answer = match carry_out(&Job::Gears(job.clone())) {
            Ok(Answer::Gears(answer)) => answer,
            Ok(_) => return Err(Failure::Usage("the search came to nothing".to_owned())),
            Err(problem) => return Err(Failure::Usage(problem.to_string())),
        };
        if self.limit.is_none() && answer.count > MOST_PRINTED.into() {
            return Err(Failure::Usage(format!(
                "{} trains are within the tolerance, more than can be listed; give a smaller --tolerance, or --limit to print the \
                 best of them",
                answer.count
            )));
        }
        if self.json {
            let written = serde_json::to_string_pretty(&as_json(&answer))
                .map_err(|error| Failure::Usage(format!("the result can't be written: {error}")))?;
            print(&format!("{written}\n"))
        } else {
            print(&as_text(&job, &answer))
        }
    }

    fn job(&self) -> Result<GearJob, Failure> {
        let stages = self
            .stages
            .parse()
            .ok()
            .filter(|stages| (1..=MOST_STAGES).contains(stages));
        let stages = stages.ok_or_else(|| {
            Failure::Usage(format!(
                "--stages {}: write a whole number from 1 to {MOST_STAGES}",
                self.stages
            ))
        })?;
        let tolerance = typed::tolerance(&self.tolerance).map_err(|problem| wrong("tolerance", &problem))?;
        Ok(GearJob {
            bin: typed::bin(&self.bin).map_err(|problem| wrong("bin", &problem))?,
            ratio: typed::fraction(&typed::ratio(&self.ratio).map_err(|problem| wrong("ratio", &problem))?),
            tolerance: typed::to_float(&tolerance),
            stages,
            sense: match self.sense {
                None => WantedSense::Any,
                Some(Sense::Same) => WantedSense::Same,
                Some(Sense::Opposite) => WantedSense::Opposite,
            },
            idlers: self.idlers,
            limit: self.limit.or(Some(MOST_PRINTED)),
            ..GearJob::default()
        })
    }
}

fn wrong(argument: &str, problem: &typed::TypedProblem) -> Failure {
    Failure::Usage(format!("--{argument}: {problem}"))
}

fn as_json(answer: &GearAnswer) -> Value {
    let train = |train: &GearTrain| {
        let mut written = json!({"stages": train.stages, "ratio": train.ratio, "error": train.error});
        if let (Some(idler), Some(fields)) = (train.idler, written.as_object_mut()) {
            fields.insert(
                "idler".to_owned(),
                json!({"stage": idler.stage, "teeth": idler.teeth}),
            );
        }
        written
    };
    let mut written = json!({
        "results": answer.trains.iter().map(train).collect::<Vec<_>>(),
        "complete": answer.complete,
        "count": answer.count,
    });
    if let (Some(nearest), Some(fields)) = (&answer.nearest, written.as_object_mut()) {
        fields.insert("nearest".to_owned(), train(nearest));
    }
    written
}

fn as_text(job: &GearJob, answer: &GearAnswer) -> String {
    let mut text = String::new();
    for train in &answer.trains {
        text += &line(train);
    }
    text += &match (answer.count, &answer.nearest) {
        (0, Some(nearest)) => format!(
            "No train of {} makes {} within the tolerance. The nearest is\n{}",
            stages(job.stages),
            job.ratio,
            line(nearest)
        ),
        (0, None) => format!("No train of {} makes {}.\n", stages(job.stages), job.ratio),
        (count, _) if count > answer.trains.len() as u64 => {
            format!("The best {} of {count} trains.\n", answer.trains.len())
        }
        (1, _) => "1 train, and no other.\n".to_owned(),
        (count, _) => format!("{count} trains, and no others.\n"),
    };
    text
}

fn stages(most: u32) -> String {
    match most {
        1 => "one stage".to_owned(),
        most => format!("up to {most} stages"),
    }
}

fn line(train: &GearTrain) -> String {
    let stage = |(at, [driver, driven]): (usize, &[u32; 2])| match train.idler {
        Some(idler) if idler.stage as usize == at => format!("{driver}→({})→{driven}", idler.teeth),
        _ => format!("{driver}→{driven}"),
    };
    let stages: Vec<String> = train.stages.iter().enumerate().map(stage).collect();
    let error = if train.error == 0.0 {
        "exact".to_owned()
    } else {
        format!("{} %", significant(train.error * 100.0))
    };
    let sense = if train.same_sense { "same" } else { "opposite" };
    format!(
        "{:<40} {:>16}  {error:>10}  {sense} sense\n",
        stages.join(" · "),
        train.ratio
    )
}
