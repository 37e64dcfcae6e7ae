//! Numbers that can be edited where they stand on a skeleton or plan, and ratios that open their working.

use super::{Picture, PictureItem};
use crate::geometry::{Point, Rect};
use crate::hit::Hit;
use crate::scene::items::{Label, LabelLine, Run, RunContent};
use crate::target::{FieldRef, Target};

impl Picture {
    /// The number at a place, within a tolerance; the nearest wins.
    #[must_use]
    pub fn edit_at(&self, at: Point, tolerance: f64) -> Option<&FieldRef> {
        let near = self
            .edits()
            .filter(|(_, room)| room.grown(tolerance).contains(at));
        near.min_by(|(_, one), (_, other)| one.centre().distance(at).total_cmp(&other.centre().distance(at)))
            .map(|(field, _)| field)
    }

    /// The place of an editable number.
    #[must_use]
    pub fn edit_place(&self, field: &FieldRef) -> Option<Rect> {
        self.edits()
            .find(|(found, _)| *found == field)
            .map(|(_, room)| room)
    }

    /// The ratio of a shaft at a place: it opens its working.
    #[must_use]
    pub fn ratio_at(&self, at: Point) -> Option<Hit> {
        let mut shafts = self.items.iter().filter_map(|item| match &item.target {
            Target::Shaft(id) => Some((item, id)),
            _ => None,
        });
        let is_hit = |item: &PictureItem| {
            runs(item.label.as_ref()).any(|(line, run)| {
                matches!(run.content, RunContent::Ratio(_)) && room(line, run).contains(at)
            })
        };
        shafts
            .find(|(item, _)| is_hit(item))
            .map(|(item, id)| Hit::Ratio {
                target: item.target.clone(),
                shaft: id.clone(),
            })
    }

    /// The thing whose label has a line at a place.
    #[must_use]
    pub fn labelled_at(&self, at: Point) -> Option<&Target> {
        let mut labelled = self
            .items
            .iter()
            .filter(|item| runs(item.label.as_ref()).any(|(line, run)| room(line, run).contains(at)));
        labelled.next().map(|item| &item.target)
    }

    fn edits(&self) -> impl Iterator<Item = (&FieldRef, Rect)> {
        self.items
            .iter()
            .flat_map(|item| runs(item.label.as_ref()))
            .filter_map(|(line, run)| match &run.content {
                RunContent::Edit { field, .. } => Some((field, room(line, run))),
                _ => None,
            })
    }
}

fn runs(label: Option<&Label>) -> impl Iterator<Item = (&LabelLine, &Run)> {
    label
        .into_iter()
        .flat_map(|label| &label.lines)
        .flat_map(|line| line.runs.iter().map(move |run| (line, run)))
}

const fn room(line: &LabelLine, run: &Run) -> Rect {
    Rect {
        x: run.x,
        y: line.top,
        width: run.width,
        height: line.height,
    }
}
