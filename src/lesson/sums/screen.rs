//! Screening of a question's numbers: sound, such as a person would set, and with every
//! wrong way's number apart from the right one and from the others.

use crate::chem::power::ten_to;
use crate::chem::titration::Reagent;
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::slip::{Slip, Way, ways};
use crate::lesson::sums::symbol::{KW, Symbol, Unit};

/// Closest that a wrong answer may lie to the right one, in units of pH or of log₁₀.
pub const FROM_RIGHT: f64 = 0.05;

/// Closest that two wrong answers may lie to each other, unless they are the same number.
pub const FROM_EACH_OTHER: f64 = 0.03;

/// Below this two numbers are one.
pub const SAME: f64 = 1e-9;

/// Slips that lead to one number whatever the data: nothing but a question tells them apart.
const ONE_NUMBER: &[[Slip; 2]] = &[
    // The total of both forms is the acid that there was.
    [Slip::StartingAcidKept, Slip::ShareOfTotal],
    // The ratio moves by as much as the volume.
    [Slip::OneDiluted, Slip::DilutionShiftsPh],
];

/// Whether two slips lead to one number by nature.
fn are_one(a: Slip, b: Slip) -> bool {
    a == b || ONE_NUMBER.contains(&[a, b]) || ONE_NUMBER.contains(&[b, a])
}

/// Where a value lies on the scale on which answers are compared: a pH by itself, anything
/// else by its logarithm. `None` for what no learner would write down.
pub fn place(symbol: Symbol, value: f64) -> Option<f64> {
    if symbol.unit() == Unit::Scale {
        Some(value)
    } else {
        (value > 0.0).then(|| libm::log10(value))
    }
}

/// The first asked line that shows a wrong way, and its value there.
pub fn shows(problem: &Problem, way: &Way) -> Option<(Symbol, f64)> {
    let right = problem.sheet.right();
    let wrong = way.values(problem);
    problem.asked().into_iter().find_map(|symbol| {
        let (right, wrong) = (right.get(symbol)?, wrong.get(symbol)?);
        ((wrong - right).abs() > SAME * right.abs()).then_some((symbol, wrong))
    })
}

/// Whether the numbers are sound and every wrong way can be recognized by its own.
pub fn can_be_told_apart(problem: &Problem) -> bool {
    let right = problem.sheet.right();
    let sound = problem.sheet.lines().iter().all(|line| {
        let value = right.get(line.symbol);
        value.is_some_and(|v| v > 0.0 || line.symbol.unit() == Unit::Scale)
    });
    sound && is_plausible(problem) && short_form_holds(problem) && are_apart(problem)
}

/// Both at the answer and at the line where each way shows first.
fn are_apart(problem: &Problem) -> bool {
    let right = problem.sheet.right();
    let answer = problem.answer();
    // Two significant figures take up to 5 % on either side.
    let least = match problem.sheet.least_figures() {
        2 => FROM_EACH_OTHER,
        _ => FROM_EACH_OTHER / 2.0,
    };
    // A question that ends with the table of amounts ends with one of its lines.
    let (from_right, apart) = if problem.variant.small_addition {
        (least, least)
    } else {
        (FROM_RIGHT, FROM_EACH_OTHER)
    };
    let mut at_answer: Vec<(Slip, f64)> = Vec::new();
    let mut at_lines: Vec<(Slip, Symbol, f64)> = Vec::new();
    for way in ways(problem) {
        if way.slip == Slip::EarlyRounding {
            continue;
        }
        let Some((line, value)) = shows(problem, &way) else {
            continue;
        };
        let wrong = way.values(problem);
        let near = |a: f64, b: f64, least: f64| (a - b).abs() < least;
        let at = |symbol, value: Option<f64>| value.and_then(|v| place(symbol, v));
        if let (Some(ours), Some(theirs)) =
            (at(answer, right.get(answer)), at(answer, wrong.get(answer)))
        {
            let clash = |(slip, other): &(Slip, f64)| {
                near(*other, theirs, apart)
                    && !(are_one(*slip, way.slip) && near(*other, theirs, SAME))
            };
            // In a table of amounts a slip in one row need not show in the last.
            let shows = !(problem.variant.small_addition && near(ours, theirs, SAME));
            if shows && (near(ours, theirs, from_right) || at_answer.iter().any(clash)) {
                return false;
            }
            at_answer.push((way.slip, theirs));
        }
        // Nought is a number that many ways lead to.
        let Some(here) = place(
            line,
            if line.unit() == Unit::Scale {
                value
            } else {
                value.abs()
            },
        ) else {
            return false;
        };
        let clash = |(slip, l, other): &(Slip, Symbol, f64)| {
            *l == line
                && near(*other, here, least)
                && !(are_one(*slip, way.slip) && near(*other, here, SAME))
        };
        let right = at(line, right.get(line));
        if right.is_some_and(|r| near(r, here, least)) || at_lines.iter().any(clash) {
            return false;
        }
        at_lines.push((way.slip, line, here));
    }
    true
}

/// Free H⁺ or OH⁻ as a share of either form, up to which [H⁺] = Ka·[HA]/[A⁻] is right to
/// about 0.02 in pH.
const MOST_FREE: f64 = 0.02;

/// Salt that may be dissolved in a given volume, mol dm⁻³. Common practice, no source.
const MOST_SALT: f64 = 0.6;

/// Barium hydroxide in a bottle, mol dm⁻³: a saturated solution at 20 °C has about 0.23. From
/// memory of handbook tables.
const MOST_BARIUM_HYDROXIDE: f64 = 0.2;

/// Whether free H⁺ and OH⁻ are few beside both forms of a buffer, so that the short form,
/// which leaves them out, gives the pH that the full balance gives.
fn short_form_holds(problem: &Problem) -> bool {
    use Symbol::*;
    let right = problem.sheet.right();
    let volumes = [AcidVolume, BaseVolume, BufferVolume, StrongVolume];
    let volume: f64 = volumes.iter().filter_map(|v| right.get(*v)).sum();
    let concentration = |diluted, concentration, amount| {
        let in_all = right.get(amount).map(|amount| amount / volume);
        in_all.or(right.get(diluted)).or(right.get(concentration))
    };
    let acid = concentration(AcidDiluted, AcidConcentration, Acid);
    let base = concentration(BaseDiluted, BaseConcentration, Base);
    match (problem.form, base) {
        (Form::Exhausted, _) => return excess_decides(problem),
        // So much salt would not leave the volume as it is.
        (Form::SaltMass | Form::RecipeBySalt, Some(base)) if base > MOST_SALT => return false,
        _ => {}
    }
    match (acid, base, right.get(Ph).or(right.get(GivenPh))) {
        (Some(acid), Some(base), Some(ph)) => {
            let hydrogen = ten_to(-ph);
            (hydrogen - KW / hydrogen).abs() <= MOST_FREE * acid.min(base)
        }
        _ => true,
    }
}

/// Whether the excess by itself decides the pH: the form that is left must not give up (or
/// take up) a share of it that shows.
fn excess_decides(problem: &Problem) -> bool {
    use Symbol::*;
    let right = problem.sheet.right();
    let get = |symbol| right.get(symbol).unwrap_or(0.0);
    let excess = get(Excess) / get(TotalVolume);
    let pair = (get(AcidStart) + get(BaseStart)) / get(TotalVolume);
    let constant = match problem.variant.reagent {
        Reagent::Acid => get(Ka),
        Reagent::Alkali => KW / get(Ka),
    };
    constant * pair <= MOST_FREE * excess * excess
}

/// Such as a person would set: a buffer within its useful range, an addition of a size that
/// goes with the form, a mass that can be weighed, a volume that can be measured.
fn is_plausible(problem: &Problem) -> bool {
    use Symbol::*;
    let right = problem.sheet.right();
    let get = |symbol| right.get(symbol).unwrap_or(0.0);
    let ratio = |a: Symbol, b: Symbol| {
        let ratio = get(a) / get(b);
        (0.1..=10.0).contains(&ratio) && (ratio - 1.0).abs() > 0.05
    };
    let share = |reservoir: Symbol| get(Strong) / get(reservoir);
    let is_barium = problem.variant.ions == 2 && problem.variant.reagent == Reagent::Alkali;
    if is_barium && get(StrongStock) > MOST_BARIUM_HYDROXIDE {
        return false;
    }
    match problem.form {
        Form::Concentrations | Form::Dilution | Form::KaFromPh => {
            ratio(AcidConcentration, BaseConcentration)
        }
        Form::TwoVolumes => {
            let differ = |a: Symbol, b: Symbol| (get(a) - get(b)).abs() > SAME;
            differ(AcidStock, BaseStock) && differ(AcidVolume, BaseVolume) && ratio(Acid, Base)
        }
        Form::SaltMass | Form::AcidWithAlkali | Form::BaseWithAcid => ratio(Acid, Base),
        Form::AddedAcid | Form::AddedAlkali => {
            let reservoir = if problem.form == Form::AddedAcid {
                BaseStart
            } else {
                AcidStart
            };
            let size = if problem.variant.small_addition {
                0.02..=0.1
            } else {
                0.3..=0.7
            };
            ratio(AcidStart, BaseStart)
                && (0.1..=10.0).contains(&(get(Acid) / get(Base)))
                && size.contains(&share(reservoir))
                && get(StrongVolume) <= get(BufferVolume)
        }
        Form::Exhausted => {
            let reservoir = match problem.variant.reagent {
                Reagent::Acid => BaseStart,
                Reagent::Alkali => AcidStart,
            };
            (1.1..=3.0).contains(&share(reservoir)) && get(StrongVolume) <= 2.0 * get(BufferVolume)
        }
        Form::Equivalence => {
            let start = match problem.variant.reagent {
                Reagent::Alkali => get(AcidStock) * get(AcidVolume),
                Reagent::Acid => get(BaseStock) * get(BaseVolume),
            };
            (get(StrongStock) * get(StrongVolume) / start - 1.0).abs() < SAME
        }
        Form::HalfNeutralized | Form::ChooseAcid | Form::WeakAcidAlone => true,
        Form::RecipeBySalt => (0.5..=60.0).contains(&get(Mass)),
        Form::RecipeByAlkali => (0.005..=0.25).contains(&get(StrongVolume)),
    }
}
