//! For everyone: nothing that axe-core finds in any state, names, targets that can be hit, focus that shows and goes on,
//! nothing cut at 200 % or on the narrowest screen, words after what was done.
//!
//! axe-core lies beside this file as it is published (MPL 2.0). It can't judge colours in SVG; `colours` computes those
//! from the style sheets.

use anyhow::{Context, ensure};
use layshaft_layout::link;
use layshaft_tests::browser::{Engine, Look, Named, Page, journey, journey_on};
use layshaft_tests::large;
use serde_json::Value;

use super::{runs, steps};

const AXE: &str = include_str!("axe/axe.min.js");

/// Rules of WCAG 2.2 up to AA, and those of good practice.
const RUN: &str = "
    window.axeFound = null;
    axe.run(document, {
        runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'] },
        resultTypes: ['violations'],
    }).then(
        results => window.axeFound = results.violations.map(rule => rule.id + ': ' + rule.help + ' at '
            + rule.nodes.slice(0, 4).map(node => node.target.join(' ') + ' ' + node.html.slice(0, 160)).join(' | ')),
        error => window.axeFound = ['axe failed: ' + error]);
    return null";

/// All that is wrong with the state that the page is in, by axe-core and by measuring.
async fn faults(page: &Page, state: &str) -> anyhow::Result<Vec<String>> {
    if page.script("return typeof axe === 'undefined'").await? == true {
        page.script(AXE).await?;
    }
    page.script(RUN).await?;
    let found = async || {
        let found = page.script("return window.axeFound").await?;
        found.as_array().cloned().context("axe-core still looks")
    };
    let mut faults = page.until(found).await?;
    let measured = page.script(include_str!("measure.js")).await?;
    faults.extend(measured.as_array().cloned().unwrap_or_default());
    Ok(faults
        .iter()
        .map(|fault| format!("{state}: {}", fault.as_str().unwrap_or_default()))
        .collect())
}

fn none(faults: &[String]) -> anyhow::Result<()> {
    ensure!(faults.is_empty(), "{}", faults.join("\n"));
    Ok(())
}

/// Presses a button found by a script; false where there is none any more.
async fn press(page: &Page, buttons: &str, number: usize) -> anyhow::Result<Option<String>> {
    let script = format!(
        "const button = [...{buttons}].filter(e => e.checkVisibility())[{number}];
         if (!button) return null;
         button.click();
         return button.getAttribute('aria-label') ?? button.textContent"
    );
    let name = page.script(&script).await?;
    tokio::time::sleep(std::time::Duration::from_millis(400)).await;
    Ok(name.as_str().map(str::to_owned))
}

/// Looks at every sheet that a button of the page opens, and at every part of the sheet for choosing.
async fn every_sheet(page: &Page) -> anyhow::Result<Vec<String>> {
    let opening = "document.querySelectorAll('header [aria-expanded], .bar [aria-expanded]')";
    let mut found = faults(page, "no sheet").await?;
    let mut number = 0;
    while let Some(name) = press(page, opening, number).await? {
        found.extend(faults(page, &name).await?);
        let parts = "document.querySelectorAll('.side [role=tab]')";
        let mut part = 1;
        while let Some(part_name) = press(page, parts, part).await? {
            found.extend(faults(page, &format!("{name}, {part_name}")).await?);
            part += 1;
        }
        // Closes what it opened, so that all buttons can be reached again.
        press(
            page,
            "document.querySelectorAll('.side-head [aria-label^=Close]')",
            0,
        )
        .await?;
        page.script(&format!(
            "[...{opening}].filter(e => e.checkVisibility() && e.ariaExpanded === 'true').forEach(e => e.click())"
        ))
        .await?;
        number += 1;
    }
    ensure!(number >= 4, "only {number} sheets are opened by buttons");
    Ok(found)
}

fn every_sheet_on(look: Look, name: &str) {
    journey_on(look, name, async |page| {
        page.named("heading", "Second pulls").await?;
        none(&every_sheet(page).await?)
    });
}

#[test]
fn every_sheet_on_paper() {
    every_sheet_on(Look::DESKTOP, "every sheet on paper");
}

#[test]
fn every_sheet_on_slate() {
    every_sheet_on(Look::DESKTOP.in_the_dark(), "every sheet on slate");
}

#[test]
fn every_sheet_on_a_phone() {
    every_sheet_on(Look::PHONE, "every sheet on a phone");
}

#[test]
fn every_sheet_at_twice_the_size() {
    every_sheet_on(Look::ZOOMED, "every sheet at 200 %");
}

#[test]
fn every_sheet_on_the_narrowest_screen() {
    every_sheet_on(Look::NARROW, "every sheet on 320 pixels");
}

#[test]
fn every_other_state_is_for_everyone() {
    journey_on(Look::DESKTOP, "other states", async |page| {
        let mut found = Vec::new();
        steps::empty_bench(page).await?;
        found.extend(faults(page, "empty bench").await?);

        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Ctrl+A").await?;
        page.enter("0").await?;
        page.until(async || {
            ensure!(!page.all("alert").await?.is_empty(), "nothing answers");
            Ok(())
        })
        .await?;
        found.extend(faults(page, "editing in place, refused").await?);
        page.press("Esc Esc").await?;

        page.click("button", "Gear mesh").await?;
        found.extend(faults(page, "part in hand").await?);
        page.press("Esc").await?;

        page.script("location.hash = '#L1damaged'").await?;
        tokio::time::sleep(std::time::Duration::from_millis(500)).await;
        found.extend(faults(page, "a link that can't be read").await?);

        none(&found)
    });
}

/// Puts a drawing on the sheet by its key and waits for it.
async fn show(page: &Page, key: &str, drawing: &str) -> anyhow::Result<()> {
    page.press(key).await?;
    page.named("group", &format!("{drawing} drawing")).await.map(drop)
}

#[test]
fn the_other_drawings_are_for_everyone() {
    for (look, name) in [
        (Look::DESKTOP, "drawings on paper"),
        (Look::DESKTOP.in_the_dark(), "drawings on slate"),
        (Look::NARROW, "drawings on 320 pixels"),
    ] {
        journey_on(look, name, async |page| {
            page.named("heading", "Second pulls").await?;
            let mut found = Vec::new();
            for (key, drawing) in [("Alt+2", "Skeleton"), ("Alt+3", "Plan"), ("Alt+1", "Flow")] {
                show(page, key, drawing).await?;
                // To the end, where the bar at the lower edge of a small screen lies over nothing.
                page.script("document.scrollingElement.scrollTo(0, 100000)")
                    .await?;
                found.extend(faults(page, drawing).await?);
            }
            none(&found)
        });
    }
}

#[test]
fn menus_and_sheets_opened_by_key_are_for_everyone() {
    journey_on(Look::DESKTOP, "menus and sheets by key", async |page| {
        steps::two_stages(page).await?;
        let mut found = Vec::new();
        page.click("button", "shaft s1").await?;
        page.press("Shift+F10").await?;
        page.named("menu", "shaft s1").await?;
        found.extend(faults(page, "menu").await?);
        page.press("Esc").await?;
        for (key, sheet) in [
            ("Alt+B", "Build sheet"),
            ("Ctrl+,", "Settings"),
            ("Shift+O", "Layouts"),
            ("Ctrl+K", "Actions"),
        ] {
            page.press(key).await?;
            page.named("heading", sheet).await?;
            found.extend(faults(page, sheet).await?);
            page.press("Esc").await?;
        }
        none(&found)
    });
}

#[test]
fn a_finished_run_is_for_everyone() {
    journey_on(Look::DESKTOP, "finished run", async |page| {
        runs::lay_out_a_course(page).await?;
        runs::run(page).await?;
        none(&faults(page, "finished run").await?)
    });
}

#[test]
fn an_embedded_sheet_is_for_everyone() {
    journey("embedded for everyone", async |page| {
        page.goto(&format!("?embed{}", link::encode(&large::layout(8))))
            .await?;
        page.named("link", "Open in Layshaft").await?;
        none(&faults(page, "embedded").await?)
    });
}

#[test]
fn the_recovery_page_is_for_everyone() {
    for (look, name) in [
        (Look::DESKTOP, "recovery page"),
        (Look::NARROW.in_the_dark(), "recovery page on 320 pixels"),
    ] {
        journey_on(look, name, async |page| {
            page.named("heading", "Second pulls").await?;
            page.script("dispatchEvent(new CustomEvent('layshaft-stopped', { detail: 'a fault made for a test' })); return null")
                .await?;
            page.named("button", "Load the page again").await?;
            let found = faults(page, name).await?;
            // The page says in the console what stopped it, as it should.
            let complaints = page.complaints().await?;
            ensure!(complaints.len() == 1, "{complaints:?}");
            none(&found)
        });
    }
}

#[test]
fn no_two_things_to_press_sound_the_same() {
    journey("unique names", async |page| {
        page.named("heading", "Second pulls").await?;
        for sheet in ["", "Details", "Working", "Positions", "Run", "Layouts", "Share"] {
            if !sheet.is_empty() {
                page.click("button", sheet).await?;
                page.named("heading", sheet).await?;
            }
            let roles = [
                "button",
                "link",
                "textbox",
                "combobox",
                "checkbox",
                "radio",
                "tab",
                "slider",
                "spinbutton",
            ];
            let mut heard: Vec<(String, String)> = Vec::new();
            let mut twice = Vec::new();
            for thing in page.everything().await? {
                if !roles.contains(&thing.role.as_str()) {
                    continue;
                }
                ensure!(
                    !thing.name.is_empty(),
                    "a {} without a name, sheet “{sheet}”",
                    thing.role
                );
                let said = (thing.role, thing.name);
                // It stands in the row of positions and in their sheet, and does the same in both.
                if heard.contains(&said) && said.1 != "Add a position" {
                    twice.push(format!("{} “{}”", said.0, said.1));
                }
                heard.push(said);
            }
            ensure!(
                twice.is_empty(),
                "sheet “{sheet}” says twice: {}",
                twice.join(", ")
            );
        }
        Ok(())
    });
}

#[test]
fn after_an_edit_the_result_is_said() {
    journey("result is said", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Ctrl+A").await?;
        page.enter("48").await?;
        page.press("Enter").await?;
        page.until(async || {
            let said = page
                .script("return document.querySelector('.out-of-sight[role=status]').textContent")
                .await?;
            let said = said.as_str().unwrap_or_default();
            ensure!(
                said.contains("twelfth") || said.contains("1/12") || said.contains("12"),
                "it says “{said}”"
            );
            Ok(())
        })
        .await
    });
}

#[test]
fn the_focus_comes_back_from_a_sheet() {
    journey("focus comes back", async |page| {
        page.named("heading", "Second pulls").await?;
        for sheet in ["Layouts", "Share", "Run", "Working", "Settings", "Actions"] {
            page.named("button", sheet).await?.focus(page.session()).await?;
            page.press("Enter").await?;
            page.named("heading", sheet).await?;
            page.press("Esc").await?;
            page.gone("heading", sheet).await?;
            let at = page
                .script("const e = document.activeElement; return e.ariaLabel ?? e.textContent.trim()")
                .await?;
            ensure!(at == sheet || at == "Bench", "after {sheet} the focus is on {at}");
        }
        Ok(())
    });
}

#[test]
fn both_ways_of_finding_things_find_the_same() {
    journey("found both ways", async |page| {
        page.named("heading", "Second pulls").await?;
        for sheet in ["Working", "Positions", "Run", "Share", "Choose"] {
            page.click("button", sheet).await?;
            page.named("heading", sheet).await?;
            // What is still being computed may come between the two looks.
            page.until(async || {
                let told = page.everything().await?;
                let worked_out = page.everything_by_script().await?;
                the_same_is_found(&told, &worked_out).with_context(|| sheet.to_owned())
            })
            .await?;
        }
        Ok(())
    });
}

fn the_same_is_found(told: &[Named], worked_out: &[Named]) -> anyhow::Result<()> {
    let roles = [
        "button", "link", "textbox", "combobox", "checkbox", "radio", "tab", "slider", "heading",
    ];
    for role in roles {
        let (told, worked_out) = (names_of(told, role), names_of(worked_out, role));
        let only = |some: &[String], others: &[String]| -> Vec<String> {
            some.iter()
                .filter(|name| !others.contains(name))
                .cloned()
                .collect()
        };
        ensure!(
            told == worked_out,
            "{role}: Chromium alone tells {:?}, the script alone {:?} ({} and {})",
            only(&told, &worked_out),
            only(&worked_out, &told),
            told.len(),
            worked_out.len()
        );
    }
    Ok(())
}

fn names_of(things: &[Named], role: &str) -> Vec<String> {
    let mut names: Vec<String> = things
        .iter()
        .filter(|thing| thing.role == role)
        .map(|thing| thing.name.split_whitespace().collect::<Vec<_>>().join(" "))
        .collect();
    names.sort();
    names
}

#[test]
fn the_tab_key_goes_round_the_page_and_shows_where_it_is() {
    journey_on(Look::DESKTOP, "round by Tab", async |page| {
        page.named("heading", "Second pulls").await?;
        let focus = "const e = document.activeElement;
            if (!e || e === document.body || e === document.documentElement) return null;
            const style = getComputedStyle(e), box = e.getBoundingClientRect();
            const ground = e.querySelector?.(':scope .ground, :scope rect');
            const shows = (style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) > 0)
                || style.boxShadow !== 'none' || (e instanceof SVGElement && ground !== null
                    && parseFloat(getComputedStyle(ground).strokeWidth) >= 1.5);
            return [e.id || e.ariaLabel || e.textContent.trim().slice(0, 40), shows, box.width > 0 && box.height > 0]";
        let mut passed: Vec<Value> = Vec::new();
        for _ in 0..200 {
            page.press("Tab").await?;
            let at = page.script(focus).await?;
            if at.is_null() || passed.first() == Some(&at) {
                break;
            }
            ensure!(at[1] == true, "the focus does not show on {}", at[0]);
            ensure!(at[2] == true, "the focus is on {}, which has no size", at[0]);
            ensure!(passed.last() != Some(&at), "Tab does not go on from {}", at[0]);
            passed.push(at);
        }
        ensure!(passed.len() >= 20, "Tab stops at {} things only", passed.len());
        ensure!(passed.len() < 200, "Tab does not come round");
        Ok(())
    });
}

#[test]
fn nothing_moves_on_any_sheet_for_who_asks_for_no_motion() {
    journey_on(Look::DESKTOP.without_motion(), "stillness", async |page| {
        page.named("heading", "Second pulls").await?;
        for sheet in ["Run", "Choose", "Layouts", "Working"] {
            page.click("button", sheet).await?;
            let running = "return document.getAnimations().filter(a => a.playState === 'running').map(a => a.animationName ?? a.transitionProperty)";
            page.until(async || {
                let running = page.script(running).await?;
                ensure!(running == serde_json::json!([]), "{sheet}: {running} run");
                Ok(())
            })
            .await?;
        }
        Ok(())
    });
}

#[test]
fn the_drawing_is_seen_in_forced_colours() {
    journey_on(Look::DESKTOP.in_forced_colors(), "forced colours", async |page| {
        page.named("heading", "Second pulls").await?;
        ensure!(
            page.engine() == Engine::Chromium,
            "only Chromium forces colours for a test"
        );
        let colours = "const of = (selector, what) => getComputedStyle(document.querySelector(selector))[what];
            return [of('.sheet', 'backgroundColor'), of('.rim', 'stroke'), of('.ribbon-body', 'fill'), of('.label text', 'fill')]";
        let colours = page.script(colours).await?;
        let colours: Vec<&str> = colours
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .collect();
        for ink in &colours[1..] {
            ensure!(*ink != colours[0], "ink and paper are both {ink}");
        }
        none(&faults(page, "forced colours").await?)
    });
}
