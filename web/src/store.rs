//! The session under Yew's reducer: one place for the state, and an outbox for what it asks the browser to do.

use std::cell::RefCell;
use std::rc::Rc;

use layshaft_editor::{Effect, Input, Session};
use yew::Reducible;

/// Effects that wait to be carried out. It is shared by all versions of the store, because inputs may come faster
/// than the page is drawn and none of their effects may be lost.
pub type Outbox = Rc<RefCell<Vec<Effect>>>;

/// The session and its outbox.
#[derive(Clone)]
pub struct Store {
    session: Session,
    outbox: Outbox,
    /// Counts the inputs, so that two states can be told apart without comparing all that is in them.
    turn: u64,
}

impl PartialEq for Store {
    fn eq(&self, other: &Self) -> bool {
        self.turn == other.turn
    }
}

impl Store {
    /// A store that begins with this session and what it asks for at once.
    pub fn new(session: Session, effects: Vec<Effect>) -> Self {
        Self {
            session,
            outbox: Rc::new(RefCell::new(effects)),
            turn: 0,
        }
    }

    /// The session.
    pub fn session(&self) -> &Session {
        &self.session
    }

    /// All effects that wait, in order; they wait no longer.
    pub fn take_effects(&self) -> Vec<Effect> {
        self.outbox.take()
    }
}

impl Reducible for Store {
    type Action = Input;

    fn reduce(mut self: Rc<Self>, input: Input) -> Rc<Self> {
        let store = Rc::make_mut(&mut self);
        store.turn += 1;
        let effects = store.session.handle(input);
        store.outbox.borrow_mut().extend(effects);
        self
    }
}
