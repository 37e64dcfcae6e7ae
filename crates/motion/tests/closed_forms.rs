//! Runs whose course is known in closed form.

mod common;

use common::{
    add, close, coupling, crank, drive, efficiency, mesh, motor, resist, shaft, sound, time_of, train,
    vehicle, winch,
};
use layshaft_kinematics::{Element, elements};
use layshaft_motion::{Course, End, EventKind, RunOptions, Stretch, Task, run};
use layshaft_powerflow::{ElementLoss, Loss, Release};
use layshaft_quantity::{Angle, Length, STANDARD_GRAVITY, Speed, Torque};
use libm::{cos, exp, log, sin};

const TIGHT: f64 = 1e-6;

fn course(load: usize, length: f64, slope: f64) -> Task {
    let stretch = Stretch {
        length: Length::metres(length),
        slope: Angle::radians(slope),
    };
    Task::Course {
        load,
        course: Course {
            stretches: vec![stretch],
        },
    }
}

fn for_seconds(until: f64) -> RunOptions {
    RunOptions {
        until,
        ..RunOptions::new(Task::Time)
    }
}

#[test]
fn a_motor_brings_a_flywheel_up_exponentially() {
    let inertia = 2e-5;
    let mut model = train(&[inertia]);
    let source = motor(0.05);
    let slope = source.torque_constant * source.back_emf / source.winding.to_ohms();
    let free = source.speed_at(0.0);
    drive(&mut model, 0, source);
    let run = run(&[model], &for_seconds(0.3));
    sound(&run, End::TimeUp);
    for sample in &run.samples {
        let expected = free * (1.0 - exp(-sample.time * slope / inertia));
        assert!(
            (sample.shafts[0] - expected).abs() < 1e-6 * free,
            "at {}: {} {expected}",
            sample.time,
            sample.shafts[0]
        );
    }
    close(
        "kinetic",
        run.energy.stored,
        0.5 * inertia * run.samples.last().expect("some").shafts[0].powi(2),
        1e-9,
    );
}

#[test]
fn a_constant_torque_accelerates_what_is_felt_through_a_planetary_set() {
    // Ring held: carrier / sun = 20 / (20 + 60) = 1/4; the load's torque falls away with η0 = 1.
    let mut model = train(&[1e-4, 0.0, 3e-3]);
    let set = elements::Planetary {
        sun: common::port(0),
        ring: common::port(1),
        carrier: common::port(2),
        sun_teeth: 20,
        ring_teeth: 60,
        planets: elements::Planets::Single,
    };
    add(&mut model, Element::Planetary(set), ElementLoss::default());
    add(
        &mut model,
        Element::Hold(elements::Hold {
            shaft: common::port(1),
        }),
        ElementLoss::default(),
    );
    // A weight on the sun that falls: constant torque m g r.
    let load = winch(&mut model, 0, 0.5, 0.01);
    let felt = 1e-4 + 0.5 * 1e-4 + 3e-3 / 16.0;
    let rate = 0.5 * STANDARD_GRAVITY * 0.01 / felt;
    let fall = 2.0;
    let task = Task::Lift {
        load,
        height: Length::metres(-fall),
    };
    let run = run(&[model], &RunOptions::new(task));
    sound(&run, End::Done);
    close("time", run.time, (2.0 * fall / (0.01 * rate)).sqrt(), 1e-8);
}

#[test]
fn with_losses_the_load_is_felt_by_the_square_of_the_ratio_over_the_efficiency() {
    // Falling weight drives 20:40 with η: J2 felt as J2 (1/2)² / η.
    let (eta, j1, j2) = (0.8, 1e-4, 2e-3);
    let mut model = train(&[j1, j2]);
    mesh(&mut model, 0, 1, [20, 40], efficiency(eta));
    let load = winch(&mut model, 0, 0.5, 0.01);
    let felt = j1 + 0.5 * 1e-4 + j2 / 4.0 / eta;
    let rate = 0.5 * STANDARD_GRAVITY * 0.01 / felt;
    let task = Task::Lift {
        load,
        height: Length::metres(-1.0),
    };
    let run = run(&[model], &RunOptions::new(task));
    sound(&run, End::Done);
    close("time", run.time, (2.0 / (0.01 * rate)).sqrt(), 1e-8);
    let at_end = rate * run.time;
    close(
        "lost",
        run.energy.lost,
        (1.0 / eta - 1.0) * 0.5 * j2 / 4.0 * at_end * at_end,
        1e-6,
    );
}

#[test]
fn a_vehicle_coasts_to_rest_over_its_stopping_distance() {
    let (speed, rolling, slope) = (2.0, 0.03, 0.05);
    let mut model = train(&[0.0]);
    let (load, _) = vehicle(&mut model, 0, 1.5, rolling);
    model.shafts[0].drag = Torque::ZERO;
    let options = RunOptions {
        from_speed: Speed::metres_per_s(speed),
        ..RunOptions::new(course(load, 100.0, slope))
    };
    // Steeper than rolling resistance holds: it stops, turns back and goes on downhill.
    let run = run(
        &[model.clone()],
        &RunOptions {
            until: 5.0,
            ..options.clone()
        },
    );
    sound(&run, End::TimeUp);
    let up = STANDARD_GRAVITY * (sin(slope) + rolling * cos(slope));
    let down = STANDARD_GRAVITY * (sin(slope) - rolling * cos(slope));
    let turn = speed / up;
    let furthest = speed * speed / (2.0 * up);
    let last = run.samples.last().expect("some");
    close(
        "way",
        last.distance.to_metres(),
        furthest - down * (5.0 - turn).powi(2) / 2.0,
        TIGHT,
    );
    // Flat enough: it rests there.
    let flat = RunOptions {
        task: course(load, 100.0, 0.02),
        ..options
    };
    let run = layshaft_motion::run(&[model], &flat);
    sound(&run, End::AtRest);
    let up = STANDARD_GRAVITY * (sin(0.02) + rolling * cos(0.02));
    close("stops after", run.time, speed / up, 2e-8);
    close(
        "over",
        run.samples.last().expect("some").distance.to_metres(),
        speed * speed / (2.0 * up),
        2e-8,
    );
    time_of(&run, |kind| matches!(kind, EventKind::Rests { .. }));
}

#[test]
fn a_slip_clutch_locks_up_when_both_sides_meet() {
    // Crank at constant speed on one side, a flywheel on the other: T = J dw/dt until w_crank.
    let (inertia, limit) = (4e-3, 0.25);
    let mut model = train(&[1e-5, inertia]);
    let slip = ElementLoss {
        release: Some(Release::Slip {
            limit: Torque::newton_metres(limit),
        }),
        ..ElementLoss::default()
    };
    let clutch = coupling(&mut model, 0, 1, slip);
    crank(&mut model, 0, 300, None);
    let speed = 300.0 * core::f64::consts::TAU / 60.0;
    let run = run(&[model], &for_seconds(3.0));
    sound(&run, End::TimeUp);
    let locked = time_of(
        &run,
        |kind| matches!(kind, EventKind::Sticks { element } if *element == clutch),
    );
    close("lock-up", locked, inertia * speed / limit, 1e-8);
    // Half of what the crank gives is lost: J w² in all.
    close("lost", run.energy.lost, 0.5 * inertia * speed * speed, 1e-7);
    close("supplied", run.energy.supplied, inertia * speed * speed, 1e-7);
}

#[test]
fn a_clutch_slips_when_its_limit_is_reached() {
    // A motor winds a viscous load; the clutch passes T = b w until b w = limit.
    let (inertia, viscous, limit) = (1e-4, 1e-4, 0.008);
    let mut model = train(&[1e-5, inertia]);
    let slip = ElementLoss {
        release: Some(Release::Slip {
            limit: Torque::newton_metres(limit),
        }),
        ..ElementLoss::default()
    };
    let clutch = coupling(&mut model, 0, 1, slip);
    let source = motor(0.0);
    let (stall, falls) = (
        source.torque(0.0).to_newton_metres(),
        source.torque_constant * source.back_emf / source.winding.to_ohms(),
    );
    drive(&mut model, 0, source);
    resist(&mut model, 1, 0.0, viscous);
    let run = run(&[model], &for_seconds(2.0));
    sound(&run, End::TimeUp);
    // At the start the clutch would have to pass nearly the whole motor torque: it slips from the first moment.
    let begins = time_of(
        &run,
        |kind| matches!(kind, EventKind::Slips { element, .. } if *element == clutch),
    );
    close("slips from", begins, 0.0, 1e-12);
    // Driving side: J1 w' = stall − falls w − limit; driven: J2 w' = limit − b w. They meet where the speeds are equal.
    let first = |t: f64| (stall - limit) / falls * (1.0 - exp(-falls * t / 1e-5));
    let second = |t: f64| limit / viscous * (1.0 - exp(-viscous * t / inertia));
    let (mut low, mut high) = (0.2, 3.0);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if first(middle) > second(middle) {
            low = middle
        } else {
            high = middle
        }
    }
    if high < 2.0 {
        let locked = time_of(
            &run,
            |kind| matches!(kind, EventKind::Sticks { element } if *element == clutch),
        );
        close("locks at", locked, high, 1e-7);
    }
}

#[test]
fn a_one_way_clutch_lets_the_load_run_on() {
    // The motor side brakes harder than the flywheel behind the clutch: it overruns at once.
    let mut model = train(&[1e-4, 1e-3]);
    let release = ElementLoss {
        release: Some(Release::OneWay { sense: 1.0 }),
        ..ElementLoss::default()
    };
    let clutch = coupling(&mut model, 0, 1, release);
    resist(&mut model, 0, 0.02, 0.0);
    resist(&mut model, 1, 0.01, 0.0);
    let options = RunOptions {
        from_speed: Speed::metres_per_s(50.0),
        ..for_seconds(20.0)
    };
    let run = run(&[model], &options);
    sound(&run, End::AtRest);
    let first = time_of(
        &run,
        |kind| matches!(kind, EventKind::Overruns { element } if *element == clutch),
    );
    close("overruns from", first, 0.0, 1e-12);
    let rests = time_of(
        &run,
        |kind| matches!(kind, EventKind::Rests { shaft: at } if *at == shaft(0)),
    );
    close("driving side rests", rests, 50.0 * 1e-4 / 0.02, 1e-8);
    close("load rests", run.time, 50.0 * 1e-3 / 0.01, 1e-8);
}

#[test]
fn a_one_way_clutch_takes_hold_when_the_load_has_slowed_to_the_drive() {
    // Above its free speed the motor brakes and the load overruns: w_a = w0 + (w − w0) exp(−k t / J), w_b = w − T t / J'.
    let (start, light, heavy, torque) = (400.0, 1e-5, 1e-3, 0.01);
    let mut model = train(&[light, heavy]);
    let release = ElementLoss {
        release: Some(Release::OneWay { sense: 1.0 }),
        ..ElementLoss::default()
    };
    let clutch = coupling(&mut model, 0, 1, release);
    let source = motor(0.0);
    let falls = source.torque_constant * source.back_emf / source.winding.to_ohms();
    let free = source.speed_at(0.0);
    drive(&mut model, 0, source);
    resist(&mut model, 1, torque, 0.0);
    let options = RunOptions {
        from_speed: Speed::metres_per_s(start),
        ..for_seconds(400.0)
    };
    let run = run(&[model], &options);
    sound(&run, End::TimeUp);
    close(
        "overruns from",
        time_of(&run, |kind| matches!(kind, EventKind::Overruns { .. })),
        0.0,
        1e-12,
    );
    let gap = |t: f64| start - torque / heavy * t - free - (start - free) * exp(-falls * t / light);
    let (mut low, mut high) = (1.0, 20.0);
    for _ in 0..100 {
        let middle = (low + high) / 2.0;
        if gap(middle) > 0.0 {
            low = middle
        } else {
            high = middle
        }
    }
    let engages = time_of(
        &run,
        |kind| matches!(kind, EventKind::Engages { element } if *element == clutch),
    );
    close("engages", engages, low, 1e-9);
    let last = run.samples.last().expect("some");
    close("steady", last.shafts[1], free - torque / falls, 1e-6);
}

#[test]
fn a_winch_without_drive_falls_freely_through_its_gears() {
    let mut model = train(&[0.0, 0.0]);
    mesh(&mut model, 0, 1, [10, 50], ElementLoss::default());
    let load = winch(&mut model, 1, 6.0, 0.015);
    let task = Task::Lift {
        load,
        height: Length::metres(-1.0),
    };
    let run = run(&[model], &RunOptions::new(task));
    sound(&run, End::Done);
    close("time", run.time, (2.0 / STANDARD_GRAVITY).sqrt(), 3e-7);
}

#[test]
fn a_worm_whose_wheel_is_heavy_jams() {
    use layshaft_powerflow::WormFriction;
    let mut model = train(&[1e-6, 0.05]);
    let worm = elements::Worm {
        worm: common::port(0),
        wheel: common::port(1),
        starts: 1,
        teeth: 12,
        left_hand: false,
    };
    let friction = WormFriction {
        lead: Angle::degrees(5.0),
        friction: 0.18,
        pressure: Angle::degrees(20.0),
        collar: None,
        at_rest: false,
    };
    let loss = ElementLoss {
        loss: Loss::Worm(friction),
        ..ElementLoss::default()
    };
    add(&mut model, Element::Worm(worm), loss);
    resist(&mut model, 0, 0.002, 0.0);
    let options = RunOptions {
        from_speed: Speed::metres_per_s(60.0),
        ..for_seconds(5.0)
    };
    let run = run(&[model], &options);
    sound(&run, End::AtRest);
    time_of(&run, |kind| matches!(kind, EventKind::Jams { .. }));
    close(
        "lost at once",
        run.energy.by_impact,
        0.5 * 1e-6 * 3600.0 + 0.5 * 0.05 * 25.0,
        1e-6,
    );
}

#[test]
fn a_motor_too_weak_stalls_at_once() {
    let mut model = train(&[1e-5]);
    drive(&mut model, 0, motor(0.05));
    resist(&mut model, 0, 0.05, 0.0);
    let run = run(&[model], &for_seconds(1.0));
    sound(&run, End::Stalled { source: 0 });
    close("time", run.time, 0.0, 1e-12);
    time_of(&run, |kind| matches!(kind, EventKind::Stall { source: 0 }));
}

#[test]
fn a_motor_stalls_on_the_way_up() {
    // On the flat it drives, on the slope it can't: it comes to rest there and is held.
    let mut model = train(&[0.0]);
    drive(&mut model, 0, motor(0.05));
    let (load, _) = vehicle(&mut model, 0, 2.0, 0.01);
    let stretch = |length, slope| Stretch {
        length: Length::metres(length),
        slope: Angle::radians(slope),
    };
    let task = Task::Course {
        load,
        course: Course {
            stretches: vec![stretch(1.0, 0.0), stretch(5.0, 0.02)],
        },
    };
    let run = run(&[model], &RunOptions::new(task));
    sound(&run, End::Stalled { source: 0 });
    let last = run.samples.last().expect("some");
    assert!(last.distance.to_metres() > 1.0 && last.speed.to_metres_per_s() == 0.0);
    time_of(&run, |kind| matches!(kind, EventKind::Stall { source: 0 }));
    let _ = log(1.0);
}
