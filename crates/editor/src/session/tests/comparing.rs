//! Variants side by side agree with what the other parts of the sheet say.

use std::rc::Rc;

use layshaft_choose::task::carry_out;

use super::*;
use crate::choosing::{ChooseInput, CompareInput, News, Part, Tab, TwoSpeedsInput};

/// Does the work that was asked for, as the page would.
fn work(script: &mut Script) {
    let asked = script.effects.iter().find_map(|effect| match effect {
        Effect::Compute { number, job } => Some((*number, job.clone())),
        _ => None,
    });
    let (number, job) = asked.expect("something is asked for");
    let answer = carry_out(&job).expect("it can be done");
    let news = News::Done(Rc::new(answer));
    script.input(Input::Choose(ChooseInput::News(number, news)));
}

/// The arrangement is said to pull so much more in low than the cart does in Second, which is its low; so it does beside it.
#[test]
fn an_arrangement_put_on_the_bench_differs_from_the_kept_cart_as_it_was_said() {
    let mut script = Script::demo("trail-cart-a");
    script.input(Input::Choose(ChooseInput::Compare(CompareInput::Keep)));
    script.input(Input::Choose(ChooseInput::Show(Tab::TwoSpeeds)));
    work(&mut script);
    let Part::TwoSpeeds(sheet) = script.session.choose_sheet().part else {
        panic!("another part is shown");
    };
    let found = sheet.found.as_ref().expect("arrangements");
    let said = found.rows[0].figures[0].gain.clone().expect("it pulls more");

    script.input(Input::Choose(ChooseInput::TwoSpeeds(TwoSpeedsInput::Open(0))));
    script.input(Input::Choose(ChooseInput::Show(Tab::Compare)));
    let Part::Compare(sheet) = script.session.choose_sheet().part else {
        panic!("another part is shown");
    };
    assert!(sheet.variants[1].is_base, "the kept cart is the base");
    let pull = sheet.rows.iter().find(|row| row.label == "Pull to keep moving");
    let low = pull.map(|row| row.cells[0][0].clone()).expect("low comes first");
    let difference = low.difference.expect("it is measured against Second");
    assert_eq!(difference.text, said, "{} {}", low.position, sheet.hint);
}
