//! A field of the sheet for choosing: what its label, its text and its fault are. Each part says which fields it has.

/// A field.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Entry {
    /// A name that is unique on the page, fit for an HTML id.
    pub key: String,
    /// Its label.
    pub label: String,
    /// The unit that a bare number is read in; empty where there is none.
    pub unit: String,
    /// Its text.
    pub text: String,
    /// What it means, or what is taken where it is left empty.
    pub hint: String,
    /// What is wrong with its text.
    pub problem: Option<String>,
}

/// One of several words to be chosen.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Choice {
    /// A name that is unique on the page, fit for an HTML id.
    pub key: String,
    /// Its label.
    pub label: String,
    /// Values with their names, in groups where a group's name is not empty.
    pub options: Vec<ChoiceOption>,
    /// What it means.
    pub hint: String,
}

/// One word.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct ChoiceOption {
    /// Which group it stands in.
    pub group: String,
    /// Its value.
    pub value: String,
    /// Its name.
    pub name: String,
    /// Whether it is chosen.
    pub chosen: bool,
}
