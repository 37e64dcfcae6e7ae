//! What goes into a session and what comes out: inputs, effects, and the small states that a page shows.

use std::rc::Rc;

use layshaft_layout::Id;

use crate::actions::Action;
use crate::geometry::{Point, Rect, Size};
use crate::keys::KeyPress;
use crate::table::TableName;
use crate::target::{FieldRef, Target};
use crate::tools::Pointer;

/// Something that happened on the page.
#[derive(Clone, Debug, PartialEq)]
pub enum Input {
    /// A pointer on the drawing.
    Pointer(Pointer),
    /// A double click on the drawing, at a place on the screen.
    DoubleClick(Point),
    /// The wheel turned or a pinch: `by` > 1 is larger, about a place on the screen.
    Zoom {
        /// The place that stays where it is.
        at: Point,
        /// The factor.
        by: f64,
    },
    /// The view is moved by this much on the screen (two-finger scroll).
    PanBy(Point),
    /// A key went down on the bench (not while text is typed).
    Key(KeyPress),
    /// An action was chosen from a menu, a button or the list.
    Act(Action),
    /// A symbol was dragged from the tray and is over the drawing, at a place on the screen.
    TrayOver(crate::catalogue::Kind, Point),
    /// It was dropped there.
    TrayDrop(crate::catalogue::Kind, Point),
    /// It was taken away again.
    TrayLeave,
    /// The browser's focus came to a thing on the drawing or a row of a table.
    Focus(Target),
    /// A thing was pressed in a list or table; `add` keeps what is selected already.
    Select {
        /// The things.
        targets: Vec<Target>,
        /// Keep what is selected already.
        add: bool,
        /// Position to show, where the list speaks of one.
        position: Option<Id>,
    },
    /// Light these up while the pointer is over a finding or a line of working; empty for none.
    Light(Vec<Target>),
    /// Begin to edit a field where it stands.
    BeginEdit(FieldRef),
    /// Text was typed into a field: previewed at once.
    Type {
        /// The field.
        field: FieldRef,
        /// All of its text.
        text: String,
    },
    /// A field was left or Enter was pressed in it: what it says becomes one change.
    EndEdit,
    /// The focus went from the field on the drawing to something else: as [`Self::EndEdit`], but the focus stays there.
    LeaveEdit,
    /// Esc in a field.
    CancelEdit,
    /// Tab in a field on the drawing: on to the next number of the same thing, or back; behind the last one the edit ends.
    NextField {
        /// Back to the one before.
        back: bool,
    },
    /// An arrow key in a number field: steps (1, or 5 with shift; negative is down).
    StepField {
        /// The field.
        field: FieldRef,
        /// How many steps.
        by: i32,
    },
    /// A clutch or brake is engaged or released in a position.
    SetEngaged {
        /// The position.
        position: Id,
        /// The clutch or brake.
        element: Id,
        /// On or off.
        on: bool,
    },
    /// Several fields are set as one change (a repair, a result taken over).
    SetFields {
        /// Fields with their new texts.
        fields: Vec<(FieldRef, String)>,
        /// What the change is called in undo: `set efficiencies`.
        name: String,
    },
    /// A change is made as one step (a repair).
    Change {
        /// The change.
        command: Box<layshaft_layout::Command>,
        /// What it is called in undo: `add a brake`.
        name: String,
    },
    /// What is selected was put on the clipboard by the browser's own event ([`crate::Session::copied_text`]).
    Copied {
        /// It is taken away too.
        cut: bool,
    },
    /// This text is pasted: by the browser's own event, or as the answer to [`Effect::ReadClipboard`].
    Paste(String),
    /// This text was dropped on the page, from another page or program.
    Dropped(String),
    /// The file of the page's face, as the answer to [`Effect::ReadFace`]; none where it can't be read.
    Face {
        /// What the drawing is to be saved as.
        file: crate::actions::PictureFile,
        /// The file.
        face: Option<Rc<[u8]>>,
    },
    /// The browser did not let the page read the clipboard.
    PasteRefused,
    /// The browser did not let the page write to the clipboard.
    CopyRefused,
    /// What the message over the bench offers is taken.
    TakeOffer,
    /// The menu is asked for, at a place on the screen, by this kind of pointer.
    OpenMenu(Point, crate::tools::PointerKind),
    /// A line of the menu was chosen.
    ChooseFromMenu(usize),
    /// The menu is put away, and the focus goes back.
    CloseMenu,
    /// The focus has left the menu for something else.
    LeaveMenu,
    /// The list of actions is opened with this to search for.
    FindAction(String),
    /// A pointer has been down for half a second.
    LongPress(i32),
    /// The space bar went down or up.
    Space(bool),
    /// The page lost the keyboard.
    LetGo,
    /// These are deleted.
    Remove {
        /// The things.
        targets: Vec<Target>,
    },
    /// Show a position.
    Position(Id),
    /// Show the working of this shaft's ratio.
    Working(Id),
    /// Show the answer of line n of the working.
    Reveal(usize),
    /// Look for other states that fit, which takes a while.
    SeekOtherStates,
    /// The drawing's size on the screen became known or changed.
    Resize(Size),
    /// A layout file's text was read (file, store); replaces what is on the bench, undo brings it back.
    OpenText {
        /// The file's text.
        text: String,
        /// Where it came from, for the announcement: `trail-cart.layshaft.json`.
        name: String,
    },
    /// The part of the address after `#` as the page was opened or changed.
    OpenLink(String),
    /// A kind is placed by key, or a button worked by key: on what is selected, else on the middle of the view.
    PlaceHere(crate::catalogue::Kind),
    /// The theme chosen earlier was read from the store.
    SetTheme(Theme),
    /// Numbers of a quantity are shown in this unit, by its symbol.
    SetUnit(crate::units::Switchable, &'static str),
    /// The heading of a table's column was pressed.
    SortTable(TableName, &'static str),
    /// A column of a table is shown or left out.
    ShowColumn {
        /// The table.
        table: TableName,
        /// The column's title.
        column: &'static str,
        /// Shown or left out.
        shown: bool,
    },
    /// Drawing and paper of the build sheet were chosen.
    ChooseBuild(crate::build_sheet::BuildChoice),
    /// A number in a row of the ledger was pressed: say where it comes from.
    Explain {
        /// What the row speaks of.
        target: Target,
        /// Which of its ends.
        end: usize,
    },
    /// Units and tables as they were kept in the store, in the words of [`crate::Session::preferences`].
    SetPreferences(String),
    /// The system asks for dark colours, or no longer.
    SystemIsDark(bool),
    /// Something happened on the run sheet.
    Run(crate::runs::RunInput),
    /// Something happened on the sheet for choosing.
    Choose(crate::choosing::ChooseInput),
    /// Something happened to the layouts kept in the browser.
    Shelf(crate::shelf::ShelfInput),
    /// Dismiss the message that stands over the bench.
    DismissMessage,
}

/// What the page is to do.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Say this to screen readers (polite live region).
    Announce(String),
    /// Move the browser's focus to this thing on the drawing.
    Focus(Target),
    /// Move the browser's focus to the field being edited and select its text.
    FocusField(FieldRef),
    /// Move the focus back to the drawing.
    FocusBench,
    /// The document changed: store it.
    Save,
    /// Theme or another preference changed: store it.
    SavePreferences,
    /// Copy this address fragment (to be put behind the page's own address) and show it.
    CopyLink(String),
    /// Copy this text; [`Input::CopyRefused`] where the browser does not let the page.
    CopyText(String),
    /// Hand back what is on the clipboard ([`Input::Paste`], [`Input::PasteRefused`]).
    ReadClipboard,
    /// Save text as a file.
    Download {
        /// File name.
        name: String,
        /// Its text.
        text: String,
    },
    /// Read the file of the page's face and hand it back ([`Input::Face`]): the drawing is saved then.
    ReadFace(crate::actions::PictureFile),
    /// Save a drawing as a picture of pixels.
    DownloadPicture {
        /// File name.
        name: String,
        /// The drawing.
        sheet: Box<crate::export::Sheet>,
    },
    /// Print what is shown.
    Print,
    /// Carry out a run and hand back what came of it ([`crate::runs::RunInput::Done`]).
    Run(crate::runs::RunJob),
    /// Carry out long work and tell of it ([`crate::choosing::ChooseInput::News`]).
    Compute {
        /// Its number.
        number: crate::choosing::WorkNumber,
        /// The work.
        job: Rc<crate::choosing::Job>,
    },
    /// Nobody waits for this work any more.
    StopComputing(crate::choosing::WorkNumber),
    /// Something is to be done about the layouts kept in the browser.
    Shelf(crate::shelf::ShelfEffect),
    /// The browser should keep this pointer (`setPointerCapture`).
    CapturePointer(i32),
}

/// What is selected, in the order of selecting; the last one has the keyboard.
pub type Selection = Vec<Target>;

/// Which colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Theme {
    /// What the system says.
    #[default]
    System,
    /// Warm paper.
    Paper,
    /// Blackboard.
    Slate,
}

/// Where the bench is looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// The bench point in the top left corner.
    pub origin: Point,
    /// Screen pixels per bench unit.
    pub zoom: f64,
    /// The drawing's size on the screen.
    pub size: Size,
    /// Least and greatest zoom of the drawing looked at.
    pub zooms: (f64, f64),
    /// Zoom that fitting does not go beyond.
    pub largest_fit: f64,
}

impl View {
    /// From the screen to the bench.
    #[must_use]
    pub fn to_bench(&self, at: Point) -> Point {
        self.origin + at * (1.0 / self.zoom)
    }

    /// From the bench to the screen.
    #[must_use]
    pub fn to_screen(&self, at: Point) -> Point {
        (at - self.origin) * self.zoom
    }

    /// How far, in pixels, a picture made for another view has to be moved to show this one; none where it would have to be
    /// made larger or smaller, or lies further off than a picture reaches.
    #[must_use]
    pub fn way_from(&self, made_for: &Self) -> Option<Point> {
        let way = (made_for.origin - self.origin) * self.zoom;
        let same_size = self.zoom == made_for.zoom && self.size == made_for.size;
        let near = way.x.abs() < self.size.width && way.y.abs() < self.size.height;
        (same_size && near).then_some(way)
    }

    /// Value for the SVG's `viewBox`.
    #[must_use]
    pub fn view_box(&self) -> String {
        format!(
            "{} {} {} {}",
            self.origin.x,
            self.origin.y,
            self.size.width / self.zoom,
            self.size.height / self.zoom
        )
    }
}

/// A field being edited.
#[derive(Clone, Debug, PartialEq)]
pub struct Editing {
    /// The field.
    pub field: FieldRef,
    /// What is in it.
    pub text: String,
    /// What it is: `teeth on motor`.
    pub spoken: String,
    /// What is wrong with it; the last good layout stays.
    pub problem: Option<String>,
    /// Where it stands on the drawing (bench coordinates), when it was begun there; none in the panel.
    pub place: Option<Rect>,
    /// Nothing was typed yet since it opened by itself behind a part that was placed: keys that begin no number still
    /// mean what they mean on the bench ([`crate::keys::leaves_number`]).
    pub fresh: bool,
    /// What has the keyboard once the edit ends; none: the thing that the field belongs to.
    pub then: Option<Target>,
}

/// A message that stands over the bench until dismissed: a link that could not be opened, a refusal.
#[derive(Clone, Debug, PartialEq)]
pub struct Message {
    /// One sentence: what is wrong.
    pub text: String,
    /// All that is wrong with a file, each with its path.
    pub lines: Vec<String>,
    /// Whether something failed (as against: something was done).
    pub is_error: bool,
}
