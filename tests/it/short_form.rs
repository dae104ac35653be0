//! The short form of a buffer's pH, as a person works it out: what the page shows and what is
//! published is held against it.

use evenkeel::chem::buffer::Pair;
use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::quantity::{Amount, Pka};
use evenkeel::chem::systems::AcidSystem;
use proptest::prelude::*;

use crate::curves::buffer;
use crate::draws::check;

/// pH = pKa + log₁₀(base/acid), of amounts that are not zero.
pub fn short_form(pka: f64, acid: Amount, base: Amount) -> f64 {
    pka + libm::log10(base.mol() / acid.mol())
}

/// With the amounts at equilibrium in place of those that went in, it is exact.
#[test]
fn the_short_form_holds_for_what_is_there() {
    check(&(3.0..11.0, -4.0..0.0, -4.0..0.0), |(pka, acid, base)| {
        let amount = |power: f64| Amount::from_mol(libm::exp10(power)).unwrap();
        let pair = Pair::new(AcidSystem::acid(Pka::new(pka).unwrap()), 1).unwrap();
        let mixture = buffer(&pair, amount(acid), amount(base));
        let solved = solve(&mixture, &Conditions::classroom()).unwrap();
        let there = pair.reserves(&mixture, &solved);
        let short = short_form(pka, there.acid, there.base);
        prop_assert!((short - solved.ph().value()).abs() < 1e-12);
        Ok(())
    });
}
