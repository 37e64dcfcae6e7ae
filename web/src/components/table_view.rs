//! A table of the editor's as an HTML table: headings sort, rows select what they speak of, numbers say where they come from.

use std::rc::Rc;

use layshaft_editor::table::{Column, Row};
use layshaft_editor::{Action, Cell, Input, Table, Target};
use yew::prelude::*;

use super::cell_view::CellView;
use super::table_columns::TableColumns;
use crate::hooks::{Bench, use_bench};

/// Properties of [`TableView`].
#[derive(Properties, PartialEq)]
pub struct TableViewProps {
    /// The table.
    pub table: Rc<Table>,
}

/// What can be done with the table, then the table with a heading over each group of rows.
#[component]
pub fn TableView(props: &TableViewProps) -> Html {
    let bench = use_bench();
    let table = &props.table;
    if table.rows.is_empty() {
        return html! { <p class="empty">{ table.empty }</p> };
    }
    let groups: Vec<&[Row]> = table.rows.chunk_by(|a, b| a.group == b.group).collect();
    html! {
        <>
            <div class="table-tools">
                <button type="button" class="button" onclick={bench.act(Action::CopyTable(table.name))}>{ "Copy" }</button>
                <button type="button" class="button" onclick={bench.act(Action::SaveTable(table.name))}>{ "Save as CSV" }</button>
                <TableColumns name={table.name} choice={table.choice.clone()} />
            </div>
            <div class="table-frame" role="region" aria-label={table.caption.clone()} tabindex="0">
                <table>
                    <caption class="out-of-sight">{ &table.caption }</caption>
                    <thead><tr>{ for table.columns.iter().map(|column| heading(&bench, table, column)) }</tr></thead>
                    { for groups.iter().map(|rows| html! {
                        <GroupOfRows headed={groups.len() > 1} columns={table.columns.clone()} rows={rows.to_vec()} />
                    }) }
                </table>
            </div>
        </>
    }
}

/// A heading that sorts; the arrow says which way, beside `aria-sort`.
fn heading(bench: &Bench, table: &Table, column: &Column) -> Html {
    let sorted = table.sorted.filter(|sorting| sorting.column == column.title);
    let (way, arrow) = match sorted.map(|sorting| sorting.falling) {
        None => (None, ""),
        Some(false) => (Some("ascending"), "▲"),
        Some(true) => (Some("descending"), "▼"),
    };
    let press = bench.on(Input::SortTable(table.name, column.title));
    html! {
        <th scope="col" key={column.title} class={classes!(column.numeric.then_some("number"))} aria-sort={way}>
            <button type="button" class="sort" title={column.help} onclick={press}>{ column.title }<span class="sort-way" aria-hidden="true">{ arrow }</span></button>
        </th>
    }
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
            { for props.rows.iter().enumerate().map(|(place, row)| html! {
                <tr key={place} aria-current={row.current.then_some("true")} onclick={press(&bench, &row.target)}>
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
                            html! { <td {class}>{ explained(&bench, row, cell, column, shown) }</td> }
                        }
                    }) }
                </tr>
            }) }
        </tbody>
    }
}

/// A number that says where it comes from when it is pressed.
fn explained(bench: &Bench, row: &Row, cell: &Cell, column: &Column, shown: Html) -> Html {
    let (Some(end), Cell::Number(_) | Cell::Ratio(_)) = (row.explains, cell) else {
        return shown;
    };
    let send = bench.on(Input::Explain {
        target: row.target.clone(),
        end,
    });
    let press = Callback::from(move |event: MouseEvent| {
        // The row would select its thing, which explaining does as well.
        event.stop_propagation();
        send.emit(event);
    });
    let spoken = format!("{} {}: where it comes from", column.title, cell.spoken());
    html! { <button type="button" class="number-button" title="Where this number comes from" aria-label={spoken} onclick={press}>{ shown }</button> }
}

/// Pressing the row of a position shows it; pressing any other selects its thing, with Shift or Ctrl beside others.
fn press(bench: &Bench, target: &Target) -> Callback<MouseEvent> {
    let target = target.clone();
    bench.0.reform(move |event: MouseEvent| match &target {
        Target::Position(id) => Input::Position(id.clone()),
        thing => Input::Select {
            targets: vec![thing.clone()],
            add: event.shift_key() || event.ctrl_key() || event.meta_key(),
            position: None,
        },
    })
}
