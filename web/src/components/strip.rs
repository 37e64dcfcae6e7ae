//! The strip over the sheet: whose program it is, what was done, and the further sheets.

use layshaft_editor::{Action, Panel, Theme, wording};
use yew::prelude::*;

use super::bar::SheetButtons;
use super::icon::{Icon, Picture};
use crate::hooks::use_bench;

/// Properties of [`Strip`].
#[derive(Properties, PartialEq)]
pub struct StripProps {
    /// What undo would take back.
    pub undo: Option<AttrValue>,
    /// What redo would do again.
    pub redo: Option<AttrValue>,
    /// The sheet that is open.
    pub panel: Option<Panel>,
    /// The colours that are set.
    pub theme: Theme,
}

/// Name, layouts, share, undo, redo, sheets, actions, theme.
#[component]
pub fn Strip(props: &StripProps) -> Html {
    let bench = use_bench();
    let open = |panel: Panel| (props.panel == Some(panel)).to_string();
    html! {
        <header class="strip">
            <h1 class="mark">{ "Layshaft" }<small>{ "gear trains, computed as you draw" }</small></h1>
            <div class="strip-group">
                <button type="button" class="button plain" aria-label="Layouts" aria-expanded={open(Panel::Layouts)} onclick={bench.act(Action::Toggle(Panel::Layouts))}>
                    <Icon of={Picture::Layouts} /><span class="word">{ "Layouts" }</span></button>
                <button type="button" class="button plain" aria-label="Share" aria-expanded={open(Panel::Share)} onclick={bench.act(Action::Share)}>
                    <Icon of={Picture::Share} /><span class="word">{ "Share" }</span></button>
            </div>
            <div class="strip-group">
                { history_button(bench.act(Action::Undo), Picture::Undo, "Undo", props.undo.as_ref()) }
                { history_button(bench.act(Action::Redo), Picture::Redo, "Redo", props.redo.as_ref()) }
            </div>
            <nav class="strip-group strip-sheets" aria-label="Sheets"><SheetButtons panel={props.panel} /></nav>
            <div class="strip-group">
                <button type="button" class="button plain" aria-label="Actions" title="Search everything that can be done" aria-expanded={open(Panel::Actions)}
                    onclick={bench.act(Action::Toggle(Panel::Actions))}><Icon of={Picture::Search} /></button>
                <button type="button" class="button plain" aria-label="Settings" title="Units, printing and colours" aria-expanded={open(Panel::Settings)}
                    onclick={bench.act(Action::Toggle(Panel::Settings))}><Icon of={Picture::Settings} /></button>
                <button type="button" class="button plain" aria-label="Change colours" title={wording::theme(props.theme)}
                    onclick={bench.act(Action::ChangeTheme)}><Icon of={theme_picture(props.theme)} /></button>
            </div>
        </header>
    }
}

/// An empty disc for paper, a full one for slate, half and half where the system decides.
const fn theme_picture(theme: Theme) -> Picture {
    match theme {
        Theme::System => Picture::Theme,
        Theme::Paper => Picture::Paper,
        Theme::Slate => Picture::Slate,
    }
}

fn history_button(
    onclick: Callback<MouseEvent>,
    of: Picture,
    word: &'static str,
    what: Option<&AttrValue>,
) -> Html {
    let title = what.cloned().unwrap_or(AttrValue::Static(word));
    html! {
        <button type="button" class="button plain" aria-label={word} {title} disabled={what.is_none()} {onclick}><Icon {of} /></button>
    }
}
