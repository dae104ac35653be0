//! What a learner writes into a line, read as a number in the line's unit.

use crate::lesson::read::{ReadError, number};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::symbol::{Symbol, Unit};

/// What stands in a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Entry {
    /// Nothing.
    Blank,
    /// Something that cannot be read; it costs nothing.
    Unreadable(ReadError),
    /// A number without its unit where the unit is part of the answer; it costs nothing.
    UnitMissing,
    /// Another quantity's unit; it costs nothing.
    UnitWrong,
    /// A number in the unit that values are kept in.
    Number(f64),
    /// An amount or a volume without its unit, taken in mmol or cm³ as the line shows, in the
    /// unit that values are kept in. It may be meant in mol or dm³, as most learners work:
    /// marking decides.
    Bare(f64),
}

/// Units that an answer may carry: how it is written (without spaces, lower case, raised
/// digits on the line), which quantity, and how many kept units it makes.
const UNITS: &[(&str, Unit, f64)] = &[
    ("moldm-3", Unit::Molar, 1.0),
    ("mol·dm-3", Unit::Molar, 1.0),
    ("mol/dm3", Unit::Molar, 1.0),
    ("moll-1", Unit::Molar, 1.0),
    ("mol/l", Unit::Molar, 1.0),
    ("mmol", Unit::Mmol, 1e-3),
    ("mol", Unit::Mmol, 1.0),
    ("cm3", Unit::Cm3, 1e-3),
    ("ml", Unit::Cm3, 1e-3),
    ("dm3", Unit::Cm3, 1.0),
    ("g", Unit::Gram, 1.0),
    ("m", Unit::Molar, 1.0),
    ("l", Unit::Cm3, 1.0),
];

/// Reads what stands in the line of `problem` about `symbol`.
pub fn read_line(problem: &Problem, symbol: Symbol, text: &str) -> Entry {
    read(symbol, text, unit_wanted(problem, symbol))
}

/// Reads what stands in a line about `symbol`. A number without a unit is taken in the unit
/// that the line shows, except where the unit is part of the answer (`with_unit`).
pub fn read(symbol: Symbol, text: &str, with_unit: bool) -> Entry {
    let unit = symbol.unit();
    // "10^-5" reads like "10-5", "dm^-3" like "dm-3".
    let text: String = text
        .chars()
        .filter(|c| !c.is_whitespace() && *c != '^')
        .collect();
    let fold = |c| match c {
        '³' => '3',
        '⁻' | '−' | '–' => '-',
        '¹' => '1',
        '⋅' | '∙' => '·',
        other => other.to_ascii_lowercase(),
    };
    let folded: String = text.chars().map(fold).collect();
    let named = UNITS.iter().find(|(name, ..)| folded.ends_with(name));
    let (text, factor) = match named {
        // The text itself is cut, not its folded copy: raised digits are read as powers of ten.
        Some((name, _, factor)) => {
            let kept = text.chars().count() - name.chars().count();
            (text.chars().take(kept).collect(), *factor)
        }
        None => (text, 1.0 / unit.per_kept()),
    };
    match number(&text) {
        Err(ReadError::Empty) if named.is_none() => Entry::Blank,
        Err(error) => Entry::Unreadable(error),
        Ok(_) if named.is_some_and(|(_, of, _)| *of != unit) => Entry::UnitWrong,
        Ok(_) if named.is_none() && with_unit => Entry::UnitMissing,
        Ok(value) if named.is_none() && matches!(unit, Unit::Mmol | Unit::Cm3) => {
            Entry::Bare(value * factor)
        }
        Ok(value) => Entry::Number(value * factor),
    }
}

/// What a number without its unit may mean: mmol or cm³ as the line shows, or mol or dm³. The
/// likelier one comes first: the one that was meant in the line before, else the one nearer to
/// the right value.
pub(super) fn readings(value: f64, right: Option<f64>, in_large: Option<bool>) -> [f64; 2] {
    let (small, large) = (value, 1000.0 * value);
    // Halfway between them, as powers of ten go, lies √1000 times the smaller one.
    let nearer = right.is_some_and(|r| r.abs() * r.abs() > small.abs() * large.abs());
    if in_large.unwrap_or(nearer) {
        [large, small]
    } else {
        [small, large]
    }
}

/// Whether a question of this form ends in something that could be made.
pub const fn is_recipe(form: Form) -> bool {
    matches!(form, Form::RecipeBySalt | Form::RecipeByAlkali)
}

/// Whether the unit is part of the answer in the line about `symbol`: a recipe's answer has
/// one, everything else has the unit that the line shows.
pub fn unit_wanted(problem: &Problem, symbol: Symbol) -> bool {
    is_recipe(problem.form) && symbol == problem.answer()
}
