//! What is dragged on a large drawing, in a picture of its own.

use std::rc::Rc;

use super::Session;
use crate::scene::{Afloat, Scene};

impl Session {
    /// The flow drawing in two, while something is dragged on a large one; none where it is to be shown whole.
    #[must_use]
    pub fn afloat(&self) -> Option<Rc<Afloat>> {
        let scene = self.scene();
        let base = self.base.borrow().clone();
        let base = base.filter(|_| self.moving.is_some() && !self.shows_run())?;
        let last = self.afloat.borrow_mut().take();
        let afloat = Afloat::of(&base, &scene, last.as_deref()).map(Rc::new);
        self.afloat.borrow_mut().clone_from(&afloat);
        afloat
    }

    /// Keeps the drawing that a gesture begins with until the gesture has ended.
    pub(super) fn keep_base(&self, before: Option<&Rc<Scene>>, drawn: &Scene) {
        let mut base = self.base.borrow_mut();
        *base = match base.take() {
            _ if self.moving.is_none() || !drawn.is_large() => None,
            None => before.cloned(),
            kept => kept,
        };
        if base.is_none() {
            self.afloat.replace(None);
        }
    }
}
