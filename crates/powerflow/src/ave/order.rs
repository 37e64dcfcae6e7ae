//! The order in which the rows of a system settle its columns: strong components of its pattern.
//!
//! Rows with a single unknown are peeled off first, columns that a single row reaches last; what remains is matched and
//! taken apart into strong components (the fine part of A. L. Dulmage & N. S. Mendelsohn's decomposition, 1958).

use petgraph::algo::{kosaraju_scc, maximum_matching};
use petgraph::graph::{DiGraph, NodeIndex, UnGraph};

use super::block::Block;
use super::{Losses, System};

/// Blocks of rows and columns, each settled by those before it.
#[derive(Clone, Debug, Default)]
pub struct Plan {
    rows: Vec<u32>,
    columns: Vec<u32>,
    ends: Vec<u32>,
    /// Per block of more than one row: whether its solution is proven unique whatever the right-hand side.
    unique: Vec<bool>,
}

/// A system whose pattern has no full matching: so many rows stay without a column of their own, or the other way round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmatched;

impl Plan {
    /// Finds the order.
    ///
    /// # Errors
    /// `Unmatched` when rows and columns can't be paired off; a train that is determined and whose redundant loops have
    /// their compliance rows always can.
    pub fn new(system: &System) -> Result<Self, Unmatched> {
        if system.rows() != system.columns() {
            return Err(Unmatched);
        }
        let mut peel = Peel::new(system);
        peel.run();
        let mut plan = Self::default();
        for (row, column) in peel.front.iter().copied() {
            plan.push(&[row], &[column], false);
        }
        for (rows, columns) in peel.core()? {
            let unique = rows.len() > 1 && Block::cut(system, &rows, &columns, Losses::Full).is_contraction();
            plan.push(&rows, &columns, unique);
        }
        for (row, column) in peel.back.iter().rev().copied() {
            plan.push(&[row], &[column], false);
        }
        Ok(plan)
    }

    fn push(&mut self, rows: &[u32], columns: &[u32], unique: bool) {
        self.unique.push(unique);
        self.rows.extend_from_slice(rows);
        self.columns.extend_from_slice(columns);
        self.ends
            .push(u32::try_from(self.rows.len()).expect("fewer than 2^32 rows"));
    }

    /// The blocks: rows, columns, and whether a block of several is proven to have one solution.
    pub fn blocks(&self) -> impl Iterator<Item = (&[u32], &[u32], bool)> {
        let mut start = 0;
        self.ends.iter().zip(&self.unique).map(move |(&end, &unique)| {
            let range = start..end as usize;
            start = end as usize;
            (&self.rows[range.clone()], &self.columns[range], unique)
        })
    }
}

type RowsAndColumns = (Vec<u32>, Vec<u32>);

struct Peel<'a> {
    system: &'a System,
    row_starts: Vec<u32>,
    row_columns: Vec<u32>,
    row_degree: Vec<u32>,
    column_degree: Vec<u32>,
    row_gone: Vec<bool>,
    column_gone: Vec<bool>,
    front: Vec<(u32, u32)>,
    back: Vec<(u32, u32)>,
}

enum Job {
    Row(u32),
    Column(u32),
}

impl<'a> Peel<'a> {
    fn new(system: &'a System) -> Self {
        let (rows, columns) = (system.rows(), system.columns());
        let mut row_degree = vec![0_u32; rows];
        let mut column_degree = vec![0_u32; columns];
        for (column, degree) in column_degree.iter_mut().enumerate() {
            for entry in system.column(column) {
                row_degree[entry.row as usize] += 1;
                *degree += 1;
            }
        }
        let mut row_starts = vec![0; rows + 1];
        for row in 0..rows {
            row_starts[row + 1] = row_starts[row] + row_degree[row];
        }
        let mut next = row_starts.clone();
        let mut row_columns = vec![0; row_starts[rows] as usize];
        for column in 0..columns {
            for entry in system.column(column) {
                let slot = &mut next[entry.row as usize];
                row_columns[*slot as usize] = u32::try_from(column).expect("fewer than 2^32 columns");
                *slot += 1;
            }
        }
        Self {
            system,
            row_starts,
            row_columns,
            row_degree,
            column_degree,
            row_gone: vec![false; rows],
            column_gone: vec![false; columns],
            front: Vec::new(),
            back: Vec::new(),
        }
    }

    fn columns_of(&self, row: u32) -> &[u32] {
        &self.row_columns[self.row_starts[row as usize] as usize..self.row_starts[row as usize + 1] as usize]
    }

    fn run(&mut self) {
        let rows = (0_u32..)
            .take(self.row_degree.len())
            .filter(|&row| self.row_degree[row as usize] == 1);
        let mut jobs: Vec<Job> = rows.map(Job::Row).collect();
        let columns = (0_u32..).take(self.column_degree.len());
        jobs.extend(
            columns
                .filter(|&column| self.column_degree[column as usize] == 1)
                .map(Job::Column),
        );
        while let Some(job) = jobs.pop() {
            match job {
                Job::Row(row) => self.peel_row(row, &mut jobs),
                Job::Column(column) => self.peel_column(column, &mut jobs),
            }
        }
    }

    fn peel_row(&mut self, row: u32, jobs: &mut Vec<Job>) {
        if self.row_gone[row as usize] || self.row_degree[row as usize] != 1 {
            return;
        }
        let column = self
            .columns_of(row)
            .iter()
            .copied()
            .find(|&column| !self.column_gone[column as usize]);
        let column = column.expect("a row of degree 1 has a column left");
        self.front.push((row, column));
        self.remove(row, column, jobs);
    }

    fn peel_column(&mut self, column: u32, jobs: &mut Vec<Job>) {
        if self.column_gone[column as usize] || self.column_degree[column as usize] != 1 {
            return;
        }
        let mut rows = self.system.column(column as usize).iter().map(|entry| entry.row);
        let row = rows
            .find(|&row| !self.row_gone[row as usize])
            .expect("a column of degree 1 has a row left");
        self.back.push((row, column));
        self.remove(row, column, jobs);
    }

    fn remove(&mut self, row: u32, column: u32, jobs: &mut Vec<Job>) {
        self.row_gone[row as usize] = true;
        self.column_gone[column as usize] = true;
        for at in self.row_starts[row as usize]..self.row_starts[row as usize + 1] {
            let other = self.row_columns[at as usize];
            self.column_degree[other as usize] -= 1;
            if self.column_degree[other as usize] == 1 && !self.column_gone[other as usize] {
                jobs.push(Job::Column(other));
            }
        }
        for entry in self.system.column(column as usize) {
            let other = entry.row;
            self.row_degree[other as usize] -= 1;
            if self.row_degree[other as usize] == 1 && !self.row_gone[other as usize] {
                jobs.push(Job::Row(other));
            }
        }
    }

    /// Strong components of what could not be peeled, in the order in which they can be settled.
    fn core(&self) -> Result<Vec<RowsAndColumns>, Unmatched> {
        let rows: Vec<u32> = (0_u32..)
            .take(self.row_gone.len())
            .filter(|&row| !self.row_gone[row as usize])
            .collect();
        let columns: Vec<u32> = (0_u32..)
            .take(self.column_gone.len())
            .filter(|&column| !self.column_gone[column as usize])
            .collect();
        if rows.is_empty() && columns.is_empty() {
            return Ok(Vec::new());
        }
        let row_of = self.match_core(&rows, &columns)?;
        let mut place = vec![usize::MAX; self.column_gone.len()];
        for (at, &column) in columns.iter().enumerate() {
            place[column as usize] = at;
        }
        let mut graph = DiGraph::<(), ()>::with_capacity(columns.len(), 0);
        for _ in &columns {
            graph.add_node(());
        }
        for (at, &row) in row_of.iter().enumerate() {
            for &other in self.columns_of(row) {
                let other = place[other as usize];
                if other != usize::MAX && other != at {
                    graph.add_edge(NodeIndex::new(at), NodeIndex::new(other), ());
                }
            }
        }
        // A component comes out after all that it depends on.
        let blocks = kosaraju_scc(&graph).into_iter().map(|mut nodes| {
            nodes.sort_unstable();
            let pairs = nodes
                .iter()
                .map(|node| (row_of[node.index()], columns[node.index()]));
            pairs.unzip()
        });
        Ok(blocks.collect())
    }

    /// For every column of the core the row that is to settle it.
    fn match_core(&self, rows: &[u32], columns: &[u32]) -> Result<Vec<u32>, Unmatched> {
        if rows.len() != columns.len() {
            return Err(Unmatched);
        }
        let mut graph = UnGraph::<(), ()>::new_undirected();
        let mut node_of_row = vec![NodeIndex::end(); self.row_gone.len()];
        for &row in rows {
            node_of_row[row as usize] = graph.add_node(());
        }
        let column_nodes: Vec<NodeIndex> = columns.iter().map(|_| graph.add_node(())).collect();
        for (&column, &node) in columns.iter().zip(&column_nodes) {
            for entry in self.system.column(column as usize) {
                if !self.row_gone[entry.row as usize] {
                    graph.add_edge(node_of_row[entry.row as usize], node, ());
                }
            }
        }

        let matching = maximum_matching(&graph);
        let row_at = |node: NodeIndex| matching.mate(node).map(|mate| rows[mate.index()]);
        column_nodes
            .into_iter()
            .map(|node| row_at(node).ok_or(Unmatched))
            .collect()
    }
}
