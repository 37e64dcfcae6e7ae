//! The colours that a picture is drawn in. They are those of the sheet's style (`static/style/theme.css`), which a test holds
//! them to.

/// Colours by what they are for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ink {
    /// The sheet.
    pub paper: &'static str,
    /// The sheet under a thing.
    pub raised: &'static str,
    /// Lines and letters.
    pub ink: &'static str,
    /// Quiet letters, axes.
    pub soft: &'static str,
    /// Thin frames.
    pub line: &'static str,
    /// Edges of power.
    pub power: &'static str,
    /// Area of power.
    pub power_fill: &'static str,
    /// Marks on it.
    pub power_mark: &'static str,
    /// What is wrong.
    pub warning: &'static str,
}

impl Ink {
    /// Warm paper.
    pub const PAPER: Self = Self {
        paper: "#fbf8f0",
        raised: "#fffdf7",
        ink: "#1e1b16",
        soft: "#575145",
        line: "#857c6a",
        power: "#0c5a9e",
        power_fill: "#5f9cd3",
        power_mark: "#06355f",
        warning: "#b03010",
    };
    /// Blackboard.
    pub const SLATE: Self = Self {
        paper: "#24302d",
        raised: "#2c3a36",
        ink: "#f2f0e6",
        soft: "#bcc6bd",
        line: "#8b9a92",
        power: "#f4d06f",
        power_fill: "#c9a43c",
        power_mark: "#221c08",
        warning: "#ffa98c",
    };
    /// Black on white, for print.
    pub const PRINT: Self = Self {
        paper: "#ffffff",
        raised: "#ffffff",
        ink: "#000000",
        soft: "#000000",
        line: "#000000",
        power: "#000000",
        power_fill: "#cccccc",
        power_mark: "#000000",
        warning: "#000000",
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_those_of_the_sheet() {
        let style = include_str!("../../../../static/style/theme.css");
        let (paper, slate) = style.split_once("[data-theme='slate']").expect("both themes");
        for (part, ink) in [(paper, Ink::PAPER), (slate, Ink::SLATE)] {
            for (name, colour) in [
                ("paper", ink.paper),
                ("paper-raised", ink.raised),
                ("ink", ink.ink),
                ("ink-soft", ink.soft),
                ("line", ink.line),
                ("power", ink.power),
                ("power-fill", ink.power_fill),
                ("power-mark", ink.power_mark),
                ("warning", ink.warning),
            ] {
                assert!(part.contains(&format!("--{name}: {colour};")), "{name} {colour}");
            }
        }
    }
}
