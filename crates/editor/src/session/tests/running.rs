//! Runs: the course is edited and undone, a run is asked for, taken back, told, played and drawn.

use std::rc::Rc;

use layshaft_layout::Id;

use crate::runs::{Along, Outcome, RunField, RunInput};
use crate::session::{Effect, Input, Session};
use crate::{Action, Panel};

fn cart() -> Session {
    let mut session = Session::empty();
    session.handle(Input::Act(Action::OpenDemo("trail-cart-a")));
    session.handle(Input::Act(Action::Toggle(Panel::Run)));
    session
}

fn run(session: &mut Session, input: RunInput) -> Vec<Effect> {
    session.handle(Input::Run(input))
}

/// Does what a page does: carries out the run that was asked for.
fn carried_out(session: &mut Session, effects: Vec<Effect>) -> Vec<Effect> {
    let job = effects.into_iter().find_map(|effect| match effect {
        Effect::Run(job) => Some(job),
        _ => None,
    });
    let outcome = job.expect("a run is asked for").carry_out();
    let outcome = Rc::new(Outcome {
        took_ms: 10.0,
        ..outcome
    });
    run(session, RunInput::Done(outcome))
}

fn set(session: &mut Session, field: RunField, text: &str) {
    let text = text.to_owned();
    run(session, RunInput::Type { field, text });
    run(session, RunInput::Keep);
}

/// A cart that has driven two metres level, then two uphill.
fn driven() -> Session {
    let mut session = cart();
    run(&mut session, RunInput::AddStretch);
    run(&mut session, RunInput::AddStretch);
    set(&mut session, RunField::Slope(1), "10");
    let effects = session.handle(Input::Act(Action::Run));
    carried_out(&mut session, effects);
    session
}

#[test]
fn a_course_is_typed_and_undone() {
    let mut session = cart();
    assert!(session.run_sheet().intent.contains("no course yet"));
    run(&mut session, RunInput::AddStretch);
    set(&mut session, RunField::Length(0), "150 cm");
    run(&mut session, RunInput::AddStretch);
    set(&mut session, RunField::Slope(1), "−4,5");
    run(&mut session, RunInput::RaiseStretch(1));
    let slopes = |session: &Session| -> Vec<f64> {
        let course = session.layout().course.iter();
        course.map(|stretch| stretch.slope_deg).collect()
    };
    assert_eq!(slopes(&session), [-4.5, 0.0]);
    assert_eq!(session.layout().course[0].length_m, 1.5);
    assert!(session.run_sheet().profile.is_some());
    session.handle(Input::Act(Action::Undo));
    assert_eq!(slopes(&session), [0.0, -4.5]);
    run(&mut session, RunInput::RemoveStretch(1));
    assert_eq!(slopes(&session), [0.0]);
    session.handle(Input::Act(Action::Undo));
    assert_eq!(slopes(&session), [0.0, -4.5]);
}

#[test]
fn nonsense_is_answered_where_it_was_typed_and_changes_nothing() {
    let mut session = cart();
    run(&mut session, RunInput::AddStretch);
    let (field, text) = (RunField::Slope(0), "95".to_owned());
    run(&mut session, RunInput::Type { field, text });
    let problem = session.run_sheet().course[0].slope.problem.clone();
    assert!(problem.is_some_and(|problem| problem.contains("89°")));
    run(&mut session, RunInput::Keep);
    assert_eq!(session.layout().course[0].slope_deg, 0.0);
    assert_eq!(session.run_sheet().course[0].slope.problem, None);
}

#[test]
fn a_run_is_told_plotted_and_played() {
    let mut session = driven();
    let sheet = session.run_sheet();
    let result = sheet.result.expect("the run has come back");
    assert!(!result.failed, "{}", result.headline);
    assert!(
        result.headline.starts_with("The whole way is done, after"),
        "{}",
        result.headline
    );
    let plots = sheet.plots.expect("it is plotted");
    assert_eq!(plots.plots.len(), 5);
    assert!(plots.plots.iter().all(|plot| plot.ticks.len() >= 2));
    assert!(session.shows_run() && sheet.playhead.is_some_and(|playhead| playhead.playback.playing));
    let turned = |session: &Session| session.scene().shafts[0].turned_deg;
    assert_eq!(turned(&session), Some(0.0));
    run(&mut session, RunInput::Tick(0.2));
    assert!(turned(&session).is_some_and(|degrees| degrees > 0.0));
    session.handle(Input::Act(Action::Toggle(Panel::Run)));
    assert_eq!(turned(&session), None);
}

#[test]
fn events_and_pointers_move_the_playhead_and_the_position() {
    let mut session = driven();
    let events = session.run_sheet().result.map_or(0, |result| result.events.len());
    run(&mut session, RunInput::ToEvent(events - 1));
    let playhead = session.run_sheet().playhead.expect("there is a playhead");
    assert_eq!(playhead.playback.time, playhead.end);
    assert!(!playhead.playback.playing);
    for along in [Along::Way, Along::Time] {
        run(&mut session, RunInput::Along(along));
        let field = session.run_sheet().plots.expect("plots").field;
        run(&mut session, RunInput::PointAt(field.x + field.width / 2.0));
        let head = session.run_sheet().playhead.expect("there is a playhead");
        assert!(
            (head.x - field.x - field.width / 2.0).abs() < 8.0,
            "{along:?}: {}",
            head.x
        );
        assert!(head.spoken.contains("metres per second"), "{}", head.spoken);
    }
    session.handle(Input::Position(Id::from("second")));
    assert!(!session.shows_run());
    run(&mut session, RunInput::Seek(0.0));
    assert!(session.shows_run());
    let told = session
        .run_sheet()
        .playhead
        .and_then(|playhead| playhead.position);
    let shown = session
        .positions()
        .into_iter()
        .find(|(id, _)| id == session.position());
    assert_eq!(told, shown.map(|(_, name)| name));
}

#[test]
fn quick_runs_are_repeated_when_the_course_changes() {
    let mut session = driven();
    assert!(run(&mut session, RunInput::Settled).is_empty());
    set(&mut session, RunField::Slope(1), "12");
    assert!(session.run_is_stale() && !session.shows_run());
    let effects = run(&mut session, RunInput::Settled);
    carried_out(&mut session, effects);
    assert!(!session.run_is_stale());
}

#[test]
fn who_wants_stillness_gets_it() {
    let mut session = cart();
    run(&mut session, RunInput::Still(true));
    let effects = session.handle(Input::Act(Action::Run));
    carried_out(&mut session, effects);
    let playing = |session: &Session| {
        let playhead = session.run_sheet().playhead;
        playhead.is_some_and(|playhead| playhead.playback.playing)
    };
    assert!(!playing(&session));
    let said = session.handle(Input::Act(Action::PlayRun));
    assert!(matches!(&said[..], [Effect::Announce(_)]) && !playing(&session));
}

#[test]
fn all_numbers_are_saved() {
    let mut session = driven();
    let effects = run(&mut session, RunInput::SaveNumbers);
    let [Effect::Download { name, text }] = &effects[..] else {
        panic!("no file: {effects:?}");
    };
    assert_eq!(name, "run.csv");
    let mut lines = text.lines();
    let columns = lines.next().map_or(0, |head| head.split(',').count());
    assert!(lines.clone().count() > 100 && lines.all(|line| line.split(',').count() == columns));
}

#[test]
fn hidden_answers_hide_the_run() {
    let mut session = driven();
    session.handle(Input::Act(Action::HideAnswers));
    let sheet = session.run_sheet();
    assert!(sheet.result.is_none() && sheet.plots.is_none() && sheet.playhead.is_none());
    assert!(!session.shows_run());
}
