//! Where a pH stands on the pH line.

use crate::app::reading::{CONDITIONS, Reading};

/// The line reaches from 0 to this.
const END: f64 = 14.0;

/// The share of the line to the left of a pH; what lies off the line stands at its end.
pub fn place(ph: f64) -> f64 {
    (ph / END).clamp(0.0, 1.0)
}

/// The pH at which the pair's two forms are equal.
pub fn pka(reading: &Reading) -> f64 {
    reading.setup.pair.pka_at(&CONDITIONS)
}

/// The pair's useful range, in pH, as far as it is on the line.
pub fn useful_range(reading: &Reading) -> [f64; 2] {
    let range = reading.setup.pair.useful_range(&CONDITIONS);
    let range = range.expect("pKa of the table or typed, near 0 to 14: both edges are a pH");
    [range.start(), range.end()].map(|ph| ph.value().clamp(0.0, END))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::bench::Bench;
    use crate::app::link;

    fn range(query: &str) -> [f64; 2] {
        let bench = Bench::new(link::read(query, "").plan.recipe);
        let setup = bench.recipe.read().unwrap();
        useful_range(&Reading::of(&bench, setup).unwrap())
    }

    #[test]
    fn nothing_leaves_the_line() {
        assert_eq!(
            [-1.2, 0.0, 3.5, 14.0, 15.3].map(place),
            [0.0, 0.0, 0.25, 1.0, 1.0]
        );
        assert_eq!(range("v=1&pair=own-acid&pka=5"), [4.0, 6.0]);
        assert_eq!(range("v=1&pair=own-acid&pka=0.4"), [0.0, 1.4]);
        assert_eq!(range("v=1&pair=own-base&pka=13.5"), [12.5, 14.0]);
    }
}
