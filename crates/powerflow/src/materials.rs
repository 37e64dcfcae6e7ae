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

const fn pair(
    name: &'static str,
    friction: [f64; 2],
    standing: Standing,
    source: &'static str,
) -> MaterialPair {
    MaterialPair {
        name,
        friction,
        source,
        standing,
    }
}

use Standing::{Guess, Memory, Published};

// The published values were read in these places (November 2026); entries name them in words:
// - CRC handbook: J. F. Shackelford & W. Alexander, CRC Materials Science and Engineering Handbook, 3rd ed. 2001, table 399,
//   https://www.studfiles.ru/preview/429851/page:31/
// - a gear maker's comparison: "Tribological comparison POM vs PA6", 28 April 2026, https://www.stagnoligears.com/en/?p=11417
// - tables of friction values: https://pickedshares.com/en/static-and-sliding-friction-values/ and Physics Fundamentals,
//   appendix A, https://ecampusontario.pressbooks.pub/physicsfundamentals/back-matter/appendix; 0.35 and 0.16 (lubricated
//   steel) and 0.5 in the help pages of two CAD systems
// - a laboratory's collection: http://www-eng.lbl.gov/~ajdemell/coefficients_of_friction.html
// - a drive maker's engineering guide: Lust CDA3000, table 7.21, https://www.easymanua.ls/lust/cda3000/manual/691667?p=323
// - table of gear plastics: https://ns2.engineersedge.com/gears/physical_properties_plastics_used_in_gears_14942.htm

/// Sources that several entries share. Published values are for flat test pieces, mostly at rest or at low speed; teeth
/// may differ, which is one reason why a pair has a range.
const PLASTIC_GEARS: &str = "handbook values for plastic gears in the manner of VDI 2736, from memory";
const PRINTED: &str =
    "estimate from reports on printed test pieces, which differ much with layers and finish";

/// All pairs.
pub static PAIRS: &[MaterialPair] = &[
    pair("acetal-acetal-dry", [0.21, 0.35], Memory, PLASTIC_GEARS),
    pair("acetal-acetal-greased", [0.04, 0.10], Memory, PLASTIC_GEARS),
    pair(
        "acetal-steel-dry",
        [0.10, 0.30],
        Published,
        "CRC Materials Science and Engineering Handbook (2001), table 399: homopolymer 0.1 to 0.3, copolymer 0.15, at \
         rest; a gear maker's comparison (2026): copolymer moving 0.20 to 0.22",
    ),
    pair("acetal-steel-greased", [0.04, 0.10], Memory, PLASTIC_GEARS),
    pair(
        "acetal-brass-dry",
        [0.15, 0.30],
        Guess,
        "taken to be near that on steel",
    ),
    pair(
        "acetal-brass-greased",
        [0.05, 0.10],
        Guess,
        "taken to be near that on steel",
    ),
    pair(
        "acetal-nylon-dry",
        [0.18, 0.28],
        Memory,
        "handbook values for plastic gears in the manner of VDI 2736, from memory; one published table has 0.5 at rest",
    ),
    pair("acetal-nylon-greased", [0.04, 0.10], Memory, PLASTIC_GEARS),
    pair(
        "nylon-nylon-dry",
        [0.25, 0.40],
        Memory,
        "handbook values for plastic gears in the manner of VDI 2736, from memory; CRC Materials Science and \
         Engineering Handbook (2001), table 399, has 0.04 to 0.13 at rest, lower than most",
    ),
    pair("nylon-nylon-greased", [0.05, 0.12], Memory, PLASTIC_GEARS),
    pair(
        "nylon-steel-dry",
        [0.30, 0.45],
        Published,
        "a gear maker's comparison (2026): PA 6 moving 0.30 to 0.35; CRC Materials Science and Engineering Handbook \
         (2001), table 399: cast PA 6 moving 0.32; a published table of friction values: steel on PA 0.32 to 0.45",
    ),
    pair(
        "nylon-steel-greased",
        [0.05, 0.12],
        Memory,
        "handbook values for plastic gears in the manner of VDI 2736, from memory; a published table has 0.10",
    ),
    pair(
        "brass-steel-dry",
        [0.35, 0.50],
        Published,
        "published tables of friction values: 0.44 moving, 0.51 at rest (clean); 0.35; 0.5",
    ),
    pair(
        "brass-steel-greased",
        [0.11, 0.19],
        Published,
        "published tables of friction values: grease 0.19, castor oil 0.11, both at rest",
    ),
    pair(
        "steel-steel-dry",
        [0.23, 0.62],
        Published,
        "J. R. Davis, Concise Metals Data Handbook, table 14.1, as quoted by a laboratory's collection: 0.23 (steel 1032) \
         and 0.62 (mild steel) moving; most tables have 0.42 between",
    ),
    pair(
        "steel-steel-greased",
        [0.04, 0.16],
        Published,
        "a drive maker's engineering guide: greased, moving 0.04 to 0.25; published tables: lubricated 0.10, 0.16",
    ),
    pair(
        "styrene-styrene-dry",
        [0.30, 0.50],
        Memory,
        "handbook values for polystyrene and ABS on themselves, from memory",
    ),
    pair(
        "styrene-styrene-greased",
        [0.08, 0.20],
        Guess,
        "estimate: no table was found",
    ),
    pair("pla-pla-dry", [0.30, 0.60], Guess, PRINTED),
    pair("pla-pla-greased", [0.08, 0.20], Guess, PRINTED),
    pair("pla-steel-dry", [0.20, 0.45], Guess, PRINTED),
    pair("pla-steel-greased", [0.06, 0.15], Guess, PRINTED),
];

const fn material(
    name: &'static str,
    allowable_mpa: [f64; 2],
    standing: Standing,
    source: &'static str,
) -> Material {
    Material {
        name,
        allowable_mpa,
        source,
        standing,
    }
}

/// All materials.
pub static MATERIALS: &[Material] = &[
    material(
        "acetal",
        [25.0, 40.0],
        Memory,
        "safe stress of moulded gears, 5000 psi without glass fibre, from memory; tensile strength 61 to 69 MPa (a published \
         table of gear plastics)",
    ),
    material(
        "nylon",
        [20.0, 41.0],
        Memory,
        "safe stress of moulded gears, 6000 psi dry as moulded, from memory; moist about half; tensile strength of PA 66 \
         77 to 90 MPa (a published table of gear plastics)",
    ),
    material(
        "styrene",
        [8.0, 21.0],
        Memory,
        "safe stress of moulded gears, 3000 psi for ABS, from memory; tensile strength of ABS 31 to 59 MPa, of high-impact \
         polystyrene 13 to 28 MPa (a published table of gear plastics)",
    ),
    material(
        "pla",
        [8.0, 25.0],
        Guess,
        "estimate: a share of the tensile strength of printed pieces, which depends on the way of the layers",
    ),
    material(
        "brass",
        [60.0, 100.0],
        Memory,
        "safe static stress of bronze and brass gears in the Lewis equation, 10 000 to 12 000 psi and somewhat more, \
         from memory",
    ),
    material(
        "steel",
        [138.0, 250.0],
        Memory,
        "safe static stress in the Lewis equation, 20 000 psi for untreated steel of 0.2 % carbon to 35 000 psi for hardened \
         steel of 0.4 %, from memory",
    ),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_has_a_sane_range_and_a_source() {
        for pair in PAIRS {
            let [from, to] = pair.friction;
            assert!(0.02 <= from && from < to && to <= 0.8, "{pair:?}");
            assert!(pair.source.len() > 10, "{pair:?}");
            assert!(from < pair.middle() && pair.middle() < to);
            assert_eq!(pair_named(pair.name), Some(pair));
        }
    }

    #[test]
    fn every_material_has_a_sane_range_and_a_source() {
        for material in MATERIALS {
            let [from, to] = material.allowable_mpa;
            assert!(1.0 <= from && from < to && to <= 400.0, "{material:?}");
            assert!(material.source.len() > 10, "{material:?}");
            assert_eq!(material_named(material.name), Some(material));
        }
    }

    #[test]
    fn words_are_told_apart_and_made_of_known_materials() {
        for (at, pair) in PAIRS.iter().enumerate() {
            assert!(PAIRS[..at].iter().all(|other| other.name != pair.name));
            let parts: Vec<&str> = pair.name.split('-').collect();
            let [a, b, surface] = parts[..] else {
                panic!("{} has not three parts", pair.name)
            };
            assert!(
                material_named(a).is_some() && material_named(b).is_some(),
                "{}",
                pair.name
            );
            assert!(["dry", "greased"].contains(&surface), "{}", pair.name);
        }
    }

    /// Grease helps: no greased pair rubs more than the same pair dry.
    #[test]
    fn greased_pairs_rub_less() {
        for pair in PAIRS {
            let Some(stem) = pair.name.strip_suffix("-greased") else {
                continue;
            };
            let dry = pair_named(&format!("{stem}-dry")).expect("each greased pair has its dry one");
            assert!(
                pair.friction[0] <= dry.friction[0] && pair.friction[1] < dry.friction[1],
                "{stem}"
            );
        }
    }

    #[test]
    fn nothing_is_called_published_without_a_number() {
        let numbered = |source: &str| source.contains(|c: char| c.is_ascii_digit());
        let published = PAIRS.iter().filter(|pair| pair.standing == Standing::Published);
        assert!(published.clone().count() > 0);
        assert!(published.into_iter().all(|pair| numbered(pair.source)));
    }
}
