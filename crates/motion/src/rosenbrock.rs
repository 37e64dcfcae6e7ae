//! One step of the integration: a linearly implicit method of order 4(3) with six stages, stiffly accurate and L-stable.
//!
//! Trains are stiff: a motor of a few milligrams behind a slipping clutch finds its speed a million times faster than
//! the vehicle does, and an explicit method would take steps of that size all along. Here only a small matrix of the
//! independent speeds is taken apart per step. Way and energies depend on nothing but the speeds and ride along.
//!
//! Source: E. Hairer & G. Wanner, Solving Ordinary Differential Equations II, 2nd ed. 1996, section IV.7 and the code
//! RODAS described there (coefficients, dense output of order 3).

use crate::linear::Lu;

/// Why a step can't be taken.
pub(crate) trait Field {
    /// What stops it.
    type Stop;
    /// Rates of change of all components at the given independent speeds.
    fn rates(&mut self, speeds: &[f64]) -> Result<Vec<f64>, Self::Stop>;
}

const GAMMA: f64 = 0.25;
const A: [&[f64]; 5] = [
    &[],
    &[1.544],
    &[0.946_678_528_081_582_6, 0.255_701_169_898_328_4],
    &[
        3.314_825_187_068_521,
        2.896_124_015_972_201,
        0.998_641_913_997_781_7,
    ],
    &[
        1.221_224_509_226_641,
        6.019_134_481_288_629,
        12.537_083_329_320_87,
        -0.687_886_036_105_895,
    ],
];
const C: [&[f64]; 6] = [
    &[],
    &[-5.6688],
    &[-2.430_093_356_833_875, -0.206_359_915_709_191_5],
    &[
        -0.107_352_905_815_137_5,
        -9.594_562_251_023_355,
        -20.470_286_148_096_16,
    ],
    &[
        7.496_443_313_967_647,
        -10.246_804_314_643_52,
        -33.999_903_528_199_05,
        11.708_908_932_061_6,
    ],
    &[
        8.083_246_795_921_522,
        -7.981_132_988_064_893,
        -31.521_594_328_743_71,
        16.319_305_431_231_36,
        -6.058_818_238_834_054,
    ],
];
const D: [[f64; 5]; 2] = [
    [
        10.126_235_083_445_86,
        -7.487_995_877_610_167,
        -34.800_918_615_557_47,
        -7.992_771_707_568_823,
        1.025_137_723_295_662,
    ],
    [
        -0.676_280_339_280_125_3,
        6.087_714_651_680_015,
        16.430_843_208_924_78,
        24.767_225_114_183_86,
        -6.594_389_125_716_872,
    ],
];

/// The derivatives by the independent speeds at the start of a step, kept while the step's length is tried.
pub(crate) struct Slope {
    /// Per component, per independent speed.
    rows: Vec<Vec<f64>>,
    /// Rates at the start.
    rates: Vec<f64>,
}

/// Share of a speed's usual size by which it is moved to find a derivative; rates are linear in speeds nearly
/// everywhere, so that the symmetric difference is exact but for rounding.
const NUDGE: f64 = 1e-6;

impl Slope {
    pub(crate) fn at<F: Field>(field: &mut F, start: &[f64], usual: &[f64]) -> Result<Self, F::Stop> {
        let freedoms = usual.len();
        let rates = field.rates(&start[..freedoms])?;
        let mut rows = vec![vec![0.0; freedoms]; start.len()];
        let mut speeds = start[..freedoms].to_vec();
        for at in 0..freedoms {
            let nudge = NUDGE * usual[at];
            speeds[at] = start[at] + nudge;
            let above = field.rates(&speeds)?;
            speeds[at] = start[at] - nudge;
            let below = field.rates(&speeds)?;
            speeds[at] = start[at];
            for ((row, above), below) in rows.iter_mut().zip(above).zip(below) {
                row[at] = (above - below) / (2.0 * nudge);
            }
        }
        Ok(Self { rows, rates })
    }
}

/// A step that was taken.
pub(crate) struct Step {
    /// Its length.
    pub(crate) length: f64,
    start: Vec<f64>,
    /// The state behind it.
    pub(crate) end: Vec<f64>,
    /// Estimate of its error.
    pub(crate) error: Vec<f64>,
    bend: [Vec<f64>; 2],
}

impl Step {
    /// A step of no length.
    pub(crate) fn none(start: &[f64]) -> Self {
        let none = vec![0.0; start.len()];
        Self {
            length: 0.0,
            start: start.to_vec(),
            end: start.to_vec(),
            error: none.clone(),
            bend: [none.clone(), none],
        }
    }

    /// Takes a step of this length.
    pub(crate) fn take<F: Field>(
        field: &mut F,
        slope: &Slope,
        start: &[f64],
        length: f64,
    ) -> Result<Self, F::Stop> {
        let freedoms = slope.rows.first().map_or(0, Vec::len);
        let matrix = (0..freedoms)
            .map(|row| {
                let own = slope.rows[row].iter().enumerate();
                own.map(|(column, value)| {
                    let unit = if row == column {
                        1.0 / (length * GAMMA)
                    } else {
                        0.0
                    };
                    unit - value
                })
                .collect()
            })
            .collect();
        let lu = Lu::new(matrix);
        let mut stages: Vec<Vec<f64>> = Vec::with_capacity(6);
        let mut end = start.to_vec();
        for stage in 0..6 {
            let point = match stage {
                0 => start.to_vec(),
                5 => end.clone(),
                _ => sum(start, A[stage], &stages),
            };
            let rates = if stage == 0 {
                slope.rates.clone()
            } else {
                field.rates(&point[..freedoms])?
            };
            let mut side = rates;
            for (factor, earlier) in C[stage].iter().zip(&stages) {
                for (side, value) in side.iter_mut().zip(earlier) {
                    *side += factor / length * value;
                }
            }
            let change = solve(&lu, slope, side, length);
            if stage >= 4 {
                end = point.iter().zip(&change).map(|(a, b)| a + b).collect();
            }
            stages.push(change);
        }
        let bend = D.map(|factors| sum(&vec![0.0; start.len()], &factors, &stages));
        let error = stages.pop().unwrap_or_default();
        Ok(Self {
            length,
            start: start.to_vec(),
            end,
            error,
            bend,
        })
    }

    /// The state at a share of the step, to order 3.
    pub(crate) fn between(&self, share: f64) -> Vec<f64> {
        let rest = 1.0 - share;
        let value = |at: usize| {
            let bend = self.bend[0][at] + share * self.bend[1][at];
            self.start[at] * rest + share * (self.end[at] + rest * bend)
        };
        (0..self.start.len()).map(value).collect()
    }
}

fn sum(start: &[f64], factors: &[f64], stages: &[Vec<f64>]) -> Vec<f64> {
    let mut point = start.to_vec();
    for (factor, stage) in factors.iter().zip(stages) {
        for (value, change) in point.iter_mut().zip(stage) {
            *value += factor * change;
        }
    }
    point
}

/// `(1/(hγ) − ∂f/∂y) u = side`, speeds first, then what rides along.
fn solve(lu: &Lu, slope: &Slope, mut side: Vec<f64>, length: f64) -> Vec<f64> {
    let freedoms = slope.rows.first().map_or(0, Vec::len);
    let speeds = lu.solve(&side[..freedoms]);
    for (row, value) in slope.rows.iter().zip(&mut side).skip(freedoms) {
        let through: f64 = row.iter().zip(&speeds).map(|(a, b)| a * b).sum();
        *value = length * GAMMA * (*value + through);
    }
    side[..freedoms].copy_from_slice(&speeds);
    side
}

#[cfg(test)]
mod tests {
    use super::*;

    /// `y' = 1 − y²` from 0: `tanh t`, with `∫ y = ln cosh t` riding along.
    struct Falling;

    impl Field for Falling {
        type Stop = ();
        fn rates(&mut self, speeds: &[f64]) -> Result<Vec<f64>, ()> {
            Ok(vec![1.0 - speeds[0] * speeds[0], speeds[0]])
        }
    }

    fn after_one_second(steps: u32) -> (Vec<f64>, f64) {
        let mut state = vec![0.0, 0.0];
        let mut worst = 0.0_f64;
        let length = 1.0 / f64::from(steps);
        for at in 0..steps {
            let slope = Slope::at(&mut Falling, &state, &[1.0]).expect("smooth");
            let step = Step::take(&mut Falling, &slope, &state, length).expect("smooth");
            let middle = (f64::from(at) + 0.5) * length;
            worst = worst.max((step.between(0.5)[0] - libm::tanh(middle)).abs());
            state = step.end;
        }
        (state, worst)
    }

    #[test]
    fn halving_the_step_leaves_a_sixteenth_of_the_error() {
        let error = |steps| {
            let (state, _) = after_one_second(steps);
            [
                (state[0] - libm::tanh(1.0)).abs(),
                (state[1] - libm::log(libm::cosh(1.0))).abs(),
            ]
        };
        let ([speed, way], [half_speed, half_way]) = (error(100), error(200));
        assert!(
            speed / half_speed > 15.0 && way / half_way > 14.5,
            "{speed} {half_speed} {way} {half_way}"
        );
        assert!(half_speed < 1e-7 && half_way < 1e-7);
    }

    #[test]
    fn between_its_ends_a_step_is_of_order_three() {
        let (_, coarse) = after_one_second(16);
        let (_, fine) = after_one_second(32);
        assert!(coarse / fine > 7.0 && fine < 1e-6, "{coarse} {fine}");
    }

    /// `y' = −10⁹ (y − 3)`.
    struct Stiff;

    impl Field for Stiff {
        type Stop = ();
        fn rates(&mut self, speeds: &[f64]) -> Result<Vec<f64>, ()> {
            Ok(vec![-1e9 * (speeds[0] - 3.0)])
        }
    }

    #[test]
    fn a_stiff_speed_is_where_it_belongs_after_one_long_step() {
        let slope = Slope::at(&mut Stiff, &[0.0], &[1.0]).expect("smooth");
        let step = Step::take(&mut Stiff, &slope, &[0.0], 1.0).expect("smooth");
        assert!((step.end[0] - 3.0).abs() < 1e-6);
    }
}
