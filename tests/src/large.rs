//! Large layouts, the same every time from the same number: for tests and benches of how smoothly the page goes.
//!
//! Shafts stand on a grid; each but the first is joined to one of those before it, so that one motor drives all and
//! nothing jams. Far neighbours make wires that cross one another, which is what costs most to draw.

use layshaft_layout::{Layout, decode};

/// How many shafts stand in a row.
const COLUMNS: usize = 20;

/// Space between them, bench units.
const PITCH: usize = 180;

/// A layout of so many elements: a motor, a load, and between them meshes, chains and belts.
///
/// # Panics
/// Never for a number of elements from 3 to some thousands.
#[must_use]
pub fn layout(elements: usize) -> Layout {
    let joints = elements - 2;
    let mut chance = Chance(7);
    let shafts: Vec<String> = (0..=joints)
        .map(|n| {
            format!(
                r#"{{"id": "s{n}", "at": [{}, {}]}}"#,
                n % COLUMNS * PITCH,
                n / COLUMNS * PITCH
            )
        })
        .collect();
    let mut parts = vec![
        r#"{"id": "m", "kind": "motor", "shaft": "s0", "nominal_v": 6, "no_load_rpm": 310, "no_load_a": 0.09, "stall_nm": 0.36, "stall_a": 1.3, "supply_v": 6}"#.to_owned(),
        format!(r#"{{"id": "l", "kind": "load", "shaft": "s{joints}", "torque_nm": 0.001}}"#),
    ];
    for n in 1..=joints {
        // Two in three stand beside each other, the third is reached by a long wire.
        let from = if chance.below(3) > 0 {
            n - 1
        } else {
            n - 1 - chance.below(n.min(30))
        };
        let teeth = (12 + chance.below(20), 12 + chance.below(20));
        let kind = ["mesh", "mesh", "mesh", "chain"][chance.below(4)];
        parts.push(format!(
            r#"{{"id": "g{n}", "kind": "{kind}", "a": "s{from}", "b": "s{n}", "teeth": [{}, {}], "efficiency": 0.99}}"#,
            teeth.0, teeth.1
        ));
    }
    let text = format!(
        r#"{{"layshaft": 1, "title": "{elements} elements", "shafts": [{}], "elements": [{}]}}"#,
        shafts.join(", "),
        parts.join(", ")
    );
    decode(&text).expect("what is made here is a sound layout")
}

/// Numbers that look like chance (SplitMix64), the same every time.
struct Chance(u64);

impl Chance {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((mixed ^ (mixed >> 31)) >> 11) as usize % limit
    }
}
