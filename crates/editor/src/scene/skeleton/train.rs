//! What a skeleton consists of before anything has a place: axes, the pieces of shafts on them, and the stations where
//! elements sit.
//!
//! Shafts that a clutch or a carrier set joins turn about one axis. So do two shafts that mesh with the same third one at the same sum
//! of teeth (a reverted train): that is how such trains are built, and it keeps the diagram small.

use std::collections::BTreeMap;

use layshaft_layout::{Element, ElementKind, Id, Layout, MeshForm};

use crate::parts::ports;

/// A shaft as it lies on an axis, or a stub of the fixed frame there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Number of the shaft in the document; none: the frame.
    pub shaft: Option<usize>,
    /// Its axis.
    pub axis: usize,
    /// The piece of the same shaft that it is drawn beside a second time for.
    pub copy_of: Option<usize>,
}

/// What kind of room an element takes along an axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    /// Two wheels on two axes.
    Pair,
    /// Two shafts of one axis face to face.
    Coupling,
    /// Three members on one axis.
    Set,
    /// Something between a shaft and the frame.
    Hold,
    /// A source or load at the end of a shaft.
    End,
    /// A drum or wheel that another shaft may pass through.
    Drum,
    /// A stub of the frame, fixed.
    Ground,
}

impl Form {
    /// Whether nothing may be wrapped around it: it reaches out to another axis, or to the world.
    pub const fn is_open(self) -> bool {
        matches!(self, Self::Pair | Self::Drum | Self::End | Self::Ground)
    }

    /// Whether it sits at the end of a shaft.
    pub const fn is_end(self) -> bool {
        matches!(self, Self::End | Self::Ground)
    }
}

/// Where an element sits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Station {
    /// Number of the element in the document; none: a stub of the frame.
    pub element: Option<usize>,
    /// Its room.
    pub form: Form,
    /// Its pieces, in the order of the kind's ports; none: fixed to the frame on the spot.
    pub pins: Vec<Option<usize>>,
    /// The axes that it is on, at most two.
    pub axes: Vec<usize>,
    /// How deep members of a set lie: sun 0, carrier 1, ring 2, in the order of the pins.
    pub depths: Vec<u8>,
}

impl Station {
    /// The pieces that are really there.
    pub fn pieces(&self) -> impl Iterator<Item = usize> + '_ {
        self.pins.iter().flatten().copied()
    }
}

/// All of it.
#[derive(Clone, Debug, Default)]
pub struct Train {
    /// How many axes there are.
    pub n_axes: usize,
    /// Pieces of shafts: the first ones are the shafts of the document, in its order.
    pub pieces: Vec<Piece>,
    /// Stations, elements in document order.
    pub stations: Vec<Station>,
}

impl Train {
    /// Of a layout.
    pub fn of(layout: &Layout) -> Self {
        let numbers: BTreeMap<&Id, usize> = layout
            .shafts
            .iter()
            .enumerate()
            .map(|(number, shaft)| (&shaft.id, number))
            .collect();
        let mut axes = Axes::new(layout.shafts.len());
        for element in &layout.elements {
            axes.join_coaxial(element, &numbers);
        }
        axes.join_reverted(layout, &numbers);
        let mut train = axes.numbered();
        for (number, element) in layout.elements.iter().enumerate() {
            train.add(number, element, &numbers);
        }
        train
    }

    /// Stations on an axis.
    pub fn on_axis(&self) -> Vec<Vec<usize>> {
        let mut found = vec![Vec::new(); self.n_axes];
        for (number, station) in self.stations.iter().enumerate() {
            for axis in &station.axes {
                found[*axis].push(number);
            }
        }
        found
    }

    fn add(&mut self, number: usize, element: &Element, numbers: &BTreeMap<&Id, usize>) {
        let shafts: Vec<Option<usize>> = ports(&element.kind)
            .iter()
            .map(|port| numbers.get(port.shaft).copied())
            .collect();
        match form(&element.kind) {
            Form::Pair => self.add_pair(number, &shafts),
            Form::Coupling if shafts.iter().all(Option::is_some) => {
                self.push(number, Form::Coupling, shafts, Vec::new());
            }
            Form::Coupling => {
                let pins = shafts.into_iter().filter(Option::is_some).collect();
                self.push(number, Form::Hold, pins, Vec::new());
            }
            Form::Set => self.add_set(number, &element.kind, shafts),
            // A vehicle has wheels on each of its shafts.
            form => {
                for shaft in shafts {
                    self.push(number, form, vec![shaft], Vec::new());
                }
            }
        }
    }

    fn push(&mut self, element: usize, form: Form, pins: Vec<Option<usize>>, depths: Vec<u8>) {
        let mut axes: Vec<usize> = pins
            .iter()
            .flatten()
            .map(|piece| self.pieces[*piece].axis)
            .collect();
        axes.dedup();
        if axes.is_empty() {
            axes.push(self.new_axis());
        }
        self.stations.push(Station {
            element: Some(element),
            form,
            pins,
            axes,
            depths,
        });
    }

    /// Wheels on two axes; where both would be on one, the second shaft is drawn once more on an axis of its own.
    fn add_pair(&mut self, number: usize, shafts: &[Option<usize>]) {
        let first = match shafts.first().copied().flatten() {
            Some(piece) => piece,
            None => self.grounded_axis(),
        };
        let second = match shafts.get(1).copied().flatten() {
            Some(piece) if self.pieces[piece].axis == self.pieces[first].axis => {
                let axis = self.new_axis();
                self.pieces.push(Piece {
                    shaft: self.pieces[piece].shaft,
                    axis,
                    copy_of: Some(piece),
                });
                self.pieces.len() - 1
            }
            Some(piece) => piece,
            None => self.grounded_axis(),
        };
        self.push(number, Form::Pair, vec![Some(first), Some(second)], Vec::new());
    }

    fn add_set(&mut self, number: usize, kind: &ElementKind, shafts: Vec<Option<usize>>) {
        let depths = depths(kind);
        let axis = shafts
            .iter()
            .flatten()
            .next()
            .map(|piece| self.pieces[*piece].axis);
        let axis = axis.unwrap_or_else(|| self.new_axis());
        let pins = shafts
            .into_iter()
            .zip(&depths)
            .map(|(shaft, depth)| match shaft {
                // What lies outside is fixed where it is; what lies inside needs a stub that leads out.
                None if *depth == 0 => Some(self.grounded(axis)),
                other => other,
            })
            .collect();
        self.push(number, Form::Set, pins, depths);
    }

    fn new_axis(&mut self) -> usize {
        self.n_axes += 1;
        self.n_axes - 1
    }

    fn grounded_axis(&mut self) -> usize {
        let axis = self.new_axis();
        self.grounded(axis)
    }

    fn grounded(&mut self, axis: usize) -> usize {
        self.pieces.push(Piece {
            shaft: None,
            axis,
            copy_of: None,
        });
        let piece = self.pieces.len() - 1;
        self.stations.push(Station {
            element: None,
            form: Form::Ground,
            pins: vec![Some(piece)],
            axes: vec![axis],
            depths: Vec::new(),
        });
        piece
    }
}

/// What room a kind takes.
fn form(kind: &ElementKind) -> Form {
    match kind {
        ElementKind::Mesh(_)
        | ElementKind::Chain(_)
        | ElementKind::Belt(_)
        | ElementKind::FrictionWheel(_)
        | ElementKind::Worm(_) => Form::Pair,
        ElementKind::Differential(_) | ElementKind::Planetary(_) | ElementKind::Stepped(_) => Form::Set,
        ElementKind::Clutch(_)
        | ElementKind::OneWay(_)
        | ElementKind::SlipClutch(_)
        | ElementKind::TorqueSwitch(_) => Form::Coupling,
        ElementKind::Brake(_) => Form::Hold,
        ElementKind::Motor(_) | ElementKind::Crank(_) | ElementKind::Load(_) => Form::End,
        ElementKind::Winch(_) | ElementKind::Vehicle(_) => Form::Drum,
    }
}

/// How deep the members of a set lie, in the order of its ports.
fn depths(kind: &ElementKind) -> Vec<u8> {
    match kind {
        ElementKind::Differential(_) => vec![0, 0, 1],
        ElementKind::Planetary(_) => vec![0, 2, 1],
        ElementKind::Stepped(set) => {
            let rings = super::sets::rings(&set.ratio);
            vec![if rings[0] { 2 } else { 0 }, if rings[1] { 2 } else { 0 }, 1]
        }
        _ => Vec::new(),
    }
}

/// Shafts in sets of one axis.
struct Axes(Vec<usize>);

impl Axes {
    fn new(n_shafts: usize) -> Self {
        Self((0..n_shafts).collect())
    }

    fn find(&self, mut shaft: usize) -> usize {
        while self.0[shaft] != shaft {
            shaft = self.0[shaft];
        }
        shaft
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.find(one), self.find(other));
        // The lower number stays the root, so that axes come in document order.
        self.0[one.max(other)] = one.min(other);
    }

    fn join_coaxial(&mut self, element: &Element, numbers: &BTreeMap<&Id, usize>) {
        if !matches!(form(&element.kind), Form::Coupling | Form::Set) {
            return;
        }
        let ports = ports(&element.kind);
        let mut shafts = ports.iter().filter_map(|port| numbers.get(port.shaft).copied());
        if let Some(first) = shafts.next() {
            for other in shafts {
                self.join(first, other);
            }
        }
    }

    fn join_reverted(&mut self, layout: &Layout, numbers: &BTreeMap<&Id, usize>) {
        let meshes = spur_meshes(layout, numbers);
        let mut on_shaft: Vec<Vec<usize>> = vec![Vec::new(); layout.shafts.len()];
        for (number, mesh) in meshes.iter().enumerate() {
            on_shaft[mesh.shafts[0]].push(number);
            on_shaft[mesh.shafts[1]].push(number);
        }
        for (middle, here) in on_shaft.iter().enumerate() {
            for (n, one) in here.iter().enumerate() {
                for other in &here[n + 1..] {
                    let (one, other) = (&meshes[*one], &meshes[*other]);
                    if one.reverts_into(other, middle, layout) {
                        self.join_unless_meshing(&meshes, one.beyond(middle), other.beyond(middle), middle);
                    }
                }
            }
        }
    }

    /// Joins two axes where none meshes with the other and neither is that of the shaft between.
    fn join_unless_meshing(&mut self, meshes: &[Spur], one: usize, other: usize, middle: usize) {
        let (a, b, between) = (self.find(one), self.find(other), self.find(middle));
        let meshing = meshes.iter().any(|mesh| {
            let ends = [self.find(mesh.shafts[0]), self.find(mesh.shafts[1])];
            ends == [a, b] || ends == [b, a]
        });
        if a != b && a != between && b != between && !meshing {
            self.join(a, b);
        }
    }

    fn numbered(&self) -> Train {
        let mut train = Train::default();
        let mut of_root = BTreeMap::new();
        for shaft in 0..self.0.len() {
            let root = self.find(shaft);
            let axis = *of_root.entry(root).or_insert_with(|| {
                train.n_axes += 1;
                train.n_axes - 1
            });
            train.pieces.push(Piece {
                shaft: Some(shaft),
                axis,
                copy_of: None,
            });
        }
        train
    }
}

/// A mesh of two gears toothed outside, between shafts.
struct Spur {
    shafts: [usize; 2],
    teeth: [u32; 2],
    module_mm: Option<f64>,
}

fn spur_meshes(layout: &Layout, numbers: &BTreeMap<&Id, usize>) -> Vec<Spur> {
    let meshes = layout.elements.iter().filter_map(|element| match &element.kind {
        ElementKind::Mesh(mesh) if mesh.form == MeshForm::External => Some(Spur {
            shafts: [*numbers.get(&mesh.a)?, *numbers.get(&mesh.b)?],
            teeth: mesh.teeth,
            module_mm: mesh.module_mm,
        }),
        _ => None,
    });
    meshes.filter(|mesh| mesh.shafts[0] != mesh.shafts[1]).collect()
}

impl Spur {
    fn end(&self, shaft: usize) -> usize {
        usize::from(self.shafts[1] == shaft)
    }

    fn beyond(&self, shaft: usize) -> usize {
        self.shafts[1 - self.end(shaft)]
    }

    /// Whether the shafts beyond are at the same distance and so on one axis; an idler of one gear leads straight on instead.
    fn reverts_into(&self, other: &Self, middle: usize, layout: &Layout) -> bool {
        let sum = |mesh: &Self| u64::from(mesh.teeth[0]) + u64::from(mesh.teeth[1]);
        let is_idler = self.teeth[self.end(middle)] == other.teeth[other.end(middle)];
        let module_fits = match (self.module_mm, other.module_mm) {
            (Some(one), Some(other)) => (one - other).abs() < 1e-9,
            _ => true,
        };
        let place = |shaft: usize| layout.shafts[shaft].axis_mm;
        let places_fit = match (place(self.beyond(middle)), place(other.beyond(middle))) {
            (Some(one), Some(other)) => (one[0] - other[0]).abs() + (one[1] - other[1]).abs() < 1e-6,
            _ => true,
        };
        sum(self) == sum(other) && !is_idler && module_fits && places_fit
    }
}
