//! What free H⁺ in water is called, and texts with H₃O⁺ for it.
//!
//! An H⁺ on its way from one particle to another is a proton in either notation, so it stays:
//! "A⁻ takes H⁺". Equations that are data get their water in [`Equation::with`]; those that
//! stand in sentences are listed here.
//!
//! [`Equation::with`]: crate::lesson::equation::Equation::with

use crate::lesson::conventions::Exchange;
use crate::lesson::markup::html;

/// What free H⁺ in water is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum HydrogenIon {
    /// H⁺
    #[default]
    Bare,
    /// H₃O⁺
    Hydrated,
}

/// Equations as sentences have them, and with the water that H₃O⁺ brings.
const EQUATIONS: [[&str; 2]; 7] = [
    ["A⁻ + H⁺ → HA", "A⁻ + H₃O⁺ → HA + H₂O"],
    ["HA ⇌ H⁺ + A⁻", "HA + H₂O ⇌ H₃O⁺ + A⁻"],
    ["OH⁻ + H⁺ → H₂O", "OH⁻ + H₃O⁺ → 2H₂O"],
    ["H⁺ + OH⁻ → H₂O", "H₃O⁺ + OH⁻ → 2H₂O"],
    ["NH₃ + H⁺ → NH₄⁺", "NH₃ + H₃O⁺ → NH₄⁺ + H₂O"],
    ["NH₄⁺ → NH₃ + H⁺", "NH₄⁺ + H₂O → NH₃ + H₃O⁺"],
    // Here it is what becomes of a proton that is told.
    ["H₂O + H⁺ → H₃O⁺", "H₂O + H⁺ → H₃O⁺"],
];

/// Texts in which H⁺ passes from one particle to another, or is counted in a formula. "Hydrogen
/// ion" is the name of both.
const PASSED_ON: [&str; 20] = [
    "its H⁺",
    "gave H⁺",
    "give up H⁺",
    "gives up H⁺",
    "gives up no H⁺",
    "take up H⁺",
    "takes up H⁺",
    "takes up the H⁺",
    "takes H⁺",
    "taken H⁺",
    "took H⁺",
    "swap H⁺",
    "for the H⁺ that OH⁻ took",
    "each H⁺ taken up",
    "exchange of H⁺",
    "more than one H⁺",
    "H⁺ passes",
    "H⁺ only passes",
    "How many H⁺",
    "what free H⁺ in water is",
];

/// What stands for what, in plain text, as markup and read aloud.
pub(super) fn exchanges() -> impl Iterator<Item = Exchange> {
    let passed_on = PASSED_ON.iter().map(|text| [*text, *text]);
    let free = [["H⁺", "H₃O⁺"]];
    let texts = EQUATIONS.into_iter().chain(passed_on).chain(free);
    let writings = texts.flat_map(|[from, to]| {
        let owned = (from.to_owned(), to.to_owned());
        [owned, (html(from), html(to))]
    });
    let spoken = ("of H, one plus".to_owned(), "of H 3 O, one plus".to_owned());
    writings.chain([spoken])
}
