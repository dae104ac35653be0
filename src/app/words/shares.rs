//! Which part of an addition went where, in sentences.

use crate::app::words::addition::{Voice, ion};
use crate::app::words::difference::in_last_digits;
use crate::chem::titration::Reagent;
use crate::lesson::why::{Change, Fate};

/// From this share on a part is nearly all.
const NEARLY_ALL: f64 = 0.98;

/// From this share on a part is worth a sentence.
const COUNTS: f64 = 0.05;

const STEPS_OVERLAP: &str =
    " An acid with more than one H⁺ gives them up step by step, and here the steps overlap.";

impl Voice<'_> {
    /// Which part of an addition went where, largest first, without a full stop.
    pub(super) fn shares(&self, change: &Change, fate: &Fate) -> String {
        let (partner, _) = self.partner(change.reagent);
        let acid = change.reagent == Reagent::Acid;
        let (other, source) = if acid {
            ("OH⁻", change.before.acid)
        } else {
            ("H⁺", change.before.base)
        };
        let steps = self.other_steps(fate);
        let mut parts = [
            (fate.pair, {
                let verb = if acid {
                    "was taken up by"
                } else {
                    "took H⁺ from"
                };
                let end = if acid { "" } else { " and became water" };
                [verb, " ", partner, end].concat()
            }),
            (fate.others(), {
                let verb = if acid { "was taken up" } else { "took H⁺" };
                [verb, " at ", &steps].concat()
            }),
            (fate.water, {
                // Only past the far end of the pair was there an excess to be left over.
                let left_over = source < change.particle;
                let end = if left_over {
                    " left over from before"
                } else {
                    ""
                };
                ["met free ", other, end, " and became water"].concat()
            }),
            (fate.free, "stays free".to_owned()),
        ];
        parts.sort_by(|a, b| b.0.total_cmp(&a.0));
        let whole: f64 = parts.iter().map(|part| part.0.max(0.0)).sum();
        let first = parts[0].0 / whole;
        if first >= NEARLY_ALL {
            // Never "all": a trace always stays free, and an examiner wants to read so.
            return ["Nearly all of it ", &parts[0].1].concat();
        }
        let mut text = "About".to_owned();
        for (n, (share, verb)) in parts.iter().enumerate() {
            let percent = self.writer.fixed(100.0 * share / whole, 0);
            if *share / whole >= 0.005 {
                let of_it = if n == 0 { "% of it " } else { "% " };
                let between = if n == 0 { " " } else { "; " };
                text = [&text, between, &percent, of_it, verb].concat();
            }
        }
        text
    }

    /// The steps beside the pair's own at which something happened.
    fn other_steps(&self, fate: &Fate) -> String {
        let own = self.pair.system().protons() - self.pair.acid_protons();
        let mut pkas = Vec::new();
        for (place, step) in (0_u8..).zip(self.pair.system().steps()) {
            let share = if place < own { fate.above } else { fate.below };
            if place != own && share.abs() >= 0.01 {
                pkas.push(self.writer.on_ph_scale(step.pka.value()));
            }
        }
        let which = if pkas.len() == 1 {
            "another step"
        } else {
            "other steps"
        };
        [which, " of the same acid (pKa ", &pkas.join(" and "), ")"].concat()
    }

    /// `shares` with what follows from them while the form that reacts is still there.
    pub(super) fn still_there(&self, change: &Change, fate: &Fate, shares: String) -> String {
        let (partner, product) = self.partner(change.reagent);
        if fate.pair >= NEARLY_ALL {
            let moved = |before, after| {
                in_last_digits(
                    &self.writer.amount_number(before, self.scale),
                    &self.writer.amount_number(after, self.scale),
                )
            };
            let (before, after) = (&change.before, &change.after);
            let lost = moved(change.partner(before), change.partner(after));
            let gained = moved(change.product(before), change.product(after));
            let as_much = if lost + gained == 0 {
                "just as much "
            } else {
                ""
            };
            return format!("{shares}, so there is less {partner} and {as_much}more {product}.");
        }
        let mut text = shares + ".";
        let pair = fate.pair >= COUNTS;
        if pair && fate.others() >= COUNTS {
            text.push_str(STEPS_OVERLAP);
        }
        if pair && fate.free >= COUNTS {
            let ion = ion(change.reagent);
            text = format!(
                "{text} Free {ion} is not scarce here beside {partner} and {product}, so part of what is added stays free."
            );
        }
        text
    }
}
