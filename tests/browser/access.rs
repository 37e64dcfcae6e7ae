//! For everyone: nothing that axe-core finds in any state, names, targets that can be hit, focus that shows and goes on,
//! nothing cut at 200 % or on the narrowest screen, colours that stand out from what they lie on.
//!
//! axe-core lies beside this file as it is published (MPL 2.0). It can't judge colours in SVG; those are computed here
//! from the style sheet.

use anyhow::{Context, ensure};
use layshaft_tests::browser::{Engine, Look, Page, journey_on};
use serde_json::Value;

use super::steps;

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

        for drawing in ["Skeleton", "Plan", "Flow"] {
            let choices = format!(
                "[...document.querySelectorAll('.sheet button, .sheet input')].filter(e => (e.ariaLabel ?? e.textContent).trim().startsWith('{drawing}'))"
            );
            if press(page, &choices, 0).await?.is_some() {
                found.extend(faults(page, drawing).await?);
            }
        }
        none(&found)
    });
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
