//! What a layout has to be built of: gears by tooth count, and how many of everything else.

use std::collections::BTreeMap;

use layshaft_layout::{ElementKind, Layout, SteppedRatio};

use crate::catalogue::Kind;

/// What a layout is built of.
pub struct Bill {
    /// Shafts.
    pub shafts: usize,
    /// How many gears of each tooth count.
    pub gears: BTreeMap<u32, usize>,
    /// How many clutches and brakes of all sorts.
    pub holds: usize,
    /// Other elements than gear pairs, clutches, sources and loads: kinds by name with how many.
    pub others: BTreeMap<String, usize>,
}

impl Bill {
    /// Counts what is on the sheet. Planets are not counted where nobody said how many there are.
    pub fn of(layout: &Layout) -> Self {
        let mut bill = Self {
            shafts: layout.shafts.len(),
            gears: BTreeMap::new(),
            holds: 0,
            others: BTreeMap::new(),
        };
        for element in &layout.elements {
            bill.add(&element.kind);
        }
        bill
    }

    fn add(&mut self, kind: &ElementKind) {
        match kind {
            ElementKind::Mesh(mesh) => self.add_gears(&mesh.teeth),
            ElementKind::Clutch(_)
            | ElementKind::Brake(_)
            | ElementKind::OneWay(_)
            | ElementKind::SlipClutch(_)
            | ElementKind::TorqueSwitch(_) => self.holds += 1,
            ElementKind::Motor(_)
            | ElementKind::Crank(_)
            | ElementKind::Load(_)
            | ElementKind::Winch(_)
            | ElementKind::Vehicle(_) => {}
            other => *self.others.entry(described(other)).or_default() += 1,
        }
    }

    fn add_gears(&mut self, teeth: &[u32]) {
        for teeth in teeth {
            *self.gears.entry(*teeth).or_default() += 1;
        }
    }

    /// How many gears in all.
    pub fn gear_count(&self) -> usize {
        self.gears.values().sum()
    }

    /// `2 × 12, 24, 36 teeth`.
    pub fn gears_text(&self) -> String {
        let listed: Vec<String> = self
            .gears
            .iter()
            .map(|(teeth, count)| counted(*count, &teeth.to_string()))
            .collect();
        if listed.is_empty() {
            String::new()
        } else {
            format!("{} teeth", listed.join(", "))
        }
    }

    /// `worm 1:12, differential`.
    pub fn others_text(&self) -> String {
        let listed = self.others.iter().map(|(name, count)| counted(*count, name));
        listed.collect::<Vec<_>>().join(", ")
    }

    /// How many other elements.
    pub fn other_count(&self) -> usize {
        self.others.values().sum()
    }
}

fn counted(count: usize, what: &str) -> String {
    if count == 1 {
        what.to_owned()
    } else {
        format!("{count} × {what}")
    }
}

/// An element with the sizes that it is bought by.
fn described(kind: &ElementKind) -> String {
    let name = Kind::of(kind).entry().name.to_lowercase();
    match kind {
        ElementKind::Worm(worm) => format!("{name} {}:{}", worm.starts, worm.teeth),
        ElementKind::Chain(chain) => format!("{name} {}:{}", chain.teeth[0], chain.teeth[1]),
        ElementKind::Planetary(set) => format!("{name} {}:{}", set.sun_teeth, set.ring_teeth),
        ElementKind::Stepped(set) => match &set.ratio {
            SteppedRatio::Teeth { first, second, .. } => {
                format!("{name} {}:{}, {}:{}", first[0], first[1], second[0], second[1])
            }
            SteppedRatio::Basic(_) => name,
        },
        _ => name,
    }
}
