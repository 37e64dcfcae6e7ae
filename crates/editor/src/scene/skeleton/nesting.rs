//! Which shaft lies inside which: the radius of every piece of shaft as it is drawn, 0 for a solid one on its axis.
//!
//! Where pieces of an axis overlap from left to right, the inner ones are drawn as lines within the outer, hollow ones. What sits on
//! an outer shaft lies outside the inner; a shaft may also go round a clutch or a set as a drum.

use super::train::{Form, Station, Train};

/// Distance between the lines of nested shafts.
pub const STEP: f64 = 7.0;
/// Free height between a drum and what it goes round.
const DRUM_GAP: f64 = 8.0;

/// What the nesting comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Nesting {
    /// Radius of each piece.
    pub radii: Vec<f64>,
    /// How far each station reaches from its axis, wheels of pairs left out.
    pub rooms: Vec<f64>,
    /// First and last place of each piece; first > last for one that nothing sits on.
    pub spans: Vec<(usize, usize)>,
    /// Pieces of one axis that cross on the drawing, though not in the train.
    pub crossed: Vec<(usize, usize)>,
}

/// Nests the pieces of every axis for an order of stations. `extent` tells how far a station reaches, from the largest radius of
/// its pins.
pub fn nest(train: &Train, places: &[usize], extent: &dyn Fn(usize, f64) -> f64) -> Nesting {
    let mut nesting = Nesting {
        radii: vec![0.0; train.pieces.len()],
        rooms: vec![0.0; train.stations.len()],
        spans: vec![(usize::MAX, 0); train.pieces.len()],
        crossed: Vec::new(),
    };
    for (number, station) in train.stations.iter().enumerate() {
        for piece in station.pieces() {
            let span = &mut nesting.spans[piece];
            *span = (span.0.min(places[number]), span.1.max(places[number]));
        }
    }
    let mut pieces = vec![Vec::new(); train.n_axes];
    for (number, piece) in train.pieces.iter().enumerate() {
        pieces[piece.axis].push(number);
    }
    for (axis, stations) in train.on_axis().iter().enumerate() {
        nest_axis(train, axis, &pieces[axis], stations, places, extent, &mut nesting);
    }
    nesting
}

fn nest_axis(
    train: &Train,
    axis: usize,
    pieces: &[usize],
    stations: &[usize],
    places: &[usize],
    extent: &dyn Fn(usize, f64) -> f64,
    nesting: &mut Nesting,
) {
    let inward = reasons(train, pieces, stations, places, nesting);
    let order = inner_first(pieces, &inward, nesting);
    for (n, piece) in order.iter().enumerate() {
        let span = nesting.spans[pieces[*piece]];
        let mut radius: f64 = 0.0;
        for inner in &order[..n] {
            let other = nesting.spans[pieces[*inner]];
            if overlap(span, other) {
                radius = radius.max(nesting.radii[pieces[*inner]] + STEP);
            }
        }
        // A drum clears what it goes round.
        for station in stations {
            let place = places[*station];
            let is_within = span.0 < place && place < span.1;
            let pins = &train.stations[*station].pins;
            if !is_within || pins.contains(&Some(pieces[*piece])) || train.stations[*station].form.is_open() {
                continue;
            }
            let all_inner = train.stations[*station]
                .pieces()
                .all(|pin| order[..n].iter().any(|inner| pieces[*inner] == pin));
            if all_inner {
                let pins = train.stations[*station].pieces();
                let widest = pins.map(|pin| nesting.radii[pin]).fold(0.0, f64::max);
                radius = radius.max(extent(*station, widest) + DRUM_GAP);
            }
        }
        nesting.radii[pieces[*piece]] = radius;
    }
    for station in stations {
        let on_axis = train.stations[*station]
            .pieces()
            .filter(|pin| train.pieces[*pin].axis == axis);
        let widest = on_axis.map(|pin| nesting.radii[pin]).fold(0.0, f64::max);
        let room = extent(*station, widest);
        nesting.rooms[*station] = nesting.rooms[*station].max(room);
        note_crossings(train, axis, *station, pieces, places, room, nesting);
    }
}

/// Shafts that run through the lines of a station on their way past it.
fn note_crossings(
    train: &Train,
    axis: usize,
    station: usize,
    pieces: &[usize],
    places: &[usize],
    room: f64,
    nesting: &mut Nesting,
) {
    let pins: Vec<usize> = train.stations[station]
        .pieces()
        .filter(|pin| train.pieces[*pin].axis == axis)
        .collect();
    let least = pins
        .iter()
        .map(|pin| nesting.radii[*pin])
        .fold(f64::INFINITY, f64::min);
    let reach = if train.stations[station].form == Form::Pair {
        f64::INFINITY
    } else {
        room
    };
    for piece in pieces {
        let (first, last) = nesting.spans[*piece];
        let passes = first < places[station] && places[station] < last && !pins.contains(piece);
        let radius = nesting.radii[*piece];
        if passes && radius > least && radius < reach {
            nesting.crossed.extend(pins.first().map(|pin| (*piece, *pin)));
        }
    }
}

const fn overlap(one: (usize, usize), other: (usize, usize)) -> bool {
    one.0 < other.1 && other.0 < one.1
}

/// How much speaks for piece `t` lying inside piece `s`, as `[t][s]` (numbers within the axis).
fn reasons(
    train: &Train,
    pieces: &[usize],
    stations: &[usize],
    places: &[usize],
    nesting: &Nesting,
) -> Vec<Vec<f64>> {
    let mut inward = vec![vec![0.0; pieces.len()]; pieces.len()];
    let local = |piece: usize| pieces.iter().position(|other| *other == piece);
    for number in stations {
        let station = &train.stations[*number];
        let place = places[*number];
        for (t, piece) in pieces.iter().enumerate() {
            if station.form.is_open() && passes_by(station, place, *piece, nesting) {
                for s in station.pieces().filter_map(local) {
                    inward[t][s] += 1.0;
                }
            }
        }
        let pins: Vec<(usize, u8)> = station
            .pins
            .iter()
            .enumerate()
            .filter_map(|(n, pin)| Some((local((*pin)?)?, station.depths.get(n).copied().unwrap_or(0))))
            .collect();
        for (t, depth) in &pins {
            for (s, other_depth) in pins.iter().filter(|(s, _)| s != t) {
                let passes = |local: usize| {
                    let (first, last) = nesting.spans[pieces[local]];
                    first < place && place < last
                };
                if station.form == Form::Set && depth < other_depth {
                    inward[*t][*s] += 1.0;
                } else if depth == other_depth && passes(*t) && !passes(*s) {
                    inward[*t][*s] += 0.8;
                }
            }
        }
    }
    take_sides(train, pieces, stations, places, nesting, &mut inward);
    inward
}

/// Whether a piece runs past a station without having anything on it.
fn passes_by(station: &Station, place: usize, piece: usize, nesting: &Nesting) -> bool {
    let (first, last) = nesting.spans[piece];
    first < place && place < last && !station.pins.contains(&Some(piece))
}

/// What passes a clutch or a set runs inside all of its shafts, or round all of them where more speaks for that.
fn take_sides(
    train: &Train,
    pieces: &[usize],
    stations: &[usize],
    places: &[usize],
    nesting: &Nesting,
    inward: &mut [Vec<f64>],
) {
    let certain: Vec<Vec<f64>> = inward.to_vec();
    for number in stations {
        let station = &train.stations[*number];
        if station.form.is_open() {
            continue;
        }
        let pins: Vec<usize> = station
            .pieces()
            .filter_map(|pin| pieces.iter().position(|other| *other == pin))
            .collect();
        for (t, piece) in pieces.iter().enumerate() {
            if passes_by(station, places[*number], *piece, nesting) {
                let within: f64 = pins.iter().map(|s| certain[t][*s]).sum();
                let round: f64 = pins.iter().map(|s| certain[*s][t]).sum();
                for s in &pins {
                    let (inner, outer) = if round > within { (*s, t) } else { (t, *s) };
                    inward[inner][outer] += 0.3;
                }
            }
        }
    }
}

/// Pieces from the innermost to the outermost: again and again the one that fewest reasons want outside of another is taken, of
/// several the longest.
fn inner_first(pieces: &[usize], inward: &[Vec<f64>], nesting: &Nesting) -> Vec<usize> {
    let mut left: Vec<usize> = (0..pieces.len()).collect();
    let mut order = Vec::with_capacity(pieces.len());
    // What is left to be taken has to lie outside what was taken, so only reasons among what is left count.
    let mut against: Vec<f64> = left
        .iter()
        .map(|s| left.iter().map(|t| inward[*t][*s]).sum())
        .collect();
    while !left.is_empty() {
        let length = |local: usize| {
            let (first, last) = nesting.spans[pieces[local]];
            last.saturating_sub(first)
        };
        let best = left
            .iter()
            .enumerate()
            .min_by(|(_, one), (_, other)| {
                against[**one]
                    .total_cmp(&against[**other])
                    .then(length(**other).cmp(&length(**one)))
            })
            .map_or(0, |(n, _)| n);
        let taken = left.remove(best);
        for s in &left {
            against[*s] -= inward[taken][*s];
        }
        order.push(taken);
    }
    order
}
