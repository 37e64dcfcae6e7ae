//! What a visitor finds who has never been here.

use layshaft_tests::browser::journey;

#[test]
fn the_page_opens_without_a_complaint() {
    journey("first visit", async |page| {
        page.wait_for("a heading", async || Ok(!page.all("heading").await?.is_empty()))
            .await
    });
}
