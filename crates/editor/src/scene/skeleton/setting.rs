//! A train with everything in its place: columns, heights, nesting; what symbols are drawn from.

use layshaft_layout::{Element, ElementKind, Layout, MeshForm, WheelForm};

use super::adjust::Adjusted;
use super::nesting::{Nesting, nest};
use super::order::{order, places};
use super::rows::{Wish, rows, spread};
use super::sets;
use super::train::{Form, Train};

/// The usual distance of two axes: the middle one of a drawing's sums of teeth is drawn so large.
const USUAL_DISTANCE: f64 = 78.0;
/// Smallest and largest distance that tooth counts lead to.
const DISTANCES: (f64, f64) = (60.0, 124.0);
/// Least radius that a wheel has outside its shaft's lines.
pub const LEAST_RIM: f64 = 8.0;
/// Free room between neighbouring symbols.
const GAP: f64 = 12.0;
/// Room for a bearing at the end of a shaft.
pub const BEARING_ROOM: f64 = 26.0;

/// Everything in its place.
#[derive(Clone, Debug)]
pub struct Setting<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// What is drawn.
    pub train: Train,
    /// How shafts lie inside one another.
    pub nesting: Nesting,
    /// Place of each station in the order from left to right.
    pub places: Vec<usize>,
    /// Column of each station.
    pub xs: Vec<f64>,
    /// Height of each axis.
    pub ys: Vec<f64>,
}

impl<'a> Setting<'a> {
    /// Sets a layout out: by itself, then with what was put elsewhere by hand.
    pub fn of(layout: &'a Layout, drive: Option<usize>, adjusted: &Adjusted) -> Self {
        let train = Train::of(layout);
        let wishes = wishes(layout, &train);
        let first = drive.map_or(0, |shaft| train.pieces[shaft].axis);
        let mut ys = rows(train.n_axes, first, &wishes);
        let sources: Vec<bool> = train
            .stations
            .iter()
            .map(|station| {
                station
                    .element
                    .is_some_and(|number| is_source(&layout.elements[number]))
            })
            .collect();
        let order = order(&train, drive, &ys, &sources);
        let mut places = places(&order);
        let extent = |station: usize, radius: f64| room_of(layout, &train, station, radius);
        let mut nesting = nest(&train, &places, &extent);
        let needs = needs(layout, &train, &nesting, &wishes);
        let rooms = axis_rooms(&train, &nesting);
        spread(&mut ys, &needs, &rooms);
        let mut xs = columns(layout, &train, &nesting, &order, &places, &ys);
        if !adjusted.is_empty() {
            adjusted.put(layout, &train, &mut xs, &mut ys);
            let mut order = order;
            order.sort_by(|one, other| xs[*one].total_cmp(&xs[*other]));
            places = super::order::places(&order);
            nesting = nest(&train, &places, &extent);
        }
        Self {
            layout,
            train,
            nesting,
            places,
            xs,
            ys,
        }
    }

    /// The element at a station; none for a stub of the frame.
    pub fn element(&self, station: usize) -> Option<&'a Element> {
        Some(&self.layout.elements[self.train.stations[station].element?])
    }

    /// Whether a piece goes on to the left and to the right of a station.
    pub fn sides(&self, piece: usize, station: usize) -> (bool, bool) {
        let (first, last) = self.nesting.spans[piece];
        let place = self.places[station];
        (first < place, last > place)
    }

    /// The height of a piece's axis.
    pub fn y(&self, piece: usize) -> f64 {
        self.ys[self.train.pieces[piece].axis]
    }

    /// The radius of a piece, 0 where it is solid.
    pub fn radius(&self, piece: usize) -> f64 {
        self.nesting.radii[piece]
    }
}

fn is_source(element: &Element) -> bool {
    matches!(element.kind, ElementKind::Motor(_) | ElementKind::Crank(_))
}

/// Pixels to a tooth.
fn scale(layout: &Layout) -> f64 {
    let mut sums: Vec<u64> = layout
        .elements
        .iter()
        .filter_map(|element| match &element.kind {
            ElementKind::Mesh(mesh) if mesh.form == MeshForm::External => {
                Some(u64::from(mesh.teeth[0]) + u64::from(mesh.teeth[1]))
            }
            _ => None,
        })
        .collect();
    sums.sort_unstable();
    let middle = sums.get(sums.len() / 2).copied().unwrap_or(60);
    USUAL_DISTANCE / (middle as f64).max(2.0)
}

/// How far apart the axes of each pair want to be.
fn wishes(layout: &Layout, train: &Train) -> Vec<Wish> {
    let scale = scale(layout);
    let pairs = train.stations.iter().filter(|station| station.form == Form::Pair);
    pairs
        .filter_map(|station| {
            let [one, other] = station.axes[..] else {
                return None;
            };
            let (distance, is_inside) = wished(&layout.elements[station.element?].kind, scale);
            Some(Wish {
                axes: [one, other],
                distance,
                is_inside,
            })
        })
        .collect()
}

fn wished(kind: &ElementKind, scale: f64) -> (f64, bool) {
    let clamped = |distance: f64| distance.clamp(DISTANCES.0, DISTANCES.1);
    match kind {
        ElementKind::Mesh(mesh) => {
            let [a, b] = mesh.teeth.map(f64::from);
            match mesh.form {
                MeshForm::External => (clamped((a + b) * scale), false),
                MeshForm::Internal => (inside(a, b, b * scale), true),
                MeshForm::Bevel => (84.0, false),
            }
        }
        ElementKind::FrictionWheel(wheels) => {
            let [a, b] = wheels.diameters_mm;
            match wheels.form {
                WheelForm::External => (80.0, false),
                WheelForm::Internal => (inside(a, b, 48.0), true),
            }
        }
        ElementKind::Worm(_) => (76.0, false),
        _ => (90.0, false),
    }
}

/// The distance of an axis within a ring of some radius.
fn inside(a: f64, b: f64, ring: f64) -> f64 {
    (ring.clamp(40.0, 72.0) * (1.0 - a / b.max(1.0))).clamp(20.0, 54.0)
}

/// The least distances that symbols need.
fn needs(layout: &Layout, train: &Train, nesting: &Nesting, wishes: &[Wish]) -> Vec<Wish> {
    let pairs = train
        .stations
        .iter()
        .filter(|station| station.form == Form::Pair && station.axes.len() == 2);
    pairs
        .zip(wishes)
        .map(|(station, wish)| {
            let hollow: f64 = station.pieces().map(|piece| nesting.radii[piece]).sum();
            let least = match station.element.map(|number| &layout.elements[number].kind) {
                _ if wish.is_inside => 14.0,
                Some(ElementKind::Mesh(mesh)) if mesh.form == MeshForm::Bevel => 62.0,
                Some(ElementKind::Mesh(_) | ElementKind::FrictionWheel(_)) => 2.0 * LEAST_RIM + 4.0,
                _ => 44.0,
            };
            Wish {
                distance: hollow + least,
                ..*wish
            }
        })
        .collect()
}

fn axis_rooms(train: &Train, nesting: &Nesting) -> Vec<f64> {
    let mut rooms: Vec<f64> = vec![8.0; train.n_axes];
    for (number, station) in train.stations.iter().enumerate() {
        for axis in &station.axes {
            if station.form != Form::Pair {
                rooms[*axis] = rooms[*axis].max(nesting.rooms[number]);
            }
        }
    }
    rooms
}

/// How far a station reaches from its axis, from the largest radius of its pins.
fn room_of(layout: &Layout, train: &Train, station: usize, radius: f64) -> f64 {
    let station = &train.stations[station];
    let kind = station.element.map(|number| &layout.elements[number].kind);
    match (station.form, kind) {
        (Form::Pair, _) => radius + LEAST_RIM,
        (Form::Coupling, _) => radius + 14.0,
        (Form::Hold, _) => radius + 32.0,
        (Form::Set, Some(kind)) => sets::room(kind, radius),
        (Form::End, _) => radius.max(8.0) + 12.0,
        (Form::Drum, Some(ElementKind::Vehicle(_))) => radius + 28.0,
        (Form::Drum, _) => radius + 18.0,
        (Form::Ground | Form::Set, _) => radius + 10.0,
    }
}

/// Half the width that a symbol takes.
pub fn half_width(layout: &Layout, train: &Train, station: usize) -> f64 {
    let station = &train.stations[station];
    match station.element.map(|number| &layout.elements[number].kind) {
        None => 8.0,
        Some(ElementKind::Mesh(mesh)) if mesh.form == MeshForm::Bevel => 30.0,
        Some(ElementKind::Mesh(mesh)) if mesh.form == MeshForm::Internal => 26.0,
        Some(ElementKind::Worm(_)) => 28.0,
        Some(kind) => match station.form {
            Form::Pair => 17.0,
            Form::Coupling => 18.0,
            Form::Set => sets::half_width(kind),
            Form::Hold => 14.0,
            Form::End => 22.0,
            Form::Drum => match kind {
                ElementKind::Vehicle(_) => 16.0,
                _ => 22.0,
            },
            Form::Ground => 8.0,
        },
    }
}

/// The column of every station: as far to the left as what it would touch allows, in the order.
fn columns(
    layout: &Layout,
    train: &Train,
    nesting: &Nesting,
    order: &[usize],
    places: &[usize],
    ys: &[f64],
) -> Vec<f64> {
    let mut xs = vec![0.0; order.len()];
    let mut right = vec![0.0; order.len()];
    let heights: Vec<(f64, f64)> = (0..order.len())
        .map(|number| height(layout, train, nesting, number, ys))
        .collect();
    for (n, station) in order.iter().enumerate() {
        let half = half_width(layout, train, *station);
        let (left_end, right_end) = ends_here(train, nesting, *station, places);
        let left = half + if left_end { BEARING_ROOM } else { 0.0 };
        let mut x: f64 = left;
        for before in &order[..n] {
            let (one, other) = (heights[*before], heights[*station]);
            if one.0 < other.1 + 6.0 && other.0 < one.1 + 6.0 {
                x = x.max(right[*before] + GAP + left);
            }
        }
        xs[*station] = x.round();
        right[*station] = xs[*station] + half + if right_end { BEARING_ROOM } else { 0.0 };
    }
    xs
}

/// Whether a solid shaft begins and ends at a station, so that it needs a bearing beyond it.
pub fn ends_here(train: &Train, nesting: &Nesting, station: usize, places: &[usize]) -> (bool, bool) {
    let (mut left, mut right) = (false, false);
    if !matches!(train.stations[station].form, Form::Pair | Form::Hold | Form::Drum) {
        return (left, right);
    }
    for piece in train.stations[station].pieces() {
        if nesting.radii[piece] == 0.0 {
            left |= nesting.spans[piece].0 == places[station];
            right |= nesting.spans[piece].1 == places[station];
        }
    }
    (left, right)
}

/// From where to where a station reaches upright.
fn height(layout: &Layout, train: &Train, nesting: &Nesting, number: usize, ys: &[f64]) -> (f64, f64) {
    let station = &train.stations[number];
    let room = nesting.rooms[number];
    let axes = station.axes.iter().map(|axis| ys[*axis]);
    let (top, bottom) = axes.fold((f64::INFINITY, f64::NEG_INFINITY), |(top, bottom), y| {
        (top.min(y), bottom.max(y))
    });
    let is_down = matches!(
        station.element.map(|number| &layout.elements[number].kind),
        Some(ElementKind::Winch(_))
    );
    let beyond = if station.form == Form::Pair {
        room.max(0.75 * (bottom - top)) + 16.0
    } else {
        room + 12.0
    };
    (top - beyond, bottom + beyond + if is_down { 30.0 } else { 0.0 })
}
