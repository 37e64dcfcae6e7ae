//! The bench itself: the drawing in SVG, the field that edits in place over it, and its pointers.

use std::rc::Rc;

use gloo::timers::callback::Timeout;
use layshaft_editor::menu::Menu;
use layshaft_editor::scene::{Afloat, Picture};
use layshaft_editor::session;
use layshaft_editor::wording;
use layshaft_editor::{Editing, Input, Phase, Scene, Tool, View};
use yew::prelude::*;

use super::context_menu::ContextMenu;
use super::drawing_tools::DrawingTools;
use super::inline_editor::InlineEditor;
use super::picture_view::PictureView;
use super::scene_view::SceneView;
use super::selection_bar::SelectionBar;
use crate::browser::pointer;
use crate::hooks::{Bench, use_bench, use_glide, use_size, use_wheel};

/// The id of the drawing's element.
pub const DRAWING: &str = "drawing";

/// The id of the picture in it, which pointers are captured by: it is the one that listens to them.
pub const PICTURE: &str = "bench";

/// Properties of [`Drawing`].
#[derive(Properties, PartialEq)]
pub struct DrawingProps {
    /// The flow drawing, where it stands on the sheet.
    pub scene: Option<Rc<Scene>>,
    /// The same in two, while something is dragged on a large one.
    pub afloat: Option<Rc<Afloat>>,
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
    /// Whether a drag moves the view.
    pub pans: bool,
    /// The menu that is open.
    pub menu: Option<Rc<Menu>>,
    /// What stands at several selected things.
    pub bar: Option<Rc<session::SelectionBar>>,
}

/// How long a finger rests before that means something, in ms.
const LONG_PRESS_MS: u32 = 500;

/// The drawing fills the place it is given and tells the session how large that is.
#[component]
pub fn Drawing(props: &DrawingProps) -> Html {
    let bench = use_bench();
    let node = use_node_ref();
    use_size(&node, &bench, Input::Resize);
    use_wheel(&node, &bench);
    // Lines of skeleton and plan keep their width on the screen: a browser paints them anew when they glide, too.
    let large = props.scene.as_ref().is_some_and(|scene| scene.is_large());
    let (made_for, glide) = use_glide(props.view, large);
    let on = |phase| on_pointer(&bench, phase);
    let on_double_click = {
        let bench = bench.clone();
        Callback::from(move |event: MouseEvent| {
            bench.send(Input::DoubleClick(pointer::place_on_drawing(&event)))
        })
    };
    let on_menu = {
        let bench = bench.clone();
        Callback::from(move |event: MouseEvent| {
            event.prevent_default();
            bench.send(pointer::menu_input(&event));
        })
    };
    // Focus follows the session (`Effect::Focus`), not the press, or a click on the bare bench would lose it.
    let keep_focus = Callback::from(|event: MouseEvent| event.prevent_default());
    let placing = matches!(props.tool, Tool::Place(_) | Tool::Area);
    // With a part in hand the hint says where it goes.
    let empty = props
        .picture
        .as_ref()
        .map(|picture| picture.empty)
        .or_else(|| props.scene.as_ref().map(|scene| scene.empty))
        .flatten()
        .filter(|_| !placing);
    let still = props.afloat.as_ref().map(|afloat| afloat.still.clone());
    html! {
        <div id={DRAWING} ref={node} class={classes!("drawing", tool_class(props.tool, props.pans), glide.is_some().then_some("is-gliding"))} tabindex="-1" role="region" aria-label="Bench">
            <svg id={PICTURE} class="bench" viewBox={made_for.view_box()} style={glide.clone()} role="group" aria-label={format!("{} drawing", props.drawing.name())}
                onpointerdown={on(Phase::Down)} onpointermove={on(Phase::Move)} onpointerup={on(Phase::Up)}
                onpointercancel={on(Phase::Cancel)} onpointerleave={on(Phase::Leave)}
                onmousedown={keep_focus} ondblclick={on_double_click} oncontextmenu={on_menu}>
                if let Some(picture) = &props.picture {
                    <PictureView picture={picture.clone()} />
                } else if let Some(scene) = still.or(props.scene.clone()) {
                    <SceneView {scene} />
                }
            </svg>
            // A browser paints a picture whole wherever a part of it has changed: what moves has one of its own.
            if let Some(afloat) = &props.afloat {
                <svg class="bench is-afloat" viewBox={made_for.view_box()} style={glide} aria-hidden="true">
                    <SceneView scene={afloat.moved.clone()} is_copy=true />
                </svg>
            }
            if let Some(words) = empty { <p class="bench-empty"><span class="where-wide">{ words }</span><span class="where-narrow">{ wording::EMPTY_ON_PHONE }</span></p> }
            if let Some(bar) = &props.bar { <SelectionBar bar={bar.clone()} /> }
            if let Some(menu) = &props.menu { <ContextMenu menu={menu.clone()} /> }
            if let Some(editing) = &props.editing { <InlineEditor editing={editing.clone()} view={props.view} /> }
            <DrawingTools {placing} hint={if empty.is_some() || props.bar.is_some() { AttrValue::default() } else { props.hint.clone() }} />
        </div>
    }
}

fn on_pointer(bench: &Bench, phase: Phase) -> Callback<PointerEvent> {
    let bench = bench.clone();
    Callback::from(move |event: PointerEvent| {
        bench.send(pointer::input(phase, &event));
        if phase == Phase::Down && event.pointer_type() == "touch" {
            let (bench, id) = (bench.clone(), event.pointer_id());
            // The session knows by then whether the finger is still down and where it was.
            Timeout::new(LONG_PRESS_MS, move || bench.send(Input::LongPress(id))).forget();
        }
    })
}

fn tool_class(tool: Tool, pans: bool) -> &'static str {
    match tool {
        _ if pans => "is-panning",
        Tool::Select => "is-selecting",
        Tool::Pan => "is-panning",
        Tool::Area => "is-framing",
        Tool::Place(_) => "is-placing",
    }
}
