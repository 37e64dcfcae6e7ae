//! The course: its stretches as rows, and its profile.

use std::rc::Rc;

use layshaft_editor::runs::{Profile, RunInput, StretchRow};
use layshaft_editor::{Input, Point};
use yew::prelude::*;

use super::icon::{Icon, Picture};
use super::run_field::RunFieldEntry;
use super::run_profile::RunProfile;
use crate::hooks::{Bench, use_bench};

/// Properties of [`RunCourse`].
#[derive(Properties, PartialEq)]
pub struct RunCourseProps {
    /// Stretches.
    pub rows: Vec<StretchRow>,
    /// The course from the side.
    pub profile: Option<Rc<Profile>>,
    /// Where the vehicle is.
    pub at: Option<Point>,
}

/// The profile over a table with a row for each stretch.
#[component]
pub fn RunCourse(props: &RunCourseProps) -> Html {
    let bench = use_bench();
    let count = props.rows.len();
    html! {
        <section class="run-course" aria-label="Course">
            if let Some(profile) = &props.profile { <RunProfile profile={profile.clone()} at={props.at} /> }
            if count > 0 {
                <table class="stretches">
                    <thead><tr>
                        <th scope="col"><span class="out-of-sight">{ "Stretch" }</span></th><th scope="col">{ "Length" }</th><th scope="col">{ "Slope" }</th>
                        <th scope="col"><span class="out-of-sight">{ "Move and remove" }</span></th>
                    </tr></thead>
                    <tbody>{ for props.rows.iter().enumerate().map(|(number, row)| stretch(&bench, number, count, row)) }</tbody>
                </table>
            }
            <button type="button" class="button" onclick={bench.on(Input::Run(RunInput::AddStretch))}>
                <Icon of={Picture::Plus} />{ "Add a stretch" }
            </button>
        </section>
    }
}

fn stretch(bench: &Bench, number: usize, count: usize, row: &StretchRow) -> Html {
    let button = |input: RunInput, what: &str, of: Picture, disabled: bool| {
        let name = format!("{what} stretch {}", number + 1);
        html! {
            <button type="button" class="button plain" aria-label={name.clone()} title={name} {disabled} onclick={bench.on(Input::Run(input))}><Icon {of} /></button>
        }
    };
    html! {
        <tr key={number}>
            <th scope="row">{ number + 1 }</th>
            <td><RunFieldEntry entry={row.length.clone()} /></td>
            <td><RunFieldEntry entry={row.slope.clone()} /></td>
            <td class="stretch-tools">
                { button(RunInput::RaiseStretch(number), "Move up", Picture::Up, number == 0) }
                { button(RunInput::LowerStretch(number), "Move down", Picture::Down, number + 1 == count) }
                { button(RunInput::RemoveStretch(number), "Remove", Picture::Close, false) }
            </td>
        </tr>
    }
}
