//! Writing SVG text: shapes with their lines and areas written in, letters as text.

use super::face::{self, FAMILIES};
use super::ink::Ink;

/// How a shape is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct Line {
    /// Colour of its line; empty for none.
    pub stroke: &'static str,
    /// Width of its line.
    pub width: f64,
    /// Pattern of its line; empty for continuous.
    pub dashes: &'static str,
    /// Its area; empty for none.
    pub fill: &'static str,
}

impl Line {
    /// A continuous line.
    pub const fn of(stroke: &'static str, width: f64) -> Self {
        Self {
            stroke,
            width,
            dashes: "",
            fill: "",
        }
    }

    /// An area without a line.
    pub const fn area(fill: &'static str) -> Self {
        Self {
            stroke: "",
            width: 0.0,
            dashes: "",
            fill,
        }
    }

    /// The same with an area.
    pub const fn on(mut self, fill: &'static str) -> Self {
        self.fill = fill;
        self
    }

    /// The same with a pattern.
    pub const fn broken(mut self, dashes: &'static str) -> Self {
        self.dashes = dashes;
        self
    }
}

/// How letters are set.
#[derive(Clone, Copy, Debug)]
pub struct Letters {
    /// Their size.
    pub size: f64,
    /// Their weight.
    pub weight: u16,
    /// Their colour.
    pub fill: &'static str,
    /// `start`, `middle` or `end`.
    pub anchor: &'static str,
    /// Whether paper is laid around them, so that lines do not run into them.
    pub on_paper: bool,
}

/// A document being written.
#[derive(Debug)]
pub struct Pen<'a> {
    /// Its colours.
    pub ink: &'a Ink,
    /// Length of a pixel in the plane that is drawn in: lines keep their width whatever the scale.
    pub pixel: f64,
    text: String,
    open: usize,
}

impl<'a> Pen<'a> {
    pub fn new(ink: &'a Ink) -> Self {
        Self {
            ink,
            pixel: 1.0,
            text: String::new(),
            open: 0,
        }
    }

    /// Opens a group, by its tag.
    pub fn open(&mut self, tag: &str) {
        self.text.push_str(tag);
        self.text.push('\n');
        self.open += 1;
    }

    /// Closes the group opened last.
    pub fn close(&mut self) {
        self.text.push_str("</g>\n");
        self.open -= 1;
    }

    pub fn path(&mut self, path: &str, line: Line) {
        self.shape(&format!(r#"<path d="{}""#, escaped(path)), line);
    }

    pub fn circle(&mut self, at: (f64, f64), radius: f64, line: Line) {
        let (x, y) = (number(at.0), number(at.1));
        self.shape(
            &format!(r#"<circle cx="{x}" cy="{y}" r="{}""#, number(radius)),
            line,
        );
    }

    pub fn rect(&mut self, x: f64, y: f64, size: (f64, f64), line: Line) {
        self.rounded(x, y, size, 0.0, line);
    }

    /// A rectangle with corners of this radius.
    pub fn rounded(&mut self, x: f64, y: f64, size: (f64, f64), radius: f64, line: Line) {
        let mut tag = format!(
            r#"<rect x="{}" y="{}" width="{}" height="{}""#,
            number(x),
            number(y),
            number(size.0),
            number(size.1)
        );
        if radius > 0.0 {
            tag.push_str(&format!(r#" rx="{}""#, number(radius)));
        }
        self.shape(&tag, line);
    }

    fn shape(&mut self, tag: &str, line: Line) {
        self.text.push_str(tag);
        if !line.fill.is_empty() {
            self.attribute("fill", line.fill);
        }
        if !line.stroke.is_empty() {
            self.attribute("stroke", line.stroke);
            self.attribute("stroke-width", &number(line.width * self.pixel));
        }
        if !line.dashes.is_empty() {
            let scaled = line.dashes.split(' ').filter_map(|dash| dash.parse::<f64>().ok());
            let scaled: Vec<String> = scaled.map(|dash| number(dash * self.pixel)).collect();
            self.attribute("stroke-dasharray", &scaled.join(" "));
        }
        self.text.push_str("/>\n");
    }

    fn attribute(&mut self, name: &str, value: &str) {
        self.text.push(' ');
        self.text.push_str(name);
        self.text.push_str("=\"");
        self.text.push_str(value);
        self.text.push('"');
    }

    pub fn words(&mut self, at: (f64, f64), words: &str, letters: Letters) {
        self.text.push_str(&format!(
            r#"<text x="{}" y="{}" font-size="{}" font-weight="{}" fill="{}" text-anchor="{}""#,
            number(at.0),
            number(at.1),
            number(letters.size),
            letters.weight,
            letters.fill,
            letters.anchor
        ));
        if letters.on_paper {
            let (paper, halo) = (self.ink.paper, number(3.0 * self.pixel));
            self.text.push_str(&format!(
                r#" stroke="{paper}" stroke-width="{halo}" paint-order="stroke" stroke-linejoin="round""#
            ));
        }
        self.text.push('>');
        self.text.push_str(&escaped(words));
        self.text.push_str("</text>\n");
    }

    /// All of it as a document of this size on its paper, with the file of its face if it is to hold that.
    pub fn document(self, (width, height): (f64, f64), name: &str, face: Option<&[u8]>) -> String {
        let Ink { paper, ink, .. } = self.ink;
        let (width, height) = (number(width), number(height));
        let style = face.map(face::style).unwrap_or_default();
        let name = escaped(name);
        let body = self.text;
        format!(
            r#"<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" viewBox="0 0 {width} {height}" role="img" fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="{FAMILIES}" style="font-variant-numeric:tabular-nums">
<title>{name}</title>
{style}<defs><pattern id="heat" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V5" stroke="{ink}" stroke-width="1.6"/></pattern></defs>
<rect width="{width}" height="{height}" fill="{paper}"/>
{body}</svg>
"#
        )
    }
}

/// A number to a ten-thousandth, as short as it can be.
pub fn number(value: f64) -> String {
    let text = format!("{value:.4}");
    let tidy = text.trim_end_matches('0').trim_end_matches('.');
    if tidy == "-0" || tidy.is_empty() {
        "0".to_owned()
    } else {
        tidy.to_owned()
    }
}

/// Text as XML has it; control characters, which it cannot hold, are left out.
pub fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            letter if letter.is_control() => {}
            '\u{FFFE}' | '\u{FFFF}' => {}
            letter => out.push(letter),
        }
    }
    out
}
