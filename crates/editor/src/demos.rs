//! Layouts that come with the program: one village workshop's machines.

/// A demo layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Demo {
    /// Its name in links and files.
    pub id: &'static str,
    /// Its name for people.
    pub name: &'static str,
    /// What it shows, in one sentence.
    pub story: &'static str,
    /// The layout file.
    pub text: &'static str,
}

/// All demos; the first is shown on the first visit.
pub const DEMOS: [Demo; 8] = [
    Demo {
        id: "trail-cart-a",
        name: "Trail cart, branch held by a worm",
        story: "A two-speed cart that shifts by itself and subtracts a branch in second: geared lower, it still pulls less.",
        text: include_str!("../../../static/demos/trail-cart-a.layshaft.json"),
    },
    Demo {
        id: "trail-cart-b",
        name: "Trail cart, differential locked or held",
        story: "The same differential, locked up as one block in first, its branch side braked in second: second pulls more.",
        text: include_str!("../../../static/demos/trail-cart-b.layshaft.json"),
    },
    Demo {
        id: "granary-hoist-stages",
        name: "Granary hoist, two plain stages",
        story: "Twelve to one by two plain stages: what goes in comes out, less two meshes.",
        text: include_str!("../../../static/demos/granary-hoist-stages.layshaft.json"),
    },
    Demo {
        id: "granary-hoist-summing",
        name: "Granary hoist, summing differential",
        story: "The same twelve to one from two paths summed by a differential: power goes round, and the pull is gone.",
        text: include_str!("../../../static/demos/granary-hoist-summing.layshaft.json"),
    },
    Demo {
        id: "crawler",
        name: "Four-wheel crawler, one wheel up",
        story: "Three open differentials: a wheel on wet grass gives the other three no more than its own drag.",
        text: include_str!("../../../static/demos/crawler.layshaft.json"),
    },
    Demo {
        id: "trike-hub",
        name: "Cargo-trike hub, three positions",
        story: "One planetary set, low, direct and high: pawls let whichever path is faster drive the wheel.",
        text: include_str!("../../../static/demos/trike-hub.layshaft.json"),
    },
    Demo {
        id: "wash-drum",
        name: "Wash drum that must not run back",
        story: "The belt slips before anything breaks, and the worm behind it holds the wet wash with the motor off.",
        text: include_str!("../../../static/demos/wash-drum.layshaft.json"),
    },
    Demo {
        id: "clock-train",
        name: "Clock train with a moon",
        story: "Hour and minute hands twelve to one, and a moon disc that is a day late after 294 years.",
        text: include_str!("../../../static/demos/clock-train.layshaft.json"),
    },
];

/// A demo by its id.
#[must_use]
pub fn demo(id: &str) -> Option<&'static Demo> {
    DEMOS.iter().find(|demo| demo.id == id)
}
