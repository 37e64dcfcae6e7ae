//! Line drawings of the kinds, 48 × 32 with the centre at (24, 16).
//!
//! Own drawings after the descriptions of ISO 3952 (kinematic diagrams): pitch circles as thin chain lines, a worm as
//! a rectangle with inclined strokes, friction wheels as plain rectangles that touch, a clutch as two facing bars: with
//! teeth, with the arrow head of its driving sense, with balls that give way, or with a spring and its scale; the frame as
//! short hatched strokes.

use crate::scene::Symbol;

const NONE: Symbol = Symbol {
    thick: "",
    thin: "",
    chain: "",
    hatching: "",
    half: (24, 16),
};

pub const SHAFT: Symbol = Symbol {
    thick: "M4 16H44",
    thin: "M12 11H20M12 21H20M28 11H36M28 21H36",
    hatching: "M12 11l3 -4M17 11l3 -4M28 11l3 -4M33 11l3 -4M12 25l3 -4M17 25l3 -4M28 25l3 -4M33 25l3 -4",
    half: (22, 13),
    ..NONE
};

pub const MESH: Symbol = Symbol {
    thick: "M13 13v6M10 16h6M31 13v6M28 16h6",
    chain: "M6 16a7 7 0 1 0 14 0a7 7 0 1 0 -14 0M20 16a11 11 0 1 0 22 0a11 11 0 1 0 -22 0",
    half: (20, 13),
    ..NONE
};

pub const RING_MESH: Symbol = Symbol {
    thick: "M24 13v6M21 16h6M31 13v6M28 16h6",
    chain: "M24 16a7 7 0 1 0 14 0a7 7 0 1 0 -14 0M10 16a14 14 0 1 0 28 0a14 14 0 1 0 -28 0",
    thin: "M7.5 16a16.5 15.5 0 1 0 33 0a16.5 15.5 0 1 0 -33 0",
    half: (18, 17),
    ..NONE
};

pub const BEVEL: Symbol = Symbol {
    thick: "M2 10H16M16 3V17M16 3l5 2.3M16 17l5 -2.3M30 30V20M17 20H43M17 20l5 -2.4M43 20l-5 -2.4",
    chain: "M16 10H36M30 20V5",
    half: (23, 16),
    ..NONE
};

pub const CHAIN: Symbol = Symbol {
    thin: "M11 10L36 6M11 22L36 26M17 6l4 4M21 5l-4 6M23 5l4 4M27 4l-4 6",
    chain: "M5 16a6 6 0 1 0 12 0a6 6 0 1 0 -12 0M25 16a10 10 0 1 0 20 0a10 10 0 1 0 -20 0",
    thick: "M11 14v4M9 16h4M35 14v4M33 16h4",
    half: (22, 12),
    ..NONE
};

pub const BELT: Symbol = Symbol {
    thin: "M11 10L36 6M11 22L36 26M22 5.5h5M22 10.5h5",
    thick: "M5 16a6 6 0 1 0 12 0a6 6 0 1 0 -12 0M25 16a10 10 0 1 0 20 0a10 10 0 1 0 -20 0",
    half: (22, 12),
    ..NONE
};

pub const WORM: Symbol = Symbol {
    thick: "M13 3H35V11H13ZM24 19v5M21.5 21.5h5",
    thin: "M4 7H13M35 7H44M17 11l4 -8M22 11l4 -8M27 11l4 -8",
    chain: "M14 21a10 10 0 1 0 20 0a10 10 0 1 0 -20 0",
    half: (21, 16),
    ..NONE
};

pub const DIFFERENTIAL: Symbol = Symbol {
    thick: "M2 16H14M14 9V23M14 9l4 -3M14 23l4 3M46 16H34M34 9V23M34 9l-4 -3M34 23l-4 3M19 6H29M19 26H29",
    thin: "M24 3V29M21 3H27M21 29H27",
    half: (23, 15),
    ..NONE
};

pub const PLANETARY: Symbol = Symbol {
    thick: "M24 11L24 6.5M24 16l7 4.5M24 16l-7 4.5",
    chain: "M9 16a15 15 0 1 0 30 0a15 15 0 1 0 -30 0M19 16a5 5 0 1 0 10 0a5 5 0 1 0 -10 0",
    thin: "M19.5 6.5a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0M28 21.5a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0\
           M11 21.5a4.5 4.5 0 1 0 9 0a4.5 4.5 0 1 0 -9 0",
    half: (17, 17),
    ..NONE
};

pub const STEPPED: Symbol = Symbol {
    thick: "M15 3V13M12 3h6M12 13h6M33 1V11M30 1h6M30 11h6M15 15V29M12 15h6M12 29h6M33 13V29M30 13h6M30 29h6",
    thin: "M15 7H33M3 22H15M33 22H45M24 7V16H24",
    half: (22, 15),
    ..NONE
};

pub const CLUTCH: Symbol = Symbol {
    thick: "M4 16H18M44 16H30M18 6V26M30 6V26M18 8h7v4h-7M30 14h-7v4h7M18 20h7v4h-7",
    half: (21, 11),
    ..NONE
};

pub const BRAKE: Symbol = Symbol {
    thick: "M24 2V12M14 12H34M14 18H34",
    thin: "M24 18V24M12 24H36",
    hatching: "M13 30l4 -6M19 30l4 -6M25 30l4 -6M31 30l4 -6",
    half: (14, 15),
    ..NONE
};

pub const MOTOR: Symbol = Symbol {
    thick: "M11 16a13 13 0 1 0 26 0a13 13 0 1 0 -26 0",
    thin: "M18 22V10l6 8l6 -8v12",
    half: (15, 15),
    ..NONE
};

pub const CRANK: Symbol = Symbol {
    thick: "M44 24H30M30 24L16 10M16 10H6",
    thin: "M6 7v6M10 7v6M27.5 24a2.5 2.5 0 1 0 5 0a2.5 2.5 0 1 0 -5 0M24 6a14 14 0 0 1 9 8M33 14l-4 -1.5M33 14l1 -4.5",
    half: (21, 12),
    ..NONE
};

pub const LOAD: Symbol = Symbol {
    thick: "M13 6H35V26H13Z",
    thin: "M29 20a7 7 0 1 1 1 -7M30 13l-4 0M30 13l1.5 -4",
    half: (13, 12),
    ..NONE
};

pub const WINCH: Symbol = Symbol {
    thick: "M12 4V18M36 4V18M12 6H36M12 16H36M26 24h8v7h-8Z",
    thin: "M17 6v10M20 6v10M23 6v10M30 16V24M4 11H12M36 11H44",
    half: (21, 16),
    ..NONE
};

pub const VEHICLE: Symbol = Symbol {
    thick: "M8 19a5 5 0 1 0 10 0a5 5 0 1 0 -10 0M29 19a5 5 0 1 0 10 0a5 5 0 1 0 -10 0M5 14V8H28l6 6h9",
    thin: "M3 24H45",
    hatching: "M6 30l4 -6M14 30l4 -6M22 30l4 -6M30 30l4 -6M38 30l4 -6",
    half: (22, 14),
    ..NONE
};

pub const FRICTION_WHEEL: Symbol = Symbol {
    thick: "M17 3H31V12H17ZM17 12H31V29H17Z",
    thin: "M4 7.5H17M31 20.5H44",
    half: (22, 15),
    ..NONE
};

pub const ONE_WAY: Symbol = Symbol {
    thick: "M4 16H15M44 16H33M15 5V27M33 5V27M19 10L29 16L19 22Z",
    half: (22, 13),
    ..NONE
};

pub const SLIP_CLUTCH: Symbol = Symbol {
    thick: "M4 16H17M44 16H31M17 5V27M31 5V27",
    thin: "M20.5 10.5a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0M20.5 21.5a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0",
    half: (22, 13),
    ..NONE
};

pub const TORQUE_SWITCH: Symbol = Symbol {
    thick: "M4 20H12M44 20H36M12 12V28M36 12V28M24 13L21 7H27Z",
    thin: "M12 20h3l2 -4l4 8l4 -8l4 8l2 -4h5M12 4H36M12 4v4M18 4v2.5M30 4v2.5M36 4v4",
    half: (22, 15),
    ..NONE
};
