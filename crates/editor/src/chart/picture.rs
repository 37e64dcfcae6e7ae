//! A drawing as an SVG file of its own: black on white, styles inside, fonts by name.

use super::Chart;
use super::shape::{Shape, wide};
use crate::geometry::Size;

/// How the classes of shapes look in print.
const STYLE: &str = "text{font-family:'Sofia Sans Semi Condensed',Arial,Helvetica,sans-serif;font-size:14px;fill:#444;stroke:#fff;stroke-width:4px;paint-order:stroke;stroke-linejoin:round;font-variant-numeric:tabular-nums}\
.is-strong,.is-present,.plot-title{fill:#000;font-weight:600}\
path{fill:none;stroke-linejoin:round}\
.plot-grid{stroke:#ddd}.plot-thin{stroke:#777}.plot-line{stroke:#000;stroke-width:1.75}.plot-line.is-beside{stroke-width:1.25}\
.plot-event{stroke:#555;stroke-dasharray:2 3}.plot-present{stroke:#000;stroke-width:1.5}\
.plot-dot,.plot-alone,.plot-point{fill:#000;stroke:#fff;stroke-width:1.5}.plot-dot.is-turn{fill:#fff;stroke:#000}\
.plot-level{stroke:#333;stroke-width:1}.plot-shade{fill:#000;stroke:none}";

/// Room for the title over the drawing.
const HEAD: f64 = 30.0;
const MARGIN: f64 = 12.0;

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// A whole SVG file.
pub fn svg(title: &str, description: &str, size: Size, shapes: &[Shape]) -> String {
    // The title is bold, so it takes more than its letters do on a plot.
    let width = size.width.max(wide(title) * 1.15) + 2.0 * MARGIN;
    let height = size.height + HEAD + 2.0 * MARGIN;
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {width:.1} {height:.1}\" role=\"img\" aria-labelledby=\"title desc\">\n\
         <title id=\"title\">{}</title>\n<desc id=\"desc\">{}</desc>\n<style>{STYLE}</style>\n\
         <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n\
         <text class=\"plot-title\" x=\"{MARGIN}\" y=\"{:.1}\">{}</text>\n<g transform=\"translate({MARGIN} {:.1})\">\n",
        escaped(title),
        escaped(description),
        MARGIN + 16.0,
        escaped(title),
        MARGIN + HEAD,
    );
    for shape in shapes {
        text.push_str(&written(shape));
        text.push('\n');
    }
    text + "</g>\n</svg>\n"
}

fn written(shape: &Shape) -> String {
    match shape {
        Shape::Path { class, path, dashes } => {
            let dashed = if dashes.is_empty() {
                String::new()
            } else {
                format!(" stroke-dasharray=\"{dashes}\"")
            };
            format!("<path class=\"{class}\" d=\"{path}\"{dashed}/>")
        }
        Shape::Fill {
            class,
            path,
            strength,
        } => {
            format!("<path class=\"{class}\" d=\"{path}\" fill-opacity=\"{strength:.3}\"/>")
        }
        Shape::Dot { class, at, radius } => format!(
            "<circle class=\"{class}\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"{radius}\"/>",
            at.x, at.y
        ),
        Shape::Text {
            class,
            at,
            anchor,
            text,
        } => format!(
            "<text class=\"{class}\" x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"{}\"{}>{}</text>",
            at.x,
            at.y,
            anchor.word(),
            length(text),
            escaped(text)
        ),
    }
}

/// The width that the text was given room for: where another font stands in, it is drawn in to that.
fn length(text: &str) -> String {
    let width = wide(text);
    if width < 1.0 {
        return String::new();
    }
    format!(" textLength=\"{width:.1}\" lengthAdjust=\"spacingAndGlyphs\"")
}

impl Chart {
    /// The plot as a file of its own.
    #[must_use]
    pub fn svg(&self) -> String {
        svg(&self.spec.title, &self.spoken(), self.size, &self.shapes)
    }
}
