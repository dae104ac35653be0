//! What an addition did, in sentences.

use crate::app::reading::Reading;
use crate::chem::quantity::Amount;
use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sig_fig::{AmountScale, PH_DECIMALS, Writer};
use crate::lesson::why::{Change, Fate, Outcome};

/// What a bench is written with: its names, its amounts' unit, the notation of numbers.
#[derive(Debug, Clone, Copy)]
pub struct Voice<'a> {
    /// Names of the pair.
    pub names: &'a PairNames,
    /// Unit of amounts.
    pub scale: AmountScale,
    /// Notation of numbers.
    pub writer: Writer,
    /// pKa at which the acid form takes up one more H⁺, if its system can.
    pub next_acid_pka: Option<f64>,
    /// pKa at which the base form gives up one more H⁺, if its system can.
    pub next_base_pka: Option<f64>,
}

/// The symbol of what a reagent brings.
pub const fn ion(reagent: Reagent) -> &'static str {
    match reagent {
        Reagent::Acid => "H⁺",
        Reagent::Alkali => "OH⁻",
    }
}

/// The everyday word for a reagent.
pub const fn reagent(reagent: Reagent) -> &'static str {
    match reagent {
        Reagent::Acid => "acid",
        Reagent::Alkali => "alkali",
    }
}

impl<'a> Voice<'a> {
    /// What sentences about `reading` are written with.
    pub fn of(reading: &'a Reading, writer: Writer) -> Self {
        let pair = &reading.setup.pair;
        let pka = |protons| {
            pair.system()
                .step_from(protons)
                .map(|step| step.pka.value())
        };
        Self {
            names: &reading.setup.names,
            scale: reading.scale,
            writer,
            next_acid_pka: pka(pair.acid_protons() + 1),
            next_base_pka: pka(pair.base_protons()),
        }
    }
}

impl Voice<'_> {
    fn amount(&self, amount: Amount) -> String {
        self.writer.amount(amount, self.scale)
    }

    /// The form that takes up a reagent, and the form that it turns into.
    fn partner(&self, reagent: Reagent) -> (&str, &str) {
        let (acid, base) = (
            self.names.acid_symbol.as_str(),
            self.names.base_symbol.as_str(),
        );
        match reagent {
            Reagent::Acid => (base, acid),
            Reagent::Alkali => (acid, base),
        }
    }

    /// "You added 0.5 mmol of H⁺."
    pub fn headline(&self, change: &Change) -> String {
        format!(
            "You added {} of {}.",
            self.amount(change.amount),
            ion(change.reagent)
        )
    }

    /// What met what, in one or two sentences.
    pub fn what_met_what(&self, change: &Change) -> String {
        let (partner, product) = self.partner(change.reagent);
        let ion = ion(change.reagent);
        let Fate {
            met_excess,
            taken,
            left,
        } = change.fate();
        let verb = match change.reagent {
            Reagent::Acid => "took up",
            Reagent::Alkali => "gave H⁺ to",
        };
        match change.outcome() {
            Outcome::TakenUp => {
                let share = uptake(change);
                let how_much = match share {
                    s if s > 0.98 => "Almost all of it",
                    s if s > 0.8 => "Most of it",
                    _ => "Only part of it",
                };
                let met = match change.reagent {
                    Reagent::Acid => format!("{how_much} was taken up by {partner}"),
                    Reagent::Alkali => {
                        format!("{how_much} took H⁺ from {partner} and became water")
                    }
                };
                if share > 0.8 {
                    format!("{met}, so there is less {partner} and just as much more {product}.")
                } else {
                    format!(
                        "{met}: the rest stays free, because the solution is far from the pKa or very dilute."
                    )
                }
            }
            Outcome::RanOut => format!(
                "{partner} {verb} the last {} and ran out. {}",
                self.amount(taken),
                self.without_partner(change.reagent, &format!("The other {}", self.amount(left))),
            ),
            Outcome::NothingLeft => {
                let beginning = format!("No {partner} is left: that reservoir has run out.");
                format!(
                    "{beginning} {}",
                    self.without_partner(change.reagent, &format!("The {ion}"))
                )
            }
            Outcome::MetExcess => {
                let other = match change.reagent {
                    Reagent::Acid => "OH⁻",
                    Reagent::Alkali => "H⁺",
                };
                let all = format!("It met {other} left over from before and made water.");
                let first = format!(
                    "{} of it met {other} left over from before.",
                    self.amount(met_excess)
                );
                let small = change.amount.share(1e-6);
                match (taken > small, left > small) {
                    (false, false) => all,
                    (_, false) => format!("{first} Then {partner} {verb} {}.", self.amount(taken)),
                    (_, true) => format!(
                        "{first} Then {partner} {verb} {} and ran out.",
                        self.amount(taken)
                    ),
                }
            }
        }
    }

    /// What becomes of ions that found no partner in the pair.
    fn without_partner(&self, reagent: Reagent, subject: &str) -> String {
        let (next, verb) = match reagent {
            Reagent::Acid => (self.next_acid_pka, "takes it up"),
            Reagent::Alkali => (self.next_base_pka, "gives H⁺ to it"),
        };
        let (_, product) = self.partner(reagent);
        match next {
            Some(pka) => format!(
                "{subject} has only {product} to turn to, which {verb} near pH {} and not before.",
                self.writer.fixed(pka, 1)
            ),
            None => format!("{subject} found no partner and stays free: now the pH runs away."),
        }
    }

    /// How the ratio moved, and why that moved the pH so little.
    pub fn ratio(&self, change: &Change) -> Option<String> {
        let (before, after) = (change.before.ratio()?, change.after.ratio()?);
        let enough = |ratio: f64| (0.01..=100.0).contains(&ratio);
        if change.outcome() != Outcome::TakenUp || !enough(before) || !enough(after) {
            return None;
        }
        let write = |ratio| self.writer.significant(ratio, 3);
        Some(format!(
            "The ratio {} : {} went from {} to {}. pH follows the logarithm of that ratio, so it moved by only {}.",
            self.names.base_symbol,
            self.names.acid_symbol,
            write(before),
            write(after),
            self.writer.fixed(change.step().abs(), PH_DECIMALS),
        ))
    }

    /// One message for a screen reader once an addition is done.
    pub fn announcement(&self, change: &Change) -> String {
        let (partner, _) = self.partner(change.reagent);
        let outcome = match change.outcome() {
            Outcome::TakenUp => "",
            Outcome::RanOut => " The reservoir has run out.",
            Outcome::NothingLeft => " The reservoir was already empty.",
            Outcome::MetExcess => " It met what was left over from before.",
        };
        format!(
            "Added {} {}. pH {}, was {}. {} now {}.{outcome} Water alone: {}.",
            self.amount(change.amount),
            reagent(change.reagent),
            self.writer.ph(change.after.ph),
            self.writer.ph(change.before.ph),
            partner,
            self.amount(match change.reagent {
                Reagent::Acid => change.after.base,
                Reagent::Alkali => change.after.acid,
            }),
            self.writer.ph(change.after.water),
        )
    }
}

/// The share of an addition that did not stay free.
fn uptake(change: &Change) -> f64 {
    let moved = match change.reagent {
        Reagent::Acid => change.before.base.mol() - change.after.base.mol(),
        Reagent::Alkali => change.before.acid.mol() - change.after.acid.mol(),
    };
    moved / change.amount.mol()
}

/// What is on the bench before anything is added.
pub fn nothing_added(voice: &Voice<'_>, acid: Amount, base: Amount) -> String {
    let names = voice.names;
    format!(
        "The flask holds {} of {} ({}) and {} of {} ({}). H⁺ passes between them all the time, as often one way as the other.",
        voice.amount(acid),
        names.acid_symbol,
        names.acid_name,
        voice.amount(base),
        names.base_symbol,
        names.base_name,
    )
}
