//! The unit and the decimal places in which amounts are written.

use crate::chem::quantity::Amount;
use crate::lesson::sig_fig::decimals_of;

/// Unit and decimal places that suit amounts made of steps of one size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AmountScale {
    /// The smallest step that should show.
    pub step: Amount,
}

impl AmountScale {
    /// mol, mmol or µmol.
    pub fn symbol(self) -> &'static str {
        match self.per_mol() {
            p if p < 10.0 => "mol",
            p if p < 1e5 => "mmol",
            _ => "µmol",
        }
    }

    /// The number of `amount` in this unit.
    pub fn value(self, amount: Amount) -> f64 {
        amount.mol() * self.per_mol()
    }

    /// Decimal places that show one step.
    pub fn decimals(self) -> usize {
        decimals_of(self.value(self.step))
    }

    fn per_mol(self) -> f64 {
        match self.step.mmol() {
            step if step >= 9.9 => 1.0,
            step if step >= 0.000_99 => 1e3,
            _ => 1e6,
        }
    }
}
