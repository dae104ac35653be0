//! What an addition did, in sentences.

use crate::app::reading::Reading;
use crate::app::words::difference::{size_of_digits, size_of_move};
use crate::chem::buffer::{Pair, Reserves};
use crate::chem::quantity::Amount;
use crate::chem::titration::Reagent;
use crate::lesson::notation::{PairNames, spoken};
use crate::lesson::sig_fig::{AmountScale, PhDecimals, Writer};
use crate::lesson::why::{Change, Fate, Outcome};

/// The largest move of the pH that is called small.
const LITTLE: f64 = 0.2;

const RUNS_AWAY: &str = " Now the pH runs away.";

const HARDLY_HELD: &str = " This pair hardly holds the pH any more.";

const DILUTED: &str =
    " The water that comes with it dilutes the flask, and that moves the pH as well.";

/// What a bench is written with: its names, its amounts' unit, the notation of numbers.
#[derive(Debug, Clone, Copy)]
pub struct Voice<'a> {
    /// Names of the pair.
    pub names: &'a PairNames,
    /// The pair.
    pub pair: &'a Pair,
    /// Its two forms before anything was added.
    pub start: Reserves,
    /// Unit of amounts.
    pub scale: AmountScale,
    /// Notation of numbers.
    pub writer: Writer,
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
    pub const fn of(reading: &'a Reading, writer: Writer) -> Self {
        Self {
            names: &reading.setup.names,
            pair: &reading.setup.pair,
            start: reading.start.reserves,
            scale: reading.scale,
            writer,
        }
    }
}

impl Voice<'_> {
    fn amount(&self, amount: Amount) -> String {
        self.writer.amount(amount, self.scale)
    }

    /// The form that takes up a reagent, and the form that it turns into.
    pub(super) fn partner(&self, reagent: Reagent) -> (&str, &str) {
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

    /// What met what, and what is left of the form that reacts.
    pub fn what_met_what(&self, change: &Change) -> String {
        let (partner, _) = self.partner(change.reagent);
        let fate = change.fate();
        let shares = self.shares(change, &fate);
        let outcome = change.outcome();
        let mut text = match outcome {
            Outcome::TakenUp => self.still_there(change, &fate, shares),
            Outcome::MetExcess => shares + ".",
            Outcome::NearlyOut => format!("{shares}. {partner} is nearly used up."),
            Outcome::RanOut => {
                format!("{shares}. {partner} ran out: less than one particle is left.")
            }
            Outcome::NothingLeft if self.was_never_there(change) => {
                format!("The flask held no {partner} to react with it. {shares}.")
            }
            Outcome::NothingLeft => format!(
                "Hardly any {partner} was left to react with it: that reservoir had run out. {shares}."
            ),
        };
        let free = fate.free >= 0.5;
        let far = change.step().abs() >= 0.5;
        match outcome {
            Outcome::NearlyOut | Outcome::RanOut if far => text.push_str(RUNS_AWAY),
            Outcome::NothingLeft if free && far => text.push_str(RUNS_AWAY),
            Outcome::NearlyOut | Outcome::RanOut | Outcome::NothingLeft if free => {
                text.push_str(HARDLY_HELD);
            }
            _ => {}
        }
        if is_diluted(change, &fate, self.writer) {
            text.push_str(DILUTED);
        }
        text
    }

    /// Whether the form that reacts was never there in an amount that is drawn.
    fn was_never_there(&self, change: &Change) -> bool {
        let at_start = match change.reagent {
            Reagent::Acid => self.start.base,
            Reagent::Alkali => self.start.acid,
        };
        at_start < change.particle
    }

    /// How the ratio moved, and what that did to the pH.
    pub fn ratio(&self, change: &Change) -> Option<String> {
        let (before, after) = (change.before.ratio()?, change.after.ratio()?);
        let enough = |ratio: f64| (0.01..=100.0).contains(&ratio);
        if change.outcome() != Outcome::TakenUp || !enough(before) || !enough(after) {
            return None;
        }
        let write = |ratio| self.writer.significant(ratio, 3);
        let [was, is] = [change.before.ph, change.after.ph].map(|ph| self.writer.ph(ph));
        let digits = size_of_digits(&was, &is, self.writer.ph_decimals());
        let only = if digits <= LITTLE { "only " } else { "" };
        Some(format!(
            "The ratio {} : {} went from {} to {}. pH follows the logarithm of that ratio, so it moved by {only}{}.",
            self.names.base_symbol,
            self.names.acid_symbol,
            write(before),
            write(after),
            size_of_move(&was, &is, self.writer.ph_decimals(), self.writer),
        ))
    }

    /// One message for a screen reader once an addition is done.
    pub fn announcement(&self, change: &Change) -> String {
        let (partner, _) = self.partner(change.reagent);
        let outcome = match change.outcome() {
            Outcome::TakenUp => "",
            Outcome::NearlyOut => " It is nearly used up.",
            Outcome::RanOut => " It has run out.",
            Outcome::NothingLeft if self.was_never_there(change) => " There was none before.",
            Outcome::NothingLeft => " It had run out before.",
            Outcome::MetExcess => match change.reagent {
                Reagent::Acid => " Most of it met free hydroxide ions.",
                Reagent::Alkali => " Most of it met free hydrogen ions.",
            },
        };
        format!(
            "Added {} of {}. pH {}, was {}. {}: now {}.{outcome} Water alone: pH {}.",
            self.amount(change.amount),
            reagent(change.reagent),
            self.writer.ph(change.after.ph),
            self.writer.ph(change.before.ph),
            spoken(partner),
            self.amount(change.partner(&change.after)),
            self.writer.ph(change.after.water),
        )
    }
}

/// Whether the water that an addition brings shows in the pH: some part of the balance went
/// the other way.
fn is_diluted(change: &Change, fate: &Fate, writer: Writer) -> bool {
    let parts = [fate.pair, fate.others(), fate.water, fate.free];
    // Half of the last digit shows.
    let shows = match writer.ph_decimals {
        PhDecimals::Two => 0.005,
        PhDecimals::Three => 0.0005,
    };
    let wrong_way = match change.reagent {
        Reagent::Acid => change.step() >= shows,
        Reagent::Alkali => change.step() <= -shows,
    };
    wrong_way || parts.iter().any(|share| *share < -0.02)
}

/// What is on the bench before anything is added; `others` is what the system holds in
/// other forms than the pair's.
pub fn nothing_added(voice: &Voice<'_>, others: Amount) -> String {
    let names = voice.names;
    let others = if others < voice.scale.step {
        String::new()
    } else {
        format!(
            " Another {} is in other forms of the same acid.",
            voice.amount(others)
        )
    };
    format!(
        "The flask holds {} of {} ({}) and {} of {} ({}).{others} H⁺ passes between them all the time, as often one way as the other.",
        voice.amount(voice.start.acid),
        names.acid_symbol,
        names.acid_name,
        voice.amount(voice.start.base),
        names.base_symbol,
        names.base_name,
    )
}
