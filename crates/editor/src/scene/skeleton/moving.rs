//! What a drag on the skeleton comes to: an axis with all that is on it goes up or down, an element goes along its axis.

use layshaft_layout::{Command, Layout};

use super::adjust::Adjusted;
use super::setting::Setting;
use crate::geometry::Point;
use crate::target::Target;

/// The change that moves these things by so much; none where there is nothing to move.
#[must_use]
pub fn moved(layout: &Layout, drive: Option<usize>, targets: &[Target], by: Point) -> Option<Command> {
    let mut adjusted = Adjusted::of(layout);
    let setting = Setting::of(layout, drive, &adjusted);
    let before = adjusted.clone();
    for target in targets {
        match target {
            Target::Shaft(id) => {
                let number = layout.shafts.iter().position(|shaft| shaft.id == *id)?;
                let axis = setting.train.pieces[number].axis;
                for (shaft, piece) in layout.shafts.iter().zip(&setting.train.pieces) {
                    if piece.axis == axis {
                        adjusted.rows.remove(&shaft.id);
                    }
                }
                adjusted
                    .rows
                    .insert(id.clone(), (setting.ys[axis] + by.y).round());
            }
            Target::Element(id) => {
                let number = layout.elements.iter().position(|element| element.id == *id)?;
                let station = setting
                    .train
                    .stations
                    .iter()
                    .position(|station| station.element == Some(number))?;
                adjusted
                    .columns
                    .insert(id.clone(), (setting.xs[station] + by.x).round());
            }
            _ => {}
        }
    }
    (adjusted != before).then(|| adjusted.command(layout))
}

/// The change that leaves everything where the drawing puts it by itself; none where it is there.
#[must_use]
pub fn set_out_anew(layout: &Layout) -> Option<Command> {
    (!Adjusted::of(layout).is_empty()).then(|| Adjusted::default().command(layout))
}
