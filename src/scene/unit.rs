//! How much one particle stands for.

use libm::{floor, log10, pow};

use super::rounding::NOISE;

/// The next unit up in steps of 1, 2, 5, for when there are too many
/// particles to draw. `unit` is positive, in mol; so is the answer.
pub fn coarser(unit: f64) -> f64 {
    let decade = floor(log10(unit) + NOISE);
    let leading = unit / pow(10.0, decade);
    let next = if leading < 2.0 - NOISE {
        2.0
    } else if leading < 5.0 - NOISE {
        5.0
    } else {
        10.0
    };
    // Powers of ten are exact upwards only; dividing by one rounds once, to
    // the same number that "0.0002" in source text means.
    if decade < 0.0 {
        next / pow(10.0, -decade)
    } else {
        next * pow(10.0, decade)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[allow(
        clippy::float_cmp,
        reason = "each unit is the very number its decimal means"
    )]
    fn units_go_up_in_steps_of_one_two_five() {
        let mut unit = 1e-5;
        let mut seen = Vec::new();
        for _ in 0..7 {
            unit = coarser(unit);
            seen.push(unit);
        }
        assert_eq!(seen, [2e-5, 5e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3]);
        assert_eq!(coarser(3e-4), 5e-4);
        assert_eq!(coarser(0.7), 1.0);
        assert_eq!(coarser(1.0), 2.0);
        assert_eq!(coarser(50.0), 100.0);
    }
}
