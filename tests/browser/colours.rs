//! Colours stand out from what they lie on, in both themes: computed from the style sheets, because axe-core can't judge
//! what is drawn in SVG. Needs no browser.
//!
//! Contrast ratio: WCAG 2.2, definitions of "contrast ratio" and "relative luminance"; 4.5 for text (1.4.3), 3 for lines
//! and marks that say something (1.4.11).

use std::collections::BTreeMap;
use std::path::Path;

/// What text and drawing lie on.
const GROUNDS: [&str; 7] = [
    "desk",
    "paper",
    "paper-raised",
    "paper-sunk",
    "grid",
    "warning-wash",
    "select-wash",
];
/// What text is set in.
const INKS: [&str; 5] = ["ink", "ink-soft", "power", "warning", "select"];
/// What lies on a ground of its own: which, on which, and how far it has to stand out.
const PAIRS: [(&str, &str, f64); 4] = [
    ("on-power", "power", 4.5),
    ("paper", "ink", 4.5),
    ("power-mark", "power-fill", 3.0),
    // A ribbon's outline is in the colour of power; it is the outline that shows its width.
    ("power", "paper", 3.0),
];

type Colours = BTreeMap<String, String>;

/// Where the style sheets lie.
const STYLES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../static/style");

fn style(name: &str) -> String {
    let path = Path::new(STYLES).join(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The colours of the rule that begins with this selector.
fn colours(selector: &str) -> Colours {
    let sheet = style("theme.css");
    let rule = sheet
        .split_once(&format!("{selector} {{"))
        .and_then(|(_, rest)| rest.split_once('}'))
        .map(|(rule, _)| rule)
        .unwrap_or_else(|| panic!("theme.css has no rule for {selector}"));
    rule.lines()
        .filter_map(|line| {
            line.trim()
                .strip_prefix("--")?
                .strip_suffix(';')?
                .split_once(": #")
        })
        .map(|(name, value)| (name.to_owned(), value.to_owned()))
        .collect()
}

fn luminance(colour: &str) -> f64 {
    let part = |at: usize| {
        let value =
            f64::from(u8::from_str_radix(&colour[at..at + 2], 16).expect("a colour is in hexadecimal"));
        let value = value / 255.0;
        if value <= 0.04045 {
            value / 12.92
        } else {
            libm::pow((value + 0.055) / 1.055, 2.4)
        }
    };
    0.2126 * part(0) + 0.7152 * part(2) + 0.0722 * part(4)
}

fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

fn check_theme(selector: &str) {
    let colours = colours(selector);
    let of = |name: &str| {
        colours
            .get(name)
            .unwrap_or_else(|| panic!("{selector} has no --{name}"))
    };
    let mut faint = Vec::new();
    let mut check = |mark: &str, ground: &str, least: f64| {
        let found = contrast(of(mark), of(ground));
        if found < least {
            faint.push(format!(
                "{mark} on {ground} stands out by {found:.2}, less than {least}"
            ));
        }
    };
    for ground in GROUNDS {
        for ink in INKS {
            check(ink, ground, 4.5);
        }
        check("line", ground, 3.0);
    }
    for (mark, ground, least) in PAIRS {
        check(mark, ground, least);
    }
    assert!(faint.is_empty(), "{selector}:\n{}", faint.join("\n"));
}

#[test]
fn colours_stand_out_on_paper() {
    check_theme(":root");
}

#[test]
fn colours_stand_out_on_slate() {
    check_theme(":root[data-theme='slate']");
    assert_eq!(
        colours(":root[data-theme='slate']"),
        colours(":root:not([data-theme='paper'])"),
        "slate looks the same whether the page or the system asks for it"
    );
}

#[test]
fn text_is_set_in_colours_that_were_judged() {
    let others = ["inherit", "#000", "CanvasText", "var(--paper)", "var(--on-power)"];
    for entry in std::fs::read_dir(STYLES).expect("the styles lie there") {
        let name = entry.expect("a file").file_name().to_string_lossy().into_owned();
        for rule in style(&name).split(['{', ';', '}']) {
            let Some(value) = rule.trim().strip_prefix("color: ") else {
                continue;
            };
            let judged = INKS.iter().any(|ink| value == format!("var(--{ink})"));
            assert!(judged || others.contains(&value), "{name}: text in {value}");
        }
    }
}
