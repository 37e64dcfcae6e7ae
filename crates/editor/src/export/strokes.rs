//! The shapes of a drawing in the order in which the page lays them on one another.

use super::pen::{Letters, Line, Pen, number};
use crate::geometry::Point;
use crate::scene::{
    ElementItem, GroupItem, Label, LineType, Mark, Picture, Ribbon, RunContent, Scene, ShaftItem, Standing,
    Stroke, Symbol, Wire,
};

/// Line of what hands nothing on.
const OPEN: &str = "5 4";
/// Line of the frame round an open group.
pub const GROUP: &str = "10 3 2 3";
/// The marker of a shaft of radius 1, pointing up, and its arrowhead.
const SPOKE: &str = "M0-.18V-.92";
const ARROW: &str = "M-.22-1.17.26-.92-.22-.67z";
/// Strokes of the frame that a held shaft stands on.
const HELD: &str = "M-10 7H10M-9 7l-3 4M-4 7l-4 5M1 7l-4 5M6 7l-4 5M0 0V7";
/// Room around a number that can be edited.
const EDIT_RIM: f64 = 3.0;

/// The flow drawing.
pub fn flow(pen: &mut Pen<'_>, scene: &Scene) {
    for group in scene.groups.iter().filter(|group| !group.folded) {
        frame(pen, group);
    }
    for group in &scene.groups {
        wires(pen, &group.wires, false, group.in_loop);
        if let Some(loss) = &group.loss {
            pen.path(&loss.outline, Line::of(pen.ink.ink, 1.0).on("url(#heat)"));
        }
    }
    for element in &scene.elements {
        wires(pen, &element.wires, element.open, element.in_loop);
        if let Some(loss) = &element.loss {
            pen.path(&loss.outline, Line::of(pen.ink.ink, 1.0).on("url(#heat)"));
        }
    }
    for element in &scene.elements {
        symbol(pen, element);
    }
    for group in scene.groups.iter().filter(|group| group.folded) {
        frame(pen, group);
    }
    for shaft in &scene.shafts {
        draw_shaft(pen, shaft);
    }
    let labels = scene.shafts.iter().map(|shaft| &shaft.label);
    let of_elements = scene
        .elements
        .iter()
        .flat_map(|element| element.label.iter().chain(&element.loop_tag));
    let of_groups = scene.groups.iter();
    let of_groups = of_groups.flat_map(|group| std::iter::once(&group.label).chain(&group.loop_tag));
    for text in labels.chain(of_elements).chain(of_groups) {
        label(pen, text);
    }
}

/// The skeleton or the plan.
pub fn picture(pen: &mut Pen<'_>, picture: &Picture) {
    for item in &picture.ground {
        item.strokes.iter().for_each(|one| stroke(pen, one));
    }
    for item in &picture.items {
        item.strokes.iter().for_each(|one| stroke(pen, one));
    }
    let of_ground = picture.ground.iter().filter_map(|item| item.label.as_ref());
    let of_items = picture.items.iter().filter_map(|item| item.label.as_ref());
    for text in of_ground.chain(of_items) {
        label(pen, text);
    }
}

/// How a type of line is drawn.
pub fn line(pen: &Pen<'_>, kind: LineType) -> Line {
    let ink = pen.ink;
    match kind {
        LineType::Outline => Line::of(ink.ink, 2.0),
        LineType::Thin | LineType::Hatching => Line::of(ink.ink, 1.0),
        LineType::Chain => Line::of(ink.soft, 1.0).broken("10 3 2 3"),
        LineType::Dashed => Line::of(ink.soft, 1.0).broken(OPEN),
        LineType::Ground => Line::area(ink.paper),
        LineType::Body => Line::of(ink.ink, 1.0).on(ink.raised),
        LineType::Solid => Line::area(ink.ink),
        LineType::Wrong => Line::of(ink.warning, 3.0),
    }
}

fn stroke(pen: &mut Pen<'_>, stroke: &Stroke) {
    let drawn = line(pen, stroke.line);
    match stroke.turn.filter(|turn| turn.from_deg.abs() > 1e-9) {
        Some(turn) => {
            let (x, y) = (number(turn.about.x), number(turn.about.y));
            pen.open(&format!(
                r#"<g transform="rotate({} {x} {y})">"#,
                number(turn.from_deg)
            ));
            pen.path(&stroke.path, drawn);
            pen.close();
        }
        None => pen.path(&stroke.path, drawn),
    }
}

fn wires(pen: &mut Pen<'_>, wires: &[Wire], open: bool, in_loop: bool) {
    let ink = pen.ink;
    for wire in wires {
        let plain = if open {
            Line::of(ink.line, 1.25).broken(OPEN)
        } else {
            Line::of(ink.ink, 1.25)
        };
        pen.path(&wire.path, plain);
        if let Some(hatching) = &wire.hatching {
            pen.path(hatching, Line::of(ink.ink, 1.0));
        }
        if let Some(power) = &wire.ribbon {
            ribbon(pen, power, in_loop);
        }
    }
}

fn ribbon(pen: &mut Pen<'_>, ribbon: &Ribbon, in_loop: bool) {
    let ink = pen.ink;
    let edge = if in_loop { 1.75 } else { 1.0 };
    pen.path(&ribbon.outline, Line::of(ink.power, edge).on(ink.power_fill));
    moved(pen, ribbon.origin, ribbon.angle_deg, |pen| {
        pen.path(&ribbon.chevrons, Line::of(ink.power_mark, 1.5));
    });
    if let Some(double) = &ribbon.double_edge {
        pen.path(double, Line::of(ink.power, 1.75));
    }
}

/// Draws in coordinates that begin here and are turned so.
fn moved(pen: &mut Pen<'_>, at: Point, degrees: f64, draw: impl FnOnce(&mut Pen<'_>)) {
    let (x, y) = (number(at.x), number(at.y));
    pen.open(&format!(
        r#"<g transform="translate({x} {y}) rotate({})">"#,
        number(degrees)
    ));
    draw(pen);
    pen.close();
}

fn symbol(pen: &mut Pen<'_>, item: &ElementItem) {
    let ink = pen.ink;
    moved(pen, item.at, item.angle_deg, |pen| {
        let (x, y) = item.symbol.half;
        let ground = Line::of(ink.line, 1.0).on(ink.raised);
        let ground = if item.open { ground.broken(OPEN) } else { ground };
        pen.path(&format!("M-{x} -{y}H{x}V{y}H-{x}Z"), ground);
        moved(pen, Point::new(-24.0, -16.0), 0.0, |pen| {
            lines_of(pen, item.symbol, item.open);
        });
    });
    if let Some((mark, from_centre)) = item.mark {
        draw_mark(pen, mark, item.at + from_centre);
    }
}

fn lines_of(pen: &mut Pen<'_>, symbol: Symbol, open: bool) {
    let ink = pen.ink;
    let (ink_of, thick) = if open { (ink.line, 1.25) } else { (ink.ink, 2.0) };
    let chain = if open { ink.line } else { ink.soft };
    for (path, line) in [
        (symbol.chain, Line::of(chain, 1.0).broken("7 2 1.5 2")),
        (symbol.hatching, Line::of(ink_of, 1.0)),
        (symbol.thin, Line::of(ink_of, 1.0)),
        (symbol.thick, Line::of(ink_of, thick)),
    ] {
        if !path.is_empty() {
            pen.path(path, line);
        }
    }
}

/// The mark of how an element stands.
pub fn draw_mark(pen: &mut Pen<'_>, mark: Mark, at: Point) {
    let ink = pen.ink;
    moved(pen, at, 0.0, |pen| {
        pen.circle((0.0, 0.0), Mark::RADIUS, Line::of(ink.ink, 1.0).on(ink.raised));
        pen.path(mark.path(), Line::of(ink.ink, 1.75));
    });
}

fn draw_shaft(pen: &mut Pen<'_>, item: &ShaftItem) {
    let ink = pen.ink;
    let rim = match item.standing {
        Standing::Free => Line::of(ink.ink, 2.0).broken("6 4"),
        Standing::Unreached => Line::of(ink.line, 1.25).broken("2 4"),
        Standing::Jammed => Line::of(ink.warning, 2.0),
        _ => Line::of(ink.ink, 2.0),
    };
    moved(pen, item.at, 0.0, |pen| {
        pen.circle((0.0, 0.0), item.radius + 5.0, Line::area(ink.paper));
        if item.is_drive {
            pen.circle((0.0, 0.0), item.radius + 4.0, Line::of(ink.ink, 1.0));
        }
        pen.circle((0.0, 0.0), item.radius, rim.on(ink.raised));
        if item.standing == Standing::Held {
            pen.path(HELD, Line::of(ink.ink, 1.0));
        }
        let mirror = if item.clockwise { "" } else { " scale(-1 1)" };
        pen.open(&format!(
            r#"<g transform="rotate({}) scale({}){mirror}">"#,
            number(item.turned_deg.unwrap_or(0.0)),
            number(item.radius)
        ));
        pen.path(SPOKE, Line::of(rim.stroke, 0.1));
        if item.standing == Standing::Turning {
            pen.path(ARROW, Line::area(ink.ink));
        }
        pen.close();
        pen.circle((0.0, 0.0), 2.5, Line::area(ink.ink));
    });
}

fn frame(pen: &mut Pen<'_>, item: &GroupItem) {
    let ink = pen.ink;
    let (room, size) = (item.room, (item.room.width, item.room.height));
    if !item.folded {
        let line = Line::of(ink.line, 1.0).broken(GROUP);
        pen.rounded(room.x, room.y, size, 8.0, line);
        return;
    }
    if let Some(double) = &item.double_edge {
        pen.path(double, Line::of(ink.power, 1.75));
    }
    let line = Line::of(ink.ink, 2.0).on(ink.raised);
    pen.rounded(room.x, room.y, size, 4.0, line);
    let within = room.grown(-3.0);
    let size = (within.width, within.height);
    pen.rounded(within.x, within.y, size, 2.0, Line::of(ink.ink, 0.75));
}

fn label(pen: &mut Pen<'_>, label: &Label) {
    let ink = pen.ink;
    if let Some((from, to)) = label.leader {
        let path = format!(
            "M{} {}L{} {}",
            number(from.x),
            number(from.y),
            number(to.x),
            number(to.y)
        );
        pen.path(&path, Line::of(ink.line, 1.0));
    }
    let letters = |weight, fill| Letters {
        size: label.letter_size,
        weight,
        fill,
        anchor: "start",
        on_paper: true,
    };
    for line in &label.lines {
        for run in &line.runs {
            let at = (run.x, line.baseline);
            match &run.content {
                RunContent::Text(text) => pen.words(at, text, letters(400, ink.ink)),
                RunContent::Name(text) => pen.words(at, text, letters(700, ink.ink)),
                RunContent::Quiet(text) => pen.words(at, text, letters(400, ink.soft)),
                RunContent::Ratio(ratio) => pen.words(at, &ratio.text(), letters(600, ink.ink)),
                RunContent::Edit { text, .. } => {
                    let rim = EDIT_RIM * pen.pixel;
                    let size = (run.width + 2.0 * rim, line.height);
                    pen.rect(
                        run.x - rim,
                        line.top,
                        size,
                        Line::of(ink.line, 1.0).on(ink.raised),
                    );
                    let middle = Letters {
                        anchor: "middle",
                        on_paper: false,
                        ..letters(600, ink.ink)
                    };
                    pen.words((run.middle(), line.baseline), text, middle);
                }
                RunContent::Blank => {
                    let path = format!("M{} {}h{}", number(at.0), number(at.1), number(run.width));
                    pen.path(&path, Line::of(ink.ink, 1.25).broken("3 2"));
                }
            }
        }
    }
}
