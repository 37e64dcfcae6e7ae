//! Everything that can be done, each with a name and a key; the menu, the searchable list and the keys read this.

mod named;

use crate::aligning::{Alignment, Axis};
use crate::catalogue::{Kind, entries};
use crate::choosing::Tab;
use crate::demos::DEMOS;
use crate::drawings::Drawing;
use crate::geometry::Point;
use crate::keys::key_of;
use crate::swapping::siblings;
use crate::table::TableName;
use crate::units::Switchable;
use named::NAMED;

/// A direction on the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Upwards.
    Up,
    /// Downwards.
    Down,
}

impl Direction {
    /// One unit this way.
    #[must_use]
    pub const fn vector(self) -> Point {
        match self {
            Self::Left => Point::new(-1.0, 0.0),
            Self::Right => Point::new(1.0, 0.0),
            Self::Up => Point::new(0.0, -1.0),
            Self::Down => Point::new(0.0, 1.0),
        }
    }
}

/// A kind of result on labels.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LabelPart {
    /// Ratios.
    Ratio,
    /// Speeds.
    Speed,
    /// Torques.
    Torque,
    /// Powers.
    Power,
    /// Efficiencies.
    Efficiency,
}

/// A sheet or panel beside the bench.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Panel {
    /// Fields of what is selected.
    Details,
    /// Table of all shafts and connections.
    Ledger,
    /// The arithmetic of a ratio.
    Working,
    /// Positions side by side.
    Positions,
    /// Demos and stored layouts.
    Layouts,
    /// The link and its field.
    Share,
    /// The searchable list of actions.
    Actions,
    /// What the signs mean.
    Legend,
    /// Runs in time.
    Run,
    /// Sweeps, gears, arrangements, influence, variants.
    Choose,
    /// Units and colours.
    Settings,
    /// What is printed to build by.
    Build,
}

/// Something that can be done on the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PlanAct {
    /// Turn slower.
    Slower,
    /// Turn faster.
    Faster,
    /// Stand still, or turn again.
    Stand,
    /// Show one layer, or all.
    Layer(Option<u32>),
    /// Show the next layer, after the last all.
    NextLayer,
    /// Show layers beside one another.
    Lift,
    /// Place shafts from tooth counts anew.
    PlaceAnew,
    /// Save the outlines of gears for cutting.
    SaveOutlines,
}

impl PlanAct {
    /// Whether it first finishes what is being typed.
    #[must_use]
    pub const fn changes_document(self) -> bool {
        matches!(self, Self::PlaceAnew | Self::SaveOutlines)
    }
}

/// A file that a drawing is saved as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PictureFile {
    /// Lines and text.
    Svg,
    /// Pixels, two for each on the screen.
    Png,
}

/// Something that can be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Action {
    /// Take the last change back.
    Undo,
    /// Do it again.
    Redo,
    /// Delete what is selected.
    Delete,
    /// Copy what is selected beside itself.
    Duplicate,
    /// Put what is selected on the clipboard.
    Copy,
    /// Put what is selected on the clipboard and take it away.
    Cut,
    /// Put what is on the clipboard on the bench.
    Paste,
    /// Bring what is selected into line.
    Align(Alignment),
    /// Set what is selected at equal distances.
    SpreadOut(Axis),
    /// Name what is selected as one.
    Group,
    /// Dissolve the selected group; what was in it stays.
    Ungroup,
    /// Fold the selected group into one thing, or open it.
    Fold,
    /// Give the selected group another name.
    Rename,
    /// Open the menu of what is selected.
    Menu,
    /// Take the rectangle in hand that selects what lies in it.
    SelectArea,
    /// Select everything.
    SelectAll,
    /// Back out of what is going on.
    Cancel,
    /// Show the whole layout.
    Fit,
    /// Larger.
    ZoomIn,
    /// Smaller.
    ZoomOut,
    /// One bench unit to one pixel.
    ActualSize,
    /// Take a kind in hand; with a shaft selected and by key, attach it there.
    Place(Kind),
    /// Take the selecting tool in hand.
    SelectTool,
    /// Take the panning tool in hand.
    PanTool,
    /// Edit the first number of what is selected.
    EditFirst,
    /// Step the first number of what is selected.
    Step(i32),
    /// Go to the connected part in this direction.
    Go(Direction),
    /// Go there and keep what is selected, so that a part placed next joins them.
    Extend(Direction),
    /// Move what is selected by one grid step.
    Nudge(Direction),
    /// Set all shafts out anew from the drive to the right.
    Arrange,
    /// Set what is selected out anew, the rest staying where it is.
    ArrangeSelected,
    /// Place the kind placed last once more, with its numbers.
    PlaceAgain,
    /// Choose a second shaft, anywhere, that the part placed next joins to the selected one.
    Join,
    /// Go to the shaft that ratios refer to.
    GoToDrive,
    /// Go to the shaft that the layout is made to turn.
    GoToOutput,
    /// Put an idler into the selected mesh.
    InsertIdler,
    /// Put a gear mesh behind the selected connection.
    InsertStage,
    /// Turn the selected elements round.
    Reverse,
    /// Put another kind in the place of the selected element, on the same shafts.
    ChangeInto(Kind),
    /// Make one shaft of the two selected ones.
    MergeShafts,
    /// Give the selected ends a shaft of their own.
    SplitShaft,
    /// Put everything on the skeleton where the drawing puts it by itself.
    SetSkeletonOut,
    /// Show or leave out one kind of result on labels.
    ToggleLabel(LabelPart),
    /// Go to the next part in document order.
    NextPart,
    /// Go to the previous part in document order.
    PreviousPart,
    /// Show position number n, from 0.
    Position(usize),
    /// Show the next position.
    NextPosition,
    /// Show the previous position.
    PreviousPosition,
    /// Add a position, as a copy of the current one.
    AddPosition,
    /// Remove the current position.
    RemovePosition,
    /// Engage or release the selected clutch or brake in the current position.
    ToggleEngaged,
    /// Let the selected shaft be the one that ratios refer to.
    MakeDrive,
    /// Run the layout in time, and play the run.
    Run,
    /// Play the run, or stop it.
    PlayRun,
    /// Hide or show answers.
    HideAnswers,
    /// Start over on an empty bench; undo brings the old layout back.
    EmptyBench,
    /// Open a demo, by its id.
    OpenDemo(&'static str),
    /// Make a link and copy it.
    Share,
    /// Save the layout as a file.
    Download,
    /// Save all layouts kept in the browser as one file.
    DownloadAll,
    /// Go on with a copy of the layout on the bench.
    WorkOnCopy,
    /// Change between paper, slate and what the system says.
    ChangeTheme,
    /// Save the drawing with legend and title block.
    SaveDrawing(PictureFile),
    /// Print the sheet that is shown.
    Print,
    /// Save a table as comma-separated values.
    SaveTable(TableName),
    /// Copy a table for a spreadsheet.
    CopyTable(TableName),
    /// Show numbers of a quantity in its next unit.
    NextUnit(Switchable),
    /// Open the sheet for choosing at one of its parts.
    Choose(Tab),
    /// Do something on the plan.
    Plan(PlanAct),
    /// Put another drawing of the layout on the sheet.
    Show(Drawing),
    /// Open a panel, or close it where it is open.
    Toggle(Panel),
}

/// An action as menus and the searchable list show it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ActionInfo {
    /// What it does when chosen.
    pub action: Action,
    /// Its name.
    pub name: String,
    /// One sentence about it.
    pub help: &'static str,
    /// Its key as people write it: `Ctrl+Z`; empty where it has none.
    pub key: String,
}

impl ActionInfo {
    fn new(action: Action, name: impl Into<String>, help: &'static str) -> Self {
        Self {
            key: key_of(&action),
            action,
            name: name.into(),
            help,
        }
    }
}

/// All actions that can be chosen from a list, in the order of the list.
#[must_use]
pub fn all() -> Vec<ActionInfo> {
    let placing = entries().iter().map(|entry| {
        ActionInfo::new(
            Action::Place(entry.kind),
            format!("Place {}", entry.name.to_lowercase()),
            entry.help,
        )
    });
    let named = NAMED
        .iter()
        .map(|(action, name, help)| ActionInfo::new(action.clone(), *name, help));
    let demos = DEMOS.iter().map(|demo| {
        ActionInfo::new(
            Action::OpenDemo(demo.id),
            format!("Open {}", demo.name),
            demo.story,
        )
    });
    let changing = entries()
        .iter()
        .filter(|entry| !siblings(entry.kind).is_empty())
        .map(|entry| {
            ActionInfo::new(
                Action::ChangeInto(entry.kind),
                format!("Change into {}", entry.name.to_lowercase()),
                "Put this kind in the place of the selected part, on the same shafts",
            )
        });
    placing.chain(named).chain(changing).chain(demos).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_key_but_those_of_parts_and_positions_is_in_the_list() {
        let listed = all();
        let has_key = |action: &Action| !key_of(action).is_empty();
        assert!(listed.iter().filter(|info| has_key(&info.action)).count() > 50);
        assert!(
            listed
                .iter()
                .all(|info| !info.name.is_empty() && !info.help.is_empty())
        );
    }

    #[test]
    fn no_name_stands_twice() {
        let names: std::collections::BTreeSet<String> = all().into_iter().map(|info| info.name).collect();
        assert_eq!(names.len(), all().len());
    }
}
