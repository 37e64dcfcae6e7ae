//! Friction of material pairs and strength of gear materials, as ranges with their sources.
//!
//! A range, not a point: small gears differ with finish, grease and wear. Where only memory or a guess stands behind a
//! value, [`Standing`] says so, and the screen does too.

/// What stands behind a value.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A published value that was looked up.
    Published,
    /// A handbook value from memory.
    Memory,
    /// An estimate.
    Guess,
}

/// Two materials sliding on one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MaterialPair {
    /// Its word in files, such as `acetal-steel-dry`.
    pub name: &'static str,
    /// Coefficient of sliding friction, from and to.
    pub friction: [f64; 2],
    /// Where it is from.
    pub source: &'static str,
    /// What that is worth.
    pub standing: Standing,
}

impl MaterialPair {
    /// The middle of the range.
    #[must_use]
    pub const fn middle(&self) -> f64 {
        (self.friction[0] + self.friction[1]) / 2.0
    }
}

/// A material that gears are made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Material {
    /// Its word in files.
    pub name: &'static str,
    /// Allowable bending stress at the tooth's foot in MPa, from and to.
    pub allowable_mpa: [f64; 2],
    /// Where it is from.
    pub source: &'static str,
    /// What that is worth.
    pub standing: Standing,
}

const HANDBOOK: &str = "handbook range, from memory";

const fn pair(name: &'static str, friction: [f64; 2]) -> MaterialPair {
    MaterialPair {
        name,
        friction,
        source: HANDBOOK,
        standing: Standing::Memory,
    }
}

/// All pairs.
pub static PAIRS: &[MaterialPair] = &[
    pair("acetal-acetal-dry", [0.21, 0.35]),
    pair("acetal-acetal-greased", [0.04, 0.10]),
    pair("acetal-steel-dry", [0.10, 0.30]),
    pair("acetal-steel-greased", [0.04, 0.10]),
    pair("acetal-brass-dry", [0.15, 0.30]),
    pair("acetal-brass-greased", [0.05, 0.10]),
    pair("acetal-nylon-dry", [0.18, 0.28]),
    pair("acetal-nylon-greased", [0.04, 0.10]),
    pair("nylon-nylon-dry", [0.25, 0.40]),
    pair("nylon-nylon-greased", [0.05, 0.12]),
    pair("nylon-steel-dry", [0.20, 0.35]),
    pair("nylon-steel-greased", [0.05, 0.12]),
    pair("brass-steel-dry", [0.20, 0.40]),
    pair("brass-steel-greased", [0.06, 0.15]),
    pair("steel-steel-dry", [0.30, 0.60]),
    pair("steel-steel-greased", [0.05, 0.12]),
    pair("styrene-styrene-dry", [0.30, 0.50]),
    pair("styrene-styrene-greased", [0.08, 0.20]),
    pair("pla-pla-dry", [0.30, 0.60]),
    pair("pla-pla-greased", [0.08, 0.20]),
    pair("pla-steel-dry", [0.20, 0.45]),
    pair("pla-steel-greased", [0.06, 0.15]),
];

const fn material(name: &'static str, allowable_mpa: [f64; 2]) -> Material {
    Material {
        name,
        allowable_mpa,
        source: HANDBOOK,
        standing: Standing::Memory,
    }
}

/// All materials.
pub static MATERIALS: &[Material] = &[
    material("acetal", [25.0, 40.0]),
    material("nylon", [20.0, 35.0]),
    material("styrene", [8.0, 20.0]),
    material("pla", [8.0, 25.0]),
    material("brass", [60.0, 100.0]),
    material("steel", [140.0, 250.0]),
];

/// The pair of this name.
#[must_use]
pub fn pair_named(name: &str) -> Option<&'static MaterialPair> {
    PAIRS.iter().find(|pair| pair.name == name)
}

/// The material of this name.
#[must_use]
pub fn material_named(name: &str) -> Option<&'static Material> {
    MATERIALS.iter().find(|material| material.name == name)
}
