//! Every demo is opened and shows its headline.

use layshaft_tests::browser::journey;

fn opens(name: &'static str, headline: &'static str, thing: &'static str) {
    journey(name, async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Layouts").await?;
        page.click("button", name).await?;
        page.named("heading", headline).await?;
        page.named("button", thing).await.map(drop)
    });
}

#[test]
fn the_cart_shifts_by_itself() {
    opens("Trail cart, branch held", "Second", "torque switch sw");
}

#[test]
fn the_cart_with_the_differential_locked() {
    opens("Trail cart, differential", "Second climbs", "brake hold");
}

#[test]
fn the_hoist_by_two_plain_stages() {
    opens("Granary hoist, two plain", "Turns 12 times slower", "winch w");
}

#[test]
fn the_hoist_by_a_summing_differential() {
    opens(
        "Granary hoist, summing",
        "2.11 times the output",
        "differential d",
    );
}

#[test]
fn the_crawler_on_wet_grass() {
    opens("Four-wheel crawler", "grass slips", "slip clutch grass");
}

#[test]
fn the_trike_hub_in_three_positions() {
    journey("trike hub", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Layouts").await?;
        page.click("button", "Cargo-trike hub").await?;
        page.named("heading", "Low climbs").await?;
        page.click("tab", "High").await?;
        page.named(
            "button",
            "one-way clutch pc, drives clockwise, from carrier to shell, overruns",
        )
        .await?;
        page.click("button", "Positions").await?;
        page.click("button", "Look for other states").await?;
        page.see("forces balance in the state shown only").await
    });
}

#[test]
fn the_wash_drum_holds_with_the_motor_off() {
    journey("wash drum", async |page| {
        page.named("button", "vehicle cart").await?;
        page.click("button", "Layouts").await?;
        page.click("button", "Wash drum").await?;
        page.named("button", "friction wheels fw").await?;
        let block = page.text_of("region", "Title block").await?;
        anyhow::ensure!(
            block.contains("Motor off") && block.contains("it holds") && block.contains("belt slips"),
            "the title block says: {block}"
        );
        Ok(())
    });
}

#[test]
fn the_clock_and_its_moon() {
    opens("Clock train", "Turns 709 times slower", "slip clutch set");
}
