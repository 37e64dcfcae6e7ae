//! Commands: every change of a layout as plain data that can be kept, sent and replayed.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::document::{Element, Group, Id, Plan, Position, Shaft, Stretch};

/// One change of a layout. Where it is a step of undo, it is the smallest one.
///
/// An `index` past the end of a list means its end.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Command {
    /// Several changes as one step; all of them or none.
    Batch(Vec<Command>),
    /// Names the layout.
    SetTitle(String),
    /// Sets the owner's notes.
    SetNotes(String),
    /// Chooses the drive shaft, or leaves it to the first source.
    SetDrive(Option<Id>),
    /// Chooses the material pair of meshes that give no loss, by its word in the file, or none.
    SetMaterialPair(Option<String>),
    /// Lays down the course.
    SetCourse(Vec<Stretch>),
    /// Sets all groups at once.
    SetGroups(Vec<Group>),
    /// Sets everything about the plan at once.
    SetPlan(Box<Plan>),
    /// Sets or removes a part of the file that is carried for others.
    SetCarried {
        /// Which part.
        name: String,
        /// What it is to be; none: removed.
        value: Option<Value>,
    },

    /// Adds a shaft.
    AddShaft {
        /// Where in the list.
        index: usize,
        /// The shaft.
        shaft: Shaft,
    },
    /// Removes a shaft with the elements on it; a vehicle with other driven wheels only loses this one.
    RemoveShaft {
        /// Which one.
        id: Id,
    },
    /// Puts a shaft in the place of the one that has its id.
    ReplaceShaft {
        /// The shaft.
        shaft: Shaft,
    },
    /// Moves shafts on the drawing.
    MoveShafts {
        /// Which ones, and where to.
        moves: Vec<(Id, [f64; 2])>,
    },
    /// Gives a shaft another id, everywhere it is named.
    RenameShaft {
        /// Its id.
        from: Id,
        /// Its id from now on.
        to: Id,
    },

    /// Adds an element.
    AddElement {
        /// Where in the list.
        index: usize,
        /// The element.
        element: Element,
    },
    /// Removes an element, also from the positions that engage it.
    RemoveElement {
        /// Which one.
        id: Id,
    },
    /// Puts an element in the place of the one that has its id.
    ReplaceElement {
        /// The element.
        element: Element,
    },
    /// Moves the symbols of elements on the drawing.
    MoveElements {
        /// Which ones, and where to; none: between their shafts.
        moves: Vec<(Id, Option<[f64; 2]>)>,
    },
    /// Gives an element another id, everywhere it is named.
    RenameElement {
        /// Its id.
        from: Id,
        /// Its id from now on.
        to: Id,
    },
    /// Puts one end of an element on another shaft.
    SetPort {
        /// Which element.
        element: Id,
        /// Which end; see [`Element::ports`].
        role: String,
        /// The shaft, or `frame`.
        shaft: Id,
    },
    /// Sets one field of a shaft or element.
    SetField {
        /// Whose field.
        owner: Owner,
        /// Which field, such as `teeth.0`.
        field: String,
        /// Its value as in the file; none: left out.
        value: Option<Value>,
    },

    /// Adds a position.
    AddPosition {
        /// Where in the list.
        index: usize,
        /// The position.
        position: Position,
    },
    /// Removes a position with the torque switches that shift from or to it.
    RemovePosition {
        /// Which one.
        id: Id,
    },
    /// Gives a position another id, everywhere it is named; its name for people stays.
    RenamePosition {
        /// Its id.
        from: Id,
        /// Its id from now on.
        to: Id,
    },
    /// Puts a position in the place of the one that has its id.
    ReplacePosition {
        /// The position.
        position: Position,
    },
    /// Names a position, for people.
    NamePosition {
        /// Which one.
        id: Id,
        /// Its name.
        name: String,
    },
    /// Moves a position to another place in the row.
    MovePosition {
        /// Which one.
        id: Id,
        /// Its place afterwards.
        to: usize,
    },
    /// Engages or disengages a clutch or brake in a position.
    SetEngaged {
        /// In which position; `only` also where no position is written.
        position: Id,
        /// Which clutch or brake.
        element: Id,
        /// On or off.
        engaged: bool,
    },
}

/// What a field belongs to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Owner {
    /// A shaft.
    Shaft(Id),
    /// An element.
    Element(Id),
}
