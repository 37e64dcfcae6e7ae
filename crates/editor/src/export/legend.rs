//! What stands under a drawing: its legend at the left, its title block at the right.

use super::pen::{Letters, Line, Pen, number};
use super::strokes::{GROUP, draw_mark, line};
use crate::geometry::{Point, Rect};
use crate::legend::{Legend, Sign};
use crate::scene::{FONT_SIZE, text_width};
use crate::title_block::TitleBlock;

/// Height of a row of the legend, and of a cell of the title block.
const ROW: f64 = 24.0;
const CELL: f64 = 54.0;
/// Width of a sign with the space behind it.
const SIGN: f64 = 44.0;
/// Width of the title block, and its space from the legend.
const BLOCK: f64 = 300.0;
const GAP: f64 = 24.0;
const SMALL: f64 = 11.0;
const PLAIN: f64 = 13.0;

/// Draws both from here down; gives the lower end of the longer one.
pub fn foot(pen: &mut Pen<'_>, legend: &Legend, title: &TitleBlock, room: Rect) -> f64 {
    let left = Rect {
        width: room.width - BLOCK - GAP,
        ..room
    };
    let of_legend = draw_legend(pen, legend, left);
    let right = Rect {
        x: room.x + room.width - BLOCK,
        width: BLOCK,
        ..room
    };
    of_legend.max(block(pen, title, right))
}

fn letters(pen: &Pen<'_>, size: f64, weight: u16) -> Letters {
    Letters {
        size,
        weight,
        fill: pen.ink.ink,
        anchor: "start",
        on_paper: false,
    }
}

fn draw_legend(pen: &mut Pen<'_>, legend: &Legend, room: Rect) -> f64 {
    let mut top = room.y;
    if let Some(scale) = &legend.scale {
        let middle = top + ROW / 2.0;
        let top_edge = middle - scale.width / 2.0;
        pen.rect(
            room.x,
            top_edge,
            (34.0, scale.width),
            Line::area(pen.ink.power_fill),
        );
        top = paragraph(pen, &format!("{}. {}", scale.text, scale.rule), room, top, SIGN);
    }
    for (sign, words) in &legend.signs {
        let (x, y) = (number(room.x), number(top + ROW / 2.0));
        pen.open(&format!(r#"<g transform="translate({x} {y})">"#));
        sample(pen, *sign);
        pen.close();
        top = paragraph(pen, words, room, top, SIGN);
    }
    if let Some(slow) = &legend.slow {
        top = paragraph(pen, slow, room, top, 0.0);
    }
    top
}

/// Words over as many lines as they need; gives where the next row begins.
fn paragraph(pen: &mut Pen<'_>, words: &str, room: Rect, top: f64, indent: f64) -> f64 {
    let wide = room.width - indent;
    let width = |text: &str| text_width(text) * PLAIN / FONT_SIZE;
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let last = lines.last_mut().expect("there is one from the start");
        let longer = if last.is_empty() {
            word.to_owned()
        } else {
            format!("{last} {word}")
        };
        if last.is_empty() || width(&longer) <= wide {
            *last = longer;
        } else {
            lines.push(word.to_owned());
        }
    }
    let letters = letters(pen, PLAIN, 400);
    let mut base = top + ROW / 2.0 + PLAIN * 0.35;
    for line in &lines {
        pen.words((room.x + indent, base), line, letters);
        base += PLAIN * 1.25;
    }
    (base - PLAIN * 0.35 + ROW / 2.0 - PLAIN * 1.25).max(top + ROW)
}

/// A sign in a box 34 wide about its middle height.
fn sample(pen: &mut Pen<'_>, sign: Sign) {
    let ink = pen.ink;
    let rim = Line::of(ink.ink, 2.0).on(ink.raised);
    match sign {
        Sign::Power => {
            pen.path("M0-5H34V5H0z", Line::of(ink.power, 1.0).on(ink.power_fill));
            pen.path(
                "M6-4 10 0 6 4M16-4 20 0 16 4M26-4 30 0 26 4",
                Line::of(ink.power_mark, 1.5),
            );
        }
        Sign::Loss => pen.path(
            "M2-3H20Q30-3 32 8H28Q25 3 20 3H2z",
            Line::of(ink.ink, 1.0).on("url(#heat)"),
        ),
        Sign::Loop => {
            pen.path("M0-4H34V4H0z", Line::of(ink.power, 1.0).on(ink.power_fill));
            pen.path("M0-7H34M0 7H34", Line::of(ink.power, 1.75));
        }
        Sign::Shaft => {
            pen.circle((17.0, 0.0), 8.0, rim);
            pen.path("M17 0V-7", Line::of(ink.ink, 1.75));
            pen.path("M15.5-10 20-8 15.5-5.5z", Line::area(ink.ink));
        }
        Sign::Drive => {
            pen.circle((17.0, 0.0), 10.0, Line::of(ink.ink, 1.0));
            pen.circle((17.0, 0.0), 7.0, rim);
        }
        Sign::Held => {
            pen.circle((17.0, -3.0), 6.0, rim);
            pen.path(
                "M8 5H26M8 5l-4 5M14 5l-4 5M20 5l-4 5M26 5l-4 5",
                Line::of(ink.ink, 1.0),
            );
        }
        Sign::Free => pen.circle((17.0, 0.0), 8.0, rim.broken("5 4")),
        Sign::Folded => {
            pen.rounded(4.0, -9.0, (26.0, 18.0), 3.0, rim);
            pen.rounded(7.0, -6.0, (20.0, 12.0), 1.5, Line::of(ink.ink, 0.75));
        }
        Sign::Group => {
            let frame = Line::of(ink.line, 1.0).broken(GROUP);
            pen.rounded(1.0, -10.0, (32.0, 20.0), 5.0, frame);
        }
        Sign::Mark(mark) => draw_mark(pen, mark, Point::new(17.0, 0.0)),
        Sign::Lines(lines) => {
            for (kind, path) in lines {
                let drawn = line(pen, *kind);
                pen.path(path, drawn);
            }
        }
        Sign::Open => pen.path("M0 0H34", Line::of(ink.ink, 1.25).broken("5 4")),
    }
}

/// Name and position over cells, two in a row.
fn block(pen: &mut Pen<'_>, title: &TitleBlock, room: Rect) -> f64 {
    let ink = pen.ink;
    let thin = Line::of(ink.line, 1.0);
    let small = Letters {
        fill: ink.soft,
        ..letters(pen, SMALL, 400)
    };
    let inset = 8.0;
    pen.words(
        (room.x + inset, room.y + 24.0),
        &title.title,
        letters(pen, 16.0, 700),
    );
    pen.words((room.x + inset, room.y + 44.0), &title.position, small);
    let head = room.y + 56.0;
    let half = room.width / 2.0;
    for (place, row) in title.rows.iter().enumerate() {
        let column = if place % 2 == 0 { 0.0 } else { half };
        let top = head + (place / 2) as f64 * CELL;
        let x = room.x + column + inset;
        pen.words((x, top + 14.0), row.label, small);
        pen.words((x, top + 31.0), &row.value.text(), letters(pen, PLAIN, 600));
        if !row.also.is_empty() {
            pen.words((x, top + 46.0), &row.also, small);
        }
        pen.path(
            &format!("M{} {}h{}", number(room.x + column), number(top), number(half)),
            thin,
        );
    }
    let end = head + title.rows.len().div_ceil(2) as f64 * CELL;
    pen.rect(room.x, room.y, (room.width, end - room.y), Line::of(ink.ink, 2.0));
    end
}
