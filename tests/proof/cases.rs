//! Published cases: rows of `cases/*.toml`, each with its source.
//!
//! A row is a compact layout, the results that a source gives for it (paths as the command line names them, within the
//! only or first position unless they say otherwise), and how closely they have to come out. A row that does not
//! recompute stays, with `source_error` and what was printed; a row that we get wrong stays too, with `known_wrong` and
//! today's answer. Rows of a source's table that were left out stand under `omitted`, with the reason.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use layshaft_report::report;
use layshaft_tests::compact;
use layshaft_tests::plain::plain;
use num_traits::ToPrimitive;
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    case: Vec<Case>,
    #[serde(default)]
    omitted: Vec<Omitted>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    input: Value,
    expected: BTreeMap<String, Value>,
    /// Left out: to the last digits.
    tolerance: Option<Tolerance>,
    source: String,
    /// Why the printed value does not recompute; `printed` then must not come out.
    source_error: Option<String>,
    /// Why our value is wrong; `expected` then must not come out, and `today` must.
    known_wrong: Option<String>,
    #[serde(default)]
    printed: BTreeMap<String, Value>,
    #[serde(default)]
    today: BTreeMap<String, Value>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Tolerance {
    Relative(f64),
    Absolute(f64),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Omitted {
    name: String,
    reason: String,
}

/// Reads rows, and refuses those that nobody could check again.
fn load(text: &str) -> Result<Vec<Case>, String> {
    let file: File = toml::from_str(text).map_err(|error| error.to_string())?;
    for case in &file.case {
        let told = |text: &Option<String>| text.as_ref().is_none_or(|text| text.len() > 10);
        if case.source.trim().len() < 10 {
            return Err(format!("`{}` has no source", case.name));
        }
        if !told(&case.source_error) || !told(&case.known_wrong) {
            return Err(format!("`{}` gives no reason", case.name));
        }
        if case.source_error.is_some() == case.printed.is_empty()
            || case.known_wrong.is_some() == case.today.is_empty()
        {
            return Err(format!(
                "`{}`: a reason and the value it speaks of belong together",
                case.name
            ));
        }
    }
    match file.omitted.iter().find(|row| row.reason.trim().is_empty()) {
        Some(row) => Err(format!("`{}` is left out without a reason", row.name)),
        None => Ok(file.case),
    }
}

/// What does not come out as it should, in sentences.
fn check(case: &Case) -> Vec<String> {
    let layout = compact::layout(&case.input);
    let results = plain(&report(&layout).unwrap_or_else(|errors| panic!("{}: {errors:?}", case.name)));
    let wanted = if case.known_wrong.is_some() {
        &case.today
    } else {
        &case.expected
    };
    let looked_up = |(path, value): (&String, &Value)| {
        let found = result(&results, path);
        (
            path.clone(),
            value.clone(),
            agrees(&found, value, case.tolerance),
            found,
        )
    };
    let missed = wanted.iter().map(looked_up).filter(|(_, _, agrees, _)| !agrees);
    let missed =
        missed.map(|(path, value, _, found)| format!("{}: {path} is {found}, not {value}", case.name));
    let unwanted = case
        .printed
        .iter()
        .chain(case.known_wrong.iter().flat_map(|_| &case.expected));
    let mended = unwanted.map(looked_up).filter(|(_, _, agrees, _)| *agrees);
    let mended = mended.map(|(path, value, ..)| {
        format!(
            "{}: {path} comes out as {value} after all: mend the row",
            case.name
        )
    });
    missed.chain(mended).collect()
}

/// A result by its path; `reduction` of a shaft is the inverse of its ratio, as gearboxes are spoken of.
fn result(results: &Value, path: &str) -> Value {
    let whole = if path.starts_with("positions.") || path.starts_with("shifting.") {
        path.to_owned()
    } else {
        format!("positions.0.{path}")
    };
    let mut at = results;
    for name in whole.split('.') {
        if name == "reduction" {
            return at
                .get("ratio")
                .map_or(Value::Null, |ratio| (1.0 / fraction(ratio)).into());
        }
        at = match (at, name.parse::<usize>()) {
            (Value::Array(list), Ok(index)) => &list[index],
            (Value::Array(list), Err(_)) => list
                .iter()
                .find(|entry| entry["id"] == name || entry["code"] == name)
                .unwrap_or(&Value::Null),
            (other, _) => &other[name],
        };
    }
    at.clone()
}

/// A number, or a fraction written as text.
fn fraction(value: &Value) -> f64 {
    match value {
        Value::String(text) => text
            .parse::<num_rational::BigRational>()
            .ok()
            .and_then(|ratio| ratio.to_f64())
            .unwrap_or(f64::NAN),
        other => other.as_f64().unwrap_or(f64::NAN),
    }
}

/// Texts (and so exact fractions) have to be the same, numbers within the tolerance; `"absent"` means not there.
fn agrees(found: &Value, wanted: &Value, tolerance: Option<Tolerance>) -> bool {
    match wanted {
        Value::String(text) if text == "absent" => found.is_null(),
        Value::Number(number) => {
            let wanted = number.as_f64().expect("a float");
            let allowed = match tolerance {
                None => 1e-9 * wanted.abs(),
                Some(Tolerance::Relative(share)) => share * wanted.abs(),
                Some(Tolerance::Absolute(size)) => size,
            };
            (fraction(found) - wanted).abs() <= allowed.max(1e-12)
        }
        other => found == other,
    }
}

fn files() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("cases");
    let mut files: Vec<(String, String)> = fs::read_dir(folder)
        .expect("the cases")
        .map(|entry| {
            let path = entry.expect("a readable folder").path();
            (
                path.display().to_string(),
                fs::read_to_string(&path).expect("text"),
            )
        })
        .collect();
    files.sort();
    files
}

#[test]
fn every_published_case_comes_out() {
    let mut rows = 0;
    let mut wrong: Vec<String> = Vec::new();
    for (path, text) in files() {
        let cases = load(&text).unwrap_or_else(|error| panic!("{path}: {error}"));
        wrong.extend(cases.iter().flat_map(check));
        rows += cases.len();
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert!(rows > 150, "only {rows} rows were found");
}

#[test]
fn no_name_stands_twice() {
    let mut seen = BTreeMap::new();
    for (path, text) in files() {
        for case in load(&text).expect("checked elsewhere") {
            if let Some(other) = seen.insert(case.name.clone(), path.clone()) {
                panic!("`{}` stands in {other} and in {path}", case.name);
            }
        }
    }
}

const ROW: &str = r#"
[[case]]
name = "a pair"
input.elements = [{ kind = "mesh", a = "in", b = "out", teeth = [20, 40] }]
expected = { "shafts.out.ratio" = "-1/2" }
"#;

#[test]
fn a_row_without_a_source_is_refused() {
    assert!(load(ROW).is_err());
    assert!(load(&format!("{ROW}source = \" \"")).is_err_and(|error| error.contains("no source")));
    assert!(load(&format!("{ROW}source = \"worked by hand: 20 / 40\"")).is_ok());
}

#[test]
fn a_reason_without_its_value_is_refused() {
    let row = format!("{ROW}source = \"worked by hand: 20 / 40\"\n");
    assert!(load(&format!("{row}source_error = \"printed upside down\"")).is_err());
    assert!(load(&format!("{row}today = {{ state = \"runs\" }}")).is_err());
}
