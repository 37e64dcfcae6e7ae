//! Other pairings of the same gears: as many as trying every stage in every place gives, none twice.

use std::collections::BTreeSet;

use layshaft_choose::gears::{GearAnswer, GearJob, GearTrain, typed};
use layshaft_choose::task::{Answer, Job, carry_out};

/// The stages of a train, their order saying nothing.
type Stages = Vec<[u32; 2]>;

fn search(job: &GearJob) -> GearAnswer {
    match carry_out(&Job::Gears(job.clone())) {
        Ok(Answer::Gears(answer)) => answer,
        other => panic!("{other:?}"),
    }
}

fn stages(train: &GearTrain) -> Stages {
    let mut stages = train.stages.clone();
    stages.sort_unstable();
    stages
}

/// Every train of three stages at most with exactly the ratio 1 to `slower`, by trying them all.
fn everything(teeth: &[u32], slower: u32, excluded: [u32; 2]) -> BTreeSet<Stages> {
    let pairs: Vec<[u32; 2]> = teeth
        .iter()
        .flat_map(|driver| teeth.iter().map(move |driven| [*driver, *driven]))
        .filter(|[driver, driven]| driver != driven)
        .filter(|[driver, driven]| ![[*driver, *driven], [*driven, *driver]].contains(&excluded))
        .collect();
    let mut trains: Vec<Stages> = vec![Vec::new()];
    let mut found = BTreeSet::new();
    for _ in 0..3 {
        trains = trains
            .iter()
            .flat_map(|train| pairs.iter().map(|pair| [&train[..], &[*pair]].concat()))
            .collect();
        for train in &trains {
            let [drivers, driven] = [0, 1].map(|side| train.iter().map(|pair| pair[side]).product::<u32>());
            if drivers * slower == driven {
                let mut train = train.clone();
                train.sort_unstable();
                found.insert(train);
            }
        }
    }
    found
}

#[test]
fn trains_with_their_pairings_are_all_that_there_are() {
    let teeth = [8, 10, 12, 15, 20, 24, 30];
    let mut job = GearJob {
        bin: typed::bin("8,10,12,15,20,24,30").expect("a bin"),
        ratio: "1/6".to_owned(),
        stages: 3,
        pairings: true,
        ..GearJob::default()
    };
    job.rules.excluded = vec![[8, 24]];
    let answer = search(&job);
    let trains = answer.trains.iter().flat_map(|train| {
        let others = train.pairings.iter();
        [train].into_iter().chain(others)
    });
    let all: Vec<Stages> = trains.map(stages).collect();
    let set: BTreeSet<Stages> = all.iter().cloned().collect();
    assert_eq!(set.len(), all.len(), "a train came twice");
    assert_eq!(set, everything(&teeth, 6, [8, 24]));
    assert!(all.len() > answer.trains.len());
}

#[test]
fn pairings_share_all_but_what_they_lose() {
    let job = GearJob {
        bin: typed::bin("8,11,28,42").expect("a bin"),
        ratio: "11/147".to_owned(),
        stages: 2,
        loss: layshaft_choose::gears::GearLoss::Friction(0.3),
        pairings: true,
        ..GearJob::default()
    };
    let answer = search(&job);
    let train = &answer.trains[0];
    assert_eq!(train.stages, [[8, 28], [11, 42]]);
    let other = &train.pairings[0];
    assert_eq!(
        (other.stages.as_slice(), train.pairings.len()),
        (&[[8, 42], [11, 28]][..], 1)
    );
    assert_eq!((&other.ratio, other.size_mm), (&train.ratio, train.size_mm));
    assert_ne!(other.efficiency, train.efficiency);
    let without = search(&GearJob {
        pairings: false,
        ..job
    });
    assert!(without.trains[0].pairings.is_empty());
}

#[test]
fn an_idler_goes_to_another_stage_as_well() {
    let job = GearJob {
        bin: typed::bin("10x1,12x1,15x1,20x1,30x1").expect("a bin"),
        ratio: "1/4".to_owned(),
        stages: 2,
        sense: layshaft_choose::gears::WantedSense::Opposite,
        idlers: true,
        pairings: true,
        ..GearJob::default()
    };
    let answer = search(&job);
    let train = answer
        .trains
        .iter()
        .find(|train| train.gears == 5)
        .expect("10 and 15 on 20 and 30");
    // Two drivers, two driven gears, an idler in one of two places.
    assert_eq!(train.pairings.len(), 3);
    assert!(
        train
            .pairings
            .iter()
            .all(|other| !other.same_sense && other.idler.is_some())
    );
}
