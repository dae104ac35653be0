//! The root of a difference of two positive sums, on a logarithmic scale.
//!
//! Positions are plain numbers and a step is a factor, so that a step near the root takes neither
//! a logarithm nor an exponential.

use super::root::{Bracket, MAX_STEPS, NoRoot};

/// A function f = P − N of x > 0 at one point, P and N both positive; derivatives are taken
/// along u = ln x.
#[derive(Debug, Clone, Copy)]
pub struct Sample {
    /// P.
    pub positive: f64,
    /// N.
    pub negative: f64,
    /// dP/du.
    pub rise: f64,
    /// −dN/du.
    pub fall: f64,
    /// d²f/du².
    pub bend: f64,
}

impl Sample {
    fn value(&self) -> f64 {
        self.positive - self.negative
    }

    /// The length of Newton's step in u, and what a better step multiplies x with.
    ///
    /// Near the root it is Halley's step of f in u, −2ff′/(2f′² − ff″). Its exponential is
    /// taken as (2 + step)/(2 − step), the Padé approximant, which makes the whole step exact
    /// where f is a straight line in x or in 1/x. Far from the root it is Newton's step of
    /// ln(P/N), which is close to straight lines over many powers of ten.
    fn step(&self) -> (f64, f64) {
        let value = self.value();
        let slope = self.rise + self.fall;
        if value.abs() < 0.5 * (self.positive + self.negative) {
            let straight = 2.0 * slope * slope - value * self.bend;
            let half = value * slope;
            ((value / slope).abs(), (straight - half) / (straight + half))
        } else {
            let slope = self.rise / self.positive + self.fall / self.negative;
            let step = -libm::log(self.positive / self.negative) / slope;
            (step.abs(), libm::exp(step))
        }
    }
}

/// The root on a logarithmic scale, by Halley's method, safeguarded by halving.
///
/// The caller guarantees 0 < low and f(low) ≤ 0 ≤ f(high) for a function that rises through a
/// single root. A step that leaves the bracket, or whose Newton step is not at most half as
/// long as that before the last, is replaced by a halving of the bracket in u (after Press et
/// al., *Numerical Recipes*, "Newton–Raphson method using derivative", which gives the same
/// rule), so the bracket shrinks to the root whatever the function's shape.
///
/// Returns once Newton's step in u is shorter than `tolerance`; the better step is taken. With
/// cubic convergence the error left is of the order of its cube, so 4e-6 reaches the last bits.
///
/// Source: Halley 1694, Phil. Trans. 18, 136; the Padé approximants are common practice, no
/// source.
///
/// # Errors
/// [`NoRoot::NotConverged`] after [`MAX_STEPS`] evaluations or at the first NaN.
pub fn halley(
    mut bracket: Bracket,
    start: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> Sample,
) -> Result<f64, NoRoot> {
    let mut x = if bracket.holds(start) {
        start
    } else {
        bracket.middle_of_logarithms()
    };
    let (mut last, mut before_last) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..MAX_STEPS {
        let sample = f(x);
        let value = sample.value();
        if value.is_nan() {
            return Err(NoRoot::NotConverged);
        }
        // An exact zero returns here, so that no later step divides zero by zero.
        if value == 0.0 {
            return Ok(x);
        }
        bracket.keep_root(x, value);
        let (newton, factor) = sample.step();
        let next = x * factor;
        // Before the bracket is asked: so close to the root, rounding may put it on either side.
        if newton < tolerance {
            return Ok(next.clamp(bracket.low, bracket.high));
        }
        let shrinking = 2.0 * newton <= before_last;
        before_last = last;
        if bracket.holds(next) && shrinking {
            last = newton;
            x = next;
        } else {
            let middle = bracket.middle_of_logarithms();
            // The bracket is down to neighbouring numbers: nothing is left to halve.
            if !bracket.holds(middle) {
                return Ok(x);
            }
            last = libm::log(middle / x).abs();
            x = middle;
        }
    }
    Err(NoRoot::NotConverged)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A sum of c·xᵏ, each as (c, k).
    type Terms = [(f64, f64)];

    /// P − N with P the sum of the first list and N of the second.
    fn powers(positive: &Terms, negative: &Terms, x: f64) -> Sample {
        let moment = |terms: &Terms, order: i32| -> f64 {
            let of = |&(c, k): &(f64, f64)| c * libm::pow(x, k) * libm::pow(k, f64::from(order));
            terms.iter().map(of).sum()
        };
        Sample {
            positive: moment(positive, 0),
            negative: moment(negative, 0),
            rise: moment(positive, 1),
            fall: -moment(negative, 1),
            bend: moment(positive, 2) - moment(negative, 2),
        }
    }

    const WIDE: Bracket = Bracket {
        low: 1e-25,
        high: 1e5,
    };

    /// Powers whose root is known, from starts all over the bracket and beside it.
    #[test]
    fn halley_finds_the_root_from_anywhere_without_leaving_the_bracket() {
        let shapes: [(&Terms, &Terms, f64); 6] = [
            (&[(1.0, 1.0)], &[(1e-14, -1.0)], 1e-7),
            (&[(1.0, 1.0)], &[(1e-20, 0.0)], 1e-20),
            (&[(2.0, 0.0)], &[(6e-3, -1.0)], 3e-3),
            // Flat throughout; flat for ten powers of ten and steep at both ends; steep.
            (&[(1.0, 0.1)], &[(0.3, -0.1)], 2.43e-3),
            (
                &[(1.0, 0.0), (1e80, 5.0)],
                &[(1.5, 0.0), (1e-99, -4.0)],
                libm::pow(0.5, 0.2) * 1e-16,
            ),
            (&[(1.0, 9.0)], &[(1.0, -9.0)], 1.0),
        ];
        for (place, (positive, negative, known)) in shapes.into_iter().enumerate() {
            for start in (-30..=10).map(|n| 1.7 * libm::exp10(f64::from(n))) {
                let mut steps = 0;
                let root = halley(WIDE, start, 4e-6, |x| {
                    assert!(WIDE.low < x && x < WIDE.high, "left for {x:e}");
                    steps += 1;
                    powers(positive, negative, x)
                });
                let root = root.unwrap();
                assert!((root / known - 1.0).abs() < 1e-14, "{place}: {root:e}");
                assert!(steps < 70, "{place}: {steps} from {start:e}");
            }
        }
    }

    /// Where slopes mislead, halving alone must do.
    #[test]
    fn halley_ends_on_jumps_wrong_slopes_and_nan() {
        for (rise, bend) in [
            (0.0, 0.0),
            (-1.0, 3.0),
            (1e-3, -1e9),
            (f64::NAN, 1.0),
            (1.0, f64::INFINITY),
        ] {
            for (less, more) in [(1.0, 1.01), (1e-300, 1e300)] {
                let mut steps = 0;
                let root = halley(WIDE, 0.3, 4e-6, |x| {
                    assert!(WIDE.low < x && x < WIDE.high, "left for {x:e}");
                    steps += 1;
                    let (positive, negative) = if x < 0.5 { (less, more) } else { (more, less) };
                    Sample {
                        positive,
                        negative,
                        rise,
                        fall: 0.0,
                        bend,
                    }
                });
                let root = root.unwrap();
                assert!((root / 0.5 - 1.0).abs() < 1e-15, "{rise} {bend}: {root}");
                assert!(steps < 70, "{rise} {bend}: {steps}");
            }
        }
        // At once, and after a step.
        for good in [0, 1] {
            let mut steps = 0;
            let nan = halley(WIDE, 0.3, 4e-6, |x| {
                steps += 1;
                let factor = if steps > good { f64::NAN } else { 1.0 };
                powers(&[(factor, 9.0)], &[(1.0, -3.0)], x)
            });
            assert_eq!((nan, steps), (Err(NoRoot::NotConverged), good + 1));
        }
    }
}
