//! A drawing as a picture of its own: SVG text with title and legend, everything written in, nothing referred to outside.
//!
//! Shapes come from the same [`Scene`] and [`Picture`] as on the page; colours and widths stand in every shape, so that any
//! program shows it alike. Letters are text; a saved picture holds the page's face beside them.

mod face;
mod ink;
mod legend;
mod pen;
mod strokes;

pub use face::FILE as FACE_FILE;
pub use ink::Ink;

use crate::geometry::Rect;
use crate::scene::{Picture, Scene};
use crate::title_block::TitleBlock;
use pen::Pen;

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub enum Drawn<'a> {
    /// The flow drawing.
    Flow(&'a Scene),
    /// The skeleton.
    Skeleton(&'a Picture),
    /// The plan, which is measured in millimetres.
    Plan(&'a Picture),
}

/// Room that the plan is drawn into, and pixels for a millimetre at most.
const PLAN: (f64, f64) = (900.0, 640.0);
const MOST_PER_MM: f64 = 16.0;

impl Drawn<'_> {
    fn bounds(self) -> Rect {
        match self {
            Self::Flow(scene) => scene.bounds,
            Self::Skeleton(picture) | Self::Plan(picture) => picture.bounds,
        }
    }

    /// Pixels for a unit of the drawing's plane.
    fn scale(self) -> f64 {
        let bounds = self.bounds();
        match self {
            Self::Plan(_) if bounds.width > 0.0 && bounds.height > 0.0 => (PLAN.0 / bounds.width)
                .min(PLAN.1 / bounds.height)
                .min(MOST_PER_MM),
            _ => 1.0,
        }
    }

    /// Draws it with its upper left corner here.
    fn draw(self, pen: &mut Pen<'_>, left: f64, top: f64) {
        let (bounds, scale) = (self.bounds(), self.scale());
        pen.open(&format!(
            r#"<g transform="translate({} {}) scale({})">"#,
            pen::number(left - bounds.x * scale),
            pen::number(top - bounds.y * scale),
            pen::number(scale)
        ));
        pen.pixel = 1.0 / scale;
        match self {
            Self::Flow(scene) => strokes::flow(pen, scene),
            Self::Skeleton(picture) | Self::Plan(picture) => strokes::picture(pen, picture),
        }
        pen.pixel = 1.0;
        pen.close();
    }
}

/// A drawing ready to be saved.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Its text.
    pub svg: String,
    /// Its width in pixels at its own size.
    pub width: f64,
    /// Its height.
    pub height: f64,
}

/// Room around everything.
const MARGIN: f64 = 24.0;
/// Least width, so that the title block has room.
const LEAST_WIDTH: f64 = 560.0;

/// The whole drawing over its legend and title block; with the file of the page's face it holds that.
#[must_use]
pub fn sheet(drawn: Drawn<'_>, title: &TitleBlock, ink: &Ink, face: Option<&[u8]>) -> Sheet {
    let (bounds, scale) = (drawn.bounds(), drawn.scale());
    let size = (bounds.width * scale, bounds.height * scale);
    let legend = match drawn {
        Drawn::Flow(scene) => &scene.legend,
        Drawn::Skeleton(picture) | Drawn::Plan(picture) => &picture.legend,
    };
    let width = size.0.max(LEAST_WIDTH) + 2.0 * MARGIN;
    let mut pen = Pen::new(ink);
    drawn.draw(&mut pen, (width - size.0) / 2.0, MARGIN);
    let room = Rect {
        x: MARGIN,
        y: size.1 + 2.0 * MARGIN,
        width: width - 2.0 * MARGIN,
        height: 0.0,
    };
    let height = legend::foot(&mut pen, legend, title, room) + MARGIN;
    let spoken = format!("{}, {}", title.title, title.position);
    Sheet {
        svg: pen.document((width, height), &spoken, face),
        width,
        height,
    }
}

/// A drawing alone, as large as it is: what the build sheet holds, set in the page's own face.
#[must_use]
pub fn bare(drawn: Drawn<'_>, name: &str, ink: &Ink) -> Sheet {
    let (bounds, scale) = (drawn.bounds(), drawn.scale());
    let (width, height) = ((bounds.width * scale).max(1.0), (bounds.height * scale).max(1.0));
    let mut pen = Pen::new(ink);
    drawn.draw(&mut pen, 0.0, 0.0);
    Sheet {
        svg: pen.document((width, height), name, None),
        width,
        height,
    }
}

#[cfg(test)]
mod tests;
