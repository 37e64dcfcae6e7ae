//! The further sheet that is open, beside the drawing or under it.

use std::rc::Rc;

use layshaft_editor::{Action, Panel, engagement};
use yew::prelude::*;

use super::actions_panel::ActionsPanel;
use super::build_sheet::BuildSheetPanel;
use super::choose_panel::ChoosePanel;
use super::details_panel::DetailsPanel;
use super::icon::{Icon, Picture};
use super::layouts_panel::LayoutsPanel;
use super::ledger_panel::LedgerPanel;
use super::legend_view::LegendView;
use super::positions_panel::PositionsPanel;
use super::rework::Rework;
use super::run_panel::RunPanel;
use super::settings_panel::SettingsPanel;
use super::share_panel::SharePanel;
use super::working_panel::WorkingPanel;
use crate::hooks::use_bench;
use crate::store::Store;

/// Properties of [`Side`].
#[derive(Properties, PartialEq)]
pub struct SideProps {
    /// Which sheet.
    pub panel: Panel,
    /// The session that it shows.
    pub store: UseReducerHandle<Store>,
    /// What became of the last attempt to copy the link.
    pub copied: Option<bool>,
    /// Whether the sheet is drawn back, on a phone, for a look at the drawing.
    pub peeking: bool,
    /// Draws it back or up again.
    pub on_peek: Callback<MouseEvent>,
}

/// Heading, close button, and the sheet's contents.
#[component]
pub fn Side(props: &SideProps) -> Html {
    let bench = use_bench();
    let title = title(props.panel);
    html! {
        <aside class={classes!("side", class(props.panel))} aria-label={title}>
            <div class="side-head">
                <h2>{ title }</h2>
                <button type="button" class="button peek" aria-pressed={props.peeking.to_string()} onclick={props.on_peek.clone()}>{ "Drawing" }</button>
                <button type="button" class="button plain" aria-label={format!("Close {title}")} onclick={bench.act(Action::Toggle(props.panel))}>
                    <Icon of={Picture::Close} />
                </button>
            </div>
            <div class="panel" key={title}>{ contents(props) }</div>
        </aside>
    }
}

fn contents(props: &SideProps) -> Html {
    let session = props.store.session();
    match props.panel {
        Panel::Details => {
            html! {
                <>
                    <DetailsPanel details={session.details().map(Rc::new)} layout={session.layout().clone()} map={session.motor_map().map(Rc::new)} />
                    <Rework offers={session.offers()} kinds={session.kind_choices()} />
                </>
            }
        }
        Panel::Ledger => html! { <LedgerPanel table={session.ledger().map(Rc::new)} /> },
        Panel::Working => {
            html! { <WorkingPanel explanation={session.explanation().map(Rc::new)} sheet={session.working().map(Rc::new)} hides_answers={session.hides_answers()} /> }
        }
        Panel::Positions => html! {
            <PositionsPanel comparison={Rc::new(session.comparison())} others={session.other_states().map(<[String]>::to_vec)} can_let_go={session.can_let_go()}
                plan={Rc::new(engagement::engagement(session.layout(), session.position()))} />
        },
        Panel::Layouts => html! { <LayoutsPanel sheet={Rc::new(session.shelf_sheet())} /> },
        Panel::Share => html! {
            <SharePanel fragment={session.link()} title={session.layout().title.clone()} file_name={session.file_name()}
                file_text={session.file_text()} copied={props.copied} />
        },
        Panel::Run => html! { <RunPanel sheet={Rc::new(session.run_sheet())} /> },
        Panel::Choose => html! { <ChoosePanel sheet={Rc::new(session.choose_sheet())} /> },
        Panel::Actions => {
            html! { <ActionsPanel key={session.action_query().to_owned()} store={props.store.clone()} /> }
        }
        Panel::Build => html! { <BuildSheetPanel sheet={Rc::new(session.build_sheet())} /> },
        Panel::Settings => html! { <SettingsPanel units={session.units()} theme={session.theme()} /> },
        Panel::Legend => {
            html! { <div class="legend-sheet"><LegendView legend={session.scene().legend.clone()} /></div> }
        }
    }
}

const fn title(panel: Panel) -> &'static str {
    match panel {
        Panel::Details => "Details",
        Panel::Ledger => "Ledger",
        Panel::Working => "Working",
        Panel::Positions => "Positions",
        Panel::Layouts => "Layouts",
        Panel::Share => "Share",
        Panel::Run => "Run",
        Panel::Choose => "Choose",
        Panel::Actions => "Actions",
        Panel::Settings => "Settings",
        Panel::Build => "Build sheet",
        Panel::Legend => "Legend",
    }
}

/// Sheets that hold a table are wider.
const fn class(panel: Panel) -> Option<&'static str> {
    match panel {
        Panel::Build | Panel::Ledger | Panel::Positions | Panel::Run | Panel::Choose => Some("is-wide"),
        _ => None,
    }
}
