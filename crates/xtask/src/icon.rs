//! The page's icon, from `static/icon.svg`, as the pictures that devices want when the page is installed.
//!
//! The drawing is a few shapes, so the few kinds of SVG that it uses are read here and painted by sampling: no drawing
//! library is needed, and the pictures are the same on every machine.

use std::io::Write as _;

use anyhow::{Context, bail, ensure};
use flate2::{Compression, Crc, write::ZlibEncoder};

/// Names and sides of the pictures; a maskable one fills the whole square and has its drawing in the middle, since devices
/// cut it to their own shape.
const PICTURES: [(&str, usize, bool); 4] = [
    ("icon-180.png", 180, true),
    ("icon-192.png", 192, false),
    ("icon-512.png", 512, false),
    ("icon-maskable-512.png", 512, true),
];

/// What of a maskable picture's side the drawing takes: its corners stay within the circle of 80 % that is never cut (W3C
/// Web Application Manifest, "Icon masks and safe zone").
const SAFE: f64 = 0.76;

/// Samples along each side of a pixel.
const SAMPLES: usize = 4;

type Colour = [f64; 3];

/// A shape of the drawing in its own units.
enum Shape {
    /// A rectangle with rounded corners: x, y, width, height, radius.
    Rectangle([f64; 5]),
    /// A ring: centre, radius, half the pen's width.
    Ring([f64; 4]),
    /// A straight stroke with square ends: from, to, half the pen's width.
    Stroke([f64; 5]),
    /// A filled triangle.
    Triangle([[f64; 2]; 3]),
}

/// The pictures made of the drawing, with their names.
pub fn pictures(svg: &str) -> anyhow::Result<Vec<(String, Vec<u8>)>> {
    let drawing = read(svg).context("static/icon.svg")?;
    PICTURES
        .iter()
        .map(|(name, side, maskable)| {
            Ok((
                (*name).to_owned(),
                png(*side, &paint(&drawing, *side, *maskable))?,
            ))
        })
        .collect()
}

struct Drawing {
    side: f64,
    shapes: Vec<(Shape, Colour)>,
}

/// Reads the elements in order. The pen of a group holds for what is in it.
fn read(svg: &str) -> anyhow::Result<Drawing> {
    let mut drawing = Drawing {
        side: 0.0,
        shapes: Vec::new(),
    };
    let (mut pen, mut half) = ([0.0; 3], 0.0);
    for element in svg.split('<').skip(1) {
        let name = element.split([' ', '>', '/']).next().unwrap_or_default();
        let number = |key: &str| attribute(element, key).and_then(|text| text.parse().ok());
        let needed = |key: &str| number(key).with_context(|| format!("{name} without {key}"));
        match name {
            "svg" => {
                let view_box = attribute(element, "viewBox").context("no viewBox")?;
                drawing.side = view_box
                    .rsplit(' ')
                    .next()
                    .and_then(|text| text.parse().ok())
                    .context("its side")?;
            }
            "g" => {
                pen = colour(attribute(element, "stroke").context("a group without a stroke")?)?;
                half = needed("stroke-width")? / 2.0;
            }
            "rect" => {
                let shape = [
                    0.0,
                    0.0,
                    needed("width")?,
                    needed("height")?,
                    number("rx").unwrap_or(0.0),
                ];
                let fill = colour(attribute(element, "fill").context("no fill")?)?;
                drawing.shapes.push((Shape::Rectangle(shape), fill));
            }
            "circle" => {
                let ring = [needed("cx")?, needed("cy")?, needed("r")?, half];
                drawing.shapes.push((Shape::Ring(ring), pen));
            }
            "path" => {
                let points = points(attribute(element, "d").context("no path")?)?;
                match attribute(element, "fill") {
                    Some(fill) => {
                        let corners: Vec<[f64; 2]> = points.concat();
                        let corners = corners
                            .first_chunk::<3>()
                            .context("a filled path is a triangle")?;
                        drawing.shapes.push((Shape::Triangle(*corners), colour(fill)?));
                    }
                    None => drawing.shapes.extend(points.iter().filter_map(|line| {
                        let [[x, y], [to_x, to_y]] = *line.first_chunk::<2>()?;
                        Some((Shape::Stroke([x, y, to_x, to_y, half]), pen))
                    })),
                }
            }
            _ => {}
        }
    }
    ensure!(
        drawing.side > 0.0 && !drawing.shapes.is_empty(),
        "nothing is drawn"
    );
    Ok(drawing)
}

fn attribute<'a>(element: &'a str, key: &str) -> Option<&'a str> {
    let start = element.find(&format!(" {key}=\""))? + key.len() + 3;
    element[start..].split('"').next()
}

fn colour(text: &str) -> anyhow::Result<Colour> {
    let digits = text.strip_prefix('#').filter(|digits| digits.len() == 6);
    let digits = digits.with_context(|| format!("{text} is no colour like #1e1b16"))?;
    let value = u32::from_str_radix(digits, 16)?;
    Ok([16, 8, 0].map(|shift| f64::from((value >> shift) & 0xff)))
}

/// The lines of a path of `M`, `h`, `v`, `L`, `l` and `z`, each from its `M` on.
fn points(path: &str) -> anyhow::Result<Vec<Vec<[f64; 2]>>> {
    let mut lines: Vec<Vec<[f64; 2]>> = Vec::new();
    let (mut at, mut rest) = ([0.0, 0.0], path);
    while let Some(command) = rest.chars().next() {
        let end = rest[1..]
            .find(|c: char| c.is_ascii_alphabetic())
            .map_or(rest.len(), |end| end + 1);
        let numbers: Vec<f64> = rest[1..end]
            .replace('-', " -")
            .split([' ', ','])
            .filter(|word| !word.is_empty())
            .map(str::parse)
            .collect::<Result<_, _>>()
            .with_context(|| format!("numbers of {path}"))?;
        rest = &rest[end..];
        let pairs = |numbers: &[f64]| {
            numbers
                .chunks_exact(2)
                .map(|pair| [pair[0], pair[1]])
                .collect::<Vec<_>>()
        };
        match command {
            'M' => {
                // What follows the first pair is drawn to.
                let pairs = pairs(&numbers);
                at = *pairs.last().context("M without a place")?;
                lines.push(pairs);
                continue;
            }
            'h' => at[0] += numbers.first().context("h without a length")?,
            'v' => at[1] += numbers.first().context("v without a length")?,
            'l' => {
                for [x, y] in pairs(&numbers) {
                    at = [at[0] + x, at[1] + y];
                    lines.last_mut().context("a path begins with M")?.push(at);
                }
                continue;
            }
            'z' => continue,
            other => bail!("{other} of {path} is not drawn here"),
        }
        lines.last_mut().context("a path begins with M")?.push(at);
    }
    Ok(lines)
}

/// Red, green, blue and opacity of each pixel.
fn paint(drawing: &Drawing, side: usize, maskable: bool) -> Vec<u8> {
    let share = if maskable { SAFE } else { 1.0 };
    let unit = drawing.side / (side as f64 * share);
    let rim = (side as f64 * (1.0 - share)) / 2.0;
    let ground = drawing.shapes[0].1;
    let mut pixels = Vec::with_capacity(side * side * 4);
    for y in 0..side {
        for x in 0..side {
            let (mut sum, mut cover) = ([0.0_f64; 3], 0.0_f64);
            for sample in 0..SAMPLES * SAMPLES {
                let part = |index: usize| (index as f64 + 0.5) / SAMPLES as f64;
                let at = [
                    (x as f64 + part(sample % SAMPLES) - rim) * unit,
                    (y as f64 + part(sample / SAMPLES) - rim) * unit,
                ];
                let top = drawing.shapes.iter().rev().find(|(shape, _)| shape.holds(at));
                if let Some(colour) = top.map(|(_, colour)| *colour).or(maskable.then_some(ground)) {
                    cover += 1.0;
                    for (sum, part) in sum.iter_mut().zip(colour) {
                        *sum += part;
                    }
                }
            }
            let opaque = cover.max(1.0);
            pixels.extend(sum.map(|part| (part / opaque).round() as u8));
            pixels.push((255.0 * cover / (SAMPLES * SAMPLES) as f64).round() as u8);
        }
    }
    pixels
}

impl Shape {
    fn holds(&self, [x, y]: [f64; 2]) -> bool {
        match *self {
            Self::Rectangle([left, top, width, height, radius]) => {
                let beyond = |value: f64, low: f64, size: f64| {
                    let (low, high) = (low + radius, low + size - radius);
                    (low - value).max(value - high).max(0.0)
                };
                let (dx, dy) = (beyond(x, left, width), beyond(y, top, height));
                dx * dx + dy * dy <= radius * radius && dx <= radius && dy <= radius
            }
            Self::Ring([cx, cy, radius, half]) => {
                let distance = ((x - cx).powi(2) + (y - cy).powi(2)).sqrt();
                (distance - radius).abs() <= half
            }
            Self::Stroke([ax, ay, bx, by, half]) => {
                let (along_x, along_y) = (bx - ax, by - ay);
                let length = (along_x * along_x + along_y * along_y).sqrt();
                let along = ((x - ax) * along_x + (y - ay) * along_y) / length;
                let across = ((x - ax) * along_y - (y - ay) * along_x) / length;
                (0.0..=length).contains(&along) && across.abs() <= half
            }
            Self::Triangle([a, b, c]) => {
                let side = |p: [f64; 2], q: [f64; 2]| (q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0]);
                let sides = [side(a, b), side(b, c), side(c, a)];
                sides.iter().all(|side| *side >= 0.0) || sides.iter().all(|side| *side <= 0.0)
            }
        }
    }
}

/// A PNG file of eight bits a channel, every line unfiltered (W3C Portable Network Graphics, third edition).
fn png(side: usize, pixels: &[u8]) -> anyhow::Result<Vec<u8>> {
    let size = u32::try_from(side)?.to_be_bytes();
    let header = [&size[..], &size[..], &[8, 6, 0, 0, 0]].concat();
    let mut packed = ZlibEncoder::new(Vec::new(), Compression::best());
    for line in pixels.chunks(side * 4) {
        packed.write_all(&[0])?;
        packed.write_all(line)?;
    }
    let mut file = b"\x89PNG\r\n\x1a\n".to_vec();
    chunk(&mut file, *b"IHDR", &header)?;
    chunk(&mut file, *b"IDAT", &packed.finish()?)?;
    chunk(&mut file, *b"IEND", &[])?;
    Ok(file)
}

fn chunk(file: &mut Vec<u8>, name: [u8; 4], contents: &[u8]) -> anyhow::Result<()> {
    file.extend(u32::try_from(contents.len())?.to_be_bytes());
    file.extend(name);
    file.extend(contents);
    let mut crc = Crc::new();
    crc.update(&name);
    crc.update(contents);
    file.extend(crc.sum().to_be_bytes());
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    const SVG: &str = include_str!("../../../static/icon.svg");

    #[test]
    fn every_shape_of_the_icon_is_painted() {
        let drawing = read(SVG).expect("the icon is read");
        assert_eq!(drawing.shapes.len(), 5, "ground, ring, two strokes, arrow");
        let pixels = paint(&drawing, 32, false);
        let at = |x: usize, y: usize| &pixels[(y * 32 + x) * 4..][..4];
        assert_eq!(at(2, 2), [0xfb, 0xf8, 0xf0, 255], "paper");
        assert_eq!(at(20, 9), [0x1e, 0x1b, 0x16, 255], "the line across");
        assert_eq!(at(27, 15), [0x0c, 0x5a, 0x9e, 255], "the arrow");
        assert!(at(0, 0)[3] < 255, "the corner is round");
    }

    #[test]
    fn what_is_cut_to_a_circle_has_its_ground_everywhere() {
        let drawing = read(SVG).expect("the icon is read");
        let pixels = paint(&drawing, 40, true);
        assert!(pixels.chunks(4).all(|pixel| pixel[3] == 255));
    }

    #[test]
    fn pictures_are_small_png_files() {
        for (name, picture) in pictures(SVG).expect("they are made") {
            assert!(picture.starts_with(b"\x89PNG"), "{name}");
            assert!(picture.len() < 20_000, "{name}: {} bytes", picture.len());
        }
    }
}
