//! The bench itself: the drawing in SVG, the field that edits in place over it, and its pointers.

use std::rc::Rc;

use layshaft_editor::scene::Picture;
use layshaft_editor::{Editing, Input, Phase, Scene, Tool, View};
use yew::prelude::*;

use super::drawing_tools::DrawingTools;
use super::inline_editor::InlineEditor;
use super::picture_view::PictureView;
use super::scene_view::SceneView;
use crate::browser::pointer;
use crate::hooks::{Bench, use_bench, use_size, use_wheel};

/// The id of the drawing's element.
pub const DRAWING: &str = "drawing";

/// The id of the picture in it, which pointers are captured by: it is the one that listens to them.
pub const PICTURE: &str = "bench";

/// Properties of [`Drawing`].
#[derive(Properties, PartialEq)]
pub struct DrawingProps {
    /// What is drawn.
    pub scene: Rc<Scene>,
    /// The skeleton or the plan, where one of them stands on the sheet instead.
    pub picture: Option<Rc<Picture>>,
    /// Which drawing it is.
    pub drawing: layshaft_editor::Drawing,
    /// Where it is looked at.
    pub view: View,
    /// The tool in hand, which shows in the pointer's shape.
    pub tool: Tool,
    /// The field being edited.
    pub editing: Option<Rc<Editing>>,
    /// What to do next.
    pub hint: AttrValue,
}

/// The drawing fills the place it is given and tells the session how large that is.
#[component]
pub fn Drawing(props: &DrawingProps) -> Html {
    let bench = use_bench();
    let node = use_node_ref();
    use_size(&node, &bench, Input::Resize);
    use_wheel(&node, &bench);
    let on = |phase| on_pointer(&bench, phase);
    let on_double_click = {
        let bench = bench.clone();
        Callback::from(move |event: MouseEvent| {
            bench.send(Input::DoubleClick(pointer::place_on_drawing(&event)))
        })
    };
    // Focus follows the session (`Effect::Focus`), not the press, or a click on the bare bench would lose it.
    let keep_focus = Callback::from(|event: MouseEvent| event.prevent_default());
    let empty = props
        .picture
        .as_ref()
        .map_or(props.scene.empty, |picture| picture.empty);
    html! {
        <div id={DRAWING} ref={node} class={classes!("drawing", tool_class(props.tool))} tabindex="-1" role="region" aria-label="Bench">
            <svg id={PICTURE} class="bench" viewBox={props.view.view_box()} role="group" aria-label={format!("{} drawing", props.drawing.name())}
                onpointerdown={on(Phase::Down)} onpointermove={on(Phase::Move)} onpointerup={on(Phase::Up)}
                onpointercancel={on(Phase::Cancel)} onpointerleave={on(Phase::Leave)}
                onmousedown={keep_focus} ondblclick={on_double_click} oncontextmenu={Callback::from(|event: MouseEvent| event.prevent_default())}>
                if let Some(picture) = &props.picture {
                    <PictureView picture={picture.clone()} />
                } else {
                    <SceneView scene={props.scene.clone()} />
                }
            </svg>
            if let Some(words) = empty { <p class="bench-empty">{ words }</p> }
            if let Some(editing) = &props.editing { <InlineEditor editing={editing.clone()} view={props.view} /> }
            <DrawingTools placing={matches!(props.tool, Tool::Place(_))} hint={if empty.is_some() { AttrValue::default() } else { props.hint.clone() }} />
        </div>
    }
}

fn on_pointer(bench: &Bench, phase: Phase) -> Callback<PointerEvent> {
    bench
        .0
        .reform(move |event: PointerEvent| pointer::input(phase, &event))
}

fn tool_class(tool: Tool) -> &'static str {
    match tool {
        Tool::Select => "is-selecting",
        Tool::Pan => "is-panning",
        Tool::Place(_) => "is-placing",
    }
}
