//! The calculation held against the full balance, in words.

use crate::app::words::reason::filled;
use crate::chem::quantity::Ph;
use crate::lesson::sig_fig::PhDecimals;
use crate::lesson::sums::solution::Because;
use crate::lesson::sums::written::Pen;

/// The verdict on the short form.
pub(super) fn against(pen: &Pen<'_>, short: Option<Ph>, full: Ph, because: Because) -> String {
    let writer = pen.writer;
    let printed = writer.ph(full);
    let Some(short) = short else {
        return filled(
            pen,
            "The full balance, which leaves no reaction of the flask out, gives pH $.",
            &[&printed],
        );
    };
    let apart = (short.value() - full.value()).abs();
    let (last_digit, agree_to) = match writer.ph_decimals {
        PhDecimals::Two => (0.01, "two"),
        PhDecimals::Three => (0.001, "three"),
    };
    let difference = if apart < last_digit {
        ["less than ", &writer.on_ph_scale(last_digit)].concat()
    } else {
        [&writer.on_ph_scale(apart), " before rounding"].concat()
    };
    let short = writer.ph(short);
    // What is printed decides, or the page would contradict itself.
    let agree = short == printed;
    let start = "The calculation above: pH $. Full balance, which leaves no reaction of the flask out: pH $. ";
    let end = if agree {
        "They agree to $ decimal places, so the calculation above is good enough here."
    } else {
        "They differ by $: "
    };
    let reason = if agree {
        ""
    } else if apart < last_digit {
        "only the rounding of the last digit falls differently."
    } else {
        match (because, full.value() < 7.0) {
            (Because::FreeIons, true) => {
                "free H⁺ is not small beside @ and #, and it changes their amounts."
            }
            (Because::FreeIons, false) => {
                "free OH⁻ is not small beside @ and #, and it changes their amounts."
            }
            (Because::Ionized, _) => {
                "so much reacts with water that the concentration is not what was put in."
            }
            (Because::Water, _) => "the water's own H⁺ and OH⁻ count here.",
            (Because::OtherSteps, _) => {
                "the acid has other steps, which the calculation above leaves out, and here they matter."
            }
            (Because::WeakPair, _) => {
                "the weak pair and the water add ions of their own, which the calculation above leaves out."
            }
        }
    };
    let template = [start, end, reason].concat();
    let end = if agree { agree_to } else { &difference };
    filled(pen, &template, &[&short, &printed, end])
}
