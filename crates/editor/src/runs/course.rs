//! The course as rows: what stands in each, and what becomes of the list by a button.

use layshaft_layout::Stretch;

use super::setup::{RunEntry, RunField, Typing};

/// A stretch of the course as a row.
#[derive(Clone, Debug, PartialEq)]
pub struct StretchRow {
    /// Its length.
    pub length: RunEntry,
    /// Its slope.
    pub slope: RunEntry,
}

/// All rows.
pub fn rows(course: &[Stretch], typing: Option<&Typing>) -> Vec<StretchRow> {
    let row = |(number, stretch): (usize, &Stretch)| StretchRow {
        length: entry(
            RunField::Length(number),
            format!("Length of stretch {}", number + 1),
            stretch.length_m,
            typing,
        ),
        slope: entry(
            RunField::Slope(number),
            format!("Slope of stretch {}", number + 1),
            stretch.slope_deg,
            typing,
        ),
    };
    course.iter().enumerate().map(row).collect()
}

fn entry(field: RunField, label: String, value: f64, typing: Option<&Typing>) -> RunEntry {
    let typed = typing.filter(|typing| typing.field == field);
    RunEntry {
        field,
        label,
        unit: field.unit(),
        text: typed.map_or_else(|| RunField::write(Some(value)), |typing| typing.text.clone()),
        problem: typed.and_then(|typing| typing.problem.clone()),
        hint: "",
    }
}

/// The course with one number changed; none where the field is none of its.
pub fn changed(course: &[Stretch], field: RunField, value: f64) -> Option<Vec<Stretch>> {
    let mut course = course.to_vec();
    match field {
        RunField::Length(number) => course.get_mut(number)?.length_m = value,
        RunField::Slope(number) => course.get_mut(number)?.slope_deg = value,
        _ => return None,
    }
    Some(course)
}

/// The stretch that is added behind these: the first is short and level, every other one is like the last.
pub fn next(course: &[Stretch]) -> Stretch {
    course.last().map_or(
        Stretch {
            length_m: 2.0,
            slope_deg: 0.0,
        },
        |last| *last,
    )
}
