//! One person at one layout: what is on the bench, what is selected, what is going on; every gesture ends here.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::Report;

use crate::actions::{Action, Panel};
use crate::fields::Details;
use crate::geometry::{Point, Rect, Size};
use crate::keys::KeyPress;
use crate::scene::Scene;
use crate::table::Table;
use crate::target::{FieldRef, Target};
use crate::title_block::TitleBlock;
use crate::tools::{Pointer, Tool};
use crate::wording::Words;
use crate::working::WorkingSheet;

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
    /// Esc in a field.
    CancelEdit,
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
    /// The theme chosen earlier was read from the store.
    SetTheme(Theme),
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
    /// Save text as a file.
    Download {
        /// File name.
        name: String,
        /// Its text.
        text: String,
    },
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

/// One person at one layout.
#[derive(Clone, Debug)]
pub struct Session {
    layout: Rc<Layout>,
    report: Rc<Report>,
    selection: Rc<Selection>,
    position: Id,
    tool: Tool,
    view: View,
    panel: Option<Panel>,
    editing: Option<Editing>,
    message: Option<Message>,
    theme: Theme,
    hide_answers: bool,
}

impl Session {
    /// An empty bench.
    #[must_use]
    pub fn empty() -> Self {
        Self::new(Layout {
            title: "Untitled".to_owned(),
            notes: String::new(),
            drive: None,
            shafts: Vec::new(),
            elements: Vec::new(),
            positions: Vec::new(),
            carried: serde_json::Map::new(),
            last_number: 0,
        })
    }

    /// A bench with this layout on it, nothing to undo.
    #[must_use]
    pub fn new(layout: Layout) -> Self {
        Self {
            layout: Rc::new(layout),
            report: Rc::new(Report {
                drive: None,
                positions: Vec::new(),
                findings: Vec::new(),
            }),
            selection: Rc::default(),
            position: Id::from("only"),
            tool: Tool::Select,
            view: View {
                origin: Point::default(),
                zoom: 1.0,
                size: Size {
                    width: 800.0,
                    height: 600.0,
                },
            },
            panel: None,
            editing: None,
            message: None,
            theme: Theme::System,
            hide_answers: false,
        }
    }

    /// Takes what happened and says what the page is to do.
    pub fn handle(&mut self, input: Input) -> Vec<Effect> {
        let _ = input;
        Vec::new()
    }

    /// The layout as shown, with what is being dragged or typed.
    #[must_use]
    pub fn layout(&self) -> &Rc<Layout> {
        &self.layout
    }

    /// What is computed about it.
    #[must_use]
    pub fn report(&self) -> &Rc<Report> {
        &self.report
    }

    /// What is selected; the last one has the keyboard.
    #[must_use]
    pub fn selection(&self) -> &Rc<Selection> {
        &self.selection
    }

    /// The position shown.
    #[must_use]
    pub fn position(&self) -> &Id {
        &self.position
    }

    /// All positions with their names, the implied one too.
    #[must_use]
    pub fn positions(&self) -> Vec<(Id, String)> {
        Vec::new()
    }

    /// The tool in hand.
    #[must_use]
    pub fn tool(&self) -> Tool {
        self.tool
    }

    /// What to do next with the tool in hand: one line for the foot of the bench.
    #[must_use]
    pub fn hint(&self) -> String {
        String::new()
    }

    /// Where the bench is looked at.
    #[must_use]
    pub fn view(&self) -> View {
        self.view
    }

    /// The panel that is open.
    #[must_use]
    pub fn panel(&self) -> Option<Panel> {
        self.panel
    }

    /// The field being edited.
    #[must_use]
    pub fn editing(&self) -> Option<&Editing> {
        self.editing.as_ref()
    }

    /// The message over the bench.
    #[must_use]
    pub fn message(&self) -> Option<&Message> {
        self.message.as_ref()
    }

    /// The theme.
    #[must_use]
    pub fn theme(&self) -> Theme {
        self.theme
    }

    /// Whether answers are hidden.
    #[must_use]
    pub fn hides_answers(&self) -> bool {
        self.hide_answers
    }

    /// Whether there is something to undo, and what: `Undo delete g1`.
    #[must_use]
    pub fn undo_name(&self) -> Option<String> {
        None
    }

    /// Whether there is something to redo, and what.
    #[must_use]
    pub fn redo_name(&self) -> Option<String> {
        None
    }

    /// The drawing. Cached: asking twice costs nothing.
    #[must_use]
    pub fn scene(&self) -> Rc<Scene> {
        Rc::new(crate::scene::flow::scene(crate::scene::flow::FlowInput {
            layout: &self.layout,
            positions: &self.report.positions,
            drive: self.report.drive.as_ref(),
            position: &self.position,
            shown: crate::scene::Shown::default(),
            selected: &self.selection,
            lit: &[],
            hide_answers: self.hide_answers,
        }))
    }

    /// The most important finding, or a plain result.
    #[must_use]
    pub fn headline(&self) -> Words {
        Words {
            severity: crate::wording::Severity::Result,
            headline: self.layout.title.clone(),
            detail: String::new(),
            places: Vec::new(),
            position: None,
            repair: None,
            cautions: Vec::new(),
        }
    }

    /// The other findings, most important first.
    #[must_use]
    pub fn findings(&self) -> Vec<Words> {
        Vec::new()
    }

    /// The title block.
    #[must_use]
    pub fn title_block(&self) -> TitleBlock {
        TitleBlock {
            title: self.layout.title.clone(),
            position: String::new(),
            rows: Vec::new(),
        }
    }

    /// The ledger of the position shown; none while nothing could be computed.
    #[must_use]
    pub fn ledger(&self) -> Option<Table> {
        self.report
            .positions
            .first()
            .map(|position| crate::ledger::ledger(&self.layout, position, &self.selection, self.hide_answers))
    }

    /// All positions side by side.
    #[must_use]
    pub fn comparison(&self) -> Table {
        crate::comparison::comparison(&self.layout, &self.report, &self.position, self.hide_answers)
    }

    /// Fields and results of what is selected; of the layout where nothing is.
    #[must_use]
    pub fn details(&self) -> Option<Details> {
        None
    }

    /// The working of the shaft it was asked for.
    #[must_use]
    pub fn working(&self) -> Option<WorkingSheet> {
        None
    }

    /// The layout as a file's text, for the store: what was last done, not what is being previewed.
    #[must_use]
    pub fn file_text(&self) -> String {
        String::new()
    }

    /// The address fragment that holds the layout, for the share panel.
    #[must_use]
    pub fn link(&self) -> String {
        String::new()
    }
}
