"""Runs in time of small drivetrains by a general-purpose solver of differential equations.

This is the second road for runs: nothing here uses, reads or imitates the engine's code. Every drivetrain has its
equations of motion written out by hand below; SciPy's `solve_ivp` (DOP853, tight tolerances, located events) integrates
them piece by piece, a piece being a time in which nothing sticks, slips, engages or lets go. Each run leaves one file
`NAME.json` beside this script: a layout, what to run, and what has to come out.

What is assumed, once:

* DC motor, from the four numbers of its sheet at nominal voltage Vn:
  R = Vn/Is, Ke = (Vn - I0 R)/w0, Kt = Ts/(Is - I0); on a supply Vs: I = (Vs - Ke w)/R, T = Kt (I - I0 sgn w).
* Mesh of efficiency n between a shaft that turns i times as fast as the other: torques at its two ends are T and
  n i T when the fast end drives (T > 0 for w > 0), and T and i T/n when the slow end drives (T < 0). Power out is n
  times power in, whichever way the power goes.
* Planetary set, ring held, sun driving, R = z_ring/z_sun, efficiency n0 with the carrier held: the sun drives the ring
  in the carrier's frame, so the ring takes n0 R T and the carrier gets (1 + n0 R) T; w_carrier = w_sun/(1 + R).
* Body of mass m on a slope s with rolling coefficient c: m dv/dt = F - m g sin s - c m g cos s sgn v. It stays at rest
  where |F - m g sin s| is within c m g cos s. Slopes change where the middle of the body crosses from one to the next.
* Constant drag opposes rotation, viscous drag is proportional to speed, inertia takes J dw/dt.
* Slip clutch: |T| <= T_max, equal to T_max against the slip while it slips.
* One-way clutch, a drives b: w_a <= w_b; w_a = w_b carries T >= 0 from a to b; w_a < w_b carries nothing.

g = 9.80665 m/s^2. Energies are integrated beside the motion: at the motor's terminals, in every loss, stored and lifted.
"""

import json
import math
import pathlib

import numpy
import scipy
from scipy.integrate import solve_ivp

G = 9.80665
RPM = 2 * math.pi / 60
ROWS = 40
TIGHT = {"method": "DOP853", "rtol": 1e-11, "atol": 1e-13}


class Motor:
    """The linear motor of the four numbers, turning forward."""

    def __init__(self, nominal_v, no_load_rpm, no_load_a, stall_nm, stall_a):
        self.sheet = {
            "nominal_v": nominal_v, "no_load_rpm": no_load_rpm, "no_load_a": no_load_a,
            "stall_nm": stall_nm, "stall_a": stall_a,
        }
        self.v = nominal_v
        self.r = nominal_v / stall_a
        self.ke = (nominal_v - no_load_a * self.r) / (no_load_rpm * RPM)
        self.kt = stall_nm / (stall_a - no_load_a)
        self.i0 = no_load_a

    def current(self, w):
        return (self.v - self.ke * w) / self.r

    def torque(self, w):
        return self.kt * (self.current(w) - self.i0)

    def terminal_power(self, w):
        return self.v * self.current(w)

    def element(self, shaft):
        return {"id": "motor", "kind": "motor", "shaft": shaft, **self.sheet}


class Run:
    """Pieces of motion, one after the other; the state is kept across them."""

    def __init__(self, state):
        self.t, self.state = 0.0, numpy.array(state, dtype=float)
        self.pieces, self.events = [], []

    def piece(self, rhs, until, stops):
        """Integrates until a time or until one of `stops` (functions of t, y that cross zero upwards); says which."""
        def terminal(function):
            def event(t, y):
                return function(t, y)
            event.terminal, event.direction = True, 1
            return event
        solved = solve_ivp(rhs, (self.t, until), self.state, events=[terminal(s) for s in stops],
                           dense_output=True, max_step=(until - self.t) / 50 or 1.0, **TIGHT)
        assert solved.success, solved.message
        self.pieces.append((self.t, solved.t[-1], solved.sol))
        self.t, self.state = solved.t[-1], solved.y[:, -1].copy()
        hit = [at for at, times in enumerate(solved.t_events) if len(times)]
        return hit[0] if hit else None

    def event(self, kind):
        self.events.append({"t_s": self.t, "kind": kind})

    def at(self, t):
        for start, end, solution in self.pieces:
            if start <= t <= end:
                return solution(t)
        raise ValueError(t)

    def samples(self, row):
        times = [self.t * k / ROWS for k in range(ROWS + 1)]
        return [{"t_s": t, **row(self.at(t))} for t in times]


def layout(title, shafts, elements, **more):
    return {"layshaft": 1, "title": title, "shafts": shafts, "elements": elements, **more}


def shaft(id, inertia=0.0, drag=0.0, viscous=0.0):
    return {"id": id, "inertia_kgm2": inertia, "drag_nm": drag, "viscous_nms": viscous}


def write(name, document, what, run, row, energy):
    out = {
        "made_with": f"SciPy {scipy.__version__}, NumPy {numpy.__version__}, solve_ivp DOP853, rtol 1e-11",
        "layout": document, "run": what, "samples": run.samples(row), "events": run.events, "energy": energy,
    }
    pathlib.Path(__file__).with_name(f"{name}.json").write_text(text(out))
    print(name, [f"{event['kind']} {event['t_s']:.6g} s" for event in run.events])


def text(out):
    """JSON with one sample, event, shaft or element per line."""
    def value(v, depth):
        pad, inner = " " * depth, " " * (depth + 1)
        if isinstance(v, dict) and depth < 2:
            return "{\n" + ",\n".join(f"{inner}{json.dumps(k)}: {value(x, depth + 1)}" for k, x in v.items()) + f"\n{pad}}}"
        if isinstance(v, list) and depth < 3 and v:
            return "[\n" + ",\n".join(inner + value(x, 9) for x in v) + f"\n{pad}]"
        return json.dumps(v)
    return value(rounded(out), 0) + "\n"


def rounded(v):
    if isinstance(v, float):
        return float(f"{float(v):.12g}") + 0.0
    if isinstance(v, dict):
        return {k: rounded(x) for k, x in v.items()}
    if isinstance(v, list):
        return [rounded(x) for x in v]
    return v


def check_energy(into, *out):
    assert abs(into - sum(out)) <= 1e-8 * max(abs(into), *map(abs, out)), (into, out)


# 1. A motor drives a vehicle over a level stretch and a hill, through one gear stage ----------------------------------

def vehicle_climbs():
    """J_m dw/dt = T_m - T;  J_a dw_a/dt = T_a - r F;  m dv/dt = F - resistance;  w = i w_a, v = r w_a;
    T_a = n i T (T > 0) or i T/n (T < 0). In v: M dv/dt = T_a/r - resistance with M = m + J_a/r^2."""
    motor = Motor(12, 310, 0.09, 0.36, 1.3)
    i, n, r, m, c = 52 / 20, 0.85, 0.0312, 2.4, 0.03
    j_motor, j_axle = 4e-4, 3e-4
    course = [(3.0, 0.0), (1.5, 10.0)]
    mass = m + j_axle / r**2

    def tooth(v, slope):
        resistance = m * G * (math.sin(slope) + c * math.cos(slope))
        t_m = motor.torque(i * v / r)
        for k in (n * i, i / n):
            # T from eliminating dv/dt: J_m (i/r) (k T/r - resistance)/mass = T_m - T.
            t = (t_m + j_motor * i / r * resistance / mass) / (1 + j_motor * i / r * k / r / mass)
            if (t >= 0) == (k == n * i):
                return t, k, resistance
        raise AssertionError

    def rhs(slope):
        def f(t, y):
            x, v = y[:2]
            tooth_t, k, resistance = tooth(v, slope)
            w = i * v / r
            loss = tooth_t * w - k * tooth_t * v / r
            return [v, (k * tooth_t / r - resistance) / mass, motor.terminal_power(w), motor.torque(w) * w, loss,
                    m * G * c * math.cos(slope) * v, m * G * math.sin(slope) * v]
        return f

    run, end = Run([0.0] * 7), 0.0
    for length, degrees in course:
        end += length
        assert run.piece(rhs(math.radians(degrees)), run.t + 100, [lambda t, y, end=end: y[0] - end]) == 0
    run.event("end")
    v = run.state[1]
    w = i * v / r
    kinetic = 0.5 * mass * v**2 + 0.5 * j_motor * w**2
    _, _, electric, mechanical, mesh, rolling, climb = run.state
    check_energy(mechanical, mesh, rolling, climb, kinetic)
    write("vehicle-climbs", layout(
        "Vehicle on a level stretch and a hill",
        [shaft("m", j_motor), shaft("axle", j_axle)],
        [{"id": "g", "kind": "mesh", "a": "m", "b": "axle", "teeth": [20, 52], "form": "bevel", "sense": "same", "efficiency": n},
         motor.element("m"),
         {"id": "car", "kind": "vehicle", "shafts": ["axle"], "wheel_mm": 2000 * r, "mass_kg": m, "rolling": c}],
    ), {"course": [list(part) for part in course]}, run,
        lambda y: {"x_m": y[0], "v_m_s": y[1], "motor_rpm": i * y[1] / r / RPM, "current_a": motor.current(i * y[1] / r)},
        {"electric_j": electric, "motor_heat_j": electric - mechanical, "mesh_j": mesh, "rolling_j": rolling,
         "lifted_j": climb, "kinetic_j": kinetic})


# 2. A motor lifts a mass by two stages ---------------------------------------------------------------------------------

def hoist_lifts():
    """Each shaft: J dw/dt = torques - drag - b w. All stages drive forward: torque through a stage is times n i.
    J_1 dw/dt = T_m - D_1 - T_a;  J_2 dw_2/dt = n1 i1 T_a - D_2 - b_2 w_2 - T_b;
    (J_3 + M r^2) dw_3/dt = n2 i2 T_b - D_3 - b_3 w_3 - M g r; speeds positive in their own sense."""
    motor = Motor(12, 310, 0.09, 0.36, 1.3)
    i1, i2, n1, n2 = 42 / 14, 52 / 13, 0.9, 0.88
    mass, r, lift = 6.0, 0.0155, 1.0
    j = (5e-4, 2e-4, 8e-4)
    drag, viscous = (0.002, 0.003, 0.01), (2e-5, 1e-4, 5e-3)
    e1, e2 = n1 * i1, n2 * i2

    def losses(w):
        speeds = (w, w / i1, w / i1 / i2)
        return speeds, [d + b * s for d, b, s in zip(drag, viscous, speeds)]

    def torques(w):
        speeds, d = losses(w)
        inertia = j[0] + (j[1] + (j[2] + mass * r**2) / (i2 * e2)) / (i1 * e1)
        a = (motor.torque(w) - d[0] - (d[1] + (d[2] + mass * G * r) / e2) / e1) / inertia
        t_a = motor.torque(w) - d[0] - j[0] * a
        t_b = e1 * t_a - d[1] - j[1] * a / i1
        assert t_a > 0 and t_b > 0
        return a, t_a, t_b, speeds, d

    def rhs(t, y):
        w = y[1]
        a, t_a, t_b, speeds, d = torques(w)
        mesh = (1 - n1) * t_a * speeds[0] + (1 - n2) * t_b * speeds[1]
        return [r * speeds[2], a, motor.terminal_power(w), motor.torque(w) * w, mesh,
                sum(x * s for x, s in zip(d, speeds)), mass * G * r * speeds[2]]

    run = Run([0.0] * 7)
    assert run.piece(rhs, 100, [lambda t, y: y[0] - lift]) == 0
    run.event("end")
    speeds, _ = losses(run.state[1])
    kinetic = sum(0.5 * x * s**2 for x, s in zip(j, speeds)) + 0.5 * mass * (r * speeds[2])**2
    _, _, electric, mechanical, mesh, dragged, lifted = run.state
    check_energy(mechanical, mesh, dragged, lifted, kinetic)
    write("hoist-lifts", layout(
        "Hoist of two stages",
        [shaft(id, x, d, b) for id, x, d, b in zip(("m", "mid", "drum"), j, drag, viscous)],
        [{"id": "g1", "kind": "mesh", "a": "m", "b": "mid", "teeth": [14, 42], "efficiency": n1},
         {"id": "g2", "kind": "mesh", "a": "mid", "b": "drum", "teeth": [13, 52], "efficiency": n2},
         motor.element("m"),
         {"id": "winch", "kind": "winch", "shaft": "drum", "drum_mm": 30, "rope_mm": 1, "layers": 1, "mass_kg": mass}],
    ), {"lift_m": lift}, run,
        lambda y: {"x_m": y[0], "v_m_s": r * y[1] / i1 / i2, "motor_rpm": y[1] / RPM, "current_a": motor.current(y[1])},
        {"electric_j": electric, "motor_heat_j": electric - mechanical, "mesh_j": mesh, "drag_j": dragged,
         "lifted_j": lifted, "kinetic_j": kinetic})


# 3. A slip clutch brings a flywheel up to speed ------------------------------------------------------------------------

def clutch_slips():
    """Slipping: J_m dw_m/dt = T_m - T_max, J_f dw_f/dt = T_max - L; stuck: (J_m + J_f) dw/dt = T_m - L, for which the
    clutch carries T = L + J_f dw/dt, to be within T_max."""
    motor = Motor(12, 310, 0.09, 0.36, 1.3)
    j_m, j_f, limit, load, until = 3e-4, 6e-3, 0.12, 0.05, 3.0

    def energies(w_m, w_f, slip):
        return [motor.terminal_power(w_m), motor.torque(w_m) * w_m, slip, load * w_f]

    def slipping(t, y):
        w_m, w_f = y[:2]
        return [(motor.torque(w_m) - limit) / j_m, (limit - load) / j_f, *energies(w_m, w_f, limit * (w_m - w_f))]

    def stuck(t, y):
        a = (motor.torque(y[0]) - load) / (j_m + j_f)
        return [a, a, *energies(y[0], y[0], 0.0)]

    run = Run([0.0] * 6)
    # From rest, stuck would ask for more than the clutch has.
    assert load + j_f * (motor.torque(0) - load) / (j_m + j_f) > limit
    run.event("slip")
    assert run.piece(slipping, until, [lambda t, y: y[1] - y[0] if t > 1e-3 else -1.0]) == 0
    run.event("stick")
    run.state[1] = run.state[0]
    assert abs(load + j_f * (motor.torque(run.state[0]) - load) / (j_m + j_f)) < limit
    assert run.piece(stuck, until, []) is None
    run.event("end")
    w_m, w_f, electric, mechanical, slip, loaded = run.state
    kinetic = 0.5 * j_m * w_m**2 + 0.5 * j_f * w_f**2
    check_energy(mechanical, slip, loaded, kinetic)
    write("clutch-slips", layout(
        "Flywheel brought up by a slip clutch",
        [shaft("m", j_m), shaft("f")],
        [{"id": "clutch", "kind": "slip_clutch", "a": "m", "b": "f", "limit_nm": limit},
         motor.element("m"),
         {"id": "flywheel", "kind": "load", "shaft": "f", "torque_nm": load, "inertia_kgm2": j_f}],
    ), {"until_s": until}, run,
        lambda y: {"motor_rpm": y[0] / RPM, "current_a": motor.current(y[0]), "rpm": {"f": y[1] / RPM}},
        {"electric_j": electric, "motor_heat_j": electric - mechanical, "slip_j": slip, "load_j": loaded,
         "kinetic_j": kinetic})


# 4. A vehicle outruns its motor downhill over a one-way clutch ---------------------------------------------------------

def clutch_overruns():
    """Engaged: (J_m + J_a + m r^2) dw/dt = T_m - d_m - d_a - r F; it carries T = (J_a + m r^2) dw/dt + d_a + r F >= 0.
    Overrunning: J_m dw_m/dt = T_m - d_m and (J_a + m r^2) dw_a/dt = -d_a - r F, until w_a falls to w_m."""
    motor = Motor(12, 310, 0.09, 0.36, 1.3)
    m, r, c = 1.8, 0.03, 0.02
    j_m, j_a, d_m, d_a = 4e-4, 9e-4, 0.004, 0.006
    course = [(2.0, 0.0), (2.0, -8.0), (9.0, 0.0)]
    outer = j_a + m * r**2

    def resistance(x):
        end = 0.0
        for length, degrees in course:
            end += length
            if x < end - 1e-12:
                break
        slope = math.radians(degrees)
        return m * G * math.sin(slope), m * G * c * math.cos(slope)

    def carried(w, x):
        force = sum(resistance(x))
        a = (motor.torque(w) - d_m - d_a - r * force) / (j_m + outer)
        return a, outer * a + d_a + r * force

    def energies(w_m, w_a, forces):
        return [motor.terminal_power(w_m), motor.torque(w_m) * w_m, d_m * w_m + d_a * w_a, forces[1] * r * w_a,
                forces[0] * r * w_a]

    def engaged(forces):
        def f(t, y):
            w = y[1]
            a = (motor.torque(w) - d_m - d_a - r * sum(forces)) / (j_m + outer)
            return [r * w, a, a, *energies(w, w, forces)]
        return f

    def overrunning(forces):
        def f(t, y):
            _, w_m, w_a = y[:3]
            return [r * w_a, (motor.torque(w_m) - d_m) / j_m, (-d_a - r * sum(forces)) / outer,
                    *energies(w_m, w_a, forces)]
        return f

    run, end, open_ = Run([0.0] * 8), 0.0, False
    for length, _ in course:
        start, end = end, end + length
        middle, lets_go = (start + end) / 2, False
        forces = resistance(middle)
        while run.state[0] < end - 1e-9:
            if not open_ and (lets_go or carried(run.state[1], middle)[1] < 0):
                open_ = True
                run.event("slip")
            there = lambda t, y, end=end: y[0] - end
            if open_:
                if run.piece(overrunning(forces), run.t + 100, [there, lambda t, y: y[1] - y[2]]) == 1:
                    open_ = False
                    run.state[2] = run.state[1]
                    run.event("stick")
            else:
                lets_go = run.piece(engaged(forces), run.t + 100, [there, lambda t, y: -carried(y[1], middle)[1]]) == 1
    run.event("end")
    assert [e["kind"] for e in run.events] == ["slip", "stick", "end"], run.events
    _, w_m, w_a, electric, mechanical, dragged, rolling, climb = run.state
    kinetic = 0.5 * j_m * w_m**2 + 0.5 * outer * w_a**2
    check_energy(mechanical, dragged, rolling, climb, kinetic)
    write("clutch-overruns", layout(
        "Vehicle that outruns its motor downhill",
        [shaft("m", j_m, d_m), shaft("axle", j_a, d_a)],
        [{"id": "free", "kind": "one_way", "a": "m", "b": "axle"},
         motor.element("m"),
         {"id": "car", "kind": "vehicle", "shafts": ["axle"], "wheel_mm": 2000 * r, "mass_kg": m, "rolling": c}],
    ), {"course": [list(part) for part in course]}, run,
        lambda y: {"x_m": y[0], "v_m_s": r * y[2], "motor_rpm": y[1] / RPM, "current_a": motor.current(y[1]),
                   "rpm": {"axle": y[2] / RPM}},
        {"electric_j": electric, "motor_heat_j": electric - mechanical, "drag_j": dragged, "rolling_j": rolling,
         "lifted_j": climb, "kinetic_j": kinetic})


# 5. A vehicle without a motor coasts uphill; it stays, or rolls back ---------------------------------------------------

def coasts(name, degrees, until):
    """Axle on a flywheel by a mesh of efficiency n, which turns i times as fast: m dv/dt = -m g sin s - R - X/r with
    R = c m g cos s sgn v, and X what the mesh takes from the axle. Flywheel J, drag D: its tooth torque is
    T = J dw/dt + D sgn w, and X = i T/n where T drives the flywheel (T w > 0), X = n i T where the flywheel drives.
    At rest it stays while m g sin s is less than c m g cos s: the rest only holds more."""
    m, r, c, v0 = 1.5, 0.03, 0.03, 1.2
    i, n, j, d = 40 / 20, 0.9, 2e-4, 0.004
    slope = math.radians(degrees)
    pull, rolls = m * G * math.sin(slope), m * G * c * math.cos(slope)

    def motion(v, sense):
        w = i * v / r
        for driven in (True, False):
            k = i / n if driven else i * n
            a = (-pull - sense * rolls - k / r * d * sense) / (m + k / r * j * i / r)
            t = j * a * i / r + d * sense
            if (t * sense >= 0) == driven:
                return a, t, k
        raise AssertionError

    def rhs(sense):
        def f(t, y):
            v = y[1]
            a, tooth, k = motion(v, sense)
            w = i * v / r
            return [v, a, k * tooth * v / r - tooth * w, d * sense * w, rolls * sense * v, pull * v]
        return f

    run = Run([0.0, v0, 0.0, 0.0, 0.0, 0.0])
    assert run.piece(rhs(1), until, [lambda t, y: -y[1]]) == 0
    run.event("stick")
    run.state[1] = 0.0
    if pull > rolls:
        run.events.pop()
        a, _, _ = motion(-1e-9, -1)
        assert a < 0
        assert run.piece(rhs(-1), until, []) is None
    else:
        assert run.piece(lambda t, y: [0.0] * 6, until, []) is None
    run.event("end")
    x, v, mesh, dragged, rolling, climb = run.state
    start, kinetic = (0.5 * m * s**2 + 0.5 * j * (i * s / r)**2 for s in (v0, v))
    assert min(mesh, dragged, rolling) > 0
    check_energy(start, mesh, dragged, rolling, climb, kinetic)
    write(name, layout(
        "Vehicle that coasts uphill",
        [shaft("axle"), shaft("f", j, d)],
        [{"id": "g", "kind": "mesh", "a": "axle", "b": "f", "teeth": [40, 20], "form": "bevel", "sense": "same", "efficiency": n},
         {"id": "car", "kind": "vehicle", "shafts": ["axle"], "wheel_mm": 2000 * r, "mass_kg": m, "rolling": c, "forward": "positive"}],
    ), {"course": [[100.0, degrees]], "from_speed_m_s": v0, "until_s": until}, run,
        lambda y: {"x_m": y[0], "v_m_s": y[1], "rpm": {"f": i * y[1] / r / RPM}},
        {"start_kinetic_j": start, "mesh_j": mesh, "drag_j": dragged, "rolling_j": rolling, "lifted_j": climb,
         "kinetic_j": kinetic})


# 6. A planetary set speeds up: closed form ------------------------------------------------------------------------------

def planetary_speeds_up():
    """J_s dw/dt = T_m - T, J_c dw_c/dt = (1 + n0 R) T - L, w_c = w/(1 + R), T_m = T_0 (1 - w/w_0): so
    J dw/dt = T_0 (1 - w/w_0) - L/(1 + n0 R) with J = J_s + J_c/((1 + R)(1 + n0 R)), solved by
    w = w_end (1 - exp(-t/tau)), w_end = w_0 (1 - L/((1 + n0 R) T_0)), tau = J w_0/T_0."""
    motor = Motor(12, 310, 0.09, 0.36, 1.3)
    ratio, n0 = 60 / 20, 0.95
    j_s, j_c, load, until = 3e-4, 8e-3, 0.3, 0.4
    t_0, w_0 = 0.36, 310 * RPM
    gain = 1 + n0 * ratio
    inertia = j_s + j_c / (1 + ratio) / gain
    w_end, tau = w_0 * (1 - load / gain / t_0), inertia * w_0 / t_0

    def rhs(t, y):
        w = y[0]
        a = (motor.torque(w) - load / gain) / inertia
        tooth = motor.torque(w) - j_s * a
        assert tooth > 0
        return [a, motor.terminal_power(w), motor.torque(w) * w, tooth * (w - gain * w / (1 + ratio)), load * w / (1 + ratio)]

    run = Run([0.0] * 5)
    assert run.piece(rhs, until, []) is None
    run.event("end")
    for _, _, solution in run.pieces:
        for t in numpy.linspace(0, until, 20):
            assert abs(solution(t)[0] - w_end * (1 - math.exp(-t / tau))) < 1e-8 * w_end
    w, electric, mechanical, set_, loaded = run.state
    kinetic = 0.5 * j_s * w**2 + 0.5 * j_c * (w / (1 + ratio))**2
    check_energy(mechanical, set_, loaded, kinetic)
    write("planetary-speeds-up", layout(
        "Planetary set speeding up",
        [shaft("sun", j_s), shaft("ring"), shaft("arm", j_c)],
        [{"id": "set", "kind": "planetary", "sun": "sun", "ring": "ring", "carrier": "arm",
          "teeth": {"sun": 20, "ring": 60}, "efficiency": n0},
         {"id": "hold", "kind": "brake", "shaft": "ring"},
         motor.element("sun"),
         {"id": "load", "kind": "load", "shaft": "arm", "torque_nm": load}],
        positions=[{"id": "held", "name": "Held", "engaged": ["hold"]}],
    ), {"until_s": until}, run,
        lambda y: {"motor_rpm": y[0] / RPM, "current_a": motor.current(y[0]), "rpm": {"arm": y[0] / (1 + ratio) / RPM}},
        {"electric_j": electric, "motor_heat_j": electric - mechanical, "mesh_j": set_, "load_j": loaded,
         "kinetic_j": kinetic})


if __name__ == "__main__":
    vehicle_climbs()
    hoist_lifts()
    clutch_slips()
    clutch_overruns()
    coasts("coasts-and-stays", 1.0, 6.0)
    coasts("coasts-and-rolls-back", 6.0, 1.6)
    planetary_speeds_up()
