//! The build sheet: what it holds is chosen above, the sheet itself is as it will be printed.

use std::rc::Rc;

use layshaft_editor::actions::PictureFile;
use layshaft_editor::build_sheet::{BuildChoice, BuildSheet, PREDICTION, Paper};
use layshaft_editor::drawings::Drawing;
use layshaft_editor::table::{Table, TableName};
use layshaft_editor::{Action, FieldRef, Input, Target};
use web_sys::HtmlTextAreaElement;
use yew::prelude::*;

use super::cell_view::CellView;
use crate::hooks::{Bench, use_bench};

/// Properties of [`BuildSheetPanel`].
#[derive(Properties, PartialEq)]
pub struct BuildSheetPanelProps {
    /// What it shows.
    pub sheet: Rc<BuildSheet>,
}

/// The choices and commands, then the sheet.
#[component]
pub fn BuildSheetPanel(props: &BuildSheetPanelProps) -> Html {
    let bench = use_bench();
    let sheet = &props.sheet;
    html! {
        <div class="build">
            { tools(&bench, sheet.choice) }
            { page(&bench, sheet) }
        </div>
    }
}

fn tools(bench: &Bench, choice: BuildChoice) -> Html {
    let drawing = |drawing: Drawing| {
        let chosen = BuildChoice { drawing, ..choice };
        html! {
            <label class="unit-choice" key={drawing.name()}>
                <input type="radio" name="build-drawing" checked={drawing == choice.drawing} onchange={bench.on(Input::ChooseBuild(chosen))} />{ drawing.name() }
            </label>
        }
    };
    let paper = |paper: Paper| {
        let chosen = BuildChoice { paper, ..choice };
        html! {
            <label class="unit-choice" key={paper.name()}>
                <input type="radio" name="build-paper" checked={paper == choice.paper} onchange={bench.on(Input::ChooseBuild(chosen))} />{ paper.name() }
            </label>
        }
    };
    html! {
        <div class="build-tools">
            <fieldset class="unit-choices"><legend>{ "Drawing" }</legend>{ for Drawing::ALL.into_iter().map(drawing) }</fieldset>
            <fieldset class="unit-choices"><legend>{ "Paper" }</legend>{ for Paper::ALL.into_iter().map(paper) }</fieldset>
            <div class="commands">
                <button type="button" class="button primary" onclick={bench.act(Action::Print)}>{ "Print" }</button>
                <button type="button" class="button" onclick={bench.act(Action::SaveTable(TableName::Parts))}>{ "Save parts list as CSV" }</button>
                <button type="button" class="button" onclick={bench.act(Action::SaveDrawing(PictureFile::Svg))}>{ "Save drawing as SVG" }</button>
                <button type="button" class="button" onclick={bench.act(Action::SaveDrawing(PictureFile::Png))}>{ "Save drawing as PNG" }</button>
            </div>
        </div>
    }
}

fn page(bench: &Bench, sheet: &BuildSheet) -> Html {
    // The first line of the text belongs to a file of its own.
    let drawing = sheet
        .drawing
        .split_once('\n')
        .map_or("", |(_, svg)| svg)
        .to_owned();
    html! {
        <article class={classes!("build-sheet", format!("is-{}", sheet.choice.paper.name().to_lowercase()))} aria-label="Build sheet, as it will be printed">
            <h3 class="build-title">{ &sheet.title }</h3>
            <p class="build-position">{ format!("{} drawing, position {}", sheet.choice.drawing.name(), sheet.position) }</p>
            <div class="build-drawing">{ Html::from_html_unchecked(AttrValue::from(drawing)) }</div>
            <h4>{ "Parts" }</h4>
            { table(&sheet.parts) }
            <h4>{ "Ratios and predictions by position" }</h4>
            <p>{ PREDICTION }</p>
            { table(&sheet.positions) }
            <ul>{ for sheet.predictions.iter().map(|line| html! { <li>{ line }</li> }) }</ul>
            <h4>{ "Heed" }</h4>
            <ul>{ for sheet.cautions.iter().map(|caution| html! { <li>{ *caution }</li> }) }</ul>
            <h4 id="build-notes">{ "Notes" }</h4>
            { notes(bench, &sheet.notes) }
        </article>
    }
}

/// Notes are the layout's own; on paper their whole text stands where the field is.
fn notes(bench: &Bench, text: &str) -> Html {
    let field = FieldRef {
        target: Target::Layout,
        path: "notes".to_owned(),
    };
    let oninput = bench.0.reform(move |event: InputEvent| Input::Type {
        field: field.clone(),
        text: event.target_unchecked_into::<HtmlTextAreaElement>().value(),
    });
    html! {
        <>
            <textarea class="entry build-entry" rows="4" aria-labelledby="build-notes" value={text.to_owned()} {oninput} onblur={bench.on(Input::EndEdit)} />
            <p class="build-notes">{ text }</p>
        </>
    }
}

fn table(table: &Table) -> Html {
    html! {
        <table>
            <caption class="out-of-sight">{ &table.caption }</caption>
            <thead><tr>{ for table.columns.iter().map(|column| html! { <th scope="col">{ column.title }</th> }) }</tr></thead>
            <tbody>
                { for table.rows.iter().map(|row| html! {
                    <tr>{ for row.cells.iter().map(|cell| html! { <td><CellView cell={cell.clone()} /></td> }) }</tr>
                }) }
            </tbody>
        </table>
    }
}
