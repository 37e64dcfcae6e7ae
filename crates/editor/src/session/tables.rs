//! Tables as a person wants them: sorted, with the columns chosen, copied and saved; and where a number came from.

use std::rc::Rc;

use super::{Effect, Session};
use crate::actions::Panel;
use crate::comparison::comparison;
use crate::explaining::{Explanation, explain};
use crate::ledger::ledger;
use crate::table::{Table, TableChoice, TableName};
use crate::target::Target;

impl Session {
    /// The ledger of the position shown; none while nothing could be computed.
    #[must_use]
    pub fn ledger(&self) -> Option<Table> {
        let position = self.position_report()?;
        let made = ledger(
            &self.shown,
            position,
            &self.selection,
            self.hide_answers,
            self.units,
        );
        Some(made.arranged(&self.table_choice(TableName::Ledger)))
    }

    /// All positions side by side.
    #[must_use]
    pub fn comparison(&self) -> Table {
        let made = comparison(
            &self.shown,
            self.report(),
            &self.position,
            self.hide_answers,
            self.units,
        );
        made.arranged(&self.table_choice(TableName::Positions))
    }

    fn table(&self, name: TableName) -> Option<Table> {
        match name {
            TableName::Ledger => self.ledger(),
            TableName::Positions => Some(self.comparison()),
            TableName::Parts => Some(self.parts()),
        }
    }

    fn table_choice(&self, name: TableName) -> TableChoice {
        self.tables.get(&name).cloned().unwrap_or_default()
    }

    /// A heading was pressed.
    pub(super) fn sort_table(&mut self, name: TableName, column: &'static str, effects: &mut Vec<Effect>) {
        let choice = Rc::make_mut(&mut self.tables).entry(name).or_default();
        choice.press(column);
        let said = match choice.sorted {
            Some(sorting) if sorting.falling => format!("Sorted by {column}, greatest first"),
            Some(_) => format!("Sorted by {column}, least first"),
            None => "In the order of the layout again".to_owned(),
        };
        effects.push(Effect::Announce(said));
    }

    pub(super) fn show_column(
        &mut self,
        name: TableName,
        column: &str,
        shown: bool,
        effects: &mut Vec<Effect>,
    ) {
        let choice = Rc::make_mut(&mut self.tables).entry(name).or_default();
        choice.show(column, shown);
        effects.push(Effect::SavePreferences);
    }

    pub(super) fn save_table(&self, name: TableName, effects: &mut Vec<Effect>) {
        match self.table(name) {
            Some(table) => effects.push(Effect::Download {
                name: format!("{}.csv", name.code()),
                text: table.csv(),
            }),
            None => effects.push(Effect::Announce(NO_TABLE.to_owned())),
        }
    }

    pub(super) fn copy_table(&self, name: TableName, effects: &mut Vec<Effect>) {
        match self.table(name) {
            Some(table) => effects.extend([
                Effect::CopyText(table.tabbed()),
                Effect::Announce(format!("{} rows copied", table.rows.len())),
            ]),
            None => effects.push(Effect::Announce(NO_TABLE.to_owned())),
        }
    }

    /// A number of a table was pressed: where it came from is shown beside the working.
    pub(super) fn explain_row(&mut self, target: Target, end: usize) {
        if let Target::Shaft(id) = &target {
            self.show_working(id.clone());
        }
        self.select(vec![target.clone()]);
        self.explained = Some((target, end));
        self.panel = Some(Panel::Working);
        self.redraw();
    }

    /// Where the numbers that were pressed came from; none where none were, or answers are hidden.
    #[must_use]
    pub fn explanation(&self) -> Option<Explanation> {
        let (target, end) = self.explained.as_ref().filter(|_| !self.hide_answers)?;
        explain(&self.shown, self.position_report()?, target, *end, self.units)
    }

    /// Columns that are left out, as lines to be kept.
    pub(super) fn kept_columns(&self) -> String {
        let line = |(name, choice): (&TableName, &TableChoice)| {
            let titles: Vec<&str> = choice.left_out.iter().map(String::as_str).collect();
            (!titles.is_empty()).then(|| format!("{LEFT_OUT}{} {}\n", name.code(), titles.join("|")))
        };
        self.tables.iter().filter_map(line).collect()
    }

    /// Takes such a line.
    pub(super) fn take_kept_columns(&mut self, line: &str) {
        let Some((code, titles)) = line.strip_prefix(LEFT_OUT).and_then(|rest| rest.split_once(' ')) else {
            return;
        };
        if let Some(name) = TableName::ALL.into_iter().find(|name| name.code() == code) {
            let choice = Rc::make_mut(&mut self.tables).entry(name).or_default();
            choice.left_out = titles.split('|').map(str::to_owned).collect();
        }
    }
}

/// The name before columns that are left out.
const LEFT_OUT: &str = "without ";
const NO_TABLE: &str = "There is no such table: nothing could be computed yet";
