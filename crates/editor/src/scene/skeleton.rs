//! The skeleton: the layout as a kinematic diagram with the symbols of ISO 3952.
//!
//! Order of work: `train` finds the axes and what sits on them, `rows` how high they lie, `order` what stands left of what,
//! `nesting` which shaft runs inside which, `setting` columns from all of that; symbols are drawn from there. Like the flow drawing,
//! the whole depends on what is connected and on tooth counts alone, so that nothing jumps when a torque changes.

mod adjust;
mod ends;
mod legend;
mod moving;
mod nesting;
mod order;
mod pairs;
mod pen;
mod rows;
mod sets;
mod setting;
mod shafts;
mod train;
mod writing;

#[cfg(test)]
mod snapshots;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::rc::Rc;

use layshaft_layout::{Element, Id};
use layshaft_report::{ElementResult, Mode, PositionReport, ShaftResult, State};

use super::crowd::Crowd;
use super::describe::{self, Shown, Telling};
use super::flow::FlowInput;
use super::grouped;
use super::items::{Label, Standing};
use super::picture::{Backdrop, LineType, Picture, PictureItem, Reach, Remark};
use super::spread;
use super::text::{LINE_HEIGHT, Letters};
use super::turning::{self, Turning};
use crate::geometry::{Point, Rect};
use crate::target::Target;
use adjust::Adjusted;
use ends::Grip;
pub use moving::{moved, set_out_anew};
use pen::Pen;
use setting::Setting;
use train::Form;
use writing::Note;

/// What to do where there is nothing to draw.
const EMPTY: &str = "Nothing to draw yet: take a part from the tray, or press M for a gear mesh.";

/// Builds the skeleton, without overlay.
#[must_use]
pub fn picture(input: FlowInput<'_>) -> Picture {
    let drive = input
        .drive
        .and_then(|drive| input.layout.shafts.iter().position(|shaft| shaft.id == *drive));
    let setting = Setting::of(input.layout, drive, &Adjusted::of(input.layout));
    Sheet::new(input, &setting).picture()
}

/// What is looked up again and again while drawing.
struct Sheet<'a> {
    input: FlowInput<'a>,
    setting: &'a Setting<'a>,
    position: Option<&'a PositionReport>,
    shaft_results: BTreeMap<&'a Id, &'a ShaftResult>,
    element_results: BTreeMap<&'a Id, &'a ElementResult>,
    turning: Turning,
    lines: Vec<shafts::Line>,
}

impl<'a> Sheet<'a> {
    fn new(input: FlowInput<'a>, setting: &'a Setting<'a>) -> Self {
        let position = input
            .positions
            .iter()
            .find(|report| report.id == *input.position)
            .map(Rc::as_ref);
        let joints = shafts::joints(setting);
        let lines = shafts::on_pieces(setting)
            .iter()
            .enumerate()
            .map(|(piece, stations)| shafts::line(setting, piece, stations, &joints))
            .collect();
        Self {
            input,
            setting,
            position,
            shaft_results: position
                .iter()
                .flat_map(|position| &position.shafts)
                .map(|result| (&result.id, result))
                .collect(),
            element_results: position
                .iter()
                .flat_map(|position| &position.elements)
                .map(|result| (&result.id, result))
                .collect(),
            turning: position.map_or(Turning::Still, Turning::of),
            lines,
        }
    }

    fn picture(&self) -> Picture {
        let shaft_pens = self.shaft_pens();
        let element_pens = self.element_pens();
        let ground = self.ground();
        let mut crowd = Crowd::default();
        for pen in shaft_pens.iter().chain(&element_pens).chain(&ground) {
            for room in &pen.rooms {
                crowd.take(*room, spread::THING);
            }
        }
        let bounds = shaft_pens
            .iter()
            .chain(&element_pens)
            .chain(&ground)
            .filter_map(Pen::bounds);
        let mut bounds: Option<Rect> = bounds.reduce(|all, room| all.union(&room));
        self.keep_frames_clear(&shaft_pens, &element_pens, &mut crowd);
        let elements = self.element_items(element_pens, &mut crowd);
        let mut items = self.shaft_items(shaft_pens, &mut crowd);
        items.extend(elements);
        let frames = grouped::frames(&self.input, &items, &mut crowd, self.frame_scale());
        let has_frames = !frames.is_empty();
        items.splice(0..0, frames);
        for item in &items {
            let label = item.label.iter().map(|label| label.bounds);
            let reach = item.reach.iter().map(Reach::bounds);
            bounds = label
                .chain(reach)
                .chain(bounds)
                .reduce(|all, one| all.union(&one));
        }
        Picture {
            bounds: bounds.unwrap_or_default(),
            ground: self.backdrops(ground),
            legend: Rc::new(self.legend(has_frames)),
            items,
            layers: 0,
            empty: self.input.layout.shafts.is_empty().then_some(EMPTY),
            remarks: self.remarks(),
            ..Picture::default()
        }
    }

    fn frame_scale(&self) -> grouped::Scale {
        let letters = self.input.shown.letters;
        grouped::Scale {
            zoom: 1.0,
            letters,
            writing: LINE_HEIGHT * letters.factor(),
        }
    }

    /// Lines round folded groups are not to run through what is written.
    fn keep_frames_clear(&self, shafts: &[Pen], elements: &[Pen], crowd: &mut Crowd) {
        let layout = self.input.layout;
        let reach = |target: &Target| {
            let pen = match target {
                Target::Shaft(id) => {
                    let place = layout.shafts.iter().position(|shaft| shaft.id == *id);
                    shafts.get(place?)
                }
                Target::Element(id) => {
                    let place = layout.elements.iter().position(|element| element.id == *id);
                    elements.get(place?)
                }
                _ => None,
            };
            pen.map(|pen| &pen.reach[..])
        };
        grouped::keep_clear(layout, reach, crowd, self.frame_scale());
    }

    fn shaft_pens(&self) -> Vec<Pen> {
        let pieces = &self.setting.train.pieces;
        let mut pens = vec![Pen::default(); self.input.layout.shafts.len()];
        for (number, piece) in pieces.iter().enumerate() {
            let Some(shaft) = piece.shaft else { continue };
            shafts::draw(&self.lines[number], &mut pens[shaft]);
            if let Some(original) = piece.copy_of {
                self.link(number, original, &mut pens[shaft]);
            } else if let Some((_, clockwise)) = self.turns(shaft) {
                shafts::arrow(&self.lines[number], clockwise, &mut pens[shaft]);
            }
        }
        pens
    }

    /// How a shaft turns on the screen; none where it does not.
    fn turns(&self, shaft: usize) -> Option<(f64, bool)> {
        let result = self.shaft_results.get(&self.input.layout.shafts[shaft].id)?;
        (self.standing(shaft) == Standing::Turning).then(|| self.turning.period(result))?
    }

    fn standing(&self, shaft: usize) -> Standing {
        let result = self.shaft_results.get(&self.input.layout.shafts[shaft].id);
        let state = self.position.map_or(State::Runs, |position| position.state);
        result.map_or(Standing::AtRest, |result| turning::standing(result, state))
    }

    /// A chain line between the two places where one shaft is drawn.
    fn link(&self, copy: usize, original: usize, pen: &mut Pen) {
        let (from, to) = (&self.lines[copy], &self.lines[original]);
        let (Some(x), Some(end)) = (from.middle(), to.middle()) else {
            return;
        };
        pen.chain(
            LineType::Chain,
            &[
                (x, from.y),
                (x, (from.y + to.y) / 2.0),
                (end, (from.y + to.y) / 2.0),
                (end, to.y),
            ],
        );
    }

    /// One pen for each element, with all that is drawn of it.
    fn element_pens(&self) -> Vec<Pen> {
        let mut pens = vec![Pen::default(); self.input.layout.elements.len()];
        for (station, place) in self.setting.train.stations.iter().enumerate() {
            if let Some(number) = place.element {
                self.draw(station, &mut pens[number]);
            }
        }
        pens
    }

    fn draw(&self, station: usize, pen: &mut Pen) {
        match self.setting.train.stations[station].form {
            Form::Pair => pairs::draw(self.setting, station, pen),
            Form::Set => sets::draw(self.setting, station, pen),
            Form::Coupling => ends::coupling(self.setting, station, self.grip(station), pen),
            Form::Hold => ends::hold(self.setting, station, self.grip(station), pen),
            Form::End => ends::end(self.setting, station, pen),
            Form::Drum => ends::drum(self.setting, station, pen),
            Form::Ground => ends::ground(self.setting, station, pen),
        }
    }

    /// Whether a clutch or brake hands torque on in this position.
    fn grip(&self, station: usize) -> Grip {
        let Some(element) = self.setting.element(station) else {
            return Grip::Closed;
        };
        let open = match self
            .element_results
            .get(&element.id)
            .and_then(|result| result.mode)
        {
            Some(mode) => matches!(mode, Mode::Disengaged | Mode::Overrunning),
            None => {
                let positions = self.input.layout.effective_positions();
                let shown = positions
                    .iter()
                    .find(|position| position.id == *self.input.position);
                element.kind.is_engageable() && shown.is_none_or(|shown| !shown.engaged.contains(&element.id))
            }
        };
        if open { Grip::Open } else { Grip::Closed }
    }

    /// Stubs of the frame and their fixings.
    fn ground(&self) -> Vec<Pen> {
        let mut pens = Vec::new();
        for (station, place) in self.setting.train.stations.iter().enumerate() {
            if place.form == Form::Ground {
                let mut pen = Pen::default();
                self.draw(station, &mut pen);
                for piece in place.pieces() {
                    shafts::draw(&self.lines[piece], &mut pen);
                }
                pens.push(pen);
            }
        }
        pens
    }

    fn backdrops(&self, ground: Vec<Pen>) -> Vec<Rc<Backdrop>> {
        let stubs = ground.into_iter().enumerate().map(|(n, pen)| Backdrop {
            key: format!("frame-{n}"),
            strokes: pen.strokes(),
            label: None,
        });
        stubs.map(Rc::new).collect()
    }

    fn shown(&self) -> Shown {
        let letters = self.input.shown.letters;
        Shown {
            // From afar names alone: letters are large then, and the lines are what is looked at.
            ratio: self.input.shown.ratio && matches!(letters, Letters::Plain | Letters::Large),
            speed: false,
            torque: false,
            power: false,
            efficiency: false,
            ..self.input.shown
        }
    }

    fn telling(&self) -> Telling<'a> {
        Telling {
            position: self.position,
            shown: self.shown(),
            hide: self.input.hide_answers,
            units: self.input.units,
        }
    }

    fn element_items(&self, pens: Vec<Pen>, crowd: &mut Crowd) -> Vec<Rc<PictureItem>> {
        // Numbers at wheels come first: their place says what they mean.
        let mut labels: Vec<Option<Label>> = vec![None; pens.len()];
        let mut places: Vec<Option<Point>> = vec![None; pens.len()];
        for pairs_first in [true, false] {
            for (station, place) in self.setting.train.stations.iter().enumerate() {
                let Some(number) = place.element else { continue };
                if (place.form == Form::Pair) != pairs_first || places[number].is_some() {
                    continue;
                }
                places[number] = Some(self.place(station));
                let notes = self.notes(station, &pens[number]);
                let target = Target::Element(self.input.layout.elements[number].id.clone());
                labels[number] = writing::label(&target, notes, crowd, self.input.shown.letters);
            }
        }
        let things = self
            .input
            .layout
            .elements
            .iter()
            .zip(pens)
            .zip(labels.into_iter().zip(places));
        things
            .map(|((element, pen), (label, place))| {
                Rc::new(self.element_item(element, pen, label, place.unwrap_or_default()))
            })
            .collect()
    }

    fn element_item(&self, element: &Element, mut pen: Pen, label: Option<Label>, at: Point) -> PictureItem {
        let target = Target::Element(element.id.clone());
        let result = self.element_results.get(&element.id).copied();
        PictureItem {
            key: target.key(),
            spoken: describe::element_spoken(element, result, self.telling()),
            at,
            reach: std::mem::take(&mut pen.reach),
            strokes: pen.strokes(),
            label,
            emphasis: self.input.emphasis(&target),
            target,
        }
    }

    /// The middle of a station.
    fn place(&self, station: usize) -> Point {
        let axes = &self.setting.train.stations[station].axes;
        let sum: f64 = axes.iter().map(|axis| self.setting.ys[*axis]).sum();
        Point::new(self.setting.xs[station], sum / axes.len().max(1) as f64)
    }

    fn notes(&self, station: usize, pen: &Pen) -> Vec<Note> {
        let Some(element) = self.setting.element(station) else {
            return Vec::new();
        };
        if let Some(wheels) = pairs::wheels(self.setting, station) {
            return writing::at_wheels(element, wheels, self.telling());
        }
        let result = self.element_results.get(&element.id).copied();
        let lines = describe::element_lines(element, result, self.telling());
        let room = pen
            .bounds()
            .unwrap_or(Rect::around(self.place(station), 10.0, 10.0));
        vec![writing::beside(lines, room, false)]
    }

    fn shaft_items(&self, pens: Vec<Pen>, crowd: &mut Crowd) -> Vec<Rc<PictureItem>> {
        let shafts = self.input.layout.shafts.iter().zip(pens).enumerate();
        shafts
            .map(|(number, (shaft, mut pen))| {
                let target = Target::Shaft(shaft.id.clone());
                let result = self.shaft_results.get(&shaft.id).copied();
                let standing = self.standing(number);
                let is_drive = self.input.drive == Some(&shaft.id);
                let at = self.shaft_place(number);
                let label =
                    writing::label(&target, self.shaft_notes(number), crowd, self.input.shown.letters);
                Rc::new(PictureItem {
                    key: target.key(),
                    spoken: describe::shaft_spoken(&shaft.id, result, standing, is_drive, self.telling()),
                    at,
                    reach: std::mem::take(&mut pen.reach),
                    strokes: pen.strokes(),
                    label,
                    emphasis: self.input.emphasis(&target),
                    target,
                })
            })
            .collect()
    }

    fn shaft_place(&self, shaft: usize) -> Point {
        let line = &self.lines[shaft];
        let x = line
            .middle()
            .or_else(|| self.first_column(shaft))
            .unwrap_or_default();
        Point::new(x, line.y)
    }

    /// The column of the first thing on a shaft that has no line of its own.
    fn first_column(&self, shaft: usize) -> Option<f64> {
        let stations = self.setting.train.stations.iter().enumerate();
        let mut on = stations.filter(|(_, station)| station.pins.contains(&Some(shaft)));
        on.next().map(|(station, _)| self.setting.xs[station])
    }

    /// Its name and ratio; its name once more where it is drawn again.
    fn shaft_notes(&self, shaft: usize) -> Vec<Note> {
        let id = &self.input.layout.shafts[shaft].id;
        let result = self.shaft_results.get(id).copied();
        let lines = describe::shaft_lines(id, result, self.standing(shaft), self.telling());
        let mut notes = vec![Note {
            lines,
            at: self.shaft_place(shaft),
            // Clear of the arrow over the shaft.
            half: (
                4.0,
                self.lines[shaft].radius + if self.lines[shaft].radius > 15.0 { 2.0 } else { 9.0 },
            ),
            below: true,
        }];
        for (number, piece) in self.setting.train.pieces.iter().enumerate() {
            if piece.shaft == Some(shaft) && piece.copy_of.is_some() {
                let line = &self.lines[number];
                notes.push(Note {
                    lines: vec![vec![super::items::RunContent::Name(id.to_string())]],
                    at: Point::new(line.middle().unwrap_or_default(), line.y),
                    half: (4.0, 2.0),
                    below: true,
                });
            }
        }
        notes
    }

    fn remarks(&self) -> Vec<Remark> {
        let mut remarks = Vec::new();
        let train = &self.setting.train;
        for (number, piece) in train.pieces.iter().enumerate() {
            let (Some(shaft), Some(_)) = (piece.shaft, piece.copy_of) else {
                continue;
            };
            let id = &self.input.layout.shafts[shaft].id;
            let station = train
                .stations
                .iter()
                .find(|station| station.pins.contains(&Some(number)));
            let element = station
                .and_then(|station| station.element)
                .map(|number| &self.input.layout.elements[number].id);
            if let Some(element) = element {
                remarks.push(Remark {
                    text: crate::wording::pictures::drawn_twice(id, element),
                    targets: vec![Target::Element(element.clone()), Target::Shaft(id.clone())],
                    is_wrong: false,
                });
            }
        }
        let mut crossed: Vec<(usize, usize)> = self
            .setting
            .nesting
            .crossed
            .iter()
            .filter_map(|(one, other)| Some((train.pieces[*one].shaft?, train.pieces[*other].shaft?)))
            .filter(|(one, other)| one != other)
            .collect();
        crossed.sort_unstable();
        crossed.dedup();
        for (one, other) in crossed {
            let (one, other) = (
                &self.input.layout.shafts[one].id,
                &self.input.layout.shafts[other].id,
            );
            remarks.push(Remark {
                text: crate::wording::pictures::runs_through(one, other),
                targets: vec![Target::Shaft(one.clone()), Target::Shaft(other.clone())],
                is_wrong: false,
            });
        }
        remarks
    }
}
