//! The layout in a link and in the browser's own store.

use anyhow::ensure;
use layshaft_tests::browser::{Look, journey, visit};

use super::steps;

#[test]
fn a_link_shows_the_same_layout_in_a_browser_that_has_never_been_here() {
    journey("share", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        ensure!(link.matches('#').count() == 1, "a link has one #: {link}");
        let ratio = page.text_of("region", "Title block").await?;

        visit("shared link", &link, Look::PHONE, async |other| {
            other.named("button", "shaft s4, ratio one ninth").await?;
            // A phone says less, and nothing else.
            let same = other.text_of("region", "Title block").await?;
            let said = same.lines().filter(|line| ratio.contains(line));
            ensure!(
                same.contains("Overall ratio") && said.count() == same.lines().count(),
                "here:\n{ratio}\nthere:\n{same}"
            );
            Ok(())
        })
        .await
    });
}

#[test]
fn a_damaged_link_says_so_and_leaves_the_bench_alone() {
    journey("damaged link", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        let damaged = link.split_at(link.len() - 20).0;
        page.script(&format!("location.hash = new URL('{damaged}').hash"))
            .await?;
        page.until(async || {
            let text = page.text().await?.to_lowercase();
            ensure!(
                text.contains("link") && text.contains("damaged"),
                "nothing is said of the damage:\n{text}"
            );
            Ok(())
        })
        .await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn a_reload_brings_the_layout_back() {
    journey("reload", async |page| {
        steps::two_stages(page).await?;
        page.click("button", "teeth on s4").await?;
        page.named("textbox", "Teeth of the second gear").await?;
        page.press("Up Up Up Up Enter").await?;
        page.named("button", "teeth on s4: 40").await?;
        // The store is written a moment after the last change, as one write for many keystrokes.
        tokio::time::sleep(std::time::Duration::from_secs(2)).await;
        page.reload().await?;
        page.named("button", "teeth on s4: 40").await.map(drop)
    });
}

#[test]
fn a_phone_reads_the_code_of_the_link() {
    journey("code of the link", async |page| {
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        page.click("button", "Code of this link for a phone").await?;
        page.named("button", "Code of this link: make it small").await?;
        // The code as the screen shows it, one number for each pixel.
        let seen = page
            .script(
                "return (async () => { const svg = document.querySelector('.qr svg').cloneNode(true);
                 svg.setAttribute('width', 800); svg.setAttribute('height', 800);
                 svg.setAttribute('xmlns', 'http://www.w3.org/2000/svg');
                 const image = new Image();
                 image.src = 'data:image/svg+xml,' + encodeURIComponent(svg.outerHTML);
                 await image.decode();
                 const canvas = document.createElement('canvas');
                 canvas.width = canvas.height = 800;
                 const context = canvas.getContext('2d');
                 context.drawImage(image, 0, 0);
                 const { data } = context.getImageData(0, 0, 800, 800);
                 return Array.from({ length: 800 * 800 }, (_, i) => data[4 * i] > 127 ? '1' : '0').join('') })()",
            )
            .await?;
        let seen = seen.as_str().unwrap_or_default().as_bytes();
        ensure!(seen.len() == 800 * 800, "{} pixels", seen.len());
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(800, 800, |x, y| {
            if seen[y * 800 + x] == b'1' { 255 } else { 0 }
        });
        let grids = image.detect_grids();
        ensure!(grids.len() == 1, "{} codes are seen", grids.len());
        let (_, read) = grids[0].decode()?;
        ensure!(read == link, "the code says {read}");
        page.press("Esc").await?;
        page.named("button", "Code of this link for a phone")
            .await
            .map(drop)
    });
}

#[test]
fn a_link_never_loses_what_was_on_the_bench() {
    journey("link over work", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+S").await?;
        let link = page.value_of("textbox", "Link to this layout").await?;
        page.goto("?bench=empty").await?;
        page.press("M").await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        page.script(&format!("location.hash = new URL('{link}').hash"))
            .await?;
        page.named("button", "shaft s4, ratio one ninth").await?;
        page.press("Ctrl+Z").await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        page.press("Shift+O").await?;
        let cards = "return document.querySelectorAll('.card').length";
        page.wait_for("both on the shelf", async || Ok(page.script(cards).await? == 2))
            .await
    });
}

#[test]
fn a_sheet_inside_another_page_is_read_and_not_changed() {
    let phone = Look::PHONE;
    let small = Look {
        viewport: layshaft_tests::browser::Viewport {
            width: 320,
            height: 420,
            ..phone.viewport
        },
        ..phone
    };
    journey("embed", async |page| {
        page.press("Shift+S").await?;
        let frame = page.value_of("textbox", "Paste this into the page").await?;
        let address = frame.split('"').nth(1).unwrap_or_default().replace("&amp;", "&");
        ensure!(address.contains("?embed#l="), "{frame}");
        for look in [small, Look::DESKTOP.in_the_dark()] {
            visit("embedded sheet", &address, look, async |other| {
                other.named("link", "Open in Layshaft").await?;
                other.click("tab", "Second").await?;
                let turned = "return document.querySelector('[role=tab][aria-selected=true]').textContent";
                other.wait_for("the second position", async || Ok(other.script(turned).await? == "Second")).await?;
                other.press("M Delete").await?;
                let parts = other.script("return document.querySelectorAll('.elements > g').length").await?;
                other.press("Ctrl+Z").await?;
                let after = other.script("return document.querySelectorAll('.elements > g').length").await?;
                ensure!(parts == after, "{parts} parts became {after}");
                let beside = other
                    .script("return [document.documentElement.scrollWidth - innerWidth, document.documentElement.scrollHeight - innerHeight]")
                    .await?;
                ensure!(beside == serde_json::json!([0, 0]), "the sheet sticks out by {beside}");
                let kept = other.script("return (async () => (await indexedDB.databases()).length)()").await?;
                ensure!(kept == 0, "an embedded sheet keeps nothing");
                Ok(())
            })
            .await?;
        }
        Ok(())
    });
}
