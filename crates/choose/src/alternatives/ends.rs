//! What of a layout is kept in every arrangement: its source, its load, and the parts that are at hand in it.

use layshaft_kinematics::Ratio;
use layshaft_layout::{
    Differential, Element, ElementKind, Hand, Id, Layout, MeshLoss, OneWaySense, Planetary, Shaft, Worm,
};
use layshaft_report::{Parts, PositionReport, probe};
use num_traits::{Signed, Zero};

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
        let shaft_of = |element: &Element| {
            let ports = element.ports();
            ports.first().and_then(|(_, id)| layout.shaft(id)).cloned()
        };
        let (Some(source_shaft), Some(load_shaft)) = (shaft_of(source), shaft_of(load)) else {
            return Err(asked("Source and load need shafts."));
        };
        let kinds = || layout.elements.iter().map(|element| &element.kind);
        Ok(Self {
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
