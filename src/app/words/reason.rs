//! The reasons and checks of a worked solution, in sentences.

use crate::app::words::addition::ion;
use crate::app::words::label;
use crate::app::words::verdict::against;
use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sums::form::Form;
use crate::lesson::sums::solution::{Note, Subject};
use crate::lesson::sums::symbol::Symbol;
use crate::lesson::sums::written::Pen;

/// What a step is about, as a heading.
pub const fn subject(subject: Subject) -> &'static str {
    match subject {
        Subject::Mixture => "What is in the flask",
        Subject::Constant => "Kₐ from Kb",
        Subject::Amounts => "Amounts",
        Subject::Reaction => "What reacts with what",
        Subject::Concentrations => "Concentrations",
        Subject::FromKa => "With the expression for Kₐ",
        Subject::FromKb => "With the expression for Kb",
        Subject::Hydrogen => "[H⁺]",
        Subject::Ph => "pH",
        Subject::Half => "Half-neutralised",
        Subject::Recipe => "What to take",
        Subject::Check => "Does it make sense?",
        Subject::FullBalance => "Beside the full balance",
    }
}

/// Sentences of a note. In a template @ stands for the acid form, # for the base form, ~ for
/// the strong ion, ^ for the form that it meets, | for the one that it makes, and each $ for
/// the next value.
pub fn note(pen: &Pen<'_>, form: Option<Form>, note: &Note) -> String {
    let writer = pen.writer;
    let fixed = |value: f64| writer.on_ph_scale(value);
    let figures = |value: f64| writer.significant(value, 3);
    let say = |template: &str, values: &[&str]| filled(pen, template, values);
    let names = pen.names;
    match note {
        Note::Names => general_symbols(names),
        Note::TwoIons => say("Each $ gives two ~.", &[pen.reagent()]),
        Note::BesidePka { ratio, pka, ph } => {
            if form == Some(Form::KaFromPh) {
                let template = match ratio - 1.0 {
                    apart if apart.abs() < 0.005 => {
                        "There is as much # as @, so pKₐ must come out equal to the pH ($). It does: $."
                    }
                    more if more > 0.0 => {
                        "There is more # than @, so pKₐ must come out below the pH ($). It does: $."
                    }
                    _ => {
                        "There is less # than @, so pKₐ must come out above the pH ($). It does: $."
                    }
                };
                // The pH is given, and so it is written as it is given.
                let given = pen.number(Symbol::GivenPh, *ph, 2);
                return say(template, &[&given, &fixed(*pka)]);
            }
            let template = match ratio - 1.0 {
                apart if apart.abs() < 0.005 => {
                    "There is as much # as @, so the pH must come out equal to pKₐ ($). It does: $."
                }
                more if more > 0.0 => {
                    "There is more # than @, so the pH must come out above pKₐ ($). It does: $."
                }
                _ => "There is less # than @, so the pH must come out below pKₐ ($). It does: $.",
            };
            say(template, &[&fixed(*pka), &fixed(*ph)])
        }
        Note::Moved { from, to } => {
            let template = if to < from {
                "Acid was added, so the pH must fall. It goes from $ to $, a change of $ before rounding."
            } else {
                "Alkali was added, so the pH must rise. It goes from $ to $, a change of $ before rounding."
            };
            let change = writer.signed(to - from, writer.ph_decimals());
            say(template, &[&fixed(*from), &fixed(*to), &change])
        }
        Note::SideOfSeven(ph) => {
            let template = match (pen.variant.reagent, *ph < 7.0) {
                (Reagent::Acid, true) => "This must come out below pH 7. It does: $.",
                (Reagent::Alkali, false) => "This must come out above pH 7. It does: $.",
                _ => {
                    "This calculation gives $, on the wrong side of pH 7: the solution is so dilute that the water's own H⁺ and OH⁻ count."
                }
            };
            say(template, &[&fixed(*ph)])
        }
        Note::Ionized(share) => {
            let template = match (pen.variant.reagent, *share < 0.05) {
                (Reagent::Acid, true) => {
                    "Only $ % of the @ has given up its H⁺. That is less than 5 %, so taking [@] as unchanged is fair."
                }
                (Reagent::Acid, false) => {
                    "$ % of the @ has given up its H⁺. That is more than 5 %, so taking [@] as unchanged is rough here."
                }
                (Reagent::Alkali, true) => {
                    "Only $ % of the # has taken H⁺ from water. That is less than 5 %, so taking [#] as unchanged is fair."
                }
                (Reagent::Alkali, false) => {
                    "$ % of the # has taken H⁺ from water. That is more than 5 %, so taking [#] as unchanged is rough here."
                }
            };
            say(template, &[&writer.significant(100.0 * share, 2)])
        }
        Note::WithinRange { pka, ph } => {
            let away = (ph - pka).abs();
            let template = if away <= 1.0 {
                "The pH that is wanted is $ away from pKₐ ($). That is within 1, so this pair suits."
            } else {
                "The pH that is wanted is $ away from pKₐ ($). That is more than 1, so another pair would hold this pH better."
            };
            say(template, &[&fixed(away), &fixed(*pka)])
        }
        Note::SmallerReserve(times) => say(
            "The ratio is the same, so the pH is the same. But each cm³ now holds $ times less of both forms, so it can take up less acid or alkali.",
            &[&pen.number(Symbol::Dilution, *times, 2)],
        ),
        Note::OtherAcid { name, pka, ratio } => {
            let template = if (0.1..=10.0).contains(ratio) {
                "With $ (pKₐ $) the ratio would have to be $. That is further from 1, so this pH would be held less well."
            } else {
                "With $ (pKₐ $) the ratio would have to be $. One form would be scarce and soon used up."
            };
            say(template, &[name, &fixed(*pka), &figures(*ratio)])
        }
        Note::AddedBoth { acid, alkali } => {
            let mmol = |value| pen.value(Symbol::Strong, value, 3);
            say(
                "In all, $ of H⁺ and $ of OH⁻ were added. They make water with each other first, so only the difference counts.",
                &[&mmol(*acid), &mmol(*alkali)],
            )
        }
        Note::HadExcess(reagent, amount) => say(
            "The recipe alone left $ of $ over. It counts together with what was added.",
            &[&pen.value(Symbol::Strong, *amount, 3), ion(*reagent)],
        ),
        Note::Against {
            short,
            full,
            because: reason,
        } => against(pen, *short, *full, *reason),
        _ => say(standing(pen, form, note), &[]),
    }
}

/// "HA stands for ethanoic acid, CH₃COOH, and A⁻ for ethanoate, CH₃COO⁻."
fn general_symbols(names: &PairNames) -> String {
    if names.acid_formula == names.acid_symbol {
        return String::new();
    }
    let form = |symbol: &str, name: &str, formula: &str| {
        [symbol, " stands for ", name, ", ", formula].concat()
    };
    [
        &form(&names.acid_symbol, &names.acid_name, &names.acid_formula),
        "; ",
        &form(&names.base_symbol, &names.base_name, &names.base_formula),
        ".",
    ]
    .concat()
}

/// Notes that carry no value.
fn standing(pen: &Pen<'_>, form: Option<Form>, note: &Note) -> &'static str {
    let acid = pen.variant.reagent == Reagent::Acid;
    match note {
        Note::IsBuffer => {
            "Both @ and # are there: this is a buffer. They do not neutralise each other. H⁺ only passes from @ to # all the time, and that leaves both amounts as they are."
        }
        Note::BufferMeets => {
            "At first there are both @ and #: a buffer. What is added reacts with one of them, so work out the amounts after that."
        }
        Note::IsAlone(Reagent::Acid) => {
            "Only the weak acid @ was put in. The little # that there is comes from the @ itself, so this is not a buffer."
        }
        Note::IsAlone(Reagent::Alkali) => {
            "Only the weak base # was put in. The little @ that there is comes from the # itself, so this is not a buffer."
        }
        Note::MakesBuffer if acid => {
            "A weak base meets a strong acid. They react first, so work out the amounts before any pH."
        }
        Note::MakesBuffer => {
            "A weak acid meets a strong alkali. They react first, so work out the amounts before any pH."
        }
        Note::FirstReact => {
            "Whether this is still a buffer shows only after the reaction. Work out the amounts first."
        }
        Note::AllTurned => "All of the ^ has become |, so there is as much | as there was ^.",
        Note::KeepDigits => {
            "Go on with all the digits of the calculator. Only this last line is rounded."
        }
        Note::LogarithmOfKa => {
            "Kₐ = [H⁺][#]/[@]. Take −log₁₀ of both sides and rearrange: pH = pKₐ + log₁₀([#]/[@])."
        }
        Note::KaFromKb => "For an acid and its conjugate base, Kₐ × Kb = Kw.",
        Note::VolumeKept => "Dissolving the salt is taken to leave the volume as it is.",
        Note::ReagentUsedUp => {
            "There is less ~ than ^. So ~ is limiting: all of it is used up, and some ^ is left over. Both forms are there now: a buffer."
        }
        Note::PartnerUsedUp => {
            "There is more ~ than ^. So ^ is limiting: all of it is used up, and some ~ is left over. This is no longer a buffer."
        }
        Note::NoPartner => "There is no ^ for the ~ to react with, so all of the ~ is left over.",
        Note::BothUsedUp => {
            "There is exactly as much ~ as ^. Neither is left over: of the pair only | remains."
        }
        Note::VolumeCancels => {
            "@ and # share one volume. So the ratio of their concentrations is the ratio of their amounts: the volume cancels."
        }
        Note::VolumeCounts => {
            "One amount alone decides now. Nothing cancels, so divide it by the whole volume."
        }
        Note::KaNotNeeded => {
            "The ~ that is left over decides the pH. Beside it the weak pair hardly counts, so Kₐ is not needed."
        }
        Note::HydrogenIsBase => {
            "Each @ that gives up its H⁺ makes one H⁺ and one #, so [H⁺] = [#]. Few do, so [@] is nearly what it would be if none did. That gives [H⁺]² = Kₐ × [@]."
        }
        Note::NotInBuffer => {
            "In a buffer [H⁺] = [#] would be wrong: there # was put in as well, far more of it than there is H⁺."
        }
        Note::SaltDecides(_) => {
            "# is a weak base. A little of it takes H⁺ from water: # + H₂O ⇌ @ + OH⁻."
        }
        Note::HydroxideIsAcid => {
            "Each # that does so makes one @ and one OH⁻, so [@] = [OH⁻]. Few do, so [#] is nearly what it would be if none did. That gives [OH⁻]² = Kb × [#], where Kb = Kw/Kₐ."
        }
        Note::ByKw => "In water at 25 °C, [H⁺][OH⁻] = Kw.",
        Note::HalfTurned => {
            "At half the equivalence volume, half of the @ has become #. So [@] = [#]. They cancel in Kₐ = [H⁺][#]/[@], which leaves Kₐ = [H⁺], and pKₐ = pH."
        }
        Note::SameFactor => "Both concentrations fall by the same factor.",
        Note::Backwards => "The pH is known, so go backwards: undo the logarithm.",
        Note::ShareOfAcid => {
            "Each OH⁻ turns one @ into one #. If x is the amount of OH⁻, then n(#) = x and n(@) = n(@) at the start − x. Their ratio is x/(n(@) at the start − x), which gives x."
        }
        Note::BothWays(Symbol::Acid) => {
            "Of the pair only @ is left. It can give up H⁺, and it can take up one more: no short form with one constant fits."
        }
        Note::BothWays(_) => {
            "Of the pair only # is left. It can take up H⁺, and it can give up one more: no short form with one constant fits."
        }
        Note::Caution => match form {
            Some(Form::ChooseAcid) => "",
            _ => label::SAFETY_SHORT,
        },
        _ => "",
    }
}

/// A template with its symbols and values.
pub(super) fn filled(pen: &Pen<'_>, template: &str, values: &[&str]) -> String {
    let names = pen.names;
    let (acid, base) = (&names.acid_symbol, &names.base_symbol);
    let (meets, makes) = match pen.variant.reagent {
        Reagent::Acid => (base, acid),
        Reagent::Alkali => (acid, base),
    };
    let mut values = values.iter();
    let mut out = String::with_capacity(template.len());
    for c in template.chars() {
        match c {
            '@' => out.push_str(acid),
            '#' => out.push_str(base),
            '^' => out.push_str(meets),
            '|' => out.push_str(makes),
            '~' => out.push_str(pen.ion()),
            '$' => out.push_str(values.next().copied().unwrap_or_default()),
            other => out.push(other),
        }
    }
    out
}
