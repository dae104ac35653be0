//! Bracketed root finding, without any chemistry.
//!
//! Both finders keep a bracket on which the function changes sign and never step out of
//! it, so they cannot diverge. Both refuse to run for ever: past [`MAX_STEPS`] they
//! return [`NoRoot::NotConverged`].

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

    fn holds(self, x: f64) -> bool {
        self.low < x && x < self.high
    }

    /// Narrows the bracket of a function that rises through its root.
    fn keep_root(&mut self, x: f64, value: f64) {
        if value < 0.0 {
            self.low = x;
        } else {
            self.high = x;
        }
    }
}

/// A function's value and slope at one point.
#[derive(Debug, Clone, Copy)]
pub struct Sample {
    /// f(x). Only its sign must be right far from the root.
    pub value: f64,
    /// f′(x).
    pub slope: f64,
}

/// Root of a rising function by Newton's method, safeguarded by bisection.
///
/// The caller guarantees f(low) ≤ 0 ≤ f(high) for a function that rises through a single
/// root. A Newton step that leaves the bracket, or that is not at most half as long as the
/// step before the last, is replaced by a halving (after Press et al., *Numerical
/// Recipes*, "Newton–Raphson method using derivative", which gives the same rule), so the
/// bracket shrinks to the root whatever the function's shape.
///
/// Returns once a Newton step is shorter than `tolerance`; the step is taken. With
/// quadratic convergence the error left is of the order of its square, so 1e-9 reaches
/// the last bits of an x of order one.
///
/// # Errors
/// [`NoRoot::NotConverged`] after [`MAX_STEPS`] evaluations or at the first NaN.
pub fn newton(
    mut bracket: Bracket,
    start: f64,
    tolerance: f64,
    mut f: impl FnMut(f64) -> Sample,
) -> Result<f64, NoRoot> {
    let mut x = if bracket.holds(start) {
        start
    } else {
        bracket.middle()
    };
    let mut last = bracket.high - bracket.low;
    let mut before_last = last;
    for _ in 0..MAX_STEPS {
        let Sample { value, slope } = f(x);
        if value.is_nan() {
            return Err(NoRoot::NotConverged);
        }
        // An exact zero returns here, so that no later step divides zero by zero.
        if value == 0.0 {
            return Ok(x);
        }
        bracket.keep_root(x, value);
        let step = -value / slope;
        let newton = x + step;
        // Before the bracket is asked: so close to the root, rounding may put it on either side.
        if step.abs() < tolerance {
            return Ok(newton.clamp(bracket.low, bracket.high));
        }
        let shrinking = 2.0 * step.abs() <= before_last;
        before_last = last;
        if bracket.holds(newton) && shrinking {
            last = step.abs();
            x = newton;
        } else {
            let middle = bracket.middle();
            // The bracket is down to neighbouring numbers: nothing is left to halve.
            if !bracket.holds(middle) {
                return Ok(x);
            }
            last = (middle - x).abs();
            x = middle;
        }
    }
    Err(NoRoot::NotConverged)
}

/// Root of a function that is ≥ 0 at `low` and ≤ 0 at `high`, by the secant method,
/// safeguarded by bisection in the same way as [`newton`].
///
/// `first` is a point with its value, `second` a better guess. Returns once a step is
/// shorter than `tolerance`·x.
///
/// # Errors
/// [`NoRoot::NoSignChange`] if `f(high) > 0`; [`NoRoot::NotConverged`] as for [`newton`];
/// and whatever error `f` itself returns.
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
            bracket.low = bracket.low.max(x);
        } else {
            bracket.high = bracket.high.min(x);
            known_sign_at_high = true;
        }
        let step = value * (x - x0) / (f0 - value);
        let next = x + step;
        if step.abs() <= tolerance * x.abs() {
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
    fn newton_survives_a_flat_function() {
        // atan is so flat far out that a bare Newton step from 1e3 would leave for 1e6.
        let bracket = Bracket {
            low: -1e4,
            high: 1e3,
        };
        let root = newton(bracket, 999.0, 1e-9, |x| Sample {
            value: libm::atan(x - 1.0),
            slope: 1.0 / (1.0 + (x - 1.0) * (x - 1.0)),
        });
        assert!((root.unwrap() - 1.0).abs() < 1e-15);
    }

    #[test]
    fn newton_ends_on_a_jump_and_on_nan() {
        let bracket = Bracket {
            low: -1.0,
            high: 2.0,
        };
        let jump = newton(bracket, 0.3, 1e-9, |x| Sample {
            value: if x < 0.5 { -1.0 } else { 1.0 },
            slope: 0.0,
        });
        assert!((jump.unwrap() - 0.5).abs() < 1e-15);
        let nan = newton(bracket, 0.3, 1e-9, |_| Sample {
            value: f64::NAN,
            slope: 1.0,
        });
        assert_eq!(nan, Err(NoRoot::NotConverged));
    }

    #[test]
    fn secant_finds_and_reports() {
        let f = |x: f64| Ok::<_, NoRoot>(2.0 - x * x);
        let bracket = Bracket {
            low: 0.0,
            high: 20.0,
        };
        let root = secant(bracket, (0.0, 2.0), 1.0, 1e-14, f).unwrap();
        assert!((root - core::f64::consts::SQRT_2).abs() < 1e-14);
        let none = secant(bracket, (0.0, 1.0), 1.0, 1e-14, |x| {
            Ok::<_, NoRoot>(1.0 + x)
        });
        assert_eq!(none, Err(NoRoot::NoSignChange));
    }
}
