//! Shifts by torque, their blows, and wheels that spin, in closed form.

mod common;

use common::{close, coupling, drive, motor, resist, sound, time_of, train, vehicle, winch};
use layshaft_motion::{Course, End, EventKind, Ground, RunOptions, Stretch, Switch, Task, run};
use layshaft_powerflow::{Axles, ElementLoss, LoadKind};
use layshaft_quantity::{Angle, Length, STANDARD_GRAVITY, Torque};
use libm::{exp, log};

#[test]
fn a_torque_switch_shifts_when_its_torque_is_reached_and_the_blow_conserves_momentum() {
    // A weight's torque M turns J1, and through the switch J2 with a viscous load b: the switch passes
    // M − J1 dw/dt = M − J1 M/J exp(−b t/J). Shifted, a third flywheel at rest is coupled on.
    let (j1, j2, j3, viscous, up) = (1e-3, 2e-3, 4e-3, 2e-3, 0.018);
    let mut low = train(&[j1, j2, j3]);
    let switch = coupling(&mut low, 0, 1, ElementLoss::default());
    resist(&mut low, 1, 0.0, viscous);
    let load = winch(&mut low, 0, 0.2, 0.01);
    if let LoadKind::Winch { lifts, .. } = &mut low.loads[load].kind {
        *lifts = -1.0;
    }
    let mut high = low.clone();
    coupling(&mut high, 1, 2, ElementLoss::default());
    let options = RunOptions {
        until: 4.0,
        switches: vec![Switch {
            elements: vec![Some(switch); 2],
            up: Torque::newton_metres(up),
            down: Torque::newton_metres(-1.0),
            from: 0,
            to: 1,
        }],
        ..RunOptions::new(Task::Time)
    };
    let run = run(&[low, high], &options);
    sound(&run, End::TimeUp);
    let moment = 0.2 * STANDARD_GRAVITY * 0.01;
    let first = j1 + 0.2 * 1e-4;
    let both = first + j2;
    let shifts = both / viscous * log(first * moment / both / (moment - up));
    let found = time_of(&run, |kind| {
        matches!(kind, EventKind::Shift { from: 0, to: 1, .. })
    });
    close("shifts at", found, shifts, 1e-8);
    let speed = moment / viscous * (1.0 - exp(-viscous * shifts / both));
    let lost = 0.5 * both * j3 / (both + j3) * speed * speed;
    close("lost in the blow", run.energy.by_impact, lost, 1e-7);
    let (all, end) = (both + j3, moment / viscous);
    let after = speed * both / all;
    let expected = end + (after - end) * exp(-viscous * (4.0 - shifts) / all);
    close(
        "speed at the end",
        run.samples.last().expect("some").shafts[2],
        expected,
        1e-7,
    );
}

#[test]
fn wheels_spin_until_the_vehicle_is_as_fast_as_they_are() {
    // The tyres hold mu m g, the wheel turns as fast as the motor does under that, the vehicle gains mu g.
    let (mass, friction) = (0.4, 0.05);
    let mut model = train(&[0.0]);
    let source = motor(0.05);
    drive(&mut model, 0, source.clone());
    let (load, contact) = vehicle(&mut model, 0, mass, 0.0);
    let stretch = Stretch {
        length: Length::metres(1000.0),
        slope: Angle::radians(0.0),
    };
    let course = Course {
        stretches: vec![stretch],
    };
    let ground = Ground {
        load,
        contacts: vec![vec![contact]],
        friction,
        axles: Axles::All,
        geometry: None,
    };
    let options = RunOptions {
        until: 30.0,
        ground: Some(ground),
        ..RunOptions::new(Task::Course { load, course })
    };
    let run = run(&[model], &options);
    sound(&run, End::TimeUp);
    close(
        "spins from",
        time_of(&run, |kind| matches!(kind, EventKind::Spins { .. })),
        0.0,
        1e-12,
    );
    let wheel = source.speed_at(friction * mass * STANDARD_GRAVITY * 0.05);
    let grips = time_of(&run, |kind| matches!(kind, EventKind::Grips { .. }));
    close(
        "grips at",
        grips,
        wheel * 0.05 / (friction * STANDARD_GRAVITY),
        1e-6,
    );
}

#[test]
fn on_a_slope_beyond_its_grip_a_vehicle_does_not_get_on() {
    let mut model = train(&[0.0]);
    drive(&mut model, 0, motor(0.05));
    let (load, contact) = vehicle(&mut model, 0, 0.1, 0.01);
    let stretch = |length, slope| Stretch {
        length: Length::metres(length),
        slope: Angle::radians(slope),
    };
    let course = Course {
        stretches: vec![stretch(0.5, 0.0), stretch(50.0, 0.3)],
    };
    let ground = Ground {
        load,
        contacts: vec![vec![contact]],
        friction: 0.2,
        axles: Axles::All,
        geometry: None,
    };
    let options = RunOptions {
        ground: Some(ground),
        ..RunOptions::new(Task::Course { load, course })
    };
    sound(&run(&[model], &options), End::NoTraction);
}
