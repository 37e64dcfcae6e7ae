//! Demos as tests read, change and solve them.

use layshaft_layout::{Layout, decode, set_path};
use layshaft_report::{Report, report};

pub fn demo(id: &str) -> Layout {
    let file = format!(
        "{}/../../static/demos/{id}.layshaft.json",
        env!("CARGO_MANIFEST_DIR")
    );
    decode(&std::fs::read_to_string(file).expect("the demo is there")).expect("sound")
}

pub fn with(mut layout: Layout, path: &str, value: &str) -> Layout {
    let command = set_path(&layout, path, value).expect("a field of the demo");
    layout.apply(&command).expect("within its limits");
    layout
}

pub fn solved(layout: &Layout) -> Report {
    report(layout).expect("one source")
}
