//! Takes pictures of the page at three screen sizes, light and dark: `cargo xtask shots --out FOLDER [PLACE …]`.
//!
//! `--click NAME` presses a button first, `--tree` also prints what assistive technology is told.
//! A place is what follows the page's address: empty for the first visit, `?demo=…`, `#…`. For looking at; no test.

use std::path::{Path, PathBuf};
use std::time::Duration;

use anyhow::Context;
use layshaft_tests::browser::{Look, Page, block_on};

/// Time for the page to settle before its picture is taken.
const SETTLE: Duration = Duration::from_millis(1200);

fn main() -> anyhow::Result<()> {
    let wanted = Wanted::read()?;
    std::fs::create_dir_all(&wanted.out).with_context(|| format!("cannot make {}", wanted.out.display()))?;
    block_on(async {
        for (name, look) in looks() {
            take(&wanted, name, look).await?;
        }
        Ok(())
    })
}

/// What the command line asked for.
struct Wanted {
    url: String,
    out: PathBuf,
    places: Vec<String>,
    clicks: Vec<String>,
    tree: bool,
}

impl Wanted {
    fn read() -> anyhow::Result<Self> {
        use lexopt::prelude::*;
        let mut wanted = Self {
            url: String::new(),
            out: "shots".into(),
            places: Vec::new(),
            clicks: Vec::new(),
            tree: false,
        };
        let mut parser = lexopt::Parser::from_env();
        while let Some(argument) = parser.next()? {
            match argument {
                Long("url") => wanted.url = parser.value()?.string()?,
                Long("out") => wanted.out = parser.value()?.into(),
                Long("click") => wanted.clicks.push(parser.value()?.string()?),
                Long("tree") => wanted.tree = true,
                Value(place) => wanted.places.push(place.string()?),
                other => return Err(other.unexpected().into()),
            }
        }
        if wanted.places.is_empty() {
            wanted.places.push(String::new());
        }
        Ok(wanted)
    }
}

fn looks() -> [(&'static str, Look); 6] {
    [
        ("desktop-light", Look::DESKTOP),
        ("desktop-dark", Look::DESKTOP.in_the_dark()),
        ("tablet-light", Look::TABLET),
        ("tablet-dark", Look::TABLET.in_the_dark()),
        ("phone-light", Look::PHONE),
        ("phone-dark", Look::PHONE.in_the_dark()),
    ]
}

/// One browser per look, one picture per place.
async fn take(wanted: &Wanted, look_name: &str, look: Look) -> anyhow::Result<()> {
    let page = Page::open_in_fresh_browser(&wanted.url, look).await?;
    for place in &wanted.places {
        // Through an empty page: a place that differs only behind the # would not load anew.
        page.session().goto("about:blank").await?;
        page.goto(place).await?;
        tokio::time::sleep(SETTLE).await;
        for button in &wanted.clicks {
            page.click("button", button).await?;
            tokio::time::sleep(SETTLE / 3).await;
        }
        let file = wanted.out.join(file_name(place, look_name));
        page.screenshot(&file).await?;
        report(&page, &file).await?;
        if wanted.tree {
            print_tree(&page).await?;
        }
    }
    page.close().await;
    Ok(())
}

/// Prints where the picture is, and what a picture does not show: complaints and what sticks out of the page.
async fn report(page: &Page, file: &Path) -> anyhow::Result<()> {
    println!("{}", file.display());
    let too_wide = page
        .script("return document.documentElement.scrollWidth - innerWidth")
        .await?;
    if too_wide.as_f64().is_some_and(|pixels| pixels > 0.0) {
        println!("  the page is {too_wide} px wider than the screen");
    }
    for complaint in page.complaints().await? {
        println!("  {complaint}");
    }
    Ok(())
}

/// Prints what assistive technology is told, in reading order.
async fn print_tree(page: &Page) -> anyhow::Result<()> {
    for thing in page
        .everything()
        .await?
        .iter()
        .filter(|thing| !thing.name.is_empty() && thing.role != "InlineTextBox")
    {
        println!("  {}: {}", thing.role, thing.name);
    }
    Ok(())
}

fn file_name(place: &str, look: &str) -> String {
    let plain: String = place
        .chars()
        .filter(|letter| letter.is_ascii_alphanumeric() || *letter == '-')
        .take(40)
        .collect();
    if plain.is_empty() {
        format!("{look}.png")
    } else {
        format!("{plain}-{look}.png")
    }
}
