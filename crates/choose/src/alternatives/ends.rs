//! What of a layout is kept in every arrangement: its source, its load, and the parts that are at hand in it.

use layshaft_kinematics::Ratio;
use layshaft_layout::{
    Differential, Element, ElementKind, Hand, Id, Layout, MeshLoss, OneWaySense, Planetary, Shaft,
    TorqueSwitch, Worm,
};
use layshaft_report::{Parts, PositionReport, probe};
use num_traits::{Signed, Zero};

use super::{Arrangement, Switching};
use crate::task::JobProblem;

/// Worm of an arrangement where the layout has none: single start, a lead angle usual for it, plastic on steel with
/// little grease. Common practice, no source.
pub const ASSUMED_WORM: (f64, f64) = (5.0, 0.15);

/// Source, load and parts of a layout.
#[derive(Clone, Debug)]
pub struct Ends {
    /// Its title.
    pub title: String,
    /// Motor or crank.
    pub source: Element,
    /// The source's shaft.
    pub source_shaft: Shaft,
    /// What is driven.
    pub load: Element,
    /// The load's first shaft.
    pub load_shaft: Shaft,
    /// Its differential.
    pub differential: Option<Differential>,
    /// Its planetary set.
    pub planetary: Option<Planetary>,
    /// Its worm.
    pub worm: Option<Worm>,
    /// It has a torque switch.
    pub has_switch: bool,
    /// That switch, where it sits at the source and moves between two gears; looked for by `with_switch`.
    pub switch: Option<SwitchAtHand>,
}

/// A torque switch at the source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SwitchAtHand {
    /// Torque above which it shifts, N·m.
    pub up_nm: f64,
    /// Torque below which it shifts back, N·m.
    pub down_nm: f64,
    /// It shifts to the lower of its two gears as the torque grows, not to the higher.
    pub to_low: bool,
}

impl Ends {
    /// Finds them.
    ///
    /// # Errors
    /// A sentence where there is no source or no load.
    pub fn of(layout: &Layout) -> Result<Self, JobProblem> {
        let find = |is: fn(&ElementKind) -> bool| layout.elements.iter().find(|element| is(&element.kind));
        let source = find(|kind| matches!(kind, ElementKind::Motor(_) | ElementKind::Crank(_)));
        let load = find(|kind| {
            matches!(
                kind,
                ElementKind::Load(_) | ElementKind::Vehicle(_) | ElementKind::Winch(_)
            )
        });
        let source = source.ok_or_else(|| asked("Put a motor or a crank on a shaft first."))?;
        let load = load.ok_or_else(|| asked("Put a winch, a vehicle or a load on a shaft first."))?;
        let others = layout.elements.iter().filter(|element| {
            let drives = matches!(element.kind, ElementKind::Motor(_) | ElementKind::Crank(_));
            let resists = matches!(
                element.kind,
                ElementKind::Load(_) | ElementKind::Vehicle(_) | ElementKind::Winch(_)
            );
            (drives && element.id != source.id) || (resists && element.id != load.id)
        });
        if others.count() > 0 {
            return Err(asked(
                "Arrangements have one source and one load, and would be compared with more than that here. Remove the other sources and loads first; undo brings them back.",
            ));
        }
        let shaft_of = |element: &Element| {
            let ports = element.ports();
            ports.first().and_then(|(_, id)| layout.shaft(id)).cloned()
        };
        let (Some(source_shaft), Some(load_shaft)) = (shaft_of(source), shaft_of(load)) else {
            return Err(asked("Source and load need shafts."));
        };
        let kinds = || layout.elements.iter().map(|element| &element.kind);
        Ok(Self {
            has_switch: switch_of(layout).is_some(),
            switch: None,
            title: layout.title.clone(),
            source: source.clone(),
            source_shaft,
            load: load.clone(),
            load_shaft,
            differential: kinds().find_map(|kind| match kind {
                ElementKind::Differential(it) => Some(it.clone()),
                _ => None,
            }),
            planetary: kinds().find_map(|kind| match kind {
                ElementKind::Planetary(it) => Some(it.clone()),
                _ => None,
            }),
            worm: kinds().find_map(|kind| match kind {
                ElementKind::Worm(it) => Some(it.clone()),
                _ => None,
            }),
        })
    }

    /// With the torque switch of their layout, which has to be solved for that.
    pub fn with_switch(mut self, layout: &Layout) -> Self {
        let ends = [&self.source_shaft.id, &self.load_shaft.id];
        self.switch = switch_of(layout).and_then(|switch| at_hand(layout, switch, ends));
        self
    }

    /// What becomes of the torque switch in an arrangement.
    pub const fn switching(&self, arrangement: Arrangement) -> Switching {
        Switching::of(arrangement, self.has_switch, self.switch.is_some())
    }

    /// The sense of a shaft that turns against the source's.
    pub fn against_source(&self) -> OneWaySense {
        match &self.source.kind {
            ElementKind::Crank(crank) if crank.speed_rpm < 0.0 => OneWaySense::Positive,
            _ => OneWaySense::Negative,
        }
    }

    /// Loss of a differential: of the one at hand where its efficiency was typed, else that of two meshes in a row.
    pub fn differential_loss(&self, mesh: f64) -> MeshLoss {
        let at_hand = self.differential.as_ref().and_then(|it| it.loss.efficiency());
        MeshLoss::Efficiency(at_hand.unwrap_or(mesh * mesh))
    }

    /// Loss of a single-planet set: as of a differential.
    pub fn planetary_loss(&self, mesh: f64) -> MeshLoss {
        let at_hand = self.planetary.as_ref().and_then(|it| it.loss.efficiency());
        MeshLoss::Efficiency(at_hand.unwrap_or(mesh * mesh))
    }

    /// Threads of the worm.
    pub fn worm_starts(&self) -> u32 {
        self.worm.as_ref().map_or(1, |worm| worm.starts)
    }

    /// The worm at hand, or a usual one, with another wheel, between two shafts.
    pub fn worm_between(&self, worm: Id, wheel: Id, teeth: u32) -> Worm {
        let usual = Worm {
            worm: worm.clone(),
            wheel: wheel.clone(),
            starts: 1,
            teeth,
            hand: Hand::Right,
            lead_angle_deg: ASSUMED_WORM.0,
            friction: ASSUMED_WORM.1,
            pressure_angle_deg: 20.0,
            wheel_mm: None,
            collar_mm: None,
            collar_friction: None,
        };
        match &self.worm {
            Some(at_hand) => Worm {
                worm,
                wheel,
                teeth,
                hand: Hand::Right,
                // Size of a wheel follows its teeth.
                wheel_mm: at_hand
                    .wheel_mm
                    .map(|size| size * f64::from(teeth) / f64::from(at_hand.teeth)),
                ..at_hand.clone()
            },
            None => usual,
        }
    }
}

fn switch_of(layout: &Layout) -> Option<&TorqueSwitch> {
    layout.elements.iter().find_map(|element| match &element.kind {
        ElementKind::TorqueSwitch(it) => Some(it),
        _ => None,
    })
}

/// A switch that sits at the source, with the way in which it shifts.
fn at_hand(layout: &Layout, switch: &TorqueSwitch, [source, load]: [&Id; 2]) -> Option<SwitchAtHand> {
    if ![&switch.a, &switch.b].contains(&source) {
        return None;
    }
    let reports = probe(layout, Parts::LEAST, &|_| {})?;
    let ratio = |position: &Id| {
        let report = reports.iter().find(|report| report.id == *position)?;
        ratio_in(report, source, load).map(|ratio| ratio.abs())
    };
    let (from, to) = (ratio(&switch.from)?, ratio(&switch.to)?);
    (from != to).then_some(SwitchAtHand {
        up_nm: switch.up_nm,
        down_nm: switch.down_nm,
        to_low: to < from,
    })
}

pub fn asked(sentence: &str) -> JobProblem {
    JobProblem::Asked(sentence.to_owned())
}

/// Ratio of a position: speed of the load's first shaft over that of the source's; none where it has none.
pub fn ratio_in(report: &PositionReport, source: &Id, load: &Id) -> Option<Ratio> {
    let of = |id: &Id| {
        let shaft = report.shafts.iter().find(|shaft| shaft.id == *id)?;
        shaft.ratio.clone().filter(|ratio| !ratio.is_zero())
    };
    Some(of(load)? / of(source)?)
}

/// Sizes of the lowest and the highest ratio between source and load over all positions; none where it has none.
#[must_use]
pub fn speeds_of(layout: &Layout) -> Option<[Ratio; 2]> {
    let ends = Ends::of(layout).ok()?;
    let reports = probe(layout, Parts::LEAST, &|_| {})?;
    let ratios: Vec<Ratio> = reports
        .iter()
        .filter_map(|report| ratio_in(report, &ends.source_shaft.id, &ends.load_shaft.id))
        .map(|ratio| ratio.abs())
        .collect();
    let low = ratios.iter().min()?;
    let high = ratios.iter().max()?;
    Some([low.clone(), high.clone()])
}
