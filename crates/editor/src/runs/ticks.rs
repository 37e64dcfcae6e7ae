//! Round steps for axes, and how many decimals they need.

/// The round step (1, 2 or 5 times a power of ten) that cuts a span into at most so many parts.
pub fn step(span: f64, most: usize) -> f64 {
    let least = span / most.max(1) as f64;
    if !least.is_finite() || least <= 0.0 {
        return 1.0;
    }
    let mut decade = 1.0;
    while decade > least {
        decade /= 10.0;
    }
    while decade * 10.0 <= least {
        decade *= 10.0;
    }
    let of_decade = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|part| decade * part >= least * (1.0 - 1e-9));
    decade * of_decade.unwrap_or(10.0)
}

/// An axis: its ends on round numbers, and the ticks between.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    pub least: f64,
    pub greatest: f64,
    pub step: f64,
}

impl Scale {
    /// Holds all values and zero, ends on round numbers.
    pub fn round(values: impl Iterator<Item = f64>, most: usize) -> Self {
        let (mut least, mut greatest) = (0.0_f64, 0.0_f64);
        for value in values.filter(|value| value.is_finite()) {
            least = least.min(value);
            greatest = greatest.max(value);
        }
        if greatest - least < 1e-12 {
            greatest = 1.0;
        }
        let step = step(greatest - least, most);
        Self {
            least: (least / step + 1e-9).floor().min(0.0) * step,
            greatest: (greatest / step - 1e-9).ceil() * step,
            step,
        }
    }

    /// From zero to exactly the last value.
    pub fn up_to(last: f64, most: usize) -> Self {
        let greatest = if last > 1e-12 { last } else { 1.0 };
        Self {
            least: 0.0,
            greatest,
            step: step(greatest, most),
        }
    }

    /// From exactly the least to exactly the greatest value.
    pub fn between(least: f64, greatest: f64, most: usize) -> Self {
        if greatest - least < 1e-12 {
            return Self::up_to(greatest, most);
        }
        Self {
            least,
            greatest,
            step: step(greatest - least, most),
        }
    }

    /// Share of the axis at a value.
    pub fn share(&self, value: f64) -> f64 {
        (value - self.least) / (self.greatest - self.least)
    }

    /// Values of the ticks with their texts.
    pub fn ticks(&self) -> Vec<(f64, String)> {
        let decimals = decimals(self.step);
        let first = (self.least / self.step - 1e-6).ceil();
        let mut ticks = Vec::new();
        for number in 0..40 {
            let value = (first + f64::from(number)) * self.step;
            if value > self.greatest + self.step * 1e-6 {
                break;
            }
            ticks.push((value, written(value, decimals)));
        }
        ticks
    }
}

fn decimals(step: f64) -> usize {
    let mut decimals = 0;
    let mut scaled = step;
    while decimals < 9 && scaled < 0.999_999 {
        scaled *= 10.0;
        decimals += 1;
    }
    decimals
}

fn written(value: f64, decimals: usize) -> String {
    let value = if value.abs() < 1e-12 { 0.0 } else { value };
    format!("{value:.decimals$}").replace('-', "\u{2212}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(values: &[f64], expected: &[&str]) {
        let scale = Scale::round(values.iter().copied(), 4);
        let texts: Vec<String> = scale.ticks().into_iter().map(|(_, text)| text).collect();
        assert_eq!(texts, expected, "{values:?}");
    }

    #[test]
    fn ends_and_ticks_are_round() {
        check(&[0.0, 3.7], &["0", "1", "2", "3", "4"]);
        check(&[0.12, 0.31], &["0.0", "0.1", "0.2", "0.3", "0.4"]);
        check(&[-12.0, 30.0], &["\u{2212}20", "0", "20", "40"]);
        check(&[0.0, 0.0], &["0.0", "0.5", "1.0"]);
        check(&[4800.0], &["0", "2000", "4000", "6000"]);
        check(&[f64::NAN, 2.0], &["0.0", "0.5", "1.0", "1.5", "2.0"]);
    }

    #[test]
    fn an_axis_of_time_ends_with_the_run() {
        let scale = Scale::up_to(8.31, 5);
        assert_eq!((scale.greatest, scale.step), (8.31, 2.0));
        assert_eq!(scale.ticks().len(), 5);
        assert_eq!(scale.share(8.31), 1.0);
    }
}
