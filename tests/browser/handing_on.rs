//! Layouts and drawings on their way out of the page and in again: saved, dragged, dropped, shared.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

use super::steps;

/// From now on what the page offers as a file is remembered instead of saved.
async fn remember_files(page: &Page) -> anyhow::Result<()> {
    page.script(
        "window.offered = [];
         const link = URL.createObjectURL.bind(URL);
         URL.createObjectURL = (blob) => { window.offered.push(blob); return link(blob); };
         HTMLAnchorElement.prototype.click = () => {};",
    )
    .await
    .map(drop)
}

async fn build_sheet(page: &Page) -> anyhow::Result<()> {
    steps::two_stages(page).await?;
    remember_files(page).await?;
    page.press("Esc Esc Alt+B").await?;
    page.named("button", "Save drawing as SVG").await.map(drop)
}

#[test]
fn a_saved_drawing_holds_the_face_that_it_is_set_in() {
    journey("face in a drawing", async |page| {
        build_sheet(page).await?;
        page.click("button", "Save drawing as SVG").await?;
        page.until(async || {
            let text = page
                .script("return (async () => window.offered.length ? await window.offered[0].text() : '')()")
                .await?;
            let text = text.as_str().unwrap_or_default();
            ensure!(
                text.contains("@font-face{font-family:'Sofia Sans Semi Condensed'")
                    && text.contains("url(data:font/woff2;base64,d09GMg"),
                "the file begins {}",
                text.chars().take(300).collect::<String>()
            );
            Ok(())
        })
        .await
    });
}

#[test]
fn pixels_are_drawn_in_the_same_face() {
    journey("face in pixels", async |page| {
        build_sheet(page).await?;
        page.click("button", "Save drawing as PNG").await?;
        page.until(async || {
            let kinds = page
                .script("return window.offered.map(blob => blob.type)")
                .await?;
            ensure!(
                kinds == serde_json::json!(["image/svg+xml", "image/png"]),
                "offered: {kinds}"
            );
            Ok(())
        })
        .await?;
        // The same words drawn by an image with the face of the file, and as wide as the page's own.
        let widths = page
            .script(
                "return (async () => {
                   const text = await window.offered[0].text();
                   const style = text.slice(text.indexOf('<style>'), text.indexOf('</style>') + 8);
                   const wide = async (style, family) => {
                     const svg = `<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"600\" height=\"60\">${style}<text x=\"0\" y=\"40\" font-size=\"30\" font-family=\"${family}\">Overall ratio mmmmmm</text></svg>`;
                     const image = new Image();
                     image.src = 'data:image/svg+xml,' + encodeURIComponent(svg);
                     await image.decode();
                     await new Promise((resolve) => setTimeout(resolve, 300));
                     const canvas = document.createElement('canvas');
                     [canvas.width, canvas.height] = [600, 60];
                     const context = canvas.getContext('2d');
                     context.drawImage(image, 0, 0);
                     const { data } = context.getImageData(0, 0, 600, 60);
                     let last = 0;
                     for (let i = 3; i < data.length; i += 4) if (data[i] > 60) last = Math.max(last, ((i - 3) / 4) % 600);
                     return last;
                   };
                   const context = document.createElement('canvas').getContext('2d');
                   context.font = '30px Sheet';
                   return [await wide(style, 'Sofia Sans Semi Condensed'), context.measureText('Overall ratio mmmmmm').width];
                 })()",
            )
            .await?;
        let [drawn, meant]: [f64; 2] = serde_json::from_value(widths)?;
        ensure!((drawn - meant).abs() < 6.0, "{drawn} px wide, {meant} meant");
        Ok(())
    });
}

/// What a drag from an element of this selector carries, by type.
async fn carried(page: &Page, selector: &str) -> anyhow::Result<[String; 3]> {
    let carried = page
        .script(&format!(
            "const carried = new DataTransfer();
             document.querySelector('{selector}').dispatchEvent(
               new DragEvent('dragstart', {{ bubbles: true, cancelable: true, dataTransfer: carried }}));
             return ['DownloadURL', 'application/json', 'text/plain'].map(type => carried.getData(type))"
        ))
        .await?;
    Ok(serde_json::from_value(carried)?)
}

#[test]
fn a_layout_is_dragged_out_as_a_file_and_dropped_in_again() {
    journey("drag out and in", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        page.named("textbox", "Link to this layout").await?;
        let [file, json, plain] = carried(page, ".file-chip").await?;
        ensure!(
            file.starts_with("application/json:untitled.layshaft.json:data:application/json,"),
            "{file}"
        );
        ensure!(json == plain && json.contains("\"layshaft\": 1"), "{json}");
        page.press("Shift+O").await?;
        page.named("button", "Open Untitled").await?;
        let [file, of_card, _] = carried(page, ".card-open").await?;
        ensure!(
            file.contains(":untitled.layshaft.json:") && of_card == json,
            "{file}"
        );
        page.click("button", "Empty bench").await?;
        page.gone("button", "shaft s4").await?;
        page.script(&format!(
            "const carried = new DataTransfer();
             carried.setData('text/plain', {});
             document.querySelector('.drawing').dispatchEvent(
               new DragEvent('drop', {{ bubbles: true, cancelable: true, dataTransfer: carried }}))",
            serde_json::to_string(&json)?
        ))
        .await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn text_that_is_dropped_on_a_field_is_left_to_the_field() {
    journey("drop on a field", async |page| {
        steps::two_stages(page).await?;
        page.press("Esc Esc Shift+D").await?;
        page.named("textbox", "Notes").await?;
        let taken = page
            .script(
                "const carried = new DataTransfer();
                 carried.setData('text/plain', 'a word');
                 const drop = new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: carried });
                 document.querySelector('textarea').dispatchEvent(drop);
                 return drop.defaultPrevented",
            )
            .await?;
        ensure!(taken == false, "the page took what the field was to have");
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn the_file_is_handed_to_other_programs_where_the_browser_can() {
    journey("share the file", async |page| {
        steps::two_stages(page).await?;
        page.script(
            "const put = (name, value) => Object.defineProperty(navigator, name, { value, configurable: true });
             put('canShare', (data) => data.files?.[0]?.type === 'text/plain');
             put('share', async (data) => { window.shared = data; });",
        )
        .await?;
        page.press("Shift+S").await?;
        page.click("button", "Share the file with…").await?;
        page.until(async || {
            let shared = page
                .script(
                    "return (async () => { const file = window.shared?.files?.[0];
                     return file ? [file.name, await file.text()] : [] })()",
                )
                .await?;
            let shared: Vec<String> = serde_json::from_value(shared)?;
            ensure!(
                shared.first().is_some_and(|name| name == "untitled.layshaft.txt")
                    && shared.last().is_some_and(|text| text.contains("\"layshaft\": 1")),
                "shared: {shared:?}"
            );
            Ok(())
        })
        .await
    });
}
