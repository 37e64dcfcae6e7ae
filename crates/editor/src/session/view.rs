//! Where the bench is looked at: pan, zoom, fit. Never part of the document.

use super::{Session, View};
use crate::drawings::Drawing;
use crate::geometry::{Point, Rect, Size};
use crate::scene::Reach;

/// Fits that are tried while letters change their size.
const MOST_FITS: usize = 4;
/// How much smaller the plan is tried while its labels have no room.
const SMALLER: f64 = core::f64::consts::SQRT_2;
/// Free rim around the layout after fitting: a share of the smaller side of the screen, at most so many pixels.
const RIM: (f64, f64) = (0.04, 36.0);

impl Default for View {
    fn default() -> Self {
        Self {
            origin: Point::default(),
            zoom: 1.0,
            size: Size {
                width: 800.0,
                height: 600.0,
            },
            zooms: Drawing::Flow.zooms(),
            largest_fit: Drawing::Flow.largest_fit(),
        }
    }
}

impl View {
    /// Larger or smaller about a place on the screen that stays where it is.
    #[must_use]
    pub fn zoomed(self, at: Point, by: f64) -> Self {
        if !by.is_finite() || by <= 0.0 {
            return self;
        }
        let zoom = (self.zoom * by).clamp(self.zooms.0, self.zooms.1);
        let fixed = self.to_bench(at);
        Self {
            origin: fixed - at * (1.0 / zoom),
            zoom,
            ..self
        }
    }

    /// Moved by some pixels on the screen.
    #[must_use]
    pub fn panned(self, by: Point) -> Self {
        Self {
            origin: self.origin - by * (1.0 / self.zoom),
            ..self
        }
    }

    /// Showing a rectangle of the bench in full, centred.
    #[must_use]
    pub fn fitted(self, bounds: Rect) -> Self {
        let rim = (self.size.width.min(self.size.height) * RIM.0).min(RIM.1);
        let room = Size {
            width: (self.size.width - 2.0 * rim).max(40.0),
            height: (self.size.height - 2.0 * rim).max(40.0),
        };
        let zoom = (room.width / bounds.width.max(0.1))
            .min(room.height / bounds.height.max(0.1))
            .clamp(self.zooms.0, self.largest_fit);
        let half = Point::new(self.size.width, self.size.height) * (0.5 / zoom);
        Self {
            origin: bounds.centre() - half,
            zoom,
            ..self
        }
    }

    /// Whether a rectangle of the bench is on the screen as a whole.
    pub(super) fn shows(self, bounds: Rect) -> bool {
        let corner = self.to_screen(Point::new(bounds.x, bounds.y));
        let other = self.to_screen(Point::new(bounds.right(), bounds.bottom()));
        corner.x >= 0.0 && corner.y >= 0.0 && other.x <= self.size.width && other.y <= self.size.height
    }

    /// The middle of the screen.
    #[must_use]
    pub fn middle(self) -> Point {
        Point::new(self.size.width / 2.0, self.size.height / 2.0)
    }
}

impl Session {
    /// Shows the whole layout, and goes on doing so until the view is moved by hand.
    pub(super) fn fit(&mut self) {
        let bounds = self.bounds();
        if bounds.width <= 0.0 {
            self.look(self.view.fitted(Rect::around(Point::default(), 640.0, 400.0)));
            self.follows = true;
            return;
        }
        if let Some(wheels) = self.plan_without_labels() {
            self.fit_plan(wheels);
            return;
        }
        self.look(self.view.fitted(bounds));
        // Seen from afar, labels are set anew in larger letters and take more room, from near in smaller ones: where a fit
        // for the one asks for the other, the room for both is shown.
        let mut room = self.bounds();
        for _ in 0..MOST_FITS {
            self.look(self.view.fitted(room));
            let bounds = self.bounds();
            if self.view.shows(bounds) {
                break;
            }
            room = room.union(&bounds);
        }
        self.follows = true;
    }

    /// Shows the whole plan. Its labels keep their size on the screen and so take the more millimetres the smaller it is
    /// shown: begun with the wheels alone, the drawing is made smaller only until the labels have room as well.
    fn fit_plan(&mut self, wheels: Rect) {
        self.look(self.view.fitted(wheels));
        for _ in 0..MOST_FITS {
            let fitted = self.view.fitted(self.bounds());
            if !self.needs_drawing_at(fitted) || fitted.zoom > self.view.zoom {
                self.look(fitted);
                break;
            }
            let zoom = fitted.zoom.max(self.view.zoom / SMALLER);
            let half = self.view.middle() * (1.0 / zoom);
            let origin = self.bounds().centre() - half;
            self.look(View {
                origin,
                zoom,
                ..self.view
            });
        }
        self.follows = true;
    }

    /// What the wheels and shafts of the plan take up, while it stands on the sheet.
    fn plan_without_labels(&self) -> Option<Rect> {
        if self.drawing != Drawing::Plan {
            return None;
        }
        let picture = self.picture()?;
        let reaches = picture.items.iter().flat_map(|item| &item.reach);
        reaches.map(Reach::bounds).reduce(|one, other| one.union(&other))
    }

    /// The drawing's size on the screen.
    pub(super) fn resize(&mut self, size: Size) {
        if size.width < 1.0 || size.height < 1.0 || !size.width.is_finite() || !size.height.is_finite() {
            return;
        }
        let middle = self.view.to_bench(self.view.middle());
        self.view.size = size;
        if self.follows {
            self.fit();
        } else {
            let half = self.view.middle() * (1.0 / self.view.zoom);
            self.view.origin = middle - half;
        }
    }

    pub(super) fn zoom(&mut self, at: Point, by: f64) {
        self.look(self.view.zoomed(at, by));
        self.follows = false;
    }

    /// Looks from somewhere else; the drawing is made anew only where its letters change their size.
    fn look(&mut self, view: View) {
        if self.needs_drawing_at(view) {
            self.redraw();
        }
        self.view = view;
    }

    pub(super) fn pan(&mut self, by: Point) {
        self.view = self.view.panned(by);
        self.follows = false;
    }

    /// Moves the view as little as needed to show a place; fits again where the view follows the layout anyway.
    pub(super) fn bring_into_view(&mut self, at: Point) {
        if self.follows {
            self.fit();
            return;
        }
        let rim = 70.0_f64
            .min(self.view.size.width / 4.0)
            .min(self.view.size.height / 4.0);
        let screen = self.view.to_screen(at);
        let inside = Point::new(
            screen.x.clamp(rim, self.view.size.width - rim),
            screen.y.clamp(rim, self.view.size.height - rim),
        );
        self.view = self.view.panned(inside - screen);
    }
}
