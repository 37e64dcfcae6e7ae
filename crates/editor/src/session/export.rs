//! Saving and printing: drawings as pictures of their own, and the build sheet.

use super::{Effect, Session, Theme};
use crate::actions::{Panel, PictureFile};
use crate::build_sheet::{BuildChoice, BuildSheet, Paper, cautions, motor_lines, parts_table};
use crate::comparison::comparison;
use crate::drawings::Drawing;
use crate::export::{self, Drawn, Ink, Sheet};
use crate::table::Table;
use crate::wording;

impl Session {
    /// The colours that are shown now.
    fn ink(&self) -> Ink {
        match (self.theme, self.system_is_dark) {
            (Theme::Slate, _) | (Theme::System, true) => Ink::SLATE,
            _ => Ink::PAPER,
        }
    }

    /// The drawing that is saved: the one chosen on the build sheet while that is open, else the one in front.
    fn drawing_to_save(&self) -> Drawing {
        if self.panel == Some(Panel::Build) {
            self.build.drawing
        } else {
            self.drawing
        }
    }

    /// The drawing that is saved, all of it, with its legend and title block; it holds the page's face where it gets it.
    #[must_use]
    pub fn drawing_sheet(&self, ink: &Ink, face: Option<&[u8]>) -> Sheet {
        let title = self.title_block();
        self.with_drawn(self.drawing_to_save(), |drawn| {
            export::sheet(drawn, &title, ink, face)
        })
    }

    fn with_drawn<T>(&self, drawing: Drawing, make: impl FnOnce(Drawn<'_>) -> T) -> T {
        match drawing {
            Drawing::Flow => make(Drawn::Flow(&self.near().scene())),
            Drawing::Skeleton => make(Drawn::Skeleton(&self.near().draw_picture(drawing))),
            Drawing::Plan => make(Drawn::Plan(&self.draw_picture(drawing))),
        }
    }

    /// The same looked at from near: a file and paper have room for everything that labels say.
    fn near(&self) -> Self {
        let mut near = self.clone();
        near.view.zoom = 1.0;
        near.redraw();
        near
    }

    /// Saves the drawing once the page has handed over its face; without it where that can't be had.
    pub(super) fn save_drawing(&self, file: PictureFile, face: Option<&[u8]>, effects: &mut Vec<Effect>) {
        let sheet = self.drawing_sheet(&self.ink(), face);
        let stem = self.drawing_to_save().name().to_lowercase();
        effects.push(match file {
            PictureFile::Svg => Effect::Download {
                name: format!("{stem}.svg"),
                text: sheet.svg,
            },
            PictureFile::Png => Effect::DownloadPicture {
                name: format!("{stem}.png"),
                sheet: Box::new(sheet),
            },
        });
    }

    pub(super) fn choose_build(&mut self, choice: BuildChoice, effects: &mut Vec<Effect>) {
        self.build = choice;
        effects.push(Effect::SavePreferences);
    }

    /// What the layout is built from.
    #[must_use]
    pub fn parts(&self) -> Table {
        parts_table(&self.shown, self.units)
    }

    /// The build sheet.
    #[must_use]
    pub fn build_sheet(&self) -> BuildSheet {
        let block = self.title_block();
        let drawing = self.with_drawn(self.build.drawing, |drawn| {
            export::bare(drawn, self.build.drawing.name(), &Ink::PRINT)
        });
        let positions = comparison(
            &self.shown,
            self.report(),
            &self.position,
            self.hide_answers,
            self.units,
        );
        let mut predictions = Vec::new();
        if !self.hide_answers {
            predictions.extend(motor_lines(&self.shown, &self.report().positions));
            predictions.extend(
                self.report()
                    .shifting
                    .iter()
                    .flat_map(|shifts| {
                        wording::shifting_words(&self.shown, self.report(), shifts, self.units)
                    })
                    .map(|line| line.trim().to_owned()),
            );
        }
        BuildSheet {
            choice: self.build,
            title: block.title,
            drawing: drawing.svg,
            position: block.position,
            parts: self.parts(),
            positions,
            predictions,
            cautions: cautions(&self.shown),
            notes: self.shown.notes.clone(),
        }
    }

    /// The paper, as a line to be kept.
    pub(super) fn kept_paper(&self) -> String {
        format!("{PAPER}{}\n", self.build.paper.name())
    }

    pub(super) fn take_kept_paper(&mut self, line: &str) {
        let name = line.strip_prefix(PAPER);
        let paper = Paper::ALL.into_iter().find(|paper| name == Some(paper.name()));
        self.build.paper = paper.unwrap_or(self.build.paper);
    }
}

/// The name before the paper in what is kept.
const PAPER: &str = "paper ";
