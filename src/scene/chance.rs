//! Seeded chance: the only source of variety in the scene.

use rand_core::Rng;
use rand_pcg::Pcg32;

/// A named generator, so that a seed means the same on every platform.
#[derive(Debug, Clone)]
pub(super) struct Chance(Pcg32);

impl Chance {
    /// `stream` keeps the draws for one purpose from shifting those for
    /// another.
    pub fn new(seed: u64, stream: u64) -> Chance {
        Chance(Pcg32::new(seed, stream))
    }

    /// A number from 0 up to, not including, 1.
    pub fn unit(&mut self) -> f64 {
        f64::from(self.0.next_u32()) / (f64::from(u32::MAX) + 1.0)
    }

    /// A number from −1 up to, not including, 1.
    pub fn signed(&mut self) -> f64 {
        2.0 * self.unit() - 1.0
    }

    /// A whole number below `limit`; 0 if `limit` is 0.
    pub fn below(&mut self, limit: usize) -> usize {
        // A product of at most 2^32 and a length. The bias is below one in a
        // million for any number of particles on a screen.
        let wide = u64::from(self.0.next_u32()) * limit as u64;
        usize::try_from(wide >> 32).expect("smaller than the limit, which is a usize")
    }

    /// Puts the items in a random order (Fisher and Yates' shuffle).
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            items.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_stay_in_range_and_repeat_with_the_seed() {
        let mut one = Chance::new(7, 1);
        let mut two = Chance::new(7, 1);
        for _ in 0..1_000 {
            let index = one.below(5);
            assert!(index < 5);
            assert_eq!(index, two.below(5));
            assert!((0.0..1.0).contains(&one.unit()));
            assert!((-1.0..1.0).contains(&two.signed()));
        }
        assert_eq!(one.below(0), 0);
    }

    #[test]
    fn a_shuffle_keeps_every_item_and_moves_some() {
        let mut items: Vec<usize> = (0..100).collect();
        Chance::new(3, 1).shuffle(&mut items);
        let mut sorted = items.clone();
        sorted.sort_unstable();
        assert_eq!(sorted, (0..100).collect::<Vec<_>>());
        assert_ne!(items, sorted);
    }
}
