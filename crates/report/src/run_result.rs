//! A run by the layout's ids: events, ends, what can't be run. Words for them are in `editor::wording`.

use layshaft_kinematics::ElementIdx;
use layshaft_layout::lower::Lowered;
use layshaft_layout::{ElementKind, Id, Layout, Position};
use layshaft_motion::{End, EventKind, Failure, Run, Sample, SourceSample};
use layshaft_quantity::Torque;

use crate::ReportError;
use crate::run::{element_of, shaft_of, source_of};

/// Why a layout can't be run as asked.
#[derive(Clone, Debug, PartialEq)]
pub enum RunProblem {
    /// A course needs a vehicle.
    NoVehicle,
    /// A lift needs a winch.
    NoWinch,
    /// There is no such position.
    NoSuchPosition {
        /// What was asked for.
        wanted: Id,
        /// What there is.
        known: Vec<Id>,
    },
    /// The layout can be read but not computed.
    Report(Vec<ReportError>),
}

/// What happens at an instant of a run.
#[derive(Clone, Debug, PartialEq)]
pub enum RunEventKind {
    /// A torque switch shifts.
    Shift {
        /// The switch.
        switch: Id,
        /// Position before.
        from: Id,
        /// Position after.
        to: Id,
        /// Torque through it.
        torque: Torque,
    },
    /// A motor comes to rest under its voltage, a crank is asked for more than its limit.
    Stall {
        /// The motor or crank.
        source: Id,
    },
    /// A joint begins to slip at its limit.
    Slips {
        /// The joint.
        element: Id,
        /// The limit at its first port.
        limit: Torque,
    },
    /// A joint slips no longer.
    Sticks {
        /// The joint.
        element: Id,
    },
    /// A one-way clutch lets go.
    Overruns {
        /// The clutch.
        element: Id,
    },
    /// A one-way clutch takes hold.
    Engages {
        /// The clutch.
        element: Id,
    },
    /// Driven wheels begin to spin.
    Spins {
        /// The vehicle.
        vehicle: Id,
    },
    /// Driven wheels roll again.
    Grips {
        /// The vehicle.
        vehicle: Id,
    },
    /// A shaft, or a vehicle, comes to rest and is held there.
    Rests {
        /// Which.
        shaft: Id,
    },
    /// What was at rest begins to move.
    BreaksAway {
        /// Which.
        shaft: Id,
    },
    /// Friction leaves no finite deceleration: it stops as by a blow.
    Jams {
        /// The elements that lock.
        elements: Vec<Id>,
    },
    /// The run ends.
    Ends(RunEnd),
}

impl RunEventKind {
    /// Its word in files.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Shift { .. } => "shift",
            Self::Stall { .. } => "stall",
            Self::Slips { .. } | Self::Overruns { .. } | Self::Spins { .. } | Self::BreaksAway { .. } => {
                "slip"
            }
            Self::Sticks { .. }
            | Self::Engages { .. }
            | Self::Grips { .. }
            | Self::Rests { .. }
            | Self::Jams { .. } => "stick",
            Self::Ends(_) => "end",
        }
    }
}

/// Why a run ended.
#[derive(Clone, Debug, PartialEq)]
pub enum RunEnd {
    /// The course is driven, the weight is up.
    Done,
    /// The time limit.
    TimeUp,
    /// At rest with a source that pushes and can't.
    Stalled {
        /// The source.
        source: Id,
    },
    /// At rest with nothing that pushes.
    AtRest,
    /// The wheels spin and the vehicle does not get on.
    NoTraction,
    /// The slope is beyond the one at which it tips over.
    Tips,
    /// A torque switch goes to and fro without end.
    Hunts {
        /// The switch.
        switch: Id,
    },
    /// The drive of this position can't turn.
    Jammed {
        /// The position.
        position: Id,
    },
    /// A crank is to turn a shaft that can't turn at its speed.
    CrankBlocked {
        /// The crank.
        source: Id,
    },
    /// No result, for a reason inside the computation.
    Failed(Failure),
}

/// An event of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunEvent {
    /// Time in s.
    pub time: f64,
    /// The position then (after a shift: the new one).
    pub position: Id,
    /// What happens.
    pub kind: RunEventKind,
}

/// A run of a layout.
#[derive(Clone, Debug, PartialEq)]
pub struct LayoutRun {
    /// Samples and energies.
    pub run: Run,
    /// What happened, in order of time.
    pub events: Vec<RunEvent>,
    /// Why it ended.
    pub end: RunEnd,
    /// Positions by the numbers in the samples.
    pub positions: Vec<Position>,
    /// Sources by the numbers in the samples.
    pub sources: Vec<Id>,
    /// The first motor, by its number among the sources.
    pub motor: Option<usize>,
    /// The vehicle or winch whose way and speed are sampled; none: neither is there.
    pub of: Option<Id>,
}

impl LayoutRun {
    pub(crate) fn new(
        run: Run,
        layout: &Layout,
        positions: Vec<Position>,
        lowered: &[Lowered],
        of: Option<Id>,
    ) -> Self {
        let names = Names {
            layout,
            positions: &positions,
            lowered,
        };
        let events = run.events.iter().map(|event| RunEvent {
            time: event.time,
            position: names.position(event.position),
            kind: names.kind(&event.kind, event.position),
        });
        let events = events.collect();
        let end = names.end(run.end);
        let sources: Vec<Id> = (0..lowered[0].model.sources.len())
            .map(|source| names.source(source))
            .collect();
        let is_motor = |id: &Id| {
            let mut elements = layout.elements.iter();
            elements.any(|element| element.id == *id && matches!(element.kind, ElementKind::Motor(_)))
        };
        Self {
            motor: sources.iter().position(is_motor),
            events,
            end,
            sources,
            positions,
            of,
            run,
        }
    }

    /// The position of a sample.
    #[must_use]
    pub fn position_of(&self, sample: &Sample) -> Option<&Id> {
        self.positions.get(sample.position).map(|position| &position.id)
    }

    /// The first motor at a sample, else the first source.
    #[must_use]
    pub fn source_of<'s>(&self, sample: &'s Sample) -> Option<&'s SourceSample> {
        sample.sources.get(self.motor.unwrap_or(0))
    }
}

/// Ids for numbers.
struct Names<'a> {
    layout: &'a Layout,
    positions: &'a [Position],
    lowered: &'a [Lowered],
}

impl Names<'_> {
    fn position(&self, at: usize) -> Id {
        self.positions
            .get(at)
            .map_or_else(|| Id::from("only"), |position| position.id.clone())
    }

    fn element(&self, element: ElementIdx, position: usize) -> Id {
        let lowered = self.lowered.get(position).unwrap_or(&self.lowered[0]);
        element_of(self.layout, lowered, element).unwrap_or_else(|| Id::from(""))
    }

    fn source(&self, source: usize) -> Id {
        source_of(self.layout, &self.lowered[0], source).unwrap_or_else(|| Id::from(""))
    }

    fn switch(&self, switch: usize) -> Id {
        let switches = self.layout.elements.iter();
        let mut switches = switches.filter(|element| matches!(element.kind, ElementKind::TorqueSwitch(_)));
        switches
            .nth(switch)
            .map_or_else(|| Id::from(""), |element| element.id.clone())
    }

    fn kind(&self, kind: &EventKind, position: usize) -> RunEventKind {
        let element = |element: &ElementIdx| self.element(*element, position);
        let shaft = |shaft| shaft_of(self.layout, &self.lowered[0], shaft).unwrap_or_else(|| Id::from(""));
        match kind {
            EventKind::Shift {
                switch,
                from,
                to,
                torque,
            } => RunEventKind::Shift {
                switch: self.switch(*switch),
                from: self.position(*from),
                to: self.position(*to),
                torque: *torque,
            },
            EventKind::Stall { source } => RunEventKind::Stall {
                source: self.source(*source),
            },
            EventKind::Slips { element: at, limit } => RunEventKind::Slips {
                element: element(at),
                limit: *limit,
            },
            EventKind::Sticks { element: at } => RunEventKind::Sticks { element: element(at) },
            EventKind::Overruns { element: at } => RunEventKind::Overruns { element: element(at) },
            EventKind::Engages { element: at } => RunEventKind::Engages { element: element(at) },
            EventKind::Spins { element: at } => RunEventKind::Spins { vehicle: element(at) },
            EventKind::Grips { element: at } => RunEventKind::Grips { vehicle: element(at) },
            EventKind::Rests { shaft: at } => RunEventKind::Rests { shaft: shaft(*at) },
            EventKind::BreaksAway { shaft: at } => RunEventKind::BreaksAway { shaft: shaft(*at) },
            EventKind::Jams { elements } => RunEventKind::Jams {
                elements: elements.iter().map(element).collect(),
            },
            EventKind::Ends(end) => RunEventKind::Ends(self.end(*end)),
        }
    }

    fn end(&self, end: End) -> RunEnd {
        match end {
            End::Done => RunEnd::Done,
            End::TimeUp => RunEnd::TimeUp,
            End::Stalled { source } => RunEnd::Stalled {
                source: self.source(source),
            },
            End::AtRest => RunEnd::AtRest,
            End::NoTraction => RunEnd::NoTraction,
            End::Tips => RunEnd::Tips,
            End::Hunts { switch } => RunEnd::Hunts {
                switch: self.switch(switch),
            },
            End::Failed(Failure::Jammed { position }) => RunEnd::Jammed {
                position: self.position(position),
            },
            End::Failed(Failure::CrankBlocked { source }) => RunEnd::CrankBlocked {
                source: self.source(source),
            },
            End::Failed(failure) => RunEnd::Failed(failure),
        }
    }
}
