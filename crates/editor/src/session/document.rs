//! The document: the layout as last done, its history, and what each change is called.

use std::rc::Rc;

use layshaft_layout::{Command, History, Layout, Refusal};

use super::shelf::Held;

/// A layout with all that was done to it.
#[derive(Clone, Debug)]
pub struct Document {
    layout: Rc<Layout>,
    history: Rc<History>,
    done: Rc<Vec<String>>,
    undone: Rc<Vec<String>>,
    /// The record on the shelf that this is; none while nothing was changed.
    pub held: Option<Held>,
}

impl Document {
    /// A layout to which nothing was done yet.
    pub fn new(layout: Layout) -> Self {
        Self {
            layout: Rc::new(layout),
            history: Rc::default(),
            done: Rc::default(),
            undone: Rc::default(),
            held: None,
        }
    }

    /// A record of the shelf.
    pub fn held(layout: Layout, held: Held) -> Self {
        Self {
            held: Some(held),
            ..Self::new(layout)
        }
    }

    /// Whether this is the record with this id.
    pub fn is_record(&self, id: &str) -> bool {
        self.held.as_ref().is_some_and(|held| &*held.id == id)
    }

    /// The layout as last done.
    pub fn layout(&self) -> &Rc<Layout> {
        &self.layout
    }

    /// Carries out a command as one step.
    pub fn carry_out(&mut self, command: Command, name: &str) -> Result<(), Refusal> {
        Rc::make_mut(&mut self.history).do_command(Rc::make_mut(&mut self.layout), command)?;
        Rc::make_mut(&mut self.done).push(name.to_owned());
        self.undone = Rc::default();
        Ok(())
    }

    /// Takes the last step back and gives its name.
    pub fn undo(&mut self) -> Option<String> {
        if !Rc::make_mut(&mut self.history).undo(Rc::make_mut(&mut self.layout)) {
            return None;
        }
        let name = Rc::make_mut(&mut self.done).pop().unwrap_or_default();
        Rc::make_mut(&mut self.undone).push(name.clone());
        Some(name)
    }

    /// Does the last step that was taken back again and gives its name.
    pub fn redo(&mut self) -> Option<String> {
        if !Rc::make_mut(&mut self.history).redo(Rc::make_mut(&mut self.layout)) {
            return None;
        }
        let name = Rc::make_mut(&mut self.undone).pop().unwrap_or_default();
        Rc::make_mut(&mut self.done).push(name.clone());
        Some(name)
    }

    /// Names of all steps that undo would take back, the last one last.
    pub fn done_names(&self) -> &[String] {
        &self.done
    }

    /// The layout as it was so many steps ago, or as it was opened where there were fewer.
    pub fn steps_back(&self, steps: usize) -> Rc<Layout> {
        let mut earlier = self.clone();
        for _ in 0..steps {
            if earlier.undo().is_none() {
                break;
            }
        }
        earlier.layout
    }

    /// The name of the step that undo would take back.
    pub fn undo_name(&self) -> Option<&String> {
        self.done.last()
    }

    /// The name of the step that redo would do again.
    pub fn redo_name(&self) -> Option<&String> {
        self.undone.last()
    }
}
