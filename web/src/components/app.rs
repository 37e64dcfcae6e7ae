//! The page's root: holds the session, listens to the browser, and lays out strip, sheet, further sheet and tray.

use layshaft_editor::{Effect, Panel, Session, Tool};
use yew::prelude::*;

use super::bar::Bar;
use super::embed_view::EmbedView;
use super::sheet::Sheet;
use super::side::Side;
use super::strip::Strip;
use super::tray::Tray;
use crate::effects::Reports;
use crate::hooks::{
    Bench, use_clipboard, use_effects, use_files, use_keys, use_link_in_hash, use_shelf, use_system_theme,
    use_title,
};
use crate::store::Store;

/// Properties of [`App`].
#[derive(Properties)]
pub struct AppProps {
    /// The session that the page opens with.
    pub session: Session,
    /// What it asks for at once.
    pub effects: Vec<Effect>,
}

impl PartialEq for AppProps {
    /// The opening session is read once; nothing that happens to it later is a change of these properties.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// The whole page.
#[component]
pub fn App(props: &AppProps) -> Html {
    let store = use_reducer(|| Store::new(props.session.clone(), props.effects.clone()));
    let announcement = use_state(String::new);
    let copied = use_state(|| None::<bool>);
    let tray_open = use_state_eq(|| false);
    let peeking = use_state_eq(|| false);
    let dispatcher = store.dispatcher();
    let bench = use_memo((), move |()| {
        Bench(Callback::from(move |input| dispatcher.dispatch(input)))
    });

    use_effects(
        &store,
        Reports {
            announce: setter(&announcement),
            copied: setter_of_some(&copied),
            back: bench.0.clone(),
        },
    );
    use_keys(&bench);
    use_clipboard(&store, &bench);
    use_files(&bench);
    use_link_in_hash(&bench);
    use_system_theme(&bench);

    let session = store.session();
    use_shelf(&bench, session.record_here().cloned(), session.picture_due());
    use_title(&session.layout().title);
    let panel = session.panel();
    // Another sheet is opened to be read.
    use_effect_with(panel, {
        let peeking = peeking.clone();
        move |_| peeking.set(false)
    });
    // On a phone tray and sheet cover the bench: with a part in hand they make way.
    use_effect_with(session.tool(), {
        let (tray_open, peeking) = (tray_open.clone(), peeking.clone());
        move |tool| {
            if matches!(tool, Tool::Place(_)) {
                tray_open.set(false);
                peeking.set(true);
            }
        }
    });
    let on_peek = {
        let peeking = peeking.clone();
        Callback::from(move |_| peeking.set(!*peeking))
    };
    let on_tray = {
        let tray_open = tray_open.clone();
        Callback::from(move |_| tray_open.set(!*tray_open))
    };
    let class = classes!(
        "page",
        panel.is_some().then_some("has-side"),
        panel.is_some_and(is_tall).then_some("has-tall-side"),
        peeking.then_some("is-peeking"),
        session.hides_answers().then_some("hides-answers"),
    );
    if session.is_embedded() {
        return html! {
            <ContextProvider<Bench> context={(*bench).clone()}><EmbedView store={store.clone()} /></ContextProvider<Bench>>
        };
    }
    html! {
        <ContextProvider<Bench> context={(*bench).clone()}>
            <div {class}>
                <Strip undo={session.undo_name().map(AttrValue::from)} redo={session.redo_name().map(AttrValue::from)} {panel} theme={session.theme()} />
                // Both are what the page is about: on a phone a tall sheet stands in the place of the drawing.
                <main class="work">
                    <Sheet store={store.clone()} />
                    if let Some(panel) = panel { <Side {panel} store={store.clone()} copied={*copied} peeking={*peeking} {on_peek} /> }
                </main>
                <Tray tool={session.tool()} open={*tray_open} />
                <Bar {panel} tray_open={*tray_open} {on_tray} />
                <p class="out-of-sight" role="status" aria-live="polite">{ &*announcement }</p>
            </div>
        </ContextProvider<Bench>>
    }
}

/// Sheets that are read by themselves take most of a small screen; the others go with what is seen on the drawing.
const fn is_tall(panel: Panel) -> bool {
    !matches!(panel, Panel::Details | Panel::Legend)
}

fn setter(state: &UseStateHandle<String>) -> Callback<String> {
    let setter = state.setter();
    Callback::from(move |value| setter.set(value))
}

fn setter_of_some(state: &UseStateHandle<Option<bool>>) -> Callback<bool> {
    let setter = state.setter();
    Callback::from(move |value| setter.set(Some(value)))
}
