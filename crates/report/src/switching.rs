//! When torque switches shift, over all sizes of the first load.
//!
//! The torque through a switch is worked out at the operating point of either of its positions for a few sizes of the
//! load, more where it is not straight between them; where it shifts, hunts or stalls follows from these two curves.

use layshaft_layout::lower::{Lowered, Part};
use layshaft_layout::{ElementKind, Id, Layout, Position, TorqueSwitch};
use layshaft_powerflow::relief::operate_relieved;
use layshaft_powerflow::{LoadKind, Model, State, operate, shifting, slope_for_force};
use layshaft_quantity::{Force, Torque};

use crate::result::{LoadUnit, Shifting};

/// What every torque switch does, in document order.
pub(crate) fn switches(layout: &Layout, positions: &[Position], lowered: &[Lowered]) -> Vec<Shifting> {
    let at = |id: &Id| {
        let place = positions.iter().position(|position| position.id == *id)?;
        lowered.get(place)
    };
    let elements = layout.elements.iter().enumerate();
    elements
        .filter_map(|(place, element)| match &element.kind {
            ElementKind::TorqueSwitch(switch) => {
                of_switch(&element.id, switch, place, [at(&switch.from)?, at(&switch.to)?])
            }
            _ => None,
        })
        .collect()
}

fn of_switch(id: &Id, switch: &TorqueSwitch, place: usize, lowered: [&Lowered; 2]) -> Option<Shifting> {
    let [before, after] = lowered.map(|lowered| Through::new(lowered, place));
    let (before, after) = (before?, after?);
    let (unit, in_unit) = before.unit();
    let [before, after] = [before, after].map(|through| Curve::of(through, switch.up_nm));
    let largest = before.end.max(after.end);
    if largest <= 0.0 {
        return None;
    }
    let found = shifting(
        &mut |load| before.at(load),
        &mut |load| after.at(load),
        switch.up_nm,
        switch.down_nm,
        largest,
    );
    let band = |loads: Option<[f64; 2]>| loads.map(|loads| loads.map(&in_unit));
    Some(Shifting {
        switch: id.clone(),
        from: switch.from.clone(),
        to: switch.to.clone(),
        unit,
        up_at: found.up_at.map(&in_unit),
        back_at: found.back_at.map(&in_unit),
        hunting: band(found.hunts),
        stalls: band(found.stalls_after_shift),
    })
}

/// The torque through a switch in one position, for any size of the first load.
struct Through {
    model: Model,
    switch: layshaft_kinematics::ElementIdx,
}

impl Through {
    fn new(lowered: &Lowered, place: usize) -> Option<Self> {
        let Part::Element(switch) = lowered.parts.get(place)? else {
            return None;
        };
        (!lowered.model.loads.is_empty()).then(|| Self {
            model: lowered.model.clone(),
            switch: *switch,
        })
    }

    /// What loads are given in, and how they follow from the size of a load to the solver.
    fn unit(&self) -> (LoadUnit, Box<dyn Fn(f64) -> f64>) {
        match self.model.loads[0].kind {
            LoadKind::Winch { .. } => (LoadUnit::Pull, Box::new(|pull| pull)),
            LoadKind::Vehicle { weight, rolling, .. } => {
                let slope = move |push| slope_for_force(push, weight.to_newtons(), rolling).to_degrees();
                (LoadUnit::Slope, Box::new(slope))
            }
            LoadKind::Resisting { .. } | LoadKind::Driving { .. } => {
                (LoadUnit::Torque, Box::new(|torque| torque))
            }
        }
    }

    /// Torque handed from the switch's first side to its second; none where the load is not carried.
    fn torque(&mut self, load: f64) -> Option<f64> {
        match &mut self.model.loads[0].kind {
            LoadKind::Winch { pull, .. } => *pull = Force::newtons(load),
            LoadKind::Vehicle {
                weight,
                rolling,
                slope,
                ..
            } => *slope = slope_for_force(load, weight.to_newtons(), *rolling),
            LoadKind::Resisting { torque, .. } => *torque = Torque::newton_metres(load),
            LoadKind::Driving { .. } => return None,
        }
        let operation = operate_relieved(&self.model).operation;
        let carried = matches!(operation.state, State::Runs | State::Held);
        let flow = operation.flow.filter(|_| carried)?;
        Some(flow.into_element(self.switch)[0])
    }

    /// The largest load that is of interest: what it can pull, else what shifts the switch with much to spare.
    fn reach(&mut self, up: f64) -> f64 {
        const MOST_DOUBLINGS: i32 = 60;
        if let Some(stall) = operate(&self.model).stall(&self.model, 0) {
            return stall.size * (1.0 - 1e-9);
        }
        let heaviest = match self.model.loads[0].kind {
            LoadKind::Vehicle { weight, .. } => weight.to_newtons(),
            _ => f64::INFINITY,
        };
        let mut load = 1e-6;
        for _ in 0..MOST_DOUBLINGS {
            match self.torque(load) {
                None => return load / 2.0,
                Some(torque) if torque.abs() > 4.0 * up.abs() || load > heaviest => break,
                Some(_) => load *= 2.0,
            }
        }
        load.min(heaviest)
    }
}

/// Torque over load as straight pieces.
struct Curve {
    points: Vec<(f64, f64)>,
    end: f64,
}

/// How far a piece may be from straight, as a share of the largest torque.
const STRAIGHT: f64 = 1e-8;
/// Most loads that are looked at for one curve.
const MOST_POINTS: usize = 200;
/// Where in a piece it is looked at: not in the middle, where a bend may hide by symmetry.
const INNER: f64 = 0.381_966;

impl Curve {
    fn of(mut through: Through, up: f64) -> Self {
        let mut end = through.reach(up);
        let mut start = 0.0;
        let first = through.torque(0.0).or_else(|| {
            start = 1e-6 * end;
            through.torque(start)
        });
        let last = through.torque(end).or_else(|| {
            end *= 1.0 - 1e-6;
            through.torque(end)
        });
        let (Some(first), Some(last)) = (first, last) else {
            return Self {
                points: Vec::new(),
                end: 0.0,
            };
        };
        let close = STRAIGHT * first.abs().max(last.abs());
        let mut points = vec![(start, first)];
        let mut open = vec![(end, last)];
        let mut looked_at = 2;
        while let Some(&next) = open.last() {
            let from = points[points.len() - 1];
            let load = from.0 + INNER * (next.0 - from.0);
            let straight = from.1 + INNER * (next.1 - from.1);
            let torque = (looked_at < MOST_POINTS).then(|| through.torque(load)).flatten();
            looked_at += 1;
            match torque.filter(|torque| (torque - straight).abs() > close) {
                Some(torque) => open.push((load, torque)),
                None => points.extend(open.pop()),
            }
        }
        Self { points, end }
    }

    fn at(&self, load: f64) -> Option<f64> {
        let above = self.points.partition_point(|point| point.0 < load);
        let high = *self.points.get(above)?;
        if high.0 == load {
            return Some(high.1);
        }
        let low = *self.points.get(above.checked_sub(1)?)?;
        Some(low.1 + (high.1 - low.1) * (load - low.0) / (high.0 - low.0))
    }
}
