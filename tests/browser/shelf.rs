//! The layouts kept in the browser: cards, two tabs with one layout, files, a store that refuses.

use anyhow::ensure;
use layshaft_tests::browser::{Look, Page, journey, journey_on};

use super::steps;

/// Gives the layout on the bench another title, as a person does in the title block.
async fn retitle(page: &Page, title: &str) -> anyhow::Result<()> {
    page.click("textbox", "Name of the layout").await?;
    page.press("Ctrl+A").await?;
    page.enter(title).await?;
    page.press("Tab").await?;
    page.wait_for("the new title", async || {
        Ok(page
            .script("return document.title")
            .await?
            .as_str()
            .is_some_and(|whole| whole.starts_with(title)))
    })
    .await
}

/// Titles on the cards, the first one first.
async fn cards(page: &Page) -> anyhow::Result<Vec<String>> {
    let titles = page
        .script("return [...document.querySelectorAll('.card-title')].map(e => e.textContent)")
        .await?;
    Ok(serde_json::from_value(titles)?)
}

async fn cards_are(page: &Page, expected: &[&str]) -> anyhow::Result<()> {
    page.until(async || {
        let found = cards(page).await?;
        ensure!(found == expected, "the cards are {found:?}");
        Ok(())
    })
    .await
}

#[test]
fn what_is_changed_is_kept_and_found_again() {
    journey("shelf", async |page| {
        steps::two_stages(page).await?;
        retitle(page, "Two stages").await?;
        page.press("Shift+O").await?;
        cards_are(page, &["Two stages"]).await?;
        page.click("button", "Wash drum").await?;
        retitle(page, "My drum").await?;
        cards_are(page, &["My drum", "Two stages"]).await?;
        page.wait_for("a picture on each card", async || {
            let drawn = "return document.querySelectorAll('.card svg .thumbnail-parts[d^=M]').length";
            Ok(page.script(drawn).await? == 2)
        })
        .await?;
        page.reload().await?;
        page.wait_for("the drum", async || {
            let title = page.script("return document.title").await?;
            Ok(title.as_str().is_some_and(|title| title.starts_with("My drum")))
        })
        .await?;
        page.press("Shift+O").await?;
        page.click("button", "Open Two stages").await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn a_card_is_renamed_copied_deleted_and_brought_back() {
    journey("cards", async |page| {
        steps::two_stages(page).await?;
        page.press("Shift+O").await?;
        page.click("button", "Rename Untitled").await?;
        page.named("textbox", "New title of Untitled").await?;
        page.press("Ctrl+A").await?;
        page.enter("Winch").await?;
        page.press("Enter").await?;
        cards_are(page, &["Winch"]).await?;
        page.click("button", "Copy Winch").await?;
        cards_are(page, &["Winch, copy", "Winch"]).await?;
        page.click("button", "Delete Winch").await?;
        cards_are(page, &["Winch, copy"]).await?;
        page.named("heading", "An empty bench").await?;
        // The focus is on the way back.
        page.named("button", "Undo: Deleted “Winch”.").await?;
        page.press("Enter").await?;
        cards_are(page, &["Winch", "Winch, copy"]).await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn two_tabs_with_one_layout_follow_each_other_and_lose_nothing() {
    journey("two tabs", async |page| {
        steps::two_stages(page).await?;
        retitle(page, "Crane").await?;
        let first = page.open_beside(Look::DESKTOP).await?;
        page.see("This layout is open in another tab too").await?;
        // What is done here shows there.
        retitle(page, "Tower crane").await?;
        page.session().switch_to_window(first).await?;
        page.wait_for("the other tab's title", async || {
            let title = page.script("return document.title").await?;
            Ok(title
                .as_str()
                .is_some_and(|title| title.starts_with("Tower crane")))
        })
        .await?;
        // Another tab's work that this one was never told of, as if it had been asleep.
        page.script(
            "return (async () => {
                const done = (request, event) => new Promise((resolve) => { request[event] = resolve; });
                const opening = indexedDB.open('layshaft');
                await done(opening, 'onsuccess');
                const writing = opening.result.transaction('shelf', 'readwrite');
                const shelf = writing.objectStore('shelf');
                const all = shelf.getAll();
                await done(all, 'onsuccess');
                const record = JSON.parse(all.result[0]);
                const text = JSON.stringify({ ...JSON.parse(record.text), title: 'Theirs' });
                const theirs = { ...record, title: 'Theirs', text, revision: record.revision + 1, by: 'elsewhere' };
                shelf.put(JSON.stringify(theirs), record.id);
                await done(writing, 'oncomplete');
                opening.result.close();
                return true;
            })()",
        )
        .await?;
        retitle(page, "Mine").await?;
        page.see("kept as “Mine, copy”").await?;
        page.press("Shift+O").await?;
        page.until(async || {
            let mut found = cards(page).await?;
            found.sort();
            ensure!(found == ["Mine, copy", "Theirs"], "the cards are {found:?}");
            Ok(())
        })
        .await
    });
}

#[test]
fn several_files_are_put_on_the_shelf() {
    journey("several files", async |page| {
        steps::empty_bench(page).await?;
        page.press("Shift+O").await?;
        page.named("heading", "Kept in this browser").await?;
        // As if three files were chosen: two layouts and one that is none.
        page.script(
            "const files = new DataTransfer();
             const file = (name, text) => files.items.add(new File([text], name, { type: 'application/json' }));
             file('a.json', '{\"layshaft\": 1, \"title\": \"Barrow\", \"shafts\": [{\"id\": \"a\"}]}');
             file('b.json', '{\"layshaft\": 1, \"title\": \"Mill\", \"shafts\": [{\"id\": \"a\"}, {\"id\": \"b\"}]}');
             file('c.json', 'nonsense');
             const field = document.querySelector('.file-button input');
             field.files = files.files;
             field.dispatchEvent(new Event('change', { bubbles: true }));",
        )
        .await?;
        page.see("2 layouts were put on the shelf; 1 could not be read.")
            .await?;
        page.until(async || {
            let mut found = cards(page).await?;
            found.sort();
            ensure!(found == ["Barrow", "Mill"], "the cards are {found:?}");
            Ok(())
        })
        .await
    });
}

#[test]
fn the_one_layout_of_the_first_store_is_still_there() {
    journey("first store", async |page| {
        // The store as its first version left it.
        page.script(
            "return (async () => { await new Promise((resolve) => { const r = indexedDB.deleteDatabase('layshaft'); r.onsuccess = r.onblocked = resolve; });
             await new Promise((resolve) => {
               const request = indexedDB.open('layshaft', 1);
               request.onupgradeneeded = () => request.result.createObjectStore('layouts');
               request.onsuccess = () => {
                 const writing = request.result.transaction('layouts', 'readwrite');
                 writing.objectStore('layouts').put('{\"layshaft\": 1, \"title\": \"Since long\", \"shafts\": [{\"id\": \"old\"}]}', 'bench');
                 writing.oncomplete = () => { request.result.close(); resolve(); };
               };
             });
             sessionStorage.clear();
             return true; })()",
        )
        .await?;
        page.reload().await?;
        page.named("button", "shaft old").await?;
        page.press("Shift+O").await?;
        cards_are(page, &["Since long"]).await
    });
}

#[test]
fn a_browser_that_keeps_nothing_says_so_and_goes_on() {
    journey("no store", async |page| {
        steps::two_stages(page).await?;
        page.script(
            "IDBFactory.prototype.open = () => { throw new DOMException('no room', 'QuotaExceededError'); }",
        )
        .await?;
        retitle(page, "Not kept").await?;
        page.see("This browser keeps nothing for this page").await?;
        page.named("button", "Save as a file").await?;
        page.named("button", "shaft s4, ratio one ninth").await.map(drop)
    });
}

#[test]
fn the_shelf_fits_a_phone() {
    journey_on(Look::PHONE, "shelf on a phone", async |page| {
        page.goto("?bench=empty").await?;
        page.click("button", "Parts").await?;
        page.click("button", "Gear mesh").await?;
        page.click_at(page.middle("region", "Bench").await?).await?;
        page.named("button", "shaft s2, ratio minus one third").await?;
        page.click("button", "Layouts").await?;
        cards_are(page, &["Untitled"]).await?;
        let wider = page
            .script("const p = document.querySelector('.side .panel'); return p.scrollWidth - p.clientWidth")
            .await?;
        ensure!(wider == 0, "the sheet is {wider} px too wide");
        let small = page
            .script(
                "return [...document.querySelectorAll('.card button')]
                    .filter(e => e.getBoundingClientRect().height < 44).map(e => e.ariaLabel)",
            )
            .await?;
        ensure!(small == serde_json::json!([]), "too small for a finger: {small}");
        Ok(())
    });
}
