//! Any sound layout can be computed: without a stop, with finite numbers, and with names that exist.

use layshaft_layout::arbitrary::layout;
use layshaft_report::report;
use layshaft_tests::plain::plain;
use proptest::prelude::*;
use serde_json::Value;

use crate::random::trying;

/// JSON has no way to write what is not finite: such a number would have become `null`.
fn assert_no_null(path: &str, value: &Value) {
    match value {
        Value::Null => panic!("{path} is not finite"),
        Value::Array(list) => {
            list.iter()
                .enumerate()
                .for_each(|(at, value)| assert_no_null(&format!("{path}[{at}]"), value));
        }
        Value::Object(map) => {
            map.iter()
                .for_each(|(name, value)| assert_no_null(&format!("{path}.{name}"), value));
        }
        _ => {}
    }
}

proptest! {
    #![proptest_config(trying(2000))]

    #[test]
    fn any_sound_layout_can_be_computed(layout in layout()) {
        let Ok(report) = report(&layout) else { return Ok(()) };
        assert_no_null("report", &plain(&report));
        prop_assert_eq!(report.positions.len(), layout.effective_positions().len());
    }
}
