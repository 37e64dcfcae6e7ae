//! DC motor from four numbers of its data sheet.
//!
//! `R = Vn / Is`, `Ke = (Vn − I0 R) / w0`, `Kt = Ts / (Is − I0)`; on a supply of `Vs` behind `Rs`:
//! `I = (Vs − Ke w) / (R + Rs)`, `T = Kt (I − I0 sgn w)`. Sheets are over-determined: `Kt` and `Ke` need not agree and
//! are never adjusted. Source: the linear brushed-motor model of any text on small motors, e.g. T. Kenjo & S. Nagamori,
//! Permanent-Magnet and Brushless DC Motors (1985), ch. 2 (from memory).

use layshaft_quantity::{AngularSpeed, Current, Power, Resistance, Torque, Voltage};

/// A motor on its supply.
#[derive(Clone, Debug, PartialEq)]
pub struct Motor {
    /// Winding resistance.
    pub winding: Resistance,
    /// Back-electromotive constant, V·s.
    pub back_emf: f64,
    /// Torque constant, N·m/A.
    pub torque_constant: f64,
    /// Current that its own friction takes.
    pub no_load_current: Current,
    /// Supply voltage; its sign is the sense.
    pub supply: Voltage,
    /// Resistance of supply and leads.
    pub supply_resistance: Resistance,
}

/// A motor's state at one speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotorPoint {
    /// Current taken.
    pub current: Current,
    /// Power at its terminals.
    pub electric: Power,
    /// What becomes heat in it.
    pub heat: Power,
}

impl Motor {
    /// From the data sheet's four numbers at nominal voltage.
    #[must_use]
    pub fn from_sheet(
        nominal: Voltage,
        no_load: (AngularSpeed, Current),
        stall: (Torque, Current),
        supply: Voltage,
        supply_resistance: Resistance,
    ) -> Self {
        let (no_load_speed, no_load_current) = no_load;
        let (stall_torque, stall_current) = stall;
        let winding = Resistance::ohms(nominal.to_volts() / stall_current.to_amperes());
        let induced = nominal - winding * no_load_current;
        Self {
            winding,
            back_emf: induced.to_volts() / no_load_speed.to_rad_per_s(),
            torque_constant: stall_torque.to_newton_metres() / (stall_current - no_load_current).to_amperes(),
            no_load_current,
            supply,
            supply_resistance,
        }
    }

    fn resistance(&self) -> f64 {
        (self.winding + self.supply_resistance).to_ohms()
    }

    /// Current at a speed.
    #[must_use]
    pub fn current(&self, speed: f64) -> Current {
        Current::amperes((self.supply.to_volts() - self.back_emf * speed) / self.resistance())
    }

    /// Torque on the shaft at a speed in rad/s, for rotation in the sense of the supply.
    #[must_use]
    pub fn torque(&self, speed: f64) -> Torque {
        let sense = self.supply.sign();
        let useful = self.current(speed).to_amperes() - self.no_load_current.to_amperes() * sense;
        Torque::newton_metres(self.torque_constant * useful)
    }

    /// The speed at which it gives a torque.
    #[must_use]
    pub fn speed_at(&self, torque: f64) -> f64 {
        let sense = self.supply.sign();
        let current = torque / self.torque_constant + self.no_load_current.to_amperes() * sense;
        (self.supply.to_volts() - current * self.resistance()) / self.back_emf
    }

    /// Largest torque at creeping speed, in the sense of the supply.
    #[must_use]
    pub fn creeping_torque(&self) -> Torque {
        self.torque(0.0).abs()
            * if self.torque(0.0).sign() == self.supply.sign() {
                1.0
            } else {
                -1.0
            }
    }

    /// Torque that its own friction holds at rest.
    #[must_use]
    pub fn holding_torque(&self) -> Torque {
        Torque::newton_metres(self.torque_constant * self.no_load_current.to_amperes())
    }

    /// Current, electric power and heat at a speed.
    #[must_use]
    pub fn point(&self, speed: AngularSpeed) -> MotorPoint {
        let current = self.current(speed.to_rad_per_s());
        let terminal = self.supply - self.supply_resistance * current;
        let electric = terminal * current;
        let moving = if speed == AngularSpeed::ZERO {
            Power::ZERO
        } else {
            self.torque(speed.to_rad_per_s()) * speed
        };
        MotorPoint {
            current,
            electric,
            heat: electric - moving,
        }
    }

    /// Whether the sheet gives more torque per ampere than back voltage per speed, which no motor can.
    #[must_use]
    pub fn makes_energy(&self) -> bool {
        self.torque_constant > self.back_emf * (1.0 + 1e-9)
    }
}
