//! What is written at shafts and elements, and what a screen reader says of them.

use layshaft_kinematics::Ratio;
use layshaft_layout::{Element, ElementKind, Hand, Id, MeshForm, Sense, SteppedRatio, WinchLoad};
use layshaft_report::{ElementResult, Mode, PortResult, PositionReport, ShaftResult};

use super::items::{RunContent, Standing};
use super::text::{Letters, Lines, answer, edit, ratio, text};
use crate::numbers::{self, RatioText};
use crate::parts::{kind_name, ports};
use crate::target::FieldRef;

/// Which results labels show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Ratios.
    pub ratio: bool,
    /// Speeds.
    pub speed: bool,
    /// Torques.
    pub torque: bool,
    /// Powers.
    pub power: bool,
    /// Efficiencies.
    pub efficiency: bool,
    /// How large letters are.
    pub letters: Letters,
}

impl Shown {
    /// What there is room for at this zoom: from afar only names, given numbers and ratios, in larger letters.
    #[must_use]
    pub fn at_zoom(self, zoom: f64) -> Self {
        let letters = Letters::for_zoom(zoom);
        match letters {
            Letters::Plain => Self { letters, ..self },
            _ => Self {
                ratio: self.ratio,
                letters,
                speed: false,
                torque: false,
                power: false,
                efficiency: false,
            },
        }
    }
}

impl Default for Shown {
    fn default() -> Self {
        Self {
            ratio: true,
            speed: true,
            torque: true,
            power: true,
            efficiency: true,
            letters: Letters::Plain,
        }
    }
}

/// What a label may say.
#[derive(Clone, Copy, Debug)]
pub struct Telling<'a> {
    /// Results of the position.
    pub position: Option<&'a PositionReport>,
    /// Which results.
    pub shown: Shown,
    /// Answers are blanks.
    pub hide: bool,
}

/// Lines at a shaft: its name, then ratio and speed.
#[must_use]
pub fn shaft_lines(id: &Id, result: Option<&ShaftResult>, standing: Standing, telling: Telling<'_>) -> Lines {
    let mut second = Vec::new();
    match standing {
        Standing::Free => second.push(RunContent::Quiet("free".to_owned())),
        Standing::Unreached => second.push(RunContent::Quiet("not driven".to_owned())),
        Standing::Jammed => second.push(RunContent::Quiet("jammed".to_owned())),
        Standing::Held if !telling.hide => second.push(RunContent::Quiet("held".to_owned())),
        Standing::Held | Standing::Turning | Standing::AtRest => {
            if let Some(exact) = result
                .and_then(|result| result.ratio.as_ref())
                .filter(|_| telling.shown.ratio)
            {
                second.push(ratio(telling.hide, RatioText::new(exact)));
            }
            if let Some(speed) = result
                .and_then(|result| result.speed)
                .filter(|_| telling.shown.speed)
            {
                second.push(answer(telling.hide, &numbers::rotation(speed)));
            }
        }
    }
    let mut lines = vec![vec![RunContent::Name(id.to_string())]];
    lines.extend((!second.is_empty()).then_some(second));
    lines
}

/// What a screen reader says of a shaft.
#[must_use]
pub fn shaft_spoken(
    id: &Id,
    result: Option<&ShaftResult>,
    standing: Standing,
    is_drive: bool,
    hide: bool,
) -> String {
    let mut said = vec![format!("shaft {id}")];
    if is_drive {
        said.push("the drive".to_owned());
    }
    match standing {
        Standing::Free => said.push("free to turn".to_owned()),
        Standing::Unreached => said.push("not driven".to_owned()),
        Standing::Jammed => said.push("jammed".to_owned()),
        Standing::Held => said.push("held still".to_owned()),
        Standing::AtRest => said.push("at rest".to_owned()),
        Standing::Turning => {}
    }
    if let Some(result) = result.filter(|_| !hide && standing == Standing::Turning) {
        said.extend(
            result
                .ratio
                .as_ref()
                .map(|ratio| format!("ratio {}", RatioText::new(ratio).spoken())),
        );
        said.extend(result.speed.map(|speed| numbers::rotation(speed).spoken()));
        said.extend(result.torque.map(|torque| numbers::torque(torque).spoken()));
    }
    said.join(", ")
}

/// The port that power leaves by, for elements with several.
fn outlet(result: &ElementResult) -> Option<&PortResult> {
    result
        .ports
        .iter()
        .filter(|port| port.power.to_watts() < -1e-12)
        .min_by(|one, other| one.power.to_watts().total_cmp(&other.power.to_watts()))
}

/// Power that enters, over all ports.
fn inlet_power(result: &ElementResult) -> layshaft_quantity::Power {
    result
        .ports
        .iter()
        .map(|port| port.power)
        .filter(|power| power.to_watts() > 0.0)
        .sum()
}

/// Lines at an element: its numbers, then what its connection carries.
#[must_use]
pub fn element_lines(element: &Element, result: Option<&ElementResult>, telling: Telling<'_>) -> Lines {
    let several = ports(&element.kind).len() > 1 && !matches!(element.kind, ElementKind::Vehicle(_));
    let backwards = result.is_some_and(flows_backwards);
    let mut lines = vec![given(element, backwards, telling)];
    if let Some(result) = result {
        if let Some(mode) = result
            .mode
            .filter(|_| matches!(element.kind, ElementKind::Clutch(_) | ElementKind::Brake(_)))
        {
            lines[0].push(RunContent::Quiet(
                if mode == Mode::Disengaged { "off" } else { "on" }.to_owned(),
            ));
        } else if result.mode == Some(Mode::Held) {
            lines[0].push(RunContent::Quiet("holds".to_owned()));
        } else if result.ports.len() > 2
            && let Some(port) = outlet(result)
            && (telling.shown.speed || telling.shown.torque)
        {
            // With three shafts it has to be said whose speed and torque follow.
            lines[0].push(RunContent::Quiet(format!("to {}", port.shaft)));
        }
        lines.extend(if several {
            through(result, telling)
        } else {
            at_end(result, telling)
        });
    }
    lines.retain(|line| !line.is_empty());
    lines
}

/// Whether power goes through a two-port element from its second port to its first.
fn flows_backwards(result: &ElementResult) -> bool {
    matches!(&result.ports[..], [first, second]
        if second.power.to_watts() > 1e-12 && first.power.to_watts() < 1e-12)
}

/// What a connection carries: speed and torque where power leaves it, then power and efficiency.
fn through(result: &ElementResult, telling: Telling<'_>) -> Lines {
    let (mut motion, mut power) = (Vec::new(), Vec::new());
    if let Some(port) = outlet(result) {
        let speed = telling
            .position
            .and_then(|position| speed_of(position, &port.shaft));
        motion.extend(
            speed
                .filter(|_| telling.shown.speed)
                .map(|speed| answer(telling.hide, &numbers::rotation(speed))),
        );
        if telling.shown.torque {
            motion.push(answer(telling.hide, &numbers::torque(port.torque.abs())));
        }
    }
    let entering = inlet_power(result);
    if telling.shown.power && entering.to_watts() > 1e-12 {
        power.push(answer(telling.hide, &numbers::power(entering)));
    }
    if let Some(efficiency) = result.efficiency.filter(|_| telling.shown.efficiency) {
        power.push(answer(telling.hide, &numbers::percent(efficiency)));
    }
    vec![motion, power]
}

/// What a source gives or a load takes.
fn at_end(result: &ElementResult, telling: Telling<'_>) -> Lines {
    let mut line = Vec::new();
    if let Some(port) = result.ports.first() {
        if telling.shown.torque && port.torque.abs().to_newton_metres() > 1e-12 {
            line.push(answer(telling.hide, &numbers::torque(port.torque.abs())));
        }
        if telling.shown.power && port.power.abs().to_watts() > 1e-12 {
            line.push(answer(telling.hide, &numbers::power(port.power.abs())));
        }
    }
    let mut second = Vec::new();
    second.extend(
        result
            .current
            .filter(|_| telling.shown.power)
            .map(|current| answer(telling.hide, &numbers::current(current))),
    );
    second.extend(
        result
            .line_speed
            .filter(|_| telling.shown.speed)
            .map(|speed| answer(telling.hide, &numbers::line_speed(speed))),
    );
    vec![line, second]
}

fn speed_of(position: &PositionReport, shaft: &Id) -> Option<layshaft_quantity::AngularSpeed> {
    position
        .shafts
        .iter()
        .find(|result| result.id == *shaft)
        .and_then(|result| result.speed)
}

/// The numbers that a person gave: tooth counts and the like, each to be edited where it stands.
fn given(element: &Element, backwards: bool, telling: Telling<'_>) -> Vec<RunContent> {
    let field =
        |path: &str, value: String, spoken: &str| edit(FieldRef::element(&element.id, path), value, spoken);
    let step = |exact: Option<Ratio>| {
        let exact = if backwards {
            exact.map(|ratio| ratio.recip())
        } else {
            exact
        };
        exact
            .filter(|_| telling.shown.ratio)
            .map(|exact| ratio(telling.hide, RatioText::new(&exact)))
    };
    let mut line = match &element.kind {
        ElementKind::Mesh(mesh) => pair(
            field("teeth.0", mesh.teeth[0].to_string(), &teeth_on(&mesh.a)),
            field("teeth.1", mesh.teeth[1].to_string(), &teeth_on(&mesh.b)),
            backwards,
        ),
        ElementKind::Chain(chain) => pair(
            field("teeth.0", chain.teeth[0].to_string(), &teeth_on(&chain.a)),
            field("teeth.1", chain.teeth[1].to_string(), &teeth_on(&chain.b)),
            backwards,
        ),
        ElementKind::Belt(belt) => {
            let mut line = pair(
                field(
                    "diameters_mm.0",
                    shortest(belt.diameters_mm[0]),
                    &diameter_on(&belt.a),
                ),
                field(
                    "diameters_mm.1",
                    shortest(belt.diameters_mm[1]),
                    &diameter_on(&belt.b),
                ),
                backwards,
            );
            line.push(RunContent::Quiet("mm".to_owned()));
            line
        }
        ElementKind::Worm(worm) => pair(
            field("starts", worm.starts.to_string(), "starts of the worm"),
            field("teeth", worm.teeth.to_string(), "teeth of the wheel"),
            backwards,
        ),
        ElementKind::Planetary(set) => vec![
            RunContent::Quiet("sun".to_owned()),
            field("teeth.sun", set.sun_teeth.to_string(), "teeth of the sun"),
            RunContent::Quiet("ring".to_owned()),
            field("teeth.ring", set.ring_teeth.to_string(), "teeth of the ring"),
        ],
        ElementKind::Stepped(set) => stepped(&set.ratio, field),
        ElementKind::Differential(_)
        | ElementKind::Clutch(_)
        | ElementKind::Brake(_)
        | ElementKind::Motor(_) => {
            vec![RunContent::Name(element.id.to_string())]
        }
        ElementKind::Crank(crank) => vec![
            field(
                "speed_rpm",
                shortest(crank.speed_rpm),
                "speed in revolutions per minute",
            ),
            text("rpm"),
        ],
        ElementKind::Load(load) => vec![
            field(
                "torque_nm",
                shortest(load.torque_nm),
                "resisting torque in newton metres",
            ),
            text("N·m"),
        ],
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => vec![
                field("mass_kg", shortest(mass), "hanging mass in kilograms"),
                text("kg"),
            ],
            WinchLoad::Pull(pull) => vec![field("pull_n", shortest(pull), "line pull in newtons"), text("N")],
        },
        ElementKind::Vehicle(vehicle) => vec![
            field("mass_kg", shortest(vehicle.mass_kg), "mass in kilograms"),
            text("kg at"),
            field("slope_deg", shortest(vehicle.slope_deg), "slope in degrees"),
            text("°"),
        ],
    };
    line.extend(step(step_ratio(&element.kind)));
    line
}

fn pair(first: RunContent, second: RunContent, backwards: bool) -> Vec<RunContent> {
    let (first, second) = if backwards {
        (second, first)
    } else {
        (first, second)
    };
    vec![first, text(":"), second]
}

fn stepped(given: &SteppedRatio, field: impl Fn(&str, String, &str) -> RunContent) -> Vec<RunContent> {
    match given {
        SteppedRatio::Basic([n, d]) => vec![
            field("basic_ratio.0", n.to_string(), "basic ratio, numerator"),
            text("/"),
            field("basic_ratio.1", d.to_string(), "basic ratio, denominator"),
        ],
        SteppedRatio::Teeth { first, second, .. } => vec![
            field(
                "teeth.0.0",
                first[0].to_string(),
                "teeth of the first central gear",
            ),
            text(":"),
            field("teeth.0.1", first[1].to_string(), "teeth of its planet"),
            text("="),
            field("teeth.1.0", second[0].to_string(), "teeth of the other planet"),
            text(":"),
            field(
                "teeth.1.1",
                second[1].to_string(),
                "teeth of the second central gear",
            ),
        ],
    }
}

fn teeth_on(shaft: &Id) -> String {
    format!("teeth on {shaft}")
}

fn diameter_on(shaft: &Id) -> String {
    format!("pulley diameter on {shaft} in millimetres")
}

/// The shortest decimal that reads back as the same number, with a real minus sign.
#[must_use]
pub fn shortest(value: f64) -> String {
    format!("{value}").replace('-', "\u{2212}")
}

/// Turns of the second shaft for one turn of the first, for elements that join two.
#[must_use]
pub fn step_ratio(kind: &ElementKind) -> Option<Ratio> {
    let over = |n: Ratio, d: Ratio, same: bool| {
        use num_traits::Zero;
        (!d.is_zero()).then(|| if same { n / d } else { -(n / d) })
    };
    let whole = |n: u32| Ratio::from_integer(n.into());
    match kind {
        ElementKind::Mesh(mesh) => {
            let same = match mesh.form {
                MeshForm::External => false,
                MeshForm::Internal => true,
                MeshForm::Bevel => mesh.sense == Sense::Same,
            };
            over(whole(mesh.teeth[0]), whole(mesh.teeth[1]), same)
        }
        ElementKind::Chain(chain) => over(whole(chain.teeth[0]), whole(chain.teeth[1]), true),
        ElementKind::Worm(worm) => over(whole(worm.starts), whole(worm.teeth), worm.hand == Hand::Right),
        ElementKind::Belt(belt) => over(
            decimal(belt.diameters_mm[0])?,
            decimal(belt.diameters_mm[1])?,
            !belt.crossed,
        ),
        _ => None,
    }
}

/// The exact value of the shortest decimal text of a number (0.1 is one tenth).
fn decimal(value: f64) -> Option<Ratio> {
    let text = format!("{value}");
    let (whole, part) = text.split_once('.').unwrap_or((&text, ""));
    let digits: num_bigint::BigInt = format!("{whole}{part}").parse().ok()?;
    let denominator = num_bigint::BigInt::from(10).pow(u32::try_from(part.len()).ok()?);
    Some(Ratio::new(digits, denominator))
}

/// What a screen reader says of an element.
#[must_use]
pub fn element_spoken(element: &Element, result: Option<&ElementResult>, hide: bool) -> String {
    let mut said = vec![format!("{} {}", kind_name(&element.kind), element.id)];
    said.extend(spoken_numbers(&element.kind));
    said.push(spoken_shafts(&element.kind));
    if !hide {
        said.extend(step_ratio(&element.kind).map(|ratio| RatioText::new(&ratio).spoken()));
        said.extend(result.into_iter().flat_map(spoken_results));
    }
    said.join(", ")
}

fn spoken_numbers(kind: &ElementKind) -> Option<String> {
    Some(match kind {
        ElementKind::Mesh(mesh) => format!("{} to {} teeth", mesh.teeth[0], mesh.teeth[1]),
        ElementKind::Chain(chain) => format!("{} to {} teeth", chain.teeth[0], chain.teeth[1]),
        ElementKind::Belt(belt) => {
            format!("{} to {} millimetres", belt.diameters_mm[0], belt.diameters_mm[1])
        }
        ElementKind::Worm(worm) => format!("{} starts to {} teeth", worm.starts, worm.teeth),
        ElementKind::Planetary(set) => format!("sun {}, ring {} teeth", set.sun_teeth, set.ring_teeth),
        ElementKind::Crank(crank) => format!("{} revolutions per minute", shortest(crank.speed_rpm)),
        ElementKind::Load(load) => format!("{} newton metres", load.torque_nm),
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => format!("lifting {mass} kilograms"),
            WinchLoad::Pull(pull) => format!("pulling {pull} newtons"),
        },
        ElementKind::Vehicle(vehicle) => {
            format!("{} kilograms on {} degrees", vehicle.mass_kg, vehicle.slope_deg)
        }
        _ => return None,
    })
}

fn spoken_shafts(kind: &ElementKind) -> String {
    let ports = ports(kind);
    match &ports[..] {
        [one] => format!("on {}", one.shaft),
        [one, other] => format!("from {} to {}", one.shaft, other.shaft),
        several => several
            .iter()
            .map(|port| format!("{} {}", port.role, port.shaft))
            .collect::<Vec<_>>()
            .join(", "),
    }
}

fn spoken_results(result: &ElementResult) -> Vec<String> {
    let mut said = Vec::new();
    match result.mode {
        Some(Mode::Engaged) => said.push("engaged".to_owned()),
        Some(Mode::Disengaged) => said.push("not engaged".to_owned()),
        Some(Mode::Held) => said.push("holds by friction".to_owned()),
        None => {}
    }
    let port = outlet(result).or_else(|| result.ports.first());
    if let Some(port) = port.filter(|port| port.torque.abs().to_newton_metres() > 1e-12) {
        said.push(numbers::torque(port.torque.abs()).spoken());
    }
    let entering = inlet_power(result);
    if entering.to_watts() > 1e-12 {
        said.push(numbers::power(entering).spoken());
    }
    said.extend(
        result
            .efficiency
            .map(|share| format!("{} efficient", numbers::percent(share).spoken())),
    );
    said
}
