//! Text to layout, with every problem of the text at once.

use std::collections::{HashMap, HashSet};

use serde_json::{Map, Value};

use super::check::{Checker, Names};
use super::json::{Parsed, parse};
use super::kinds::kind_named;
use super::migrate::{early_groups, migrate};
use super::place::Place;
use super::plan;
use super::read;
use super::tables::{MOST_THINGS, TOP, VERSION, carried_fields};
use crate::document::{FRAME, Id, Layout, Position};
use crate::problem::{Counted, DocumentError, Problem};

/// Reads a layout file.
///
/// # Errors
/// Every problem found, each with its path. A text that is no JSON, or was made by a newer version, has just that one.
///
/// ```
/// let errors = layshaft_layout::decode(r#"{
///     "layshaft": 1,
///     "shafts": [{"id": "a"}, {"id": "b"}],
///     "elements": [{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [0, 30]}]
/// }"#).unwrap_err();
/// assert_eq!(errors[0].to_string(), "elements[0].teeth[0]: a gear needs at least 1 tooth, got 0");
/// ```
pub fn decode(text: &str) -> Result<Layout, Vec<DocumentError>> {
    let Parsed { value, errors } = parse(text).map_err(alone)?;
    decode_value(value, errors)
}

/// Reads a layout file from bytes that may not even be text.
///
/// # Errors
/// As [`decode`], and [`Problem::NotUtf8`].
pub fn decode_bytes(bytes: &[u8]) -> Result<Layout, Vec<DocumentError>> {
    let text = std::str::from_utf8(bytes).map_err(|error| {
        alone(Problem::NotUtf8 {
            byte: error.valid_up_to(),
        })
    })?;
    decode(text)
}

/// A problem of the text as a whole.
fn alone(problem: Problem) -> Vec<DocumentError> {
    vec![DocumentError {
        path: String::new(),
        problem,
    }]
}

/// A problem of the file version, beside which no other is worth telling.
fn at_version(problem: Problem) -> Vec<DocumentError> {
    vec![DocumentError {
        path: "layshaft".to_owned(),
        problem,
    }]
}

/// Reads a layout from a JSON value; `errors` are those of the text it came from.
fn decode_value(value: Value, errors: Vec<DocumentError>) -> Result<Layout, Vec<DocumentError>> {
    let Value::Object(mut file) = value else {
        return Err(alone(Problem::WrongType {
            wanted: "an object",
            got: "another JSON value",
        }));
    };
    let version = file
        .get("layshaft")
        .and_then(Value::as_f64)
        .and_then(|version| Counted::Counter.whole(version));
    if let Some(version) = version.and_then(|version| u64::try_from(version).ok()) {
        if version == 0 {
            return Err(at_version(Problem::VersionZero));
        }
        if version > VERSION {
            return Err(at_version(Problem::NewerVersion {
                version,
                known: VERSION,
            }));
        }
        migrate(&mut file, version);
    }
    early_groups(&mut file);
    let names = Index::of(&file);
    let mut checker = Checker::new(&names);
    checker.errors = errors;
    checker.object(&file, &TOP, &Place::Root);
    ids(&mut checker, &file);
    if let Some(groups) = file.get("groups") {
        checker.groups(groups, &Place::Root.field("groups"));
    }
    if let Some(plan) = file.get("plan") {
        checker.plan(plan, &Place::Root.field("plan"));
    }
    if checker.errors.is_empty() {
        Ok(layout(&file))
    } else {
        Err(checker.errors)
    }
}

/// Builds the layout from a checked file.
fn layout(file: &Map<String, Value>) -> Layout {
    let text = |name: &str| {
        file.get(name)
            .and_then(Value::as_str)
            .unwrap_or_default()
            .to_owned()
    };
    let mut layout = Layout {
        title: text("title"),
        notes: text("notes"),
        drive: file.get("drive").and_then(Value::as_str).map(Id::from),
        material_pair: read::material_pair(file),
        shafts: objects(file, "shafts")
            .enumerate()
            .map(|(place, shaft)| read::shaft(shaft, place))
            .collect(),
        elements: objects(file, "elements").map(read::element).collect(),
        positions: objects(file, "positions").map(read::position).collect(),
        course: entries(file, "course").map(read::stretch).collect(),
        groups: objects(file, "groups").map(read::group).collect(),
        plan: file
            .get("plan")
            .and_then(Value::as_object)
            .map(plan::plan)
            .unwrap_or_default(),
        carried: carried_fields()
            .filter_map(|name| Some((name.to_owned(), file.get(name)?.clone())))
            .collect(),
        last_number: 0,
    };
    let said = file.get("last_number").map_or(0, read::counter);
    layout.last_number = said.max(layout.largest_number());
    layout
}

/// The entries of a list of the top level.
fn entries<'f>(file: &'f Map<String, Value>, name: &str) -> impl Iterator<Item = &'f Value> {
    file.get(name).and_then(Value::as_array).into_iter().flatten()
}

/// The objects in a list of the top level; other entries are left out.
fn objects<'f>(file: &'f Map<String, Value>, name: &str) -> impl Iterator<Item = &'f Map<String, Value>> {
    entries(file, name).filter_map(Value::as_object)
}

/// Notes reserved ids and ids that stand twice in one list.
fn ids(checker: &mut Checker<'_>, file: &Map<String, Value>) {
    for list_name in ["shafts", "elements", "positions", "groups"] {
        let list_place = Place::Root.field(list_name);
        let mut first_with = HashMap::new();
        let list = file
            .get(list_name)
            .and_then(Value::as_array)
            .into_iter()
            .flatten();
        for (index, thing) in list.take(MOST_THINGS).enumerate() {
            let Some(id) = thing.get("id").and_then(Value::as_str) else {
                continue;
            };
            let place = list_place.entry(index);
            if list_name == "shafts" && id == FRAME {
                checker.note(&place.field("id"), Problem::ReservedId);
            }
            let first = *first_with.entry(id).or_insert(index);
            if first != index {
                let problem = Problem::DuplicateId {
                    id: id.to_owned(),
                    first: list_place.entry(first).to_string(),
                };
                checker.note(&place.field("id"), problem);
            }
        }
    }
}

/// The ids of a file that has not been checked yet; of an element whose kind is unknown, the kind is empty.
struct Index<'f> {
    shafts: HashSet<&'f str>,
    elements: HashMap<&'f str, &'f str>,
    positions: HashSet<&'f str>,
    file: &'f Map<String, Value>,
}

impl<'f> Index<'f> {
    fn of(file: &'f Map<String, Value>) -> Self {
        let id = |thing: &'f Map<String, Value>| thing.get("id").and_then(Value::as_str);
        let kind = |thing: &'f Map<String, Value>| {
            thing
                .get("kind")
                .and_then(Value::as_str)
                .filter(|kind| kind_named(kind).is_some())
                .unwrap_or("")
        };
        let mut elements = HashMap::new();
        for element in objects(file, "elements") {
            if let Some(id) = id(element) {
                elements.entry(id).or_insert_with(|| kind(element));
            }
        }
        Self {
            shafts: objects(file, "shafts").filter_map(id).collect(),
            elements,
            positions: objects(file, "positions").filter_map(id).collect(),
            file,
        }
    }
}

impl Names for Index<'_> {
    fn has_shaft(&self, id: &str) -> bool {
        self.shafts.contains(id)
    }

    fn kind_of(&self, id: &str) -> Option<&str> {
        self.elements.get(id).copied()
    }

    fn has_position(&self, id: &str) -> bool {
        self.positions.contains(id) || (self.positions.is_empty() && id == Position::ONLY)
    }

    // These go through the file and not the maps, so that a tie is always decided by the order of the file.
    fn shafts(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(objects(self.file, "shafts").filter_map(|shaft| shaft.get("id")?.as_str()))
    }

    fn positions(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(objects(self.file, "positions").filter_map(|position| position.get("id")?.as_str()))
    }

    fn elements(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(objects(self.file, "elements").filter_map(|element| element.get("id")?.as_str()))
    }

    fn engageable(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(
            objects(self.file, "elements")
                .filter(|element| {
                    matches!(
                        element.get("kind").and_then(Value::as_str),
                        Some("clutch" | "brake")
                    )
                })
                .filter_map(|element| element.get("id")?.as_str()),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::MOST_ERRORS;

    /// A sound layout of three shafts with `elements` and `rest` put in.
    fn file(elements: &str, rest: &str) -> String {
        format!(
            r#"{{"layshaft": 1, "shafts": [{{"id": "a"}}, {{"id": "b"}}, {{"id": "c"}}], "elements": [{elements}]{rest}}}"#
        )
    }

    fn check(text: &str, expected: &[&str]) {
        let found: Vec<String> = match decode(text) {
            Ok(_) => Vec::new(),
            Err(errors) => errors.iter().map(ToString::to_string).collect(),
        };
        assert_eq!(found, expected);
    }

    fn check_element(element: &str, expected: &[&str]) {
        check(&file(element, ""), expected);
    }

    #[test]
    fn every_problem_is_told_at_once_with_its_path() {
        check(
            &file(
                r#"{"id": "g", "kind": "mesh", "a": "a", "b": "bb", "teeth": [0, 2.5], "efficency": 1},
                   {"id": "g", "kind": "wurm"}"#,
                r#", "drive": "frame", "colour": 1, "positions": [{"id": "p", "engaged": ["g", "k"]}]"#,
            ),
            &[
                "elements[0].b: no shaft is called `bb`, the nearest known one is `b`",
                "elements[0].teeth[0]: a gear needs at least 1 tooth, got 0",
                "elements[0].teeth[1]: a gear has a whole number of teeth, got 2.5",
                "elements[0].efficency: unknown field: a mesh has none of this name, the nearest known one is `efficiency`",
                "elements[1].kind: unknown kind `wurm`, the nearest known one is `worm`",
                "drive: the fixed frame cannot stand here, since it never turns; name a shaft",
                "colour: unknown field: a layout has none of this name, the nearest known one is `course`",
                "positions[0].engaged[0]: `g` is of kind `mesh`; only a clutch or a brake can be engaged",
                "positions[0].engaged[1]: no element is called `k`",
                "elements[1].id: the id `g` is already taken by elements[0]; every id stands once",
            ],
        );
    }

    #[test]
    fn a_file_from_the_future_has_just_that_problem() {
        check(
            r#"{"layshaft": 2, "axles": []}"#,
            &[
                "layshaft: made by a newer version (file version 2, this program reads up to 1); update the program",
            ],
        );
        check(
            r#"{"layshaft": "1"}"#,
            &["layshaft: a number is wanted here, got a text"],
        );
        check(
            r#"{"layshaft": 0}"#,
            &["layshaft: file versions start at 1, got 0"],
        );
        check("[]", &["an object is wanted here, got another JSON value"]);
        check("{}", &["layshaft: this field is missing; a layout needs it"]);
    }

    #[test]
    fn an_empty_layout_is_a_layout() {
        check(r#"{"layshaft": 1}"#, &[]);
    }

    #[test]
    fn joints_that_let_go() {
        check(
            &file(
                r#"{"id": "o", "kind": "one_way", "a": "frame", "b": "b", "sense": "upward"},
                   {"id": "s", "kind": "slip_clutch", "a": "a", "b": "b"},
                   {"id": "h", "kind": "brake", "shaft": "a", "limit_nm": -1},
                   {"id": "t", "kind": "torque_switch", "a": "a", "b": "b", "up_nm": 0.05, "down_nm": 0.05, "from": "p", "to": "p"},
                   {"id": "u", "kind": "torque_switch", "a": "a", "b": "b", "up_nm": 1, "down_nm": 0, "from": "p", "to": "q1"}"#,
                r#", "positions": [{"id": "p"}, {"id": "q"}]"#,
            ),
            &[
                "elements[0].sense: unknown word `upward`, the nearest known one is `negative`; `positive` or `negative` may stand here",
                "elements[1].limit_nm: this field is missing; a slip clutch needs it",
                "elements[2].limit_nm: this must be at least 0 and at most 1000000000, got -1",
                "elements[3].down_nm: a torque switch must shift back at less than the 0.05 N·m at which it shifts up, got 0.05 N·m",
                "elements[3].to: a torque switch shifts to another position than it comes from, got `p` for both",
                "elements[4].to: no position is called `q1`, the nearest known one is `q`",
            ],
        );
    }

    #[test]
    fn joints_that_let_go_need_two_ends() {
        check_element(
            r#"{"id": "o", "kind": "one_way", "a": "a", "b": "a"},
               {"id": "s", "kind": "slip_clutch", "a": "frame", "b": "frame", "limit_nm": 1}"#,
            &[
                "elements[0]: every end is on `a`, so that this element does nothing; put one end on another shaft",
                "elements[1]: every end is on `frame`, so that this element does nothing; put one end on another shaft",
            ],
        );
    }

    #[test]
    fn fields_that_mean_something_only_beside_others() {
        check_element(
            r#"{"id": "d", "kind": "differential", "sides": ["a", "b"], "carrier": "c", "friction": 0.1},
               {"id": "s", "kind": "stepped", "first": "a", "second": "b", "carrier": "c", "basic_ratio": [9, 4],
                "material_pair": "acetal-steel-dry"},
               {"id": "w", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 24, "lead_angle_deg": 5,
                "friction": 0.2, "collar_mm": 6},
               {"id": "x", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 24, "lead_angle_deg": 5,
                "friction": 0.2, "collar_friction": 0.1},
               {"id": "v", "kind": "vehicle", "shafts": ["a"], "wheel_mm": 60, "mass_kg": 1, "driven": "rear", "rear_share": 0.5},
               {"id": "f", "kind": "friction_wheel", "a": "a", "b": "b", "diameters_mm": [30, 20], "form": "internal"}"#,
            &[
                "elements[0].friction: this field means something only together with `teeth`",
                "elements[1].material_pair: this field means something only together with `teeth`",
                "elements[2].collar_mm: this field means something only together with `wheel_mm`",
                "elements[3].collar_friction: this field means something only together with `collar_mm`",
                "elements[4].rear_share: this field means something only where `driven` is `all`",
                "elements[5].diameters_mm: the outer wheel must be wider than the one inside it, got 20 mm around 30 mm",
            ],
        );
    }

    #[test]
    fn materials_and_courses() {
        check(
            &file(
                r#"{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [8, 9], "material": "steal"}"#,
                r#", "material_pair": "acetal-steel", "course": [{"length_m": 0}, [2, 90], [1]]"#,
            ),
            &[
                "elements[0].material: unknown word `steal`, the nearest known one is `steel`; `acetal`, `nylon`, `styrene`, `pla`, `brass` or `steel` may stand here",
                "material_pair: unknown word `acetal-steel`, the nearest known one is `acetal-steel-dry`",
                "course[0].length_m: this must be above 0 and at most 1000000, got 0",
                "course[1][1]: this must be at least -89 and at most 89, got 90",
                "course[2]: a list of 2 is wanted here, got 1",
            ],
        );
    }

    #[test]
    fn fields_that_exclude_each_other() {
        check_element(
            r#"{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [1, 1], "efficiency": 1, "friction": 0},
               {"id": "w", "kind": "winch", "shaft": "a", "drum_mm": 30},
               {"id": "s", "kind": "stepped", "first": "a", "second": "b", "carrier": "c",
                "basic_ratio": [9, 4], "rings": ["second"]}"#,
            &[
                "elements[0]: a mesh has one of `efficiency`, `friction` or `material_pair`, not more; leave the others out",
                "elements[1]: a winch needs one of `mass_kg` or `pull_n`",
                "elements[2].rings: this field means something only together with `teeth`",
            ],
        );
    }

    #[test]
    fn gears_that_cannot_exist() {
        check_element(
            r#"{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 20], "form": "internal"},
               {"id": "h", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 30], "sense": "same"},
               {"id": "p", "kind": "planetary", "sun": "a", "ring": "b", "carrier": "c", "teeth": {"sun": 40, "ring": 40}},
               {"id": "s", "kind": "stepped", "first": "a", "second": "b", "carrier": "c",
                "teeth": [[18, 36], [24, 20]], "rings": ["second"]}"#,
            &[
                "elements[0].teeth: a ring needs more teeth than the pinion inside it, got 20 around 20",
                "elements[1].sense: only a bevel mesh has a free sense; two gears in external mesh always turn opposite ways",
                "elements[2].teeth: a ring needs more teeth than the sun inside it, got 40 around 40",
                "elements[3].teeth[1]: a ring needs more teeth than the planet inside it, got 20 around 24",
            ],
        );
    }

    #[test]
    fn elements_that_join_nothing() {
        check_element(
            r#"{"id": "k", "kind": "clutch", "a": "a", "b": "a"},
               {"id": "d", "kind": "differential", "sides": ["b", "b"], "carrier": "b"},
               {"id": "e", "kind": "differential", "sides": ["b", "b"], "carrier": "frame"},
               {"id": "h", "kind": "brake", "shaft": "frame"},
               {"id": "m", "kind": "crank", "shaft": "frame", "speed_rpm": 60}"#,
            &[
                "elements[0]: every end is on `a`, so that this element does nothing; put one end on another shaft",
                "elements[1]: every end is on `b`, so that this element does nothing; put one end on another shaft",
                "elements[3].shaft: the fixed frame cannot stand here, since it never turns; name a shaft",
                "elements[4].shaft: the fixed frame cannot stand here, since it never turns; name a shaft",
            ],
        );
    }

    #[test]
    fn a_motor_needs_more_current_held_than_free() {
        check_element(
            r#"{"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 1.3,
                "stall_nm": 0.36, "stall_a": 1.3}"#,
            &["elements[0].stall_a: the stall current must be above the no-load current of 1.3 A, got 1.3 A"],
        );
    }

    #[test]
    fn positions_engage_clutches_and_brakes_once() {
        check(
            &file(
                r#"{"id": "k", "kind": "clutch", "a": "a", "b": "b"}, {"id": "l", "kind": "load", "shaft": "a"}"#,
                r#", "positions": [{"id": "p", "engaged": ["k", "k", "l"]}]"#,
            ),
            &[
                "positions[0].engaged[2]: `l` is of kind `load`; only a clutch or a brake can be engaged",
                "positions[0].engaged[1]: `k` is named twice; once is enough",
            ],
        );
    }

    #[test]
    fn left_out_fields_have_their_defaults() {
        let layout = decode(&file(
            r#"{"id": "w12", "kind": "winch", "shaft": "b", "drum_mm": 30, "pull_n": 5}"#,
            "",
        ));
        let layout = layout.expect("the file is sound");
        assert_eq!(layout.shafts[2].at, [320.0, 0.0]);
        assert_eq!(layout.shafts[2].overhang.to_bits(), 1.0_f64.to_bits());
        assert_eq!(layout.last_number, 12);
        assert!(matches!(&layout.elements[0].kind, crate::ElementKind::Winch(winch) if winch.layers == 1));
    }

    #[test]
    fn endless_problems_end() {
        let errors = decode(&file(&vec!["{}"; MOST_ERRORS].join(","), "")).expect_err("none has an id");
        assert_eq!(errors.len(), MOST_ERRORS + 1);
        assert_eq!(errors[MOST_ERRORS].problem, Problem::MoreProblems);
    }

    #[test]
    fn bytes_that_are_no_text() {
        let errors = decode_bytes(b"{\xff}").expect_err("no text");
        assert_eq!(
            errors[0].to_string(),
            "the file is not UTF-8 text (byte 1 is wrong); save it as UTF-8"
        );
    }
}
