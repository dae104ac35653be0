//! Rounding to whole particles.

use libm::{floor, round};

/// Rounding noise allowed where amounts are held against whole particles, in
/// particles. Amounts of a thousand particles carry errors near 1e-12.
pub(super) const NOISE: f64 = 1e-9;

/// How far a candidate is from the amounts; less is better.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Score {
    /// How many of the rules for counts are broken, counted from the last.
    pub broken: u8,
    pub worst: f64,
    pub squares: f64,
}

impl Score {
    /// Rates counts against the amounts wanted, both in particles: of the
    /// weak system's forms, and of free H⁺ and OH⁻.
    pub fn of<'a>(forms: impl Iterator<Item = (&'a u32, &'a f64)>, free: [(u32, f64); 2]) -> Score {
        let mut score = Score::default();
        for (count, wanted) in forms.map(|(&c, &w)| (c, w)).chain(free) {
            let error = (f64::from(count) - wanted).abs();
            score.worst = score.worst.max(error);
            score.squares += error * error;
        }
        let drawn_below = |least: f64| {
            let mut free = free.iter();
            free.any(|&(count, wanted)| count > 0 && wanted < least - NOISE)
        };
        score.broken = if score.worst > 1.0 + NOISE {
            3
        } else if drawn_below(0.5) {
            2
        } else if drawn_below(1.0) {
            1
        } else {
            0
        };
        score
    }

    pub fn is_less(&self, other: &Score) -> bool {
        if self.broken != other.broken {
            return self.broken < other.broken;
        }
        // Differences below the noise are ties, so that rounding in the last
        // place cannot choose between equally good pictures.
        if (self.worst - other.worst).abs() > NOISE {
            return self.worst < other.worst;
        }
        self.squares < other.squares - NOISE
    }
}

/// Rounds each number so that they add up to `total` (largest remainders).
pub(super) fn apportion(wanted: &[f64], total: u32) -> Vec<i64> {
    let mut counts: Vec<i64> = wanted.iter().map(|&w| whole(floor(w + NOISE))).collect();
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    let remainder = |i: usize| wanted[i] - floor(wanted[i] + NOISE);
    order.sort_by(|&a, &b| remainder(b).total_cmp(&remainder(a)));
    let missing = i64::from(total) - counts.iter().sum::<i64>();
    for (_, &index) in (0..missing).zip(order.iter().cycle()) {
        counts[index] += 1;
    }
    // Too many only if the total was rounded down past whole particles.
    for _ in missing..0 {
        if let Some(&index) = order.iter().rev().find(|&&i| counts[i] > 0) {
            counts[index] -= 1;
        }
    }
    counts
}

/// The nearest whole number.
#[allow(
    clippy::cast_possible_truncation,
    reason = "float-to-integer casts saturate, and counts are far below the limit"
)]
pub(super) fn whole(value: f64) -> i64 {
    round(value) as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_add_up_and_stay_within_one() {
        assert_eq!(apportion(&[1.4, 2.4, 3.2], 7), [2, 2, 3]);
        assert_eq!(apportion(&[0.6, 0.6, 0.6], 2), [1, 1, 0]);
        assert_eq!(apportion(&[2.0, 3.0], 5), [2, 3]);
        assert_eq!(apportion(&[0.2, 10.2], 10), [0, 10]);
        // Noise below a whole number does not cost a particle.
        assert_eq!(apportion(&[84.0 - 1e-13, 116.0 + 1e-13], 200), [84, 116]);
        assert_eq!(apportion(&[], 0), Vec::<i64>::new());
    }

    #[test]
    fn equal_errors_are_ties_whatever_their_last_bits() {
        let one = Score {
            broken: 0,
            worst: 0.5,
            squares: 0.5,
        };
        let two = Score {
            worst: 0.5 + 1e-12,
            ..one
        };
        assert!(!one.is_less(&two) && !two.is_less(&one));
        let broken = Score { broken: 1, ..one };
        assert!(one.is_less(&broken) && !broken.is_less(&one));
    }
}
