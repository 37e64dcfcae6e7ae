//! Circulating power by brute force: reachability for the parts, augmenting paths for the amount.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_layout::{ElementKind, Id};

use super::roads::Roads;

/// A power that flows from one node to another; shafts and elements are nodes, told apart by their prefix.
type Flows = BTreeMap<(String, String), f64>;

/// Powers below this share of the largest are none.
const NOTHING: f64 = 1e-9;

/// Checks that each part in which power can go round is reported once, with its elements in flow order and its size.
pub fn compare(roads: &Roads<'_>) {
    let flows = flows(roads);
    let mut parts = parts(&flows);
    assert_eq!(
        roads.report.loops.len(),
        parts.len(),
        "{:?} should be {parts:?}",
        roads.report.loops
    );
    for found in &roads.report.loops {
        let elements: BTreeSet<String> = found.elements.iter().map(|id| format!("element {id}")).collect();
        let at = parts.iter().position(|part| {
            part.iter()
                .filter(|node| node.starts_with('e'))
                .eq(elements.iter())
        });
        let part = parts.remove(at.unwrap_or_else(|| panic!("{:?} is none of {parts:?}", found.elements)));
        let size = size(&flows, &part);
        let power = found.power.to_watts();
        assert!(
            (power - size).abs() <= 1e-6 * size,
            "{:?}: {power} W go round, not {size} W",
            found.elements
        );
        assert_flow_order(&flows, &part, &found.elements);
    }
}

fn flows(roads: &Roads<'_>) -> Flows {
    let mut sums: BTreeMap<(String, String), f64> = BTreeMap::new();
    for (element, result) in roads.layout.elements.iter().zip(&roads.report.elements) {
        let carries = !matches!(
            element.kind,
            ElementKind::Motor(_) | ElementKind::Crank(_) | ElementKind::Load(_) | ElementKind::Winch(_)
        );
        for port in result.ports.iter().filter(|_| carries) {
            let name = (format!("shaft {}", port.shaft), format!("element {}", element.id));
            *sums.entry(name).or_default() += port.power.to_watts();
        }
    }
    let largest = sums
        .values()
        .fold(0.0_f64, |largest, power| largest.max(power.abs()));
    let directed = |((shaft, element), power): ((String, String), f64)| {
        if power > NOTHING * largest {
            Some(((shaft, element), power))
        } else {
            (power < -NOTHING * largest).then_some(((element, shaft), -power))
        }
    };
    sums.into_iter().filter_map(directed).collect()
}

fn reached(flows: &Flows, from: &str) -> BTreeSet<String> {
    let mut reached = BTreeSet::new();
    let mut pending = vec![from.to_owned()];
    while let Some(node) = pending.pop() {
        for (tail, head) in flows.keys() {
            if *tail == node && reached.insert(head.clone()) {
                pending.push(head.clone());
            }
        }
    }
    reached
}

/// Sets of nodes from each of which all others, and itself, can be reached.
fn parts(flows: &Flows) -> Vec<BTreeSet<String>> {
    let nodes: BTreeSet<&String> = flows.keys().flat_map(|(tail, head)| [tail, head]).collect();
    let reach: BTreeMap<&String, BTreeSet<String>> =
        nodes.iter().map(|node| (*node, reached(flows, node))).collect();
    let mut parts: Vec<BTreeSet<String>> = Vec::new();
    for node in nodes.iter().filter(|node| reach[**node].contains(**node)) {
        let part: BTreeSet<String> = reach[*node]
            .iter()
            .filter(|other| reach[other].contains(*node))
            .cloned()
            .collect();
        if !parts.contains(&part) {
            parts.push(part);
        }
    }
    parts
}

/// The most that goes round through any one connection of a part.
fn size(flows: &Flows, part: &BTreeSet<String>) -> f64 {
    let inner: Flows = flows
        .iter()
        .filter(|((tail, head), _)| part.contains(tail) && part.contains(head))
        .map(|(ends, power)| (ends.clone(), *power))
        .collect();
    let round = |((tail, head), power): (&(String, String), &f64)| most(&inner, head, tail).min(*power);
    inner.iter().map(round).fold(0.0, f64::max)
}

/// Maximum flow by shortest augmenting paths.
fn most(flows: &Flows, from: &str, to: &str) -> f64 {
    let mut left = flows.clone();
    let mut total = 0.0;
    while let Some(path) = path(&left, from, to) {
        let width = path
            .windows(2)
            .map(|pair| left[&(pair[0].clone(), pair[1].clone())])
            .fold(f64::INFINITY, f64::min);
        for pair in path.windows(2) {
            *left
                .get_mut(&(pair[0].clone(), pair[1].clone()))
                .expect("on the path") -= width;
            *left.entry((pair[1].clone(), pair[0].clone())).or_default() += width;
        }
        left.retain(|_, power| *power > 1e-15);
        total += width;
    }
    total
}

fn path(flows: &Flows, from: &str, to: &str) -> Option<Vec<String>> {
    let mut paths = std::collections::VecDeque::from([vec![from.to_owned()]]);
    let mut seen = BTreeSet::from([from.to_owned()]);
    while let Some(path) = paths.pop_front() {
        let last = path.last().expect("never empty");
        if last == to {
            return Some(path);
        }
        for (tail, head) in flows.keys() {
            if tail == last && seen.insert(head.clone()) {
                paths.push_back(path.iter().cloned().chain([head.clone()]).collect());
            }
        }
    }
    None
}

/// In a plain ring each element hands its power to the next one named, the last to the first.
fn assert_flow_order(flows: &Flows, part: &BTreeSet<String>, elements: &[Id]) {
    let inner = || {
        flows
            .keys()
            .filter(|(tail, head)| part.contains(tail) && part.contains(head))
    };
    if inner().count() != part.len() {
        return;
    }
    let next = |node: &str| {
        inner()
            .find(|(tail, _)| tail == node)
            .map(|(_, head)| head.clone())
            .expect("a ring")
    };
    for (at, id) in elements.iter().enumerate() {
        let following = format!("element {}", elements[(at + 1) % elements.len()]);
        assert_eq!(
            next(&next(&format!("element {id}"))),
            following,
            "{elements:?} is not the way of the power"
        );
    }
}
