//! Names and help of the actions that are no parts, demos or changes of kind, in the order of the list.

use super::{Action, Direction, LabelPart, Panel, PictureFile, PlanAct};
use crate::aligning::{Alignment, Axis};
use crate::choosing::Tab;
use crate::drawings::Drawing;
use crate::table::TableName;
use crate::units::Switchable;

/// Actions with fixed names, each with what it does.
pub(super) const NAMED: &[(Action, &str, &str)] = &[
    (Action::Undo, "Undo", "Take the last change back"),
    (Action::Redo, "Redo", "Do it again"),
    (
        Action::EditFirst,
        "Edit its number",
        "Edit the first number of what is selected where it stands",
    ),
    (
        Action::Step(1),
        "One more",
        "Step the first number of what is selected up",
    ),
    (
        Action::Step(-1),
        "One less",
        "Step the first number of what is selected down",
    ),
    (
        Action::Step(5),
        "Five more",
        "Step the first number of what is selected up by five",
    ),
    (
        Action::Step(-5),
        "Five less",
        "Step the first number of what is selected down by five",
    ),
    (
        Action::Delete,
        "Delete",
        "Delete what is selected; a shaft takes with it what sits on it",
    ),
    (
        Action::Duplicate,
        "Duplicate",
        "Copy what is selected a little below",
    ),
    (
        Action::Copy,
        "Copy",
        "Put what is selected on the clipboard, as the text of a layout file",
    ),
    (
        Action::Cut,
        "Cut",
        "Put what is selected on the clipboard and take it away",
    ),
    (
        Action::Paste,
        "Paste",
        "Put copied parts, the text of a layout file or a link on the bench",
    ),
    (
        Action::Align(Alignment::Left),
        "Align left",
        "Bring what is selected into line by the left edges",
    ),
    (
        Action::Align(Alignment::Centre),
        "Align in a column",
        "Set what is selected centre below centre",
    ),
    (
        Action::Align(Alignment::Right),
        "Align right",
        "Bring what is selected into line by the right edges",
    ),
    (
        Action::Align(Alignment::Top),
        "Align at the top",
        "Bring what is selected into line by the upper edges",
    ),
    (
        Action::Align(Alignment::Middle),
        "Align in a row",
        "Set what is selected middle beside middle",
    ),
    (
        Action::Align(Alignment::Bottom),
        "Align at the bottom",
        "Bring what is selected into line by the lower edges",
    ),
    (
        Action::SpreadOut(Axis::Across),
        "Spread out across",
        "Distribute what is selected at equal distances from left to right",
    ),
    (
        Action::SpreadOut(Axis::Down),
        "Spread out down",
        "Distribute what is selected at equal distances from top to bottom",
    ),
    (
        Action::Group,
        "Group",
        "Name what is selected as a sub-assembly that moves as one and folds into one",
    ),
    (
        Action::Ungroup,
        "Ungroup",
        "Dissolve the selected group; what was in it stays",
    ),
    (
        Action::Fold,
        "Fold or open the group",
        "Draw the selected group as one thing, or its parts again",
    ),
    (
        Action::Rename,
        "Name the group",
        "Give the selected group another name",
    ),
    (Action::Menu, "Menu", "What can be done with what is selected"),
    (
        Action::SelectArea,
        "Select an area",
        "Draw a rectangle round what is to be selected",
    ),
    (
        Action::SelectAll,
        "Select everything",
        "Select all shafts and elements",
    ),
    (
        Action::ToggleEngaged,
        "Engage or release",
        "Switch the selected clutch or brake in the position shown",
    ),
    (
        Action::MakeDrive,
        "Refer ratios to this shaft",
        "Let the selected shaft be the one whose ratio is 1",
    ),
    (
        Action::PlaceAgain,
        "Place again",
        "Place the part placed last once more, with its numbers",
    ),
    (
        Action::Join,
        "Join to another shaft",
        "Choose a second shaft with the arrow keys; the part placed next joins the two",
    ),
    (
        Action::InsertIdler,
        "Insert an idler",
        "Between the gears of the selected mesh: the ratio stays, the sense turns round",
    ),
    (
        Action::InsertStage,
        "Insert a stage",
        "A gear mesh behind the selected connection; what lies beyond moves on",
    ),
    (
        Action::Reverse,
        "Turn round",
        "The selected part with its ends exchanged, teeth and all",
    ),
    (
        Action::MergeShafts,
        "Make one shaft of two",
        "Lead all that sits on the shaft selected last to the one selected first",
    ),
    (
        Action::SplitShaft,
        "Give ends a shaft of their own",
        "The selected parts leave the selected shaft for a new one",
    ),
    (
        Action::Arrange,
        "Arrange",
        "Set everything out anew: sources left, loads right, parallel paths above one another",
    ),
    (
        Action::ArrangeSelected,
        "Arrange what is selected",
        "Set the selected shafts out anew; the rest stays where it is",
    ),
    (
        Action::GoToDrive,
        "Go to the drive",
        "To the shaft whose ratio is 1",
    ),
    (
        Action::GoToOutput,
        "Go to the output",
        "To the shaft of the first winch, vehicle or load",
    ),
    (
        Action::SetSkeletonOut,
        "Set the skeleton out anew",
        "Put back what was moved by hand on the skeleton; there, the key of Arrange does the same",
    ),
    (
        Action::Go(Direction::Right),
        "Go right",
        "Go to the connected part on the right",
    ),
    (
        Action::Go(Direction::Left),
        "Go left",
        "Go to the connected part on the left",
    ),
    (
        Action::Go(Direction::Up),
        "Go up",
        "Go to the connected part above",
    ),
    (
        Action::Go(Direction::Down),
        "Go down",
        "Go to the connected part below",
    ),
    (
        Action::NextPart,
        "Next part",
        "Go to the next part in the order they were placed",
    ),
    (
        Action::PreviousPart,
        "Previous part",
        "Go to the previous part in the order they were placed",
    ),
    (
        Action::Extend(Direction::Right),
        "Select to the right too",
        "Keep what is selected: a part placed next joins them",
    ),
    (
        Action::Extend(Direction::Left),
        "Select to the left too",
        "Keep what is selected: a part placed next joins them",
    ),
    (
        Action::Nudge(Direction::Right),
        "Move right",
        "Move what is selected by one grid step",
    ),
    (
        Action::Nudge(Direction::Left),
        "Move left",
        "Move what is selected by one grid step",
    ),
    (
        Action::Nudge(Direction::Up),
        "Move up",
        "Move what is selected by one grid step",
    ),
    (
        Action::Nudge(Direction::Down),
        "Move down",
        "Move what is selected by one grid step",
    ),
    (
        Action::NextPosition,
        "Next position",
        "Show the next shift position",
    ),
    (
        Action::PreviousPosition,
        "Previous position",
        "Show the previous shift position",
    ),
    (
        Action::AddPosition,
        "Add a position",
        "Add a shift position as a copy of the one shown",
    ),
    (
        Action::RemovePosition,
        "Remove the position shown",
        "The others stay as they are",
    ),
    (
        Action::Fit,
        "Show the whole layout",
        "Fit the drawing into the view",
    ),
    (Action::ZoomIn, "Zoom in", "Larger"),
    (Action::ZoomOut, "Zoom out", "Smaller"),
    (
        Action::ActualSize,
        "Actual size",
        "One unit of the bench to one pixel",
    ),
    (Action::PanTool, "Hand", "Drag the sheet with the pointer"),
    (Action::SelectTool, "Arrow", "Select and drag with the pointer"),
    (
        Action::ToggleLabel(LabelPart::Ratio),
        "Ratios on labels",
        "Show or leave out ratios on the drawing",
    ),
    (
        Action::ToggleLabel(LabelPart::Speed),
        "Speeds on labels",
        "Show or leave out speeds on the drawing",
    ),
    (
        Action::ToggleLabel(LabelPart::Torque),
        "Torques on labels",
        "Show or leave out torques on the drawing",
    ),
    (
        Action::ToggleLabel(LabelPart::Power),
        "Powers on labels",
        "Show or leave out powers on the drawing",
    ),
    (
        Action::ToggleLabel(LabelPart::Efficiency),
        "Efficiencies on labels",
        "Show or leave out efficiencies on the drawing",
    ),
    (Action::Show(Drawing::Flow), "Flow drawing", Drawing::Flow.help()),
    (
        Action::Show(Drawing::Skeleton),
        "Skeleton drawing",
        Drawing::Skeleton.help(),
    ),
    (Action::Show(Drawing::Plan), "Plan drawing", Drawing::Plan.help()),
    (
        Action::Plan(PlanAct::Slower),
        "Turn the plan slower",
        "Gears on the plan turn slower, true to one another",
    ),
    (
        Action::Plan(PlanAct::Faster),
        "Turn the plan faster",
        "Gears on the plan turn faster, true to one another",
    ),
    (
        Action::Plan(PlanAct::Stand),
        "Stop or turn the plan",
        "Gears on the plan stand still, or turn again",
    ),
    (
        Action::Plan(PlanAct::NextLayer),
        "Next layer of the plan",
        "Show the plan layer by layer, then all of them",
    ),
    (
        Action::Plan(PlanAct::Layer(None)),
        "All layers of the plan",
        "Show all layers of the plan over one another",
    ),
    (
        Action::Plan(PlanAct::Lift),
        "Lift layers of the plan apart",
        "Show the layers of the plan beside one another",
    ),
    (
        Action::Plan(PlanAct::PlaceAnew),
        "Place from tooth counts anew",
        "Forget where shafts were put on the plan",
    ),
    (
        Action::Plan(PlanAct::SaveOutlines),
        "Save gear outlines",
        "An SVG of every gear, true to size, for cutting; read the cautions in it",
    ),
    (
        Action::HideAnswers,
        "Hide answers",
        "Replace results by blanks so that a group can work them out",
    ),
    (
        Action::Toggle(Panel::Details),
        "Details",
        "Fields and results of what is selected",
    ),
    (
        Action::Toggle(Panel::Ledger),
        "Ledger",
        "Table of all shafts and connections",
    ),
    (
        Action::Toggle(Panel::Working),
        "Working",
        "The arithmetic of a ratio, step by step",
    ),
    (
        Action::Toggle(Panel::Positions),
        "Positions",
        "Name positions, engage clutches and brakes, compare",
    ),
    (
        Action::Toggle(Panel::Run),
        "Run",
        "A course or a lift in time: plots, events, playing",
    ),
    (
        Action::Toggle(Panel::Choose),
        "Choose",
        "Vary numbers, find gears and arrangements, compare variants",
    ),
    (
        Action::Choose(Tab::Sweep),
        "Vary a number",
        "Plot results over one or two numbers of the layout",
    ),
    (
        Action::Choose(Tab::Gears),
        "Find gears",
        "Trains of your gears for a wanted ratio",
    ),
    (
        Action::Choose(Tab::TwoSpeeds),
        "Find a two-speed arrangement",
        "The standard ways to two speeds, sized from your gears and ranked",
    ),
    (
        Action::Choose(Tab::Influence),
        "What matters",
        "Which numbers move a result, and how far it is known",
    ),
    (
        Action::Choose(Tab::Compare),
        "Compare variants",
        "Layouts, positions or past states side by side",
    ),
    (
        Action::Run,
        "Start the run",
        "Run the layout over its course or lift, and play it",
    ),
    (
        Action::PlayRun,
        "Play the run",
        "Play the run on the drawing, or stop it",
    ),
    (
        Action::Toggle(Panel::Layouts),
        "Layouts",
        "Your layouts kept in this browser, demos, files and the empty bench",
    ),
    (
        Action::Toggle(Panel::Legend),
        "Legend",
        "What the signs on the drawing mean",
    ),
    (Action::Toggle(Panel::Actions), "All actions", "This list"),
    (
        Action::Share,
        "Share",
        "Make a link that holds the whole layout, and copy it",
    ),
    (
        Action::Download,
        "Save as a file",
        "Save the layout as a file on this device",
    ),
    (
        Action::DownloadAll,
        "Save all layouts as one file",
        "Everything on the shelf in one file, to be opened here or elsewhere",
    ),
    (
        Action::WorkOnCopy,
        "Work on a copy",
        "Leave the layout on the shelf as it is and go on with a copy",
    ),
    (
        Action::EmptyBench,
        "Empty bench",
        "Start over; the old layout stays on the shelf, and undo brings it back",
    ),
    (
        Action::ChangeTheme,
        "Change colours",
        "Paper, slate, or as the system says",
    ),
    (
        Action::Toggle(Panel::Build),
        "Build sheet",
        "Drawing, parts list, ratios and predictions to print and build by",
    ),
    (
        Action::Print,
        "Print",
        "Print the build sheet where it is open, else the drawing",
    ),
    (
        Action::SaveDrawing(PictureFile::Svg),
        "Save drawing as SVG",
        "The whole drawing with legend and title block, as lines and text",
    ),
    (
        Action::SaveDrawing(PictureFile::Png),
        "Save drawing as PNG",
        "The whole drawing with legend and title block, as pixels",
    ),
    (
        Action::SaveTable(TableName::Parts),
        "Save the parts list",
        "As comma-separated values, for a spreadsheet",
    ),
    (
        Action::SaveTable(TableName::Ledger),
        "Save the ledger",
        "As comma-separated values, every digit, for a spreadsheet",
    ),
    (
        Action::CopyTable(TableName::Ledger),
        "Copy the ledger",
        "With tabs between the columns, to be pasted into a spreadsheet",
    ),
    (
        Action::SaveTable(TableName::Positions),
        "Save the table of positions",
        "As comma-separated values, every digit, for a spreadsheet",
    ),
    (
        Action::CopyTable(TableName::Positions),
        "Copy the table of positions",
        "With tabs between the columns, to be pasted into a spreadsheet",
    ),
    (
        Action::Toggle(Panel::Settings),
        "Settings",
        "Units in which numbers are shown, and colours",
    ),
    (
        Action::NextUnit(Switchable::Speed),
        "Next unit of speed",
        "Show speeds of rotation in rpm or rad/s",
    ),
    (
        Action::NextUnit(Switchable::Torque),
        "Next unit of torque",
        "Show torques in N·m, N·cm, kgf·cm or oz·in",
    ),
    (
        Action::NextUnit(Switchable::Force),
        "Next unit of force",
        "Show forces in N or kgf",
    ),
    (
        Action::NextUnit(Switchable::Length),
        "Next unit of length",
        "Show lengths in mm or in",
    ),
    (
        Action::Cancel,
        "Back out",
        "Leave what is going on, and put it back",
    ),
];
