//! The ledger: every shaft and every connection of the position shown.

use std::rc::Rc;

use layshaft_editor::Table;
use yew::prelude::*;

use super::table_view::TableView;

/// Properties of [`LedgerPanel`].
#[derive(Properties, PartialEq)]
pub struct LedgerPanelProps {
    /// The table; none while nothing could be computed.
    pub table: Option<Rc<Table>>,
}

/// The table, or why there is none.
#[component]
pub fn LedgerPanel(props: &LedgerPanelProps) -> Html {
    match &props.table {
        Some(table) => html! { <TableView table={table.clone()} /> },
        None => {
            html! { <p class="empty">{ "Nothing could be computed yet. The headline over the drawing says why." }</p> }
        }
    }
}
