//! From amounts to whole particles.
//!
//! One particle stands for a stated amount, the *unit*. Two whole numbers
//! stay fixed while a mixture reacts: the number of particles *N* of the weak
//! system, and the proton *ledger* *P*, the sum of protons × particles plus
//! free H⁺ less free OH⁻. Added acid raises the ledger by one for each
//! particle's worth, added alkali lowers it. Water counts as nought: H⁺ and
//! OH⁻ that make it leave the ledger as it was.

use super::rounding::{Score, apportion, whole};

/// Solved amounts, in mol, behind one picture. All are finite and ≥ 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Amounts {
    /// Protons of the first form, relative to the pair's base form.
    pub lowest: i8,
    /// The amounts of the weak system's forms, from `lowest` up, one proton
    /// apart. A handful at most.
    pub forms: Vec<f64>,
    /// Free H⁺.
    pub free_h: f64,
    /// Free OH⁻.
    pub free_oh: f64,
}

/// Counts of particles and free ions.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Tally {
    /// Protons of the first form, relative to the pair's base form.
    pub lowest: i8,
    /// Particles of each form, from `lowest` up.
    pub forms: Vec<u32>,
    /// Free H⁺; 0 if there is any free OH⁻.
    pub free_h: u32,
    /// Free OH⁻; 0 if there is any free H⁺.
    pub free_oh: u32,
}

impl Amounts {
    /// The number of particles that stand for these amounts: the weak
    /// system's total, rounded once.
    pub fn particles(&self, unit: f64) -> u32 {
        count_of(whole(self.forms.iter().sum::<f64>() / unit))
    }

    /// The proton ledger of these amounts, rounded once. Later ledgers follow
    /// from it by counting what is added, never by rounding again.
    pub fn ledger(&self, unit: f64) -> i64 {
        let seated: f64 = self
            .forms
            .iter()
            .zip(0..)
            .map(|(amount, above)| amount * f64::from(i32::from(self.lowest) + above))
            .sum();
        whole((seated + self.free_h - self.free_oh) / unit)
    }
}

impl Tally {
    /// Counts these amounts in whole particles.
    ///
    /// Of all candidates the one with the smallest worst error is taken among
    /// those that break the fewest of these rules, dropped from the last up:
    ///
    /// 1. The forms add up to `particles`, and the ledger is kept. Always.
    /// 2. Each count is within one particle of its amount.
    /// 3. Free H⁺ (or OH⁻) is drawn only if it would round to one: half a
    ///    unit or more.
    /// 4. It is drawn only if there is a whole unit of it.
    ///
    /// Starting amounts that are whole multiples of the unit can satisfy all
    /// four. Others leave up to half a particle of rounding in N and in the
    /// ledger, and near exhaustion that, with just under a unit of free H⁺,
    /// may leave no candidate under rule 4; then rule 3 decides.
    pub fn of(amounts: &Amounts, unit: f64, particles: u32, ledger: i64) -> Tally {
        let wanted: Vec<f64> = amounts.forms.iter().map(|a| a / unit).collect();
        let free_of = |tally: &Tally| {
            [
                (tally.free_h, amounts.free_h / unit),
                (tally.free_oh, amounts.free_oh / unit),
            ]
        };
        let rounded = apportion(&wanted, particles);
        let boundaries = rounded.len().saturating_sub(1);

        let mut best: Option<(Score, Tally)> = None;
        // Each candidate moves −1, 0 or +1 particles across each boundary
        // between neighboring forms; the free count follows from the ledger.
        let candidates = 3usize.pow(u32::try_from(boundaries).expect("a handful of forms"));
        for candidate in 0..candidates {
            let mut counts = rounded.clone();
            let mut digits = candidate;
            for boundary in 0..boundaries {
                // Digits 0, 1, 2 stand for 0, +1, −1: no move comes first, so
                // ties go to the plain rounding.
                let moved = [0, 1, -1][digits % 3];
                digits /= 3;
                counts[boundary] -= moved;
                counts[boundary + 1] += moved;
            }
            let Some(tally) = Tally::with_ledger(amounts.lowest, &counts, ledger) else {
                continue;
            };
            let score = Score::of(tally.forms.iter().zip(&wanted), free_of(&tally));
            if best.as_ref().is_none_or(|(least, _)| score.is_less(least)) {
                best = Some((score, tally));
            }
        }
        best.expect("the plain rounding has no negative count").1
    }

    /// The counts once every proton has found a seat, as far as there are
    /// seats: the strongest acid and base left are neighbors, and only an
    /// excess stays free.
    pub fn complete(particles: u32, ledger: i64, lowest: i8, highest: i8) -> Tally {
        let steps = i64::from(highest) - i64::from(lowest);
        let n = i64::from(particles);
        let mut forms = vec![0; usize::try_from(steps + 1).unwrap_or(1)];
        let above_lowest = ledger.saturating_sub(n * i64::from(lowest));
        let seated = above_lowest.clamp(0, n * steps);
        if n > 0 {
            let level = usize::try_from(seated / n).expect("clamped to the seats");
            let higher = u32::try_from(seated % n).expect("less than the particles");
            forms[level] = particles - higher;
            if higher > 0 {
                forms[level + 1] = higher;
            }
        }
        let free = above_lowest.saturating_sub(seated);
        Tally {
            lowest,
            forms,
            free_h: count_of(free),
            free_oh: count_of(free.saturating_neg()),
        }
    }

    /// Everything drawn: particles and free ions.
    pub fn drawn(&self) -> u32 {
        let all = self.particles().saturating_add(self.free_h);
        all.saturating_add(self.free_oh)
    }

    /// All particles of the weak system.
    pub fn particles(&self) -> u32 {
        self.forms.iter().sum()
    }

    /// Particles of the form with this many protons.
    pub fn count(&self, protons: i8) -> u32 {
        usize::try_from(i32::from(protons) - i32::from(self.lowest))
            .ok()
            .and_then(|index| self.forms.get(index))
            .copied()
            .unwrap_or(0)
    }

    /// Particles counted in the acid pan: one proton or more.
    pub fn acid(&self) -> u32 {
        self.by_protons()
            .filter(|&(k, _)| k >= 1)
            .map(|(_, count)| count)
            .sum()
    }

    /// Particles counted in the base pan: no proton, or fewer.
    pub fn base(&self) -> u32 {
        self.particles() - self.acid()
    }

    /// Protons of the form at this index.
    pub fn protons_of(&self, index: usize) -> i8 {
        self.lowest + i8::try_from(index).expect("forms are a handful")
    }

    /// Protons of the last form.
    pub fn highest(&self) -> i8 {
        self.protons_of(self.forms.len()) - 1
    }

    /// The proton ledger of these counts.
    pub fn ledger(&self) -> i64 {
        let seated: i64 = self
            .by_protons()
            .map(|(k, count)| i64::from(k) * i64::from(count))
            .sum();
        seated + i64::from(self.free_h) - i64::from(self.free_oh)
    }

    /// Each form as its protons and its count, from the lowest up.
    pub fn by_protons(&self) -> impl Iterator<Item = (i8, u32)> + '_ {
        (self.lowest..=i8::MAX).zip(self.forms.iter().copied())
    }

    fn with_ledger(lowest: i8, counts: &[i64], ledger: i64) -> Option<Tally> {
        let forms = counts
            .iter()
            .map(|&count| u32::try_from(count).ok())
            .collect::<Option<Vec<u32>>>()?;
        let mut tally = Tally {
            lowest,
            forms,
            free_h: 0,
            free_oh: 0,
        };
        let free = ledger.saturating_sub(tally.ledger());
        tally.free_h = count_of(free);
        tally.free_oh = count_of(free.saturating_neg());
        Some(tally)
    }
}

/// A number as a count: nothing below zero, and more than there are counts as the most.
fn count_of(number: i64) -> u32 {
    u32::try_from(number.max(0)).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pair(base: f64, acid: f64, free_h: f64, free_oh: f64) -> Amounts {
        Amounts {
            lowest: 0,
            forms: vec![base, acid],
            free_h,
            free_oh,
        }
    }

    #[test]
    fn tidy_amounts_are_counted_exactly() {
        let amounts = pair(0.0084, 0.0116, 4e-6, 0.0);
        let (n, p) = (amounts.particles(1e-4), amounts.ledger(1e-4));
        assert_eq!((n, p), (200, 116));
        let tally = Tally::of(&amounts, 1e-4, n, p);
        assert_eq!(tally.forms, [84, 116]);
        assert_eq!((tally.free_h, tally.free_oh), (0, 0));
        assert_eq!((tally.acid(), tally.base()), (116, 84));
    }

    #[test]
    fn free_ions_are_drawn_from_a_whole_unit_on() {
        // All A⁻ used up and 0.99 then 1.01 units of H⁺ free, the rest on HA.
        let below = Tally::of(&pair(0.99, 9.01, 0.99, 0.0), 1.0, 10, 10);
        assert_eq!(
            (below.forms.as_slice(), below.free_h),
            ([0, 10].as_slice(), 0)
        );
        let above = Tally::of(&pair(1.01, 8.99, 1.01, 0.0), 1.0, 10, 10);
        assert_eq!(
            (above.forms.as_slice(), above.free_h),
            ([1, 9].as_slice(), 1)
        );
    }

    #[test]
    fn untidy_amounts_near_exhaustion_fall_back_to_rounding() {
        // Total 10.4 → N = 10; ledger 10.5 + … → 11: with 0.9 units of free
        // H⁺ and no whole one, rule 4 alone would put 11 protons on 10 seats.
        let amounts = pair(0.5, 9.9, 0.9, 0.0);
        let (n, p) = (amounts.particles(1.0), amounts.ledger(1.0));
        assert_eq!((n, p), (10, 11));
        let tally = Tally::of(&amounts, 1.0, n, p);
        assert_eq!(
            (tally.forms.as_slice(), tally.free_h),
            ([0, 10].as_slice(), 1)
        );
    }

    #[test]
    fn too_many_to_count_is_the_most_and_never_none() {
        let tally = Tally::of(&pair(1e-8, 0.0, 0.0, 1e2), 1e-10, 100, -1_000_000_000_000);
        assert_eq!((tally.free_h, tally.free_oh), (0, u32::MAX));
        let most = [i64::MIN, i64::MAX].map(|ledger| Tally::complete(10, ledger, 0, 1).drawn());
        assert_eq!(most, [u32::MAX; 2]);
    }

    #[test]
    fn a_complete_reaction_fills_seats_from_the_ledger_and_leaves_the_excess() {
        let tally = Tally::complete(10, 4, 0, 1);
        assert_eq!((tally.free_h, tally.free_oh), (0, 0));
        assert_eq!(tally.forms, [6, 4]);
        let acid = Tally::complete(10, 13, 0, 1);
        assert_eq!(
            (acid.forms.as_slice(), acid.free_h),
            ([0, 10].as_slice(), 3)
        );
        let alkali = Tally::complete(10, -2, 0, 1);
        assert_eq!(
            (alkali.forms.as_slice(), alkali.free_oh),
            ([10, 0].as_slice(), 2)
        );
        let phosphate = Tally::complete(10, 13, -1, 2);
        assert_eq!(phosphate.forms, [0, 0, 7, 3]);
        assert_eq!(Tally::complete(10, -4, -1, 2).forms, [4, 6, 0, 0]);
        assert_eq!(Tally::complete(0, -3, 0, 1).free_oh, 3);
    }
}
