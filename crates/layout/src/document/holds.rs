//! What holds, joins and lets go: clutches, brakes, torque switches.

use super::Id;

/// Dog clutch, engaged in the positions that list it.
#[derive(Clone, Debug, PartialEq)]
pub struct Clutch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
}

/// Brake, on in the positions that list it.
#[derive(Clone, Debug, PartialEq)]
pub struct Brake {
    /// The shaft it holds.
    pub shaft: Id,
    /// Largest torque it holds in N·m; none: as much as needed.
    pub limit_nm: Option<f64>,
}

/// Which way round a one-way clutch drives.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum OneWaySense {
    /// `a` never turns faster than `b`; engaged, it drives `b` positive.
    #[default]
    Positive,
    /// The signs turned round.
    Negative,
}

/// One-way clutch; with `a` the frame, a backstop.
#[derive(Clone, Debug, PartialEq)]
pub struct OneWay {
    /// The driving side.
    pub a: Id,
    /// The driven side, which may overrun.
    pub b: Id,
    /// Which way round.
    pub sense: OneWaySense,
}

/// Clutch that slips above a torque.
#[derive(Clone, Debug, PartialEq)]
pub struct SlipClutch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Torque above which it slips, in N·m.
    pub limit_nm: f64,
}

/// Coupling that shifts by the torque through it.
#[derive(Clone, Debug, PartialEq)]
pub struct TorqueSwitch {
    /// First shaft.
    pub a: Id,
    /// Second shaft.
    pub b: Id,
    /// Torque above which it shifts from `from` to `to`, in N·m.
    pub up_nm: f64,
    /// Torque below which it shifts back, in N·m; less than `up_nm`.
    pub down_nm: f64,
    /// The position that it shifts up from.
    pub from: Id,
    /// The position that it shifts up to.
    pub to: Id,
}
