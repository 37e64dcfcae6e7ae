//! A table of the editor's as an HTML table, whose rows select what they speak of.

use std::rc::Rc;

use layshaft_editor::table::{Column, Row};
use layshaft_editor::{Input, Table, Target};
use yew::prelude::*;

use super::cell_view::CellView;
use crate::hooks::use_bench;

/// Properties of [`TableView`].
#[derive(Properties, PartialEq)]
pub struct TableViewProps {
    /// The table.
    pub table: Rc<Table>,
}

/// The table, with a heading over each group of rows.
#[component]
pub fn TableView(props: &TableViewProps) -> Html {
    let table = &props.table;
    if table.rows.is_empty() {
        return html! { <p class="empty">{ table.empty }</p> };
    }
    let groups: Vec<&[Row]> = table.rows.chunk_by(|a, b| a.group == b.group).collect();
    html! {
        <div class="table-frame" role="region" aria-label={table.caption.clone()} tabindex="0">
            <table>
                <caption class="out-of-sight">{ &table.caption }</caption>
                <thead><tr>{ for table.columns.iter().map(heading) }</tr></thead>
                { for groups.iter().map(|rows| html! {
                    <GroupOfRows headed={groups.len() > 1} columns={table.columns.clone()} rows={rows.to_vec()} />
                }) }
            </table>
        </div>
    }
}

fn heading(column: &Column) -> Html {
    html! { <th scope="col" class={classes!(column.numeric.then_some("number"))} title={column.help}>{ column.title }</th> }
}

#[derive(Properties, PartialEq)]
struct GroupOfRowsProps {
    /// Whether the group's name stands over it; needless where there is only one.
    headed: bool,
    columns: Vec<Column>,
    rows: Vec<Row>,
}

#[component]
fn GroupOfRows(props: &GroupOfRowsProps) -> Html {
    let bench = use_bench();
    let group = props.rows.first().map_or("", |row| row.group);
    html! {
        <tbody>
            if props.headed {
                <tr class="group"><th scope="rowgroup" colspan={props.columns.len().to_string()}>{ group }</th></tr>
            }
            { for props.rows.iter().map(|row| html! {
                <tr key={row.target.key()} aria-current={row.current.then_some("true")} onclick={bench.on(press(&row.target))}>
                    { for row.cells.iter().zip(&props.columns).enumerate().map(|(i, (cell, column))| {
                        let class = classes!(column.numeric.then_some("number"));
                        let shown = html! { <CellView cell={cell.clone()} /> };
                        if i == 0 {
                            html! {
                                <th scope="row" {class}>
                                    <button class="link-like" type="button">{ shown }</button>
                                </th>
                            }
                        } else {
                            html! { <td {class}>{ shown }</td> }
                        }
                    }) }
                </tr>
            }) }
        </tbody>
    }
}

/// Pressing the row of a position shows it; pressing any other selects its thing.
fn press(target: &Target) -> Input {
    match target {
        Target::Position(id) => Input::Position(id.clone()),
        thing => Input::Select {
            targets: vec![thing.clone()],
            add: false,
            position: None,
        },
    }
}
