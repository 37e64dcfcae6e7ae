//! The plan under commands: setting it, and keeping its layers in step when an element goes or is renamed.

use std::mem::replace;

use serde_json::Value;

use super::command::Command;
use super::refusal::Refusal;
use super::sound;
use crate::document::{Id, Layout, Plan};
use crate::file::plan;

impl Layout {
    pub(super) fn set_plan(&mut self, plan: &Plan) -> Result<Command, Refusal> {
        sound::check_top(self, "plan", &Value::Object(plan::written(plan)))?;
        Ok(Command::SetPlan(Box::new(replace(&mut self.plan, plan.clone()))))
    }

    /// Forgets the layer of an element that has gone; gives the command that takes this back, where something changed.
    pub(super) fn unlayer_lost(&mut self, element: &Id) -> Option<Command> {
        self.plan.layer_of(element)?;
        let before = self.plan.clone();
        self.plan.set_layer(element, None);
        Some(Command::SetPlan(Box::new(before)))
    }

    /// Follows the renaming of an element.
    pub(super) fn rename_in_plan(&mut self, from: &Id, to: &Id) {
        for (id, _) in &mut self.plan.layers {
            if id == from {
                *id = to.clone();
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{decode, encode};

    const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]},
        {"id": "h", "kind": "mesh", "a": "a", "b": "b", "teeth": [24, 24]}],
        "plan": {"module_mm": 1.5, "bores": "square", "pitch_mm": 8, "layers": [{"element": "g", "layer": 2}]}}"#;

    /// The layers after a command; taking it back must give the layout from before.
    fn check(command: Command, expected: &[(&str, u32)]) {
        let before = decode(TEXT).expect("sound");
        let mut layout = before.clone();
        let inverse = layout.apply(&command).expect("it fits");
        let layers = layout.plan.layers.iter();
        assert_eq!(
            layers
                .map(|(id, layer)| (id.as_str(), *layer))
                .collect::<Vec<_>>(),
            expected
        );
        layout.apply(&inverse).expect("an inverse fits");
        layout.last_number = before.last_number;
        assert_eq!(layout, before, "{command:?}");
    }

    #[test]
    fn layers_follow_their_elements() {
        let id = |text: &str| Id::from(text);
        check(Command::RemoveElement { id: id("g") }, &[]);
        check(Command::RemoveShaft { id: id("a") }, &[]);
        check(Command::RemoveElement { id: id("h") }, &[("g", 2)]);
        let (from, to) = (id("g"), id("first"));
        check(Command::RenameElement { from, to }, &[("first", 2)]);
        check(Command::SetPlan(Box::default()), &[]);
    }

    #[test]
    fn a_plan_is_written_as_it_was_read() {
        let layout = decode(TEXT).expect("sound");
        assert_eq!(layout.plan_module_mm(), 1.5);
        assert_eq!(decode(&encode(&layout)), Ok(layout));
        assert!(!encode(&Layout::new()).contains("plan"));
    }

    /// The one sentence about a plan that is not sound.
    fn check_sentence(plan: &str, expected: &str) {
        let text = TEXT.replace(r#""layers": [{"element": "g", "layer": 2}]"#, plan);
        let errors = decode(&text).expect_err("not sound");
        assert_eq!(
            errors.iter().map(ToString::to_string).collect::<Vec<_>>(),
            [expected]
        );
    }

    #[test]
    fn what_is_wrong_is_said_in_a_sentence() {
        check_sentence(
            r#""layers": [{"element": "f", "layer": 1}]"#,
            "plan.layers[0].element: no element is called `f`, the nearest known one is `g`",
        );
        check_sentence(
            r#""layers": [{"element": "g", "layer": 0}]"#,
            "plan.layers[0].layer: layers are counted from 1 to 1000, got 0",
        );
        check_sentence(
            r#""layers": [{"element": "g", "layer": 1}, {"element": "g", "layer": 2}]"#,
            "plan.layers[1].element: `g` is named twice; once is enough",
        );
    }
}
