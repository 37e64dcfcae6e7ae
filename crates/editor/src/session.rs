//! One person at one layout: what is on the bench, what is selected, what is going on; every gesture ends here.
//!
//! The document proper is in `document` (what was done, undo), what is computed about it in `computed`. Inputs are
//! dealt with in `handle` and the files it leads to; what a page reads is in `reading`.

mod acts;
mod aligning;
mod applying;
mod changes;
mod choosing;
mod clipboard;
mod computed;
mod document;
mod edits;
mod export;
mod floating;
mod grouping;
mod handle;
mod hands;
mod joining;
mod menu;
mod moves;
mod opening;
mod pictures;
mod picturing;
mod places;
mod plan;
mod pointer;
mod reading;
mod results;
mod reworking;
mod running;
mod shelf;
mod shifting;
mod skeleton;
mod sought;
mod tables;
mod types;
mod typing;
mod units;
mod view;
mod walk;

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use layshaft_layout::{Command, Id, Layout};

pub use applying::{Listed, SelectionBar};
pub(crate) use opening::file_name_of;
pub use reworking::{KindChoice, Offer};
pub use types::*;

use crate::actions::Panel;
use crate::build_sheet::BuildChoice;
use crate::choosing::Choosing;
use crate::drawings::Drawing;
use crate::runs::Runs;
use crate::scene::{Afloat, Overlay, Picture, Scene, Shown};
use crate::table::{TableChoice, TableName};
use crate::target::Target;
use crate::tools::{Pinch, Placing, Selecting, Tool};
use crate::units::Units;
use computed::Computed;
use document::Document;
use hands::Hands;
use shelf::Shelf;
use sought::Sought;

/// One person at one layout.
#[derive(Clone, Debug)]
pub struct Session {
    document: Document,
    /// Documents that were replaced by opening another; undo goes back to them.
    before: Rc<Vec<Document>>,
    /// Documents that undo went back from.
    after: Rc<Vec<Document>>,
    /// The layout as shown: the document's, with what is being dragged or typed.
    shown: Rc<Layout>,
    computed: Computed,
    selection: Rc<Selection>,
    lit: Rc<Vec<Target>>,
    position: Id,
    tool: Tool,
    selecting: Selecting,
    placing: Placing,
    pinch: Pinch,
    overlay: Overlay,
    /// The change that a drag comes to where it is now.
    moving: Option<Command>,
    view: View,
    /// Whether the view still shows the whole layout and follows its size.
    follows: bool,
    panel: Option<Panel>,
    working_shaft: Option<Id>,
    revealed: Rc<BTreeSet<usize>>,
    /// Other states that fit, of the layout and position they were looked for in.
    sought: Option<Sought>,
    editing: Option<Editing>,
    /// The shaft that the next part joins to the one chosen with the arrow keys.
    joined_from: Option<Id>,
    /// The element placed last.
    placed_last: Option<Id>,
    message: Option<Message>,
    theme: Theme,
    /// Whether the system asks for dark colours.
    system_is_dark: bool,
    labels: Shown,
    hide_answers: bool,
    /// Units in which numbers are shown; copies are in `runs`.
    units: Units,
    /// How tables are wanted.
    tables: Rc<BTreeMap<TableName, TableChoice>>,
    /// What was chosen for the build sheet.
    build: BuildChoice,
    /// The row whose numbers are explained beside the working.
    explained: Option<(Target, usize)>,
    runs: Runs,
    choosing: Choosing,
    hands: Hands,
    /// Layouts kept in the browser.
    shelf: Shelf,
    /// Whether the sheet stands inside another page, to be looked at only.
    is_embedded: bool,
    scene: RefCell<Option<Rc<Scene>>>,
    /// The flow drawing made last, which the next one has most in common with.
    drawn: RefCell<Option<(Rc<Scene>, reading::MadeOf)>>,
    /// The flow drawing that a drag on a large one began with.
    base: RefCell<Option<Rc<Scene>>>,
    /// The same in two, as it was asked for last.
    afloat: RefCell<Option<Rc<Afloat>>>,
    /// Which drawing stands on the sheet.
    drawing: Drawing,
    /// Where the other drawings were looked at last, and whether they follow their size.
    looked: BTreeMap<Drawing, (View, bool)>,
    /// How the plan is looked at; the zoom is the view's.
    plan_look: crate::scene::PlanLook,
    /// The skeleton or plan, once drawn.
    picture: RefCell<Option<Rc<Picture>>>,
    /// The skeleton or plan drawn last, with what it was drawn from.
    pictured: RefCell<Option<(Rc<Picture>, picturing::PictureOf)>>,
    /// Plans laid out last.
    laid_out: RefCell<picturing::LaidOut>,
}

impl Session {
    /// An empty bench.
    #[must_use]
    pub fn empty() -> Self {
        Self::new(untitled())
    }

    /// A bench with this layout on it, nothing to undo.
    #[must_use]
    pub fn new(layout: Layout) -> Self {
        let document = Document::new(layout);
        let shown = document.layout().clone();
        let computed = Computed::of(&shown);
        let mut session = Self {
            document,
            before: Rc::default(),
            after: Rc::default(),
            position: first_position(&shown),
            shown,
            computed,
            selection: Rc::default(),
            lit: Rc::default(),
            tool: Tool::Select,
            selecting: Selecting::Idle,
            placing: Placing::Hovering,
            pinch: Pinch::default(),
            overlay: Overlay::default(),
            moving: None,
            view: View::default(),
            follows: true,
            panel: None,
            working_shaft: None,
            revealed: Rc::default(),
            sought: None,
            editing: None,
            joined_from: None,
            placed_last: None,
            message: None,
            theme: Theme::System,
            system_is_dark: false,
            labels: Shown::default(),
            hide_answers: false,
            units: Units::default(),
            tables: Rc::default(),
            build: BuildChoice::default(),
            explained: None,
            runs: Runs::default(),
            choosing: Choosing::default(),
            hands: Hands::default(),
            shelf: Shelf::default(),
            is_embedded: false,
            scene: RefCell::new(None),
            drawn: RefCell::new(None),
            base: RefCell::new(None),
            afloat: RefCell::new(None),
            drawing: Drawing::Flow,
            looked: BTreeMap::new(),
            plan_look: crate::scene::PlanLook::default(),
            picture: RefCell::new(None),
            pictured: RefCell::new(None),
            laid_out: RefCell::default(),
        };
        session.fit();
        session
    }
}

/// A layout with nothing in it.
fn untitled() -> Layout {
    Layout {
        title: "Untitled".to_owned(),
        ..Layout::new()
    }
}

fn first_position(layout: &Layout) -> Id {
    layout
        .effective_positions()
        .first()
        .map_or_else(|| Id::from("only"), |position| position.id.clone())
}

#[cfg(test)]
mod tests;
