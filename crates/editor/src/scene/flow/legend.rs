//! The legend of a flow drawing: only signs that are on it.

use std::rc::Rc;

use super::super::items::{ElementItem, GroupItem, Mark, ShaftItem, Standing};
use super::super::pace::Pace;
use super::super::ribbon::WIDEST;
use super::Drawing;
use crate::legend::{Legend, PowerScale, Sign};
use crate::numbers;

impl Drawing<'_> {
    /// How much slower the marks turn than the shafts, or why they don't.
    fn slowness(&self, n_elements: usize) -> Option<String> {
        let slow = self.turning.legend();
        if Pace::for_elements(n_elements).moves() {
            return slow;
        }
        slow.map(|_| "A drawing of this size stands still; arrows show the senses".to_owned())
    }

    pub(super) fn legend(
        &self,
        shafts: &[Rc<ShaftItem>],
        elements: &[Rc<ElementItem>],
        groups: &[Rc<GroupItem>],
    ) -> Legend {
        let standing = |standing| shafts.iter().any(|shaft| shaft.standing == standing);
        let marked = |wanted| {
            let mut marks = elements.iter().filter_map(|element| element.mark);
            marks.any(|(mark, _)| mark == wanted)
        };
        let signs = [
            (
                !shafts.is_empty(),
                Sign::Shaft,
                "A shaft; its mark turns clockwise for a positive speed",
            ),
            (
                shafts.iter().any(|shaft| shaft.is_drive),
                Sign::Drive,
                "The drive: ratios are turns for one of its turns",
            ),
            (
                self.scale.is_some(),
                Sign::Power,
                "Power, flowing the way the chevrons point",
            ),
            (
                elements.iter().any(|element| element.loss.is_some())
                    || groups.iter().any(|group| group.loss.is_some()),
                Sign::Loss,
                "Power that becomes heat",
            ),
            (
                elements.iter().any(|element| element.in_loop) || groups.iter().any(|group| group.in_loop),
                Sign::Loop,
                "Power that only goes round",
            ),
            (
                groups.iter().any(|group| group.folded),
                Sign::Folded,
                "A folded group: its parts are inside",
            ),
            (
                groups.iter().any(|group| !group.folded),
                Sign::Group,
                "What belongs to one group",
            ),
            (standing(Standing::Held), Sign::Held, "Held still"),
            (
                standing(Standing::Free),
                Sign::Free,
                "Free: nothing settles its speed",
            ),
            (
                elements
                    .iter()
                    .any(|element| element.open && element.mark.is_none()),
                Sign::Open,
                "Off in this position",
            ),
            (
                marked(Mark::Overruns),
                Sign::Mark(Mark::Overruns),
                "Overruns: what it drives runs ahead",
            ),
            (marked(Mark::Slips), Sign::Mark(Mark::Slips), "Slips at its limit"),
            (
                marked(Mark::Holds),
                Sign::Mark(Mark::Holds),
                "Holds by its friction",
            ),
        ];
        Legend {
            scale: self.scale.map(|scale| PowerScale {
                width: WIDEST,
                text: numbers::power(scale.full).text(),
                rule: "Width is in proportion to power",
            }),
            slow: self.slowness(elements.len()).filter(|_| !shafts.is_empty()),
            signs: signs
                .into_iter()
                .filter(|(used, ..)| *used)
                .map(|(_, sign, words)| (sign, words))
                .collect(),
        }
    }
}
