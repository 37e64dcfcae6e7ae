//! Cautions, shown where they belong: at the thing that can hurt.

use crate::catalogue::Kind;

/// For whatever lifts.
pub(super) const HOIST: &str = "Models only: never lift people with it, and never stand under the load.";
/// For motors that may be held still under power.
pub(super) const STALL: &str =
    "A stalled motor takes its full current and overheats in seconds: switch it off.";
const PINCH: &str = "Keep fingers, hair and sleeves away from turning gears, chains and belts.";
const BATTERY: &str = "Fuse the battery and never leave it charging alone.";
const SLOPE: &str = "Chock the wheels before you work on a cart that stands on a slope.";
const CRANK: &str = "Let go of the crank only when something else holds the load.";

/// Cautions of a kind of element.
#[must_use]
pub fn cautions_for(kind: Kind) -> Vec<&'static str> {
    match kind {
        Kind::Winch => vec![HOIST],
        Kind::Motor => vec![STALL, BATTERY],
        Kind::Vehicle => vec![SLOPE],
        Kind::Crank => vec![CRANK],
        Kind::Mesh
        | Kind::RingMesh
        | Kind::BevelMesh
        | Kind::Chain
        | Kind::Belt
        | Kind::FrictionWheel
        | Kind::Worm => vec![PINCH],
        _ => Vec::new(),
    }
}

/// The caution that belongs to the whole sheet.
#[must_use]
pub const fn general_caution() -> &'static str {
    "Predictions for hobby models. What can hurt someone needs local codes and licensed practice."
}
