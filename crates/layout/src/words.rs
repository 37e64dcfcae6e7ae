//! The words that the file has for the small choices of a layout.

use layshaft_powerflow::materials::{MATERIALS, PAIRS};

use crate::document::{
    BorePattern, DrivenAxles, ElementKind, Hand, LiftSense, MeshForm, OneWaySense, Planets, Sense, WheelForm,
};

macro_rules! words {
    ($($choice:ident { $($variant:ident = $word:literal),+ })+) => {$(
        impl $choice {
            /// Every word that the file has for this choice.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// Its word in the file.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$variant => $word),+ }
            }

            /// The choice that a word of the file means.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $($word => Some(Self::$variant),)+ _ => None }
            }
        }
    )+};
}

words! {
    MeshForm { External = "external", Internal = "internal", Bevel = "bevel" }
    BorePattern { None = "none", Square = "square", Triangular = "triangular", Points = "points" }
    WheelForm { External = "external", Internal = "internal" }
    OneWaySense { Positive = "positive", Negative = "negative" }
    Sense { Opposite = "opposite", Same = "same" }
    Hand { Right = "right", Left = "left" }
    Planets { Single = "single", Double = "double" }
    LiftSense { Drive = "drive", Positive = "positive", Negative = "negative" }
    DrivenAxles { All = "all", Rear = "rear", Front = "front" }
}

impl ElementKind {
    /// Its word in the file.
    #[must_use]
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Mesh(_) => "mesh",
            Self::Chain(_) => "chain",
            Self::Belt(_) => "belt",
            Self::FrictionWheel(_) => "friction_wheel",
            Self::Worm(_) => "worm",
            Self::Differential(_) => "differential",
            Self::Planetary(_) => "planetary",
            Self::Stepped(_) => "stepped",
            Self::Clutch(_) => "clutch",
            Self::Brake(_) => "brake",
            Self::OneWay(_) => "one_way",
            Self::SlipClutch(_) => "slip_clutch",
            Self::TorqueSwitch(_) => "torque_switch",
            Self::Motor(_) => "motor",
            Self::Crank(_) => "crank",
            Self::Load(_) => "load",
            Self::Vehicle(_) => "vehicle",
            Self::Winch(_) => "winch",
        }
    }

    /// Whether positions can engage it.
    #[must_use]
    pub const fn is_engageable(&self) -> bool {
        matches!(self, Self::Clutch(_) | Self::Brake(_))
    }
}

/// The words for pairs of materials, in the order of the table.
pub(crate) static PAIR_WORDS: [&str; PAIRS.len()] = {
    let mut words = [""; PAIRS.len()];
    let mut at = 0;
    while at < words.len() {
        words[at] = PAIRS[at].name;
        at += 1;
    }
    words
};

/// The words for materials of gears, in the order of the table.
pub(crate) static MATERIAL_WORDS: [&str; MATERIALS.len()] = {
    let mut words = [""; MATERIALS.len()];
    let mut at = 0;
    while at < words.len() {
        words[at] = MATERIALS[at].name;
        at += 1;
    }
    words
};
