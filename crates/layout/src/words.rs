//! The words that the file has for the small choices of a layout.

use crate::document::{DrivenAxles, ElementKind, Hand, LiftSense, MeshForm, Planets, Sense};

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
            Self::Worm(_) => "worm",
            Self::Differential(_) => "differential",
            Self::Planetary(_) => "planetary",
            Self::Stepped(_) => "stepped",
            Self::Clutch(_) => "clutch",
            Self::Brake(_) => "brake",
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
