//! The order of stations from left to right: as power flows, with shafts inside one another only where the train asks for it.
//!
//! All stations have one order, so that a mesh has the same column on both its axes. A first order goes by the distance from the
//! drive; then single stations are moved while that makes the drawing plainer, within a budget of work, so that a train of hundreds
//! is drawn as soon as one of ten. Where shafts of a small train still cross, the same is tried from orders near to that.

use std::collections::VecDeque;

use super::train::{Form, Train};

/// How many stations are looked at in all while looking for a better order.
const BUDGET: usize = 600_000;

/// Trains of so many stations at most are shaken where shafts cross, so often, and so many stations at once.
const SHAKEN: usize = 24;
const SHAKES: usize = 40;
const AT_ONCE: usize = 3;

/// Prices, against one step of a shaft's length.
const WRAPPED_OPEN: f64 = 0.6;
const WRAPPED: f64 = 1.6;
const WRAPPED_END: f64 = 30.0;
const END_WITHIN: f64 = 20.0;
const CONFLICT: f64 = 30.0;
const CROSSED: f64 = 12.0;
const SAME_SIDE: f64 = 1.5;
const BACKWARDS: f64 = 0.35;

/// Finds the order: numbers of stations from left to right.
pub fn order(train: &Train, drive: Option<usize>, heights: &[f64], sources: &[bool]) -> Vec<usize> {
    let (depths, before) = depths(train, drive);
    let mut order: Vec<usize> = (0..train.stations.len()).collect();
    order.sort_by_key(|station| (depths[*station], !sources[*station], *station));
    let mut search = Search::new(train, heights, &depths, sources);
    let branches = branches(&before);
    for _ in 0..3 {
        search.improve(&mut order);
        if !search.move_branches(&mut order, &branches) {
            break;
        }
    }
    search.shake(&mut order, &branches);
    order
}

/// How many stations away from the drive each one is, and the station that leads to it.
fn depths(train: &Train, drive: Option<usize>) -> (Vec<usize>, Vec<Option<usize>>) {
    let mut on_piece: Vec<Vec<usize>> = vec![Vec::new(); train.pieces.len()];
    for (number, station) in train.stations.iter().enumerate() {
        for piece in station.pieces() {
            on_piece[piece].push(number);
        }
    }
    let mut found: Vec<Option<usize>> = vec![None; train.stations.len()];
    let mut before: Vec<Option<usize>> = vec![None; train.stations.len()];
    let mut seen = vec![false; train.pieces.len()];
    for start in drive.into_iter().chain(0..train.pieces.len()) {
        if seen[start] {
            continue;
        }
        seen[start] = true;
        let mut waiting = VecDeque::from([(start, 0, None)]);
        while let Some((piece, depth, from)) = waiting.pop_front() {
            for station in &on_piece[piece] {
                if found[*station].is_none() {
                    found[*station] = Some(depth);
                    before[*station] = from;
                }
                for next in train.stations[*station].pieces() {
                    if !std::mem::replace(&mut seen[next], true) {
                        waiting.push_back((next, depth + 1, Some(*station)));
                    }
                }
            }
        }
    }
    (found.into_iter().map(Option::unwrap_or_default).collect(), before)
}

/// For every station what can be reached through it alone, itself first.
fn branches(before: &[Option<usize>]) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = (0..before.len()).map(|station| vec![station]).collect();
    for station in 0..before.len() {
        let mut at = station;
        while let Some(next) = before[at] {
            found[next].push(station);
            at = next;
        }
    }
    found
}

struct Search<'a> {
    train: &'a Train,
    depths: &'a [usize],
    sources: &'a [bool],
    on_axis: Vec<Vec<usize>>,
    /// Pieces of each axis.
    pieces: Vec<Vec<usize>>,
    /// Axes that lie between those of each pair.
    between: Vec<Vec<usize>>,
    work: usize,
    /// How often shafts cross in the order that was priced last.
    clashes: usize,
}

impl<'a> Search<'a> {
    fn new(train: &'a Train, heights: &'a [f64], depths: &'a [usize], sources: &'a [bool]) -> Self {
        let mut pieces = vec![Vec::new(); train.n_axes];
        for (number, piece) in train.pieces.iter().enumerate() {
            pieces[piece.axis].push(number);
        }
        let between = train
            .stations
            .iter()
            .map(|station| axes_between(&station.axes, heights))
            .collect();
        Self {
            train,
            depths,
            sources,
            on_axis: train.on_axis(),
            pieces,
            between,
            work: 0,
            clashes: 0,
        }
    }

    fn improve(&mut self, order: &mut Vec<usize>) {
        let n = order.len();
        let reach = if n <= 24 { n } else { 6 };
        let mut places = places(order);
        let mut price = self.price(&places);
        for _ in 0..8 {
            let before = price;
            for station in 0..n {
                let from = places[station];
                let mut best = (price - 1e-9, from);
                for to in from.saturating_sub(reach)..(from + reach + 1).min(n) {
                    if to == from {
                        continue;
                    }
                    if self.work > BUDGET {
                        return;
                    }
                    moved(order, &mut places, from, to);
                    let new = self.price(&places);
                    moved(order, &mut places, to, from);
                    if new < best.0 {
                        best = (new, to);
                    }
                }
                if best.1 != from {
                    moved(order, &mut places, from, best.1);
                    price = best.0;
                }
            }
            if price >= before - 1e-9 {
                return;
            }
        }
    }

    /// Moves whole branches of the train to another place, turned round where that is better; whether any was.
    fn move_branches(&mut self, order: &mut Vec<usize>, branches: &[Vec<usize>]) -> bool {
        let n = order.len();
        let mut price = self.price(&places(order));
        let start = price;
        for branch in branches
            .iter()
            .filter(|branch| branch.len() > 1 && branch.len() < n)
        {
            let rest: Vec<usize> = order
                .iter()
                .copied()
                .filter(|station| !branch.contains(station))
                .collect();
            let mut inner: Vec<usize> = order
                .iter()
                .copied()
                .filter(|station| branch.contains(station))
                .collect();
            let mut best: Option<Vec<usize>> = None;
            for _ in 0..2 {
                for to in 0..=rest.len() {
                    if self.work > BUDGET {
                        return false;
                    }
                    let tried: Vec<usize> = rest[..to]
                        .iter()
                        .chain(&inner)
                        .chain(&rest[to..])
                        .copied()
                        .collect();
                    let new = self.price(&places(&tried));
                    if new < price - 1e-9 {
                        price = new;
                        best = Some(tried);
                    }
                }
                inner.reverse();
            }
            if let Some(best) = best {
                *order = best;
            }
        }
        price < start - 1e-9
    }

    /// Looks for the way out of an order in which shafts cross though no single move betters it: some stations are put
    /// elsewhere, by chance but the same chance every time, and the rest is moved after them.
    fn shake(&mut self, order: &mut Vec<usize>, branches: &[Vec<usize>]) {
        let n = order.len();
        let mut best = self.price(&places(order));
        let mut clashes = self.clashes;
        let mut chance = 1;
        self.work = 0;
        for _ in 0..SHAKES {
            if clashes == 0 || n > SHAKEN || self.work > BUDGET {
                return;
            }
            let mut tried = order.clone();
            for _ in 0..AT_ONCE {
                let station = tried.remove(below(n, &mut chance));
                tried.insert(below(n, &mut chance), station);
            }
            self.improve(&mut tried);
            self.move_branches(&mut tried, branches);
            let price = self.price(&places(&tried));
            if price < best - 1e-9 {
                (best, clashes) = (price, self.clashes);
                *order = tried;
            }
        }
    }

    fn price(&mut self, places: &[usize]) -> f64 {
        self.clashes = 0;
        let mut spans = vec![(usize::MAX, 0); self.train.pieces.len()];
        for (number, station) in self.train.stations.iter().enumerate() {
            for piece in station.pieces() {
                let span: &mut (usize, usize) = &mut spans[piece];
                *span = (span.0.min(places[number]), span.1.max(places[number]));
            }
        }
        self.work += 4 * self.train.stations.len();
        let along: f64 = (0..self.train.n_axes)
            .map(|axis| self.axis_price(axis, places, &spans))
            .sum();
        along + self.crossings(places, &spans) + self.flow(places)
    }

    fn axis_price(&mut self, axis: usize, places: &[usize], spans: &[(usize, usize)]) -> f64 {
        let mut sum = 0.0;
        // (inner, outer): what the order asks of the nesting.
        let mut asked: Vec<(usize, usize)> = Vec::new();
        let mut passes: Vec<(usize, usize)> = Vec::new();
        self.work += self.on_axis[axis].len() * self.pieces[axis].len();
        for number in &self.on_axis[axis] {
            let station = &self.train.stations[*number];
            let place = places[*number];
            for piece in &self.pieces[axis] {
                let (first, last) = spans[*piece];
                if first >= place || last <= place {
                    continue;
                }
                sum += 1.0;
                if station.pins.contains(&Some(*piece)) {
                    sum += if station.form.is_end() { END_WITHIN } else { 0.0 };
                    continue;
                }
                sum += match station.form {
                    form if form.is_end() => WRAPPED_END,
                    form if form.is_open() => WRAPPED_OPEN,
                    _ => WRAPPED,
                };
                if station.form.is_open() {
                    let on_axis = station
                        .pieces()
                        .filter(|pin| self.train.pieces[*pin].axis == axis);
                    asked.extend(on_axis.map(|pin| (*piece, pin)));
                } else {
                    passes.push((*piece, *number));
                }
            }
            sum += members(station, place, spans, &mut asked);
        }
        let uneasy = self.take_sides(&passes, &mut asked);
        let conflicts = asked
            .iter()
            .enumerate()
            .filter(|(n, (inner, outer))| asked[n + 1..].contains(&(*outer, *inner)))
            .count();
        self.clashes += conflicts;
        sum + conflicts as f64 * CONFLICT + uneasy
    }

    /// A shaft that passes a clutch or a set runs inside all of its shafts, or goes round all of them as a drum where one of
    /// them is inside it anyway. Gives the price of what can be neither.
    fn take_sides(&mut self, passes: &[(usize, usize)], asked: &mut Vec<(usize, usize)>) -> f64 {
        let mut sum = 0.0;
        let mut sides = Vec::new();
        for (piece, station) in passes {
            let pins = || self.train.stations[*station].pieces();
            let is_round = pins().any(|pin| asked.contains(&(pin, *piece)));
            let is_within = pins().any(|pin| asked.contains(&(*piece, pin)));
            if is_round && is_within {
                self.clashes += 1;
                sum += CONFLICT / 2.0;
            }
            sides.extend(pins().map(|pin| if is_round { (pin, *piece) } else { (*piece, pin) }));
        }
        sides.sort_unstable();
        sides.dedup();
        asked.extend(sides);
        sum
    }

    /// Wheels that cut through an axis between theirs.
    fn crossings(&mut self, places: &[usize], spans: &[(usize, usize)]) -> f64 {
        let mut sum = 0.0;
        for (number, axes) in self.between.iter().enumerate() {
            for axis in axes {
                self.work += self.pieces[*axis].len();
                let crossed = self.pieces[*axis]
                    .iter()
                    .filter(|piece| spans[**piece].0 <= places[number] && spans[**piece].1 >= places[number]);
                sum += crossed.count() as f64 * CROSSED;
            }
        }
        sum
    }

    /// Trains are read from left to right; sources stand on the left of what they drive, loads on the right.
    fn flow(&self, places: &[usize]) -> f64 {
        let mut sum = 0.0;
        for stations in &self.on_axis {
            for (n, one) in stations.iter().enumerate().take(40) {
                for other in stations[n + 1..].iter().take(12) {
                    let backwards =
                        (self.depths[*one] < self.depths[*other]) != (places[*one] < places[*other]);
                    if backwards && self.depths[*one] != self.depths[*other] {
                        sum += BACKWARDS;
                    }
                }
            }
        }
        let ends = self
            .train
            .stations
            .iter()
            .enumerate()
            .filter(|(_, station)| station.form.is_end());
        for (number, station) in ends {
            let leftmost = self.on_axis[station.axes[0]]
                .iter()
                .all(|other| places[*other] >= places[number]);
            let rightmost = self.on_axis[station.axes[0]]
                .iter()
                .all(|other| places[*other] <= places[number]);
            let is_well = if self.sources[number] { leftmost } else { rightmost };
            sum += if is_well { 0.0 } else { 1.2 };
        }
        sum
    }
}

/// A number below a bound, of a row that is the same every time (Lehmer's generator with the multiplier 48271; Park and
/// Miller, "Technical correspondence", Communications of the ACM 36(7), 1993).
fn below(bound: usize, chance: &mut u64) -> usize {
    *chance = *chance * 48_271 % 2_147_483_647;
    usize::try_from(*chance).unwrap_or(0) % bound
}

/// What members of a set, or the halves of a clutch, ask of one another.
fn members(
    station: &super::train::Station,
    place: usize,
    spans: &[(usize, usize)],
    asked: &mut Vec<(usize, usize)>,
) -> f64 {
    let mut sum = 0.0;
    let pins: Vec<(usize, u8)> = station
        .pins
        .iter()
        .enumerate()
        .filter_map(|(n, pin)| Some(((*pin)?, station.depths.get(n).copied().unwrap_or(0))))
        .collect();
    for (n, (one, depth)) in pins.iter().enumerate() {
        for (other, other_depth) in &pins[n + 1..] {
            let (a, b) = (spans[*one], spans[*other]);
            let side_by_side = a.0 < place && b.0 < place || a.1 > place && b.1 > place;
            if !side_by_side || one == other {
                continue;
            }
            let passes = |span: (usize, usize)| span.0 < place && span.1 > place;
            match station.form {
                Form::Set if depth < other_depth => asked.push((*one, *other)),
                Form::Set if depth > other_depth => asked.push((*other, *one)),
                // Side by side on the same side, one of them passes through the other.
                Form::Set | Form::Coupling => {
                    sum += SAME_SIDE;
                    match (passes(a), passes(b)) {
                        (true, false) => asked.push((*one, *other)),
                        (false, true) => asked.push((*other, *one)),
                        (true, true) => sum += SAME_SIDE,
                        (false, false) => {}
                    }
                }
                _ => {}
            }
        }
    }
    sum
}

fn axes_between(axes: &[usize], heights: &[f64]) -> Vec<usize> {
    let [one, other] = axes else { return Vec::new() };
    let (low, high) = (
        heights[*one].min(heights[*other]),
        heights[*one].max(heights[*other]),
    );
    (0..heights.len())
        .filter(|axis| heights[*axis] > low + 1e-6 && heights[*axis] < high - 1e-6)
        .collect()
}

/// The place of every station in an order.
pub fn places(order: &[usize]) -> Vec<usize> {
    let mut places = vec![0; order.len()];
    for (place, station) in order.iter().enumerate() {
        places[*station] = place;
    }
    places
}

fn moved(order: &mut Vec<usize>, places: &mut [usize], from: usize, to: usize) {
    let station = order.remove(from);
    order.insert(to, station);
    for place in from.min(to)..=from.max(to) {
        places[order[place]] = place;
    }
}
