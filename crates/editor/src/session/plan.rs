//! The plan under the hand: axes dragged and nudged, how it is looked at, and its outlines saved.

use layshaft_layout::{Command, Id, Layout, Owner};
use serde_json::json;

use super::{Effect, Session};
use crate::actions::{Direction, PlanAct};
use crate::fields::{Details, DetailsInput};
use crate::geometry::{Point, Size};
use crate::plan::{Plan, cut, fields, snap};
use crate::scene::PlanLook;
use crate::target::Target;

/// How near a place draws a dragged axis, in pixels.
const SNAP_PX: f64 = 12.0;
/// How far an arrow key moves an axis where no pitch of bores says so, in mm.
const NUDGE_MM: f64 = 1.0;
/// Slower factors that can be chosen; above 1 slower than on the other drawings.
const SLOWER: [f64; 5] = [0.25, 1.0, 4.0, 16.0, 64.0];

impl Session {
    /// How the plan is looked at.
    #[must_use]
    pub fn plan_look(&self) -> PlanLook {
        PlanLook {
            zoom: self.view.zoom,
            room: if self.plan_look.lifted {
                self.view.size
            } else {
                Size::default()
            },
            ..self.plan_look
        }
    }

    /// Shows an axis dragged on the plan, snapped to what it meshes with or to a bore.
    pub(super) fn preview_move_on_plan(&mut self, grabbed: &Target, by: Point, snaps: bool) {
        let layout = self.document.layout().clone();
        let laid = self.laid(&layout);
        let plan = &laid.plan;
        let Some(axis) = grabbed_axis(plan, grabbed) else {
            return;
        };
        let to = plan.at[axis] + by;
        let reach = if snaps { SNAP_PX / self.view.zoom } else { 0.0 };
        let rest = if snaps {
            snap::snap(&layout, plan, axis, to, reach)
        } else {
            snap::Rest {
                at: snap::rounded(to),
                partners: Vec::new(),
            }
        };
        let command = stand(&layout, plan, axis, rest.at);
        if self.preview(&command).is_ok() {
            self.moving = Some(command);
            self.overlay.guides = rest
                .partners
                .iter()
                .map(|other| (plan.at[*other], rest.at))
                .collect();
        }
    }

    /// Moves the selected axis by one pitch of the bores, or by a millimetre.
    pub(super) fn nudge_on_plan(&mut self, direction: Direction, effects: &mut Vec<Effect>) {
        let Some(grabbed) = self.selection.last().cloned() else {
            return;
        };
        let layout = self.document.layout();
        let step = match layout.plan.bores {
            layshaft_layout::BorePattern::Square | layshaft_layout::BorePattern::Triangular => {
                layout.plan.pitch_mm
            }
            _ => NUDGE_MM,
        };
        self.preview_move_on_plan(&grabbed, direction.vector() * step, false);
        self.drop_moved(&grabbed, None, effects);
    }

    pub(super) fn act_on_plan(&mut self, act: PlanAct, effects: &mut Vec<Effect>) {
        match act {
            PlanAct::Slower => self.change_pace(1, effects),
            PlanAct::Faster => self.change_pace(-1, effects),
            PlanAct::Stand => {
                self.plan_look.slower = if self.plan_look.slower.is_some() {
                    None
                } else {
                    Some(1.0)
                };
                self.look_anew(
                    if self.plan_look.slower.is_some() {
                        "The plan turns"
                    } else {
                        "The plan stands"
                    },
                    effects,
                );
            }
            PlanAct::Layer(layer) => self.show_layer(layer, effects),
            PlanAct::NextLayer => {
                let count = self.laid(&self.shown).plan.layer_count();
                let next = self.plan_look.layer.map_or(1, |layer| layer + 1);
                self.show_layer((next <= count).then_some(next), effects);
            }
            PlanAct::Lift => {
                self.plan_look.lifted = !self.plan_look.lifted;
                let words = if self.plan_look.lifted {
                    "Layers stand apart"
                } else {
                    "Layers lie over one another"
                };
                self.look_anew(words, effects);
                self.fit();
            }
            PlanAct::PlaceAnew => self.place_plan_anew(effects),
            PlanAct::SaveOutlines => self.save_outlines(effects),
        }
    }

    fn show_layer(&mut self, layer: Option<u32>, effects: &mut Vec<Effect>) {
        self.plan_look.layer = layer;
        let words = layer.map_or_else(|| "All layers".to_owned(), |layer| format!("Layer {layer}"));
        self.look_anew(&words, effects);
    }

    fn change_pace(&mut self, by: isize, effects: &mut Vec<Effect>) {
        let now = self.plan_look.slower.unwrap_or(1.0);
        let place = SLOWER.iter().position(|factor| *factor >= now).unwrap_or(1);
        let next = place.saturating_add_signed(by).min(SLOWER.len() - 1);
        self.plan_look.slower = Some(SLOWER[next]);
        self.redraw();
        let words = self.picture().and_then(|picture| picture.legend.slow.clone());
        self.look_anew(&words.unwrap_or_else(|| "Nothing turns".to_owned()), effects);
    }

    fn look_anew(&mut self, words: &str, effects: &mut Vec<Effect>) {
        self.redraw();
        effects.push(Effect::Announce(words.to_owned()));
    }

    /// Forgets where axes were put, so that tooth counts alone say it.
    pub(super) fn place_plan_anew(&mut self, effects: &mut Vec<Effect>) {
        let layout = self.document.layout();
        let put = layout.shafts.iter().filter(|shaft| shaft.axis_mm.is_some());
        let commands: Vec<Command> = put.map(|shaft| axis_command(&shaft.id, None)).collect();
        if commands.is_empty() {
            effects.push(Effect::Announce(
                "Tooth counts place every shaft already".to_owned(),
            ));
        } else if self.commit(Command::Batch(commands), "place the plan anew", effects) {
            self.fit();
            effects.push(Effect::Announce("Shafts are placed from tooth counts".to_owned()));
        }
    }

    fn save_outlines(&mut self, effects: &mut Vec<Effect>) {
        match cut::svg(&self.shown, &self.laid(&self.shown).plan) {
            Some(text) => {
                let name =
                    super::opening::file_name_of(&self.shown.title).replace(".layshaft.json", "-gears.svg");
                effects.push(Effect::Announce(
                    "Gear outlines saved, true to size. Cut a test piece first".to_owned(),
                ));
                effects.push(Effect::Download { name, text });
            }
            None => effects.push(Effect::Announce("There is no gear to cut".to_owned())),
        }
    }

    /// What the plan adds to the details: its settings, or the layer of an element.
    pub(super) fn with_plan_fields(&self, input: DetailsInput<'_>, mut details: Details) -> Details {
        match &details.target {
            Target::Layout => {
                let own = fields::of_plan(input.layout);
                details.fields = own.into_iter().chain(details.fields).collect();
                details.cautions.extend(crate::wording::plan::CUTTING);
            }
            Target::Element(_) => details
                .fields
                .push(fields::of_element(input.layout, &details.target)),
            _ => {}
        }
        for field in &mut details.fields {
            if let Some(editing) = input.editing.filter(|editing| editing.field == field.field) {
                field.text.clone_from(&editing.text);
                field.problem.clone_from(&editing.problem);
            }
        }
        details
    }
}

/// The axis that moves with what was grabbed: of a shaft, or of an element's second wheel.
fn grabbed_axis(plan: &Plan, grabbed: &Target) -> Option<usize> {
    match grabbed {
        Target::Shaft(id) => plan.axis_of(id),
        _ => None,
    }
}

/// Every shaft stands where it is shown, one axis at a new place: nothing else is to move with it.
fn stand(layout: &Layout, plan: &Plan, moved: usize, to: Point) -> Command {
    let mut commands = Vec::new();
    for (axis, at) in plan
        .axes
        .iter()
        .zip(&plan.at)
        .map(|(axis, at)| (axis, snap::rounded(*at)))
    {
        let is_moved = *axis == plan.axes[moved];
        let at = if is_moved { to } else { at };
        for id in &axis.shafts {
            let stands = layout.shaft(id).and_then(|shaft| shaft.axis_mm);
            if is_moved || stands.is_none() {
                commands.push(axis_command(id, Some(at)));
            }
        }
    }
    Command::Batch(commands)
}

fn axis_command(shaft: &Id, at: Option<Point>) -> Command {
    Command::SetField {
        owner: Owner::Shaft(shaft.clone()),
        field: "axis_mm".to_owned(),
        value: at.map(|at| json!([at.x, at.y])),
    }
}
