//! Sums of charges that cancel.
//!
//! In a salt of 4 mol dm⁻³ at pH 7 the charges of the ions agree to eight figures, and
//! what is left over decides the pH. Rounding each partial sum to 53 bits would put up to
//! 2e-9 into the pH; a sum in two parts puts nothing there.

/// A running sum in two parts: the rounded sum and what rounding has lost so far.
///
/// Source: Neumaier 1974, Z. Angew. Math. Mech. 54, 39 (a variant of Kahan's compensated
/// summation).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct ExactSum {
    sum: f64,
    lost: f64,
}

impl ExactSum {
    /// Adds a finite term. A sum past the largest number stays where it was: the amounts
    /// beside it saturate there too, and no such mixture is ever solved.
    pub(super) fn add(&mut self, term: f64) {
        let next = self.sum + term;
        if next.is_infinite() {
            return;
        }
        let (large, small) = if self.sum.abs() >= term.abs() {
            (self.sum, term)
        } else {
            (term, self.sum)
        };
        self.lost += (large - next) + small;
        self.sum = next;
    }

    /// Adds `x` · `y` without rounding the product.
    pub(super) fn add_product(&mut self, x: f64, y: f64) {
        let product = x * y;
        if product.is_infinite() {
            return;
        }
        self.add(product);
        self.add(libm::fma(x, y, -product));
    }

    pub(super) fn add_sum(&mut self, other: &Self) {
        self.add(other.sum);
        self.add(other.lost);
    }

    /// The sum, rounded once.
    pub(super) fn value(&self) -> f64 {
        self.sum + self.lost
    }

    /// The sum less `part`, rounded once.
    pub(super) fn minus(&self, part: f64) -> f64 {
        let mut rest = *self;
        rest.add(-part);
        rest.value()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cancelling_terms_leave_what_they_should() {
        let sum_of = |terms: &[f64]| {
            let mut sum = ExactSum::default();
            terms.iter().for_each(|term| sum.add(*term));
            sum.value()
        };
        // The doubles nearest to 0.1, 0.2 and 0.3 do not cancel: 2⁻⁵⁵ is left.
        assert_eq!(sum_of(&[0.1, 0.2, -0.3]), libm::exp2(-55.0));
        assert!((sum_of(&[4.0, 1e-9, 1e-17, -4.0, -1e-9]) / 1e-17 - 1.0).abs() < 1e-14);
        assert!(sum_of(&[f64::MAX, f64::MAX, -f64::MAX]).is_finite());
        let mut product = ExactSum::default();
        product.add_product(0.1, 3.0);
        // The double 0.2 is twice the double 0.1, so nothing is left of 3 · 0.1.
        [-0.1, -0.2].into_iter().for_each(|term| product.add(term));
        assert_eq!(product.value(), 0.0);
    }

    #[test]
    fn a_rounded_value_and_the_rest_are_the_whole() {
        let mut sum = ExactSum::default();
        [4.0, 1e-17, 3e-18]
            .into_iter()
            .for_each(|term| sum.add(term));
        assert_eq!(sum.value(), 4.0);
        assert!((sum.minus(4.0) / 1.3e-17 - 1.0).abs() < 1e-15);
    }
}
