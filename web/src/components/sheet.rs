//! The sheet: headline, positions, drawing, legend and title block inside one frame.

use std::rc::Rc;

use yew::prelude::*;

use super::drawing::Drawing;
use super::drawing_choice::DrawingChoice;
use super::frame_marks::FrameMarks;
use super::headline::Headline;
use super::legend_view::LegendView;
use super::message_bar::MessageBar;
use super::notices::Notices;
use super::picture_remarks::PictureRemarks;
use super::plan_tools::PlanTools;
use super::positions_row::PositionsRow;
use super::title_block::TitleBlock;
use crate::store::Store;

/// Properties of [`Sheet`].
#[derive(Properties, PartialEq)]
pub struct SheetProps {
    /// The session that it shows.
    pub store: UseReducerHandle<Store>,
}

/// What prints.
#[component]
pub fn Sheet(props: &SheetProps) -> Html {
    let session = props.store.session();
    let picture = session.picture();
    // What is not on the sheet is not drawn.
    let scene = picture.is_none().then(|| session.scene());
    let afloat = picture.is_none().then(|| session.afloat()).flatten();
    let of_scene = scene.as_ref().map(|scene| scene.legend.clone());
    let of_picture = picture.as_ref().map(|picture| picture.legend.clone());
    let legend = of_picture.or(of_scene).unwrap_or_default();
    html! {
        <div class="sheet">
            <FrameMarks />
            <Headline words={Rc::new(session.headline())} others={Rc::new(session.findings())} />
            if let Some(message) = session.message() { <MessageBar message={Rc::new(message.clone())} offer={session.offer()} /> }
            <Notices notices={session.notices().clone()} />
            <div class="over-drawing">
                <PositionsRow positions={Rc::new(session.positions())} current={session.position().clone()} />
                <DrawingChoice drawing={session.drawing()} />
            </div>
            <Drawing {scene} {afloat} picture={picture.clone()} drawing={session.drawing()} view={session.view()} tool={session.tool()}
                editing={session.editing().cloned().map(Rc::new)} hint={session.hint()} pans={session.pans()}
                menu={session.menu().cloned().map(Rc::new)} bar={session.selection_bar().map(Rc::new)} />
            if session.drawing() == layshaft_editor::Drawing::Plan && !legend.signs.is_empty() {
                <PlanTools look={session.plan_look()} layers={picture.as_ref().map_or(0, |picture| picture.layers)} />
            }
            <footer class="foot">
                <div class="foot-words">
                    if let Some(picture) = &picture { <PictureRemarks picture={picture.clone()} /> }
                    <div class="legend"><LegendView {legend} /></div>
                </div>
                <TitleBlock block={Rc::new(session.title_block())} fixed={session.is_embedded()} />
            </footer>
        </div>
    }
}
