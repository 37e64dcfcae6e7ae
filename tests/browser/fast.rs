//! How fast a gearbox is drawn, in counted actions: a click, a drag, a typed number with the key that ends it, or a key.
//!
//! Each journey counts what it does itself and prints the count; how many there may be is a promise to builders.

use anyhow::ensure;
use layshaft_tests::browser::{Page, journey};

use super::steps;

/// Does things and counts them.
struct Hand<'p> {
    page: &'p Page,
    actions: usize,
}

impl<'p> Hand<'p> {
    async fn at_an_empty_bench(page: &'p Page) -> anyhow::Result<Self> {
        steps::empty_bench(page).await?;
        Ok(Self { page, actions: 0 })
    }

    /// A part from the tray onto the middle of the bench.
    async fn drop_on_bench(&mut self, part: &str) -> anyhow::Result<()> {
        self.actions += 1;
        let bench = self.page.middle("region", "Bench").await?;
        self.page
            .drag(self.page.middle("button", part).await?, bench)
            .await
    }

    /// A part from the tray onto a shaft or a connection.
    async fn drop_on(&mut self, part: &str, target: &str) -> anyhow::Result<()> {
        self.actions += 1;
        let to = self.page.middle("button", target).await?;
        self.page.drag(self.page.middle("button", part).await?, to).await
    }

    /// A part in hand, drawn from one shaft to another.
    async fn draw(&mut self, part: &str, from: &str, to: &str) -> anyhow::Result<()> {
        self.click("button", part).await?;
        self.actions += 1;
        let from = self.page.middle("button", from).await?;
        let to = self.page.middle("button", to).await?;
        self.page.drag(from, to).await
    }

    async fn click(&mut self, role: &str, name: &str) -> anyhow::Result<()> {
        self.actions += 1;
        self.page.click(role, name).await
    }

    /// Keys, one action each.
    async fn keys(&mut self, names: &str) -> anyhow::Result<()> {
        self.actions += names.split_whitespace().count();
        self.page.press(names).await
    }

    /// Numbers into the fields that open one after the other, one action each.
    async fn numbers(&mut self, numbers: &[&str]) -> anyhow::Result<()> {
        for (place, number) in numbers.iter().enumerate() {
            self.actions += 1;
            self.a_field_is_open().await?;
            self.page.enter(number).await?;
            let last = place + 1 == numbers.len();
            self.page.press(if last { "Enter" } else { "Tab" }).await?;
        }
        Ok(())
    }

    /// The field on the drawing has the focus and all of its text selected, so that typing replaces it.
    async fn a_field_is_open(&self) -> anyhow::Result<()> {
        let open = "const field = document.activeElement;
            return field.matches('.inline-editor input') && field.selectionEnd - field.selectionStart === field.value.length";
        self.page
            .wait_for("a number open for typing", async || {
                Ok(self.page.script(open).await? == true)
            })
            .await
    }

    async fn focus_is_on(&self, name: &str) -> anyhow::Result<()> {
        self.page
            .until(async || {
                let focused = self
                    .page
                    .script("return document.activeElement.getAttribute('aria-label')")
                    .await?;
                ensure!(
                    focused.as_str().is_some_and(|label| label.starts_with(name)),
                    "the focus is on {focused}, not on {name}"
                );
                Ok(())
            })
            .await
    }

    fn took_at_most(&self, what: &str, most: usize) -> anyhow::Result<()> {
        println!("{what}: {} actions (at most {most})", self.actions);
        ensure!(self.actions <= most, "{what} took {} actions", self.actions);
        Ok(())
    }
}

#[test]
fn two_stages_with_motor_and_winch_by_pointer() {
    journey("fast two stages", async |page| {
        let mut hand = Hand::at_an_empty_bench(page).await?;
        hand.drop_on_bench("Gear mesh").await?;
        hand.numbers(&["14", "42"]).await?;
        hand.drop_on("Gear mesh", "shaft s2,").await?;
        hand.numbers(&["13", "52"]).await?;
        hand.drop_on("Motor", "shaft s1,").await?;
        hand.drop_on("Winch", "shaft s4,").await?;
        hand.numbers(&["3"]).await?;
        hand.took_at_most("two stages by pointer", 14)?;
        page.named("button", "shaft s4, ratio one twelfth").await?;
        the_block_says(page, &["one twelfth", "rpm"]).await
    });
}

#[test]
fn a_torque_shifted_two_speed_by_pointer() {
    journey("fast two-speed", async |page| {
        let mut hand = Hand::at_an_empty_bench(page).await?;
        hand.drop_on_bench("Motor").await?;
        hand.drop_on("Torque switch", "shaft s1,").await?;
        hand.numbers(&["0.1", "0.05"]).await?;
        hand.drop_on("Gear mesh", "shaft s3,").await?;
        hand.numbers(&["12", "36"]).await?;
        // The direct path, then the branch.
        hand.drop_on("Gear mesh", "shaft s6,").await?;
        hand.numbers(&["20", "20"]).await?;
        hand.drop_on("Gear mesh", "shaft s6,").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.click("tab", "Second").await?;
        hand.drop_on("Dog clutch", "shaft s10,").await?;
        hand.drop_on("Gear mesh", "shaft s12,").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.draw("Differential", "shaft s14,", "shaft s8,").await?;
        hand.click("tab", "First").await?;
        hand.drop_on("Brake", "shaft s14,").await?;
        hand.drop_on("Gear mesh", "shaft s16,").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.drop_on("Vehicle", "shaft s19,").await?;
        hand.numbers(&["1.4", "6"]).await?;
        hand.took_at_most("torque-shifted two-speed by pointer", 45)?;
        it_has_two_speeds(page, "s19").await
    });
}

#[test]
fn a_torque_shifted_two_speed_by_keys_alone() {
    journey("fast two-speed by keys", async |page| {
        let mut hand = Hand::at_an_empty_bench(page).await?;
        hand.keys("O").await?;
        hand.focus_is_on("shaft s1").await?;
        hand.keys("Q").await?;
        hand.numbers(&["0.1", "0.05"]).await?;
        hand.keys("M").await?;
        hand.numbers(&["12", "36"]).await?;
        hand.keys("M").await?;
        hand.numbers(&["20", "20"]).await?;
        hand.focus_is_on("shaft s8").await?;
        hand.keys("Left Left").await?;
        hand.focus_is_on("shaft s6").await?;
        hand.keys("M").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.keys("] K M").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.focus_is_on("shaft s14").await?;
        hand.keys("Shift+J").await?;
        hand.focus_is_on("shaft s8").await?;
        hand.keys("D").await?;
        hand.focus_is_on("shaft s16").await?;
        hand.keys("[ Left Down").await?;
        hand.focus_is_on("shaft s14").await?;
        hand.keys("H End").await?;
        hand.focus_is_on("shaft s16").await?;
        hand.keys("M").await?;
        hand.numbers(&["12", "24"]).await?;
        hand.keys("V").await?;
        hand.numbers(&["1.4", "6"]).await?;
        hand.keys("Z").await?;
        hand.took_at_most("torque-shifted two-speed by keys", 70)?;
        it_has_two_speeds(page, "s19").await
    });
}

#[test]
fn an_idler_dropped_into_a_mesh_and_a_mesh_made_a_chain() {
    journey("insert and change", async |page| {
        let mut hand = Hand::at_an_empty_bench(page).await?;
        hand.keys("O M").await?;
        hand.numbers(&["14", "42"]).await?;
        page.named("button", "shaft s3, ratio minus one third").await?;
        hand.drop_on("Gear mesh", "gear mesh g4").await?;
        hand.numbers(&["13", "52"]).await?;
        page.named("button", "shaft s3, ratio one twelfth").await?;
        page.press("Shift+X").await?;
        page.named("button", "shaft s3, ratio four thirds").await?;
        page.press("Ctrl+Z Ctrl+Z Ctrl+Z Ctrl+Z").await?;
        page.named("button", "shaft s3, ratio minus one third").await?;
        page.click("button", "gear mesh g4").await?;
        page.click("button", "Details").await?;
        page.named("combobox", "Kind")
            .await?
            .focus(page.session())
            .await?;
        page.script(
            "const list = document.activeElement;
             list.selectedIndex = [...list.options].findIndex(option => option.text === 'Chain');
             list.dispatchEvent(new Event('change', { bubbles: true }));",
        )
        .await?;
        page.named("button", "shaft s3, ratio one third").await.map(drop)
    });
}

/// Both ratios of the output, one position after the other, and what a screen reader is told of its speed.
async fn it_has_two_speeds(page: &Page, output: &str) -> anyhow::Result<()> {
    page.click("tab", "First").await?;
    page.named("button", &format!("shaft {output}, ratio minus one twelfth"))
        .await?;
    the_block_says(page, &["rpm"]).await?;
    page.click("tab", "Second").await?;
    page.named("button", &format!("shaft {output}, ratio minus 1 over 16"))
        .await
        .map(drop)
}

async fn the_block_says(page: &Page, words: &[&str]) -> anyhow::Result<()> {
    page.until(async || {
        let block = page.text_of("region", "Title block").await?;
        ensure!(
            words.iter().all(|word| block.contains(word)),
            "the title block says: {block}"
        );
        Ok(())
    })
    .await
}
