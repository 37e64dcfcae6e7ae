//! Two fingers: the view follows both, whatever tool is in hand.

use super::{Deed, Phase, Pointer, PointerKind};
use crate::geometry::Point;

/// Fingers that are down.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Pinch {
    fingers: Vec<(i32, Point)>,
}

impl Pinch {
    /// Takes an event of any pointer. Gives what is to be done, or none where fewer than two fingers are down and the
    /// tool in hand should have the event.
    pub fn transition(&mut self, pointer: &Pointer) -> Option<Vec<Deed>> {
        if pointer.kind != PointerKind::Touch {
            return None;
        }
        match pointer.phase {
            Phase::Down => self.fingers.push((pointer.id, pointer.at)),
            Phase::Move if self.fingers.len() >= 2 => return Some(self.moved(pointer)),
            Phase::Move => self.keep(pointer),
            Phase::Up | Phase::Cancel | Phase::Leave => {
                let was_pinching = self.fingers.len() >= 2;
                self.fingers.retain(|(id, _)| *id != pointer.id);
                if was_pinching {
                    return Some(Vec::new());
                }
            }
        }
        (self.fingers.len() >= 2).then(Vec::new)
    }

    /// Whether two fingers are down, so that a gesture of one must be given up.
    #[must_use]
    pub fn is_active(&self) -> bool {
        self.fingers.len() >= 2
    }

    fn keep(&mut self, pointer: &Pointer) {
        if let Some(finger) = self.fingers.iter_mut().find(|(id, _)| *id == pointer.id) {
            finger.1 = pointer.at;
        }
    }

    fn moved(&mut self, pointer: &Pointer) -> Vec<Deed> {
        let before = (self.fingers[0].1, self.fingers[1].1);
        self.keep(pointer);
        let after = (self.fingers[0].1, self.fingers[1].1);
        let (old, new) = (before.0.distance(before.1), after.0.distance(after.1));
        let centre = after.0.middle(after.1);
        let mut deeds = vec![Deed::PanBy(centre - before.0.middle(before.1))];
        if old > 1.0 && new > 1.0 {
            deeds.push(Deed::ZoomBy(centre, new / old));
        }
        deeds
    }
}
