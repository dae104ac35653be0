//! Bracketed root finding, without any chemistry.
//!
//! Both finders, [`secant`] and [`halley`](super::halley), keep a bracket on which the function
//! changes sign and never step out of it, so they cannot diverge. Both refuse to run for ever:
//! past [`MAX_STEPS`] they return [`NoRoot::NotConverged`].

/// The number of evaluations after which a finder gives up. Halving alone narrows the
/// widest bracket used here (some hundred units wide) to the last bit in about 60 steps;
/// the rest is room for the safeguards.
pub const MAX_STEPS: u32 = 200;

/// Why no root was returned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NoRoot {
    /// The function has the same sign at both ends.
    NoSignChange,
    /// [`MAX_STEPS`] evaluations were not enough, or the function returned NaN.
    NotConverged,
}

/// An interval `low < high`; the functions below say what sign they expect at its ends.
#[derive(Debug, Clone, Copy)]
pub struct Bracket {
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

impl Bracket {
    fn middle(self) -> f64 {
        0.5 * (self.low + self.high)
    }

    /// The square root of the product, which itself might leave the range of numbers.
    pub(super) fn middle_of_logarithms(self) -> f64 {
        self.low.sqrt() * self.high.sqrt()
    }

    pub(super) fn holds(self, x: f64) -> bool {
        self.low < x && x < self.high
    }

    /// Narrows the bracket of a function that rises through its root.
    pub(super) fn keep_root(&mut self, x: f64, value: f64) {
        if value < 0.0 {
            self.low = x;
        } else {
            self.high = x;
        }
    }
}

/// Root of a function that is ≥ 0 at `low` and ≤ 0 at `high`, by the secant method,
/// safeguarded by bisection in the same way as [`halley`](super::halley::halley).
///
/// `first` is a point with its value, `second` a better guess. The error that a step leaves is
/// of the order of its product with the step before, relative to x (the method's superlinear
/// convergence); returns once that is below `tolerance`.
///
/// # Errors
/// [`NoRoot::NoSignChange`] if `f(high) > 0`; [`NoRoot::NotConverged`] after [`MAX_STEPS`]
/// steps or at a NaN; and whatever error `f` itself returns.
pub fn secant<E: From<NoRoot>>(
    mut bracket: Bracket,
    first: (f64, f64),
    second: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> Result<f64, E>,
) -> Result<f64, E> {
    let ((mut x0, mut f0), mut x) = (first, second);
    let mut known_sign_at_high = false;
    let (mut last, mut before_last) = (f64::INFINITY, f64::INFINITY);
    for _ in 0..MAX_STEPS {
        let value = f(x)?;
        if value.is_nan() || f0.is_nan() {
            return Err(NoRoot::NotConverged.into());
        }
        if value == 0.0 {
            return Ok(x);
        }
        if value > 0.0 {
            // Said here, for a step from the upper end to itself would look like a short one.
            if x >= bracket.high {
                return Err(NoRoot::NoSignChange.into());
            }
            bracket.low = bracket.low.max(x);
        } else {
            bracket.high = bracket.high.min(x);
            known_sign_at_high = true;
        }
        let step = value * (x - x0) / (f0 - value);
        let next = x + step;
        if step.abs() * step.abs().max((x - x0).abs()) <= tolerance * x * x {
            return Ok(next.clamp(bracket.low, bracket.high));
        }
        let good = step.is_finite() && bracket.holds(next) && 2.0 * step.abs() <= before_last;
        before_last = last;
        let next = if good {
            next
        } else {
            // Before halving towards the upper end, make sure that there is a root below it.
            if !known_sign_at_high {
                if f(bracket.high)? > 0.0 {
                    return Err(NoRoot::NoSignChange.into());
                }
                known_sign_at_high = true;
            }
            let middle = bracket.middle();
            if !bracket.holds(middle) {
                return Ok(x);
            }
            middle
        };
        last = (next - x).abs();
        (x0, f0) = (x, value);
        x = next;
    }
    Err(NoRoot::NotConverged.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn secant_finds_and_reports() {
        let f = |x: f64| Ok::<_, NoRoot>(2.0 - x * x);
        let bracket = Bracket {
            low: 0.0,
            high: 20.0,
        };
        let root = secant(bracket, (0.0, 2.0), 1.0, 1e-15, f).unwrap();
        assert!((root - core::f64::consts::SQRT_2).abs() < 1e-14);
        let none = secant(bracket, (0.0, 1.0), 1.0, 1e-14, |x| {
            Ok::<_, NoRoot>(1.0 + x)
        });
        assert_eq!(none, Err(NoRoot::NoSignChange));
    }
}
