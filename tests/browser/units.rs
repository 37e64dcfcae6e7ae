//! Units, tables, saved pictures and the build sheet on paper.

use anyhow::{Context as _, ensure};
use layshaft_tests::browser::{Page, journey};
use thirtyfour::common::print::PrintParameters;

/// Points of a PDF in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

#[test]
fn units_are_chosen_once_and_kept() {
    journey("units", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Settings").await?;
        page.click("radio", "kilogram-force centimetres").await?;
        page.click("button", "Ledger").await?;
        page.see("kgf·cm").await?;
        page.reload().await?;
        page.click("button", "Ledger").await?;
        page.see("kgf·cm").await
    });
}

async fn type_into(page: &Page, field: &str, text: &str) -> anyhow::Result<()> {
    page.named("textbox", field).await?.focus(page.session()).await?;
    page.press("Ctrl+A").await?;
    page.enter(text).await?;
    page.press("Enter").await
}

/// All texts of the plot.
async fn plot(page: &Page) -> anyhow::Result<String> {
    let script = "return [...document.querySelectorAll('.chart-field text')].map(text => text.textContent).join(' | ')";
    Ok(page.script(script).await?.as_str().unwrap_or_default().to_owned())
}

async fn shows(page: &Page, expected: &str) -> anyhow::Result<()> {
    page.until(async || {
        let found = plot(page).await?;
        ensure!(found.contains(expected), "the plot has no “{expected}”: {found}");
        Ok(())
    })
    .await
}

/// A wheel of 56 mm is one of 2.2047 in: ranges, axes and the mark are in inches, the file stays in millimetres.
#[test]
fn what_is_varied_is_varied_in_the_units_chosen() {
    journey("vary in inches", async |page| {
        page.click("button", "vehicle cart").await?;
        page.click("button", "Choose").await?;
        page.choose("Vary", "Wheels: 56.0").await?;
        shows(page, "Wheels, cart, mm").await?;
        page.click("button", "Settings").await?;
        page.click("radio", "inches").await?;
        page.click("button", "Choose").await?;
        shows(page, "Wheels, cart, in").await?;
        type_into(page, "From", "1,5").await?;
        type_into(page, "To", "100 mm").await?;
        page.until(async || {
            let to = page.value_of("textbox", "To").await?;
            ensure!(to == "3.93701", "To holds {to}");
            Ok(())
        })
        .await?;
        // The plot ends short of 4 in once it is that of the range typed.
        page.until(async || {
            let found = plot(page).await?;
            ensure!(!found.contains("| 4.0"), "the old range is plotted: {found}");
            Ok(())
        })
        .await?;
        page.until(async || {
            let mark = page.named("slider", "Wheels, cart, now 2.20").await?;
            mark.focus(page.session()).await?;
            let held = page
                .script("return document.activeElement.getAttribute('aria-label')")
                .await?;
            let holds = held
                .as_str()
                .is_some_and(|name| name.starts_with("Wheels, cart, now"));
            ensure!(holds, "{held} has the focus");
            Ok(())
        })
        .await?;
        page.press("Right").await?;
        page.named("slider", "Wheels, cart, now 2.40").await?;
        page.press("Enter").await?;
        page.click("button", "Details").await?;
        page.until(async || {
            let wheels = page.value_of("textbox", "Wheels").await?;
            ensure!(wheels == "2.40472", "the field holds {wheels}");
            Ok(())
        })
        .await?;
        page.press("Ctrl+Z").await?;
        page.click("button", "Settings").await?;
        page.click("radio", "millimetres").await?;
        page.click("button", "Choose").await?;
        page.named("slider", "Wheels, cart, now 56.0").await.map(drop)
    });
}

#[test]
fn a_heading_sorts_and_a_number_says_where_it_comes_from() {
    journey("table", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Ledger").await?;
        page.named("button", "Power").await?;
        let sorted = "return [...document.querySelectorAll('th[aria-sort]')].map(h => h.getAttribute('aria-sort')).join()";
        for expected in ["ascending", "descending", ""] {
            page.script("[...document.querySelectorAll('.sort')].find(b => b.textContent.startsWith('Power')).click()")
                .await?;
            page.until(async || {
                let found = page.script(sorted).await?;
                ensure!(
                    found.as_str() == Some(expected),
                    "{found} instead of {expected:?}"
                );
                Ok(())
            })
            .await?;
        }
        page.script("document.querySelector('tbody:last-of-type .number-button').click()")
            .await?;
        page.see("torque × speed").await
    });
}

#[test]
fn the_drawing_becomes_pixels_twice_its_size() {
    journey("picture", async |page| {
        page.named("button", "vehicle cart").await?;
        // What is offered for saving is caught, drawn again and looked at.
        page.script(
            "window.caught = null; const made = URL.createObjectURL.bind(URL);
             URL.createObjectURL = blob => { if (blob.type === 'image/png') {
                 createImageBitmap(blob).then(bitmap => {
                     const canvas = document.createElement('canvas'); canvas.width = bitmap.width; canvas.height = bitmap.height;
                     const context = canvas.getContext('2d'); context.drawImage(bitmap, 0, 0);
                     const data = context.getImageData(0, 0, bitmap.width, bitmap.height).data;
                     const colours = new Set(); for (let i = 0; i < data.length; i += 4) colours.add(data[i] + data[i + 1] * 256 + data[i + 2] * 65536);
                     window.caught = [bitmap.width, bitmap.height, colours.size]; }); }
                 else if (blob.type === 'image/svg+xml') blob.text().then(text => window.svg = text);
                 return made(blob); };",
        )
        .await?;
        page.press("Alt+B").await?;
        page.click("button", "Save drawing as PNG").await?;
        page.until(async || {
            let found = page.script("return window.caught && window.svg ? window.caught.concat(Number(window.svg.match(/width=\"([0-9.]+)\"/)[1])) : null").await?;
            let list = found.as_array().context("no picture yet")?;
            let number = |place: usize| list.get(place).and_then(serde_json::Value::as_f64).unwrap_or(0.0);
            ensure!((number(0) - 2.0 * number(3)).abs() < 2.0, "{list:?}");
            ensure!(number(2) > 20.0, "the picture is all but blank: {list:?}");
            Ok(())
        })
        .await
    });
}

#[test]
fn the_build_sheet_is_printed_on_the_paper_chosen() {
    journey("build sheet", async |page| {
        page.named("button", "vehicle cart").await?;
        page.press("Alt+B").await?;
        page.see("Ratios and predictions").await?;
        for (paper, size) in [("A4", [210.0, 297.0]), ("Letter", [215.9, 279.4])] {
            page.click("radio", paper).await?;
            let as_styled = PrintParameters {
                shrink_to_fit: false,
                ..PrintParameters::default()
            };
            let pdf = page.session().print_page(as_styled).await?;
            let text = String::from_utf8_lossy(&pdf);
            let boxes: Vec<&str> = text.split("/MediaBox [").skip(1).collect();
            ensure!((1..=3).contains(&boxes.len()), "{} pages", boxes.len());
            for page_box in boxes {
                let numbers: Vec<f64> = page_box
                    .split(']')
                    .next()
                    .unwrap_or_default()
                    .split_whitespace()
                    .filter_map(|number| number.parse().ok())
                    .collect();
                ensure!(
                    numbers.len() == 4
                        && (numbers[2] - size[0] * POINTS_PER_MM).abs() < 2.0
                        && (numbers[3] - size[1] * POINTS_PER_MM).abs() < 2.0,
                    "{paper}: {numbers:?}"
                );
            }
        }
        Ok(())
    });
}
