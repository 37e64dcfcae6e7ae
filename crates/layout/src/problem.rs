//! What can be wrong with a layout's text: typed problems with their evidence, each with its plain sentence.

mod limits;
mod sentences;

use std::fmt;

pub use limits::{Counted, Range};

/// A problem with the place in the file where it was found.
#[derive(Clone, Debug, PartialEq)]
pub struct DocumentError {
    /// Path into the file, such as `elements[3].teeth[0]`; empty where the text as a whole is meant.
    pub path: String,
    /// What is wrong there.
    pub problem: Problem,
}

impl fmt::Display for DocumentError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.path.is_empty() {
            write!(f, "{}", self.problem)
        } else {
            write!(f, "{}: {}", self.path, self.problem)
        }
    }
}

impl std::error::Error for DocumentError {}

/// What is wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Problem {
    /// The text is longer than is read.
    TextTooLong {
        /// Its length in bytes.
        bytes: usize,
        /// The most that is read.
        most: usize,
    },
    /// The bytes are no UTF-8 text.
    NotUtf8 {
        /// Where the first bad byte stands.
        byte: usize,
    },
    /// A byte order mark stands in front.
    ByteOrderMark,
    /// The text is not JSON.
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// What the reader stumbled over.
        what: String,
    },
    /// `NaN` or an infinity stands where a number should.
    NotFinite {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
    },
    /// A number is written with more characters than is read.
    TooManyDigits {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// The most that is read.
        most: usize,
    },
    /// Lists and objects are nested too deeply.
    TooDeep {
        /// The deepest that is read.
        most: usize,
    },
    /// The text holds more values than are read.
    TooManyValues {
        /// The most that are read.
        most: usize,
    },
    /// There are more problems than are listed.
    MoreProblems,
    /// The same field stands twice in one object.
    DuplicateField,
    /// The file was made by a newer version of the program.
    NewerVersion {
        /// Its version.
        version: u64,
        /// The newest version that is read.
        known: u64,
    },
    /// The file version is 0.
    VersionZero,
    /// A field that this kind of thing does not have.
    UnknownField {
        /// What the field stands on, such as `a mesh`.
        on: &'static str,
        /// The known field whose name is nearest.
        nearest: &'static str,
    },
    /// A kind of element that does not exist.
    UnknownKind {
        /// What was written.
        kind: String,
        /// The known kind whose name is nearest.
        nearest: &'static str,
    },
    /// A word that is none of those which may stand here.
    UnknownWord {
        /// What was written.
        word: String,
        /// The words that may stand here.
        known: &'static [&'static str],
        /// The nearest of them.
        nearest: &'static str,
    },
    /// A field that must be there is not.
    Missing {
        /// What needs it, such as `a mesh`.
        on: &'static str,
    },
    /// Exactly one of several fields must be there, and none is.
    NoneOf {
        /// What needs it.
        on: &'static str,
        /// The fields.
        fields: &'static [&'static str],
    },
    /// Fields that exclude each other are both there.
    MoreThanOneOf {
        /// What they stand on.
        on: &'static str,
        /// The fields.
        fields: &'static [&'static str],
    },
    /// A field that means something only beside another one.
    OnlyWith {
        /// The other field.
        other: &'static str,
    },
    /// A field that means something only where another one holds a certain word.
    OnlyWhere {
        /// The other field.
        other: &'static str,
        /// The word that it has to hold.
        word: &'static str,
    },
    /// The value is of another type than it should be.
    WrongType {
        /// What should be there, such as `a number`.
        wanted: &'static str,
        /// What is there.
        got: &'static str,
    },
    /// A list has too few or too many entries.
    WrongLength {
        /// Fewest entries.
        least: usize,
        /// Most entries.
        most: usize,
        /// Entries found.
        got: usize,
    },
    /// A text is too long.
    TextFieldTooLong {
        /// Most characters.
        most: usize,
        /// Characters found.
        got: usize,
    },
    /// A number of things that is not a whole number, or outside its limits.
    Count {
        /// What is counted.
        counted: Counted,
        /// What was written.
        got: f64,
    },
    /// A number outside its limits.
    OutOfRange {
        /// The limits.
        range: Range,
        /// What was written.
        got: f64,
    },
    /// An id is empty, too long, or has control characters in it.
    BadId,
    /// An id that stands for something else.
    ReservedId,
    /// Two things bear the same id.
    DuplicateId {
        /// The id.
        id: String,
        /// Path of the first that bears it.
        first: String,
    },
    /// A shaft is named that does not exist.
    UnknownShaft {
        /// The name.
        id: String,
        /// The shaft whose name is nearest.
        nearest: Option<String>,
    },
    /// An element is named that does not exist.
    UnknownElement {
        /// The name.
        id: String,
        /// The clutch or brake whose name is nearest.
        nearest: Option<String>,
    },
    /// A shift position is named that does not exist.
    UnknownPosition {
        /// The name.
        id: String,
        /// The position whose name is nearest.
        nearest: Option<String>,
    },
    /// A group names something that does not exist.
    UnknownMember {
        /// The name.
        id: String,
        /// The shaft or element whose name is nearest.
        nearest: Option<String>,
    },
    /// Something is in two groups.
    InTwoGroups {
        /// Its id.
        id: String,
        /// Path of the group that has it already.
        first: String,
    },
    /// A position engages something that is neither a clutch nor a brake.
    NotEngageable {
        /// The element.
        id: String,
        /// Its kind.
        kind: String,
    },
    /// A list names the same thing twice.
    NamedTwice {
        /// What it names twice.
        id: String,
    },
    /// The fixed frame cannot stand here.
    FrameNotAllowed,
    /// All ports of an element are on one shaft, so that it does nothing.
    OneShaftOnly {
        /// The shaft.
        shaft: String,
    },
    /// A ring gear that is not larger than the gear inside it.
    RingTooSmall {
        /// Teeth of the ring.
        ring: u32,
        /// Teeth of the gear inside.
        inside: u32,
        /// What the gear inside is called.
        inside_is: &'static str,
    },
    /// A wheel that is not wider than the one that runs inside it.
    OuterWheelTooSmall {
        /// Diameter of the outer wheel in mm.
        outer_mm: f64,
        /// Diameter of the inner wheel in mm.
        inner_mm: f64,
    },
    /// A torque switch that would shift back before it shifts up.
    SwitchDownTooHigh {
        /// Torque for shifting up in N·m.
        up_nm: f64,
        /// Torque for shifting back in N·m.
        down_nm: f64,
    },
    /// A torque switch between a position and itself.
    SwitchStays {
        /// The position.
        position: String,
    },
    /// A sense that the form of the mesh contradicts.
    SenseNotFree {
        /// The form.
        form: &'static str,
        /// The sense in which such a pair always turns.
        sense: &'static str,
    },
    /// A motor whose stall current is not above its no-load current.
    StallCurrentTooLow {
        /// Stall current in A.
        stall_a: f64,
        /// No-load current in A.
        no_load_a: f64,
    },
}
