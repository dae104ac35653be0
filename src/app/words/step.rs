//! The steps of an addition, one caption for each still.

use crate::app::words::addition::ion;
use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::why::{Change, Outcome};

/// The caption of step `number`, from 1 to 4, of `change`.
pub fn caption(number: u32, change: &Change, names: &PairNames) -> String {
    let acid = change.reagent == Reagent::Acid;
    let ion = ion(change.reagent);
    let (from, to) = if acid {
        (&names.base_symbol, &names.acid_symbol)
    } else {
        (&names.acid_symbol, &names.base_symbol)
    };
    let what = match (number, change.outcome()) {
        (1, _) => format!("{ion} arrives. The numbers are already those after it."),
        (2, Outcome::MetExcess) => "H⁺ and OH⁻ make water.".to_owned(),
        (2, Outcome::NothingLeft) => format!("{ion} finds no {from} to react with."),
        (2, _) if acid => format!("{from} takes H⁺."),
        (2, _) => format!("OH⁻ takes H⁺ from {from}."),
        (3, Outcome::MetExcess) => "the water joins the solvent.".to_owned(),
        (3, Outcome::NothingLeft) => format!("no {from} becomes {to}."),
        (3, _) if acid => format!("{from} has become {to}."),
        (3, _) => format!("{from} has become {to}, and OH⁻ water."),
        _ => "at rest, with the counts of the exact solution.".to_owned(),
    };
    format!("Step {number} of 4: {what}")
}
