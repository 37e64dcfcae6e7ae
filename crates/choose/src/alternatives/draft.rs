//! A layout under construction: names that are not taken twice, shafts without losses of their own, meshes alike.

use layshaft_layout::{
    Brake, Clutch, Element, ElementKind, FRAME, Id, Layout, LiftSense, Mesh, MeshForm, MeshLoss, OneWay,
    OneWaySense, Position, Sense, Shaft, TorqueSwitch,
};

use super::ends::{Ends, SwitchAtHand};

/// Room between the shafts of stages in a row, in the units of the drawing.
const STAGE: f64 = 150.0;
/// Room for a torque switch.
const SWITCH: f64 = 110.0;
/// Positions of every arrangement.
const LOW: &str = "low";
const HIGH: &str = "high";

/// A layout under construction.
#[derive(Clone, Debug)]
pub struct Draft<'a> {
    ends: &'a Ends,
    mesh_efficiency: f64,
    layout: Layout,
    /// What the source drives: its shaft, or that behind a torque switch.
    pub input: Id,
    /// Whether the part that shifts ends in a shaft that is said to turn against the source.
    says_sense: bool,
}

impl<'a> Draft<'a> {
    /// A source on its shaft, behind it the torque switch at hand if that is kept.
    pub fn new(ends: &'a Ends, mesh_efficiency: f64, keeps_switch: bool) -> Self {
        let source = Shaft {
            at: [0.0, 0.0],
            axis_mm: None,
            ..ends.source_shaft.clone()
        };
        let input = source.id.clone();
        let mut layout = Layout::new();
        layout.shafts.push(source);
        layout.elements.push(Element {
            at: None,
            ..ends.source.clone()
        });
        let mut draft = Self {
            ends,
            mesh_efficiency,
            layout,
            input,
            says_sense: false,
        };
        if let Some(switch) = ends.switch.filter(|_| keeps_switch) {
            draft.switch(switch);
        }
        draft
    }

    /// A torque switch behind the source, shifting between the positions that `finish` adds.
    fn switch(&mut self, at_hand: SwitchAtHand) {
        if let Some(source) = self.layout.shafts.first_mut() {
            source.at = [-SWITCH, 0.0];
        }
        let behind = self.shaft("behind switch", [0.0, 0.0]);
        let (from, to) = if at_hand.to_low { (HIGH, LOW) } else { (LOW, HIGH) };
        let kind = ElementKind::TorqueSwitch(TorqueSwitch {
            a: self.input.clone(),
            b: behind.clone(),
            up_nm: at_hand.up_nm,
            down_nm: at_hand.down_nm,
            from: Id::from(from),
            to: Id::from(to),
        });
        self.add("switch", None, kind);
        self.input = behind;
    }

    /// Ends of the train.
    pub const fn ends(&self) -> &'a Ends {
        self.ends
    }

    /// Efficiency of a mesh.
    pub const fn mesh_efficiency(&self) -> f64 {
        self.mesh_efficiency
    }

    fn is_taken(&self, id: &Id) -> bool {
        let ends = [&self.ends.load.id, &self.ends.load_shaft.id];
        ends.contains(&id) || self.layout.shaft(id).is_some() || self.layout.element(id).is_some()
    }

    /// A name like this that is not taken.
    fn fresh(&self, name: &str) -> Id {
        let plain = Id::from(name);
        let numbered = (2_u32..).map(|number| Id::from(&format!("{name}{number}")));
        std::iter::once(plain)
            .chain(numbered)
            .find(|id| !self.is_taken(id))
            .expect("numbers do not end")
    }

    /// A shaft that loses nothing by itself.
    pub fn shaft(&mut self, name: &str, at: [f64; 2]) -> Id {
        let id = self.fresh(name);
        self.layout.shafts.push(Shaft::plain(id.clone(), at));
        id
    }

    /// An element.
    pub fn add(&mut self, name: &str, at: Option<[f64; 2]>, kind: ElementKind) -> Id {
        let id = self.fresh(name);
        self.layout.elements.push(Element {
            id: id.clone(),
            at,
            kind,
        });
        id
    }

    /// A pair of plain gears.
    pub fn mesh(&mut self, a: &Id, b: &Id, teeth: [u32; 2]) {
        let kind = ElementKind::Mesh(Mesh {
            a: a.clone(),
            b: b.clone(),
            teeth,
            form: MeshForm::External,
            sense: Sense::Opposite,
            loss: MeshLoss::Efficiency(self.mesh_efficiency),
            module_mm: None,
            pressure_angle_deg: 20.0,
            material: None,
            width_mm: None,
            skip_nm: None,
        });
        self.add("g", None, kind);
    }

    /// A dog clutch.
    pub fn clutch(&mut self, name: &str, at: Option<[f64; 2]>, a: &Id, b: &Id) -> Id {
        let kind = ElementKind::Clutch(Clutch {
            a: a.clone(),
            b: b.clone(),
        });
        self.add(name, at, kind)
    }

    /// A brake that holds as much as is needed.
    pub fn brake(&mut self, shaft: &Id) -> Id {
        let kind = ElementKind::Brake(Brake {
            shaft: shaft.clone(),
            limit_nm: None,
        });
        self.add("brake", None, kind)
    }

    /// A one-way clutch; from the frame: a backstop.
    pub fn one_way(&mut self, from: Option<&Id>, to: &Id, sense: OneWaySense) {
        let kind = ElementKind::OneWay(OneWay {
            a: from.cloned().unwrap_or_else(|| Id::from(FRAME)),
            b: to.clone(),
            sense,
        });
        let name = if from.is_some() { "pawl" } else { "backstop" };
        self.add(name, None, kind);
    }

    /// What follows turns against the source, or with it after every further stage: to be said where a backstop alone
    /// settles it, since the drive's sense in a position is that of its fixed ratios.
    pub const fn say_sense(&mut self) {
        self.says_sense = true;
    }

    /// Where the part that shifts ends: the load's shaft, or one before stages that follow.
    pub fn out(&mut self, shared: &[[u32; 2]], at: [f64; 2]) -> Id {
        if shared.is_empty() {
            self.load_shaft(at)
        } else {
            self.shaft("out", at)
        }
    }

    fn load_shaft(&mut self, at: [f64; 2]) -> Id {
        let taken = self.layout.shaft(&self.ends.load_shaft.id).is_some();
        let id = if taken {
            self.fresh("load shaft")
        } else {
            self.ends.load_shaft.id.clone()
        };
        self.layout.shafts.push(Shaft {
            id: id.clone(),
            at,
            axis_mm: None,
            ..self.ends.load_shaft.clone()
        });
        id
    }

    /// Adds the stages shared by both gears, the load and both positions.
    pub fn finish(mut self, out: &Id, shared: &[[u32; 2]], low: &[Id], high: &[Id]) -> Layout {
        let mut from = out.clone();
        let [mut x, y] = self.layout.shaft(out).map_or([0.0; 2], |shaft| shaft.at);
        for (number, teeth) in shared.iter().enumerate() {
            x += STAGE;
            let to = if number + 1 == shared.len() {
                self.load_shaft([x, y])
            } else {
                self.shaft("stage", [x, y])
            };
            self.mesh(&from, &to, *teeth);
            from = to;
        }
        self.load(&from, shared.len());
        let position = |id: &str, name: &str, engaged: &[Id]| Position {
            id: Id::from(id),
            name: name.to_owned(),
            engaged: engaged.to_vec(),
        };
        self.layout.positions = vec![position(LOW, "Low", low), position(HIGH, "High", high)];
        self.layout
    }

    /// The load, turning as the source turns it. A vehicle has all its driven wheels on one shaft.
    fn load(&mut self, shaft: &Id, stages: usize) {
        let sense = self.sense_after(stages);
        let mut kind = self.ends.load.kind.clone();
        match &mut kind {
            ElementKind::Vehicle(vehicle) => {
                vehicle.shafts = vec![shaft.clone()];
                vehicle.forward = sense;
            }
            ElementKind::Winch(winch) => {
                winch.shaft = shaft.clone();
                winch.lifts = sense;
            }
            ElementKind::Load(load) => load.shaft = shaft.clone(),
            _ => {}
        }
        self.layout.elements.push(Element {
            id: self.ends.load.id.clone(),
            at: None,
            kind,
        });
    }

    fn sense_after(&self, stages: usize) -> LiftSense {
        let against = self.ends.against_source() == OneWaySense::Positive;
        match (self.says_sense, against == (stages.is_multiple_of(2))) {
            (false, _) => LiftSense::Drive,
            (true, true) => LiftSense::Positive,
            (true, false) => LiftSense::Negative,
        }
    }
}
