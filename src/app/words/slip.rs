//! Where a wrong number comes from: "3.46 is what you get if …", and one question back.
//!
//! A number shows which way leads to it, never what somebody did.

use crate::app::words::asked::line;
use crate::lesson::read::ReadError;
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::form::Problem;
use crate::lesson::sums::mark::{Entry, Marked, Verdict};
use crate::lesson::sums::slip::Slip;
use crate::lesson::sums::symbol::{Symbol, Unit};

/// What is said about a line.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Feedback {
    /// What there is to say.
    pub says: String,
    /// One question back; empty for none.
    pub asks: &'static str,
}

/// What follows "… is what you get if", and the question that goes with it.
pub(super) const fn words(slip: Slip) -> (&'static str, &'static str) {
    match slip {
        Slip::RatioInverted | Slip::AlkalinePairInverted => (
            "the ratio of the two forms is upside down",
            "Which form is there more of, and should the pH lie above pKₐ or below it?",
        ),
        Slip::WeakAcidShortcut => (
            "the solution is taken for the weak acid alone, with [H⁺] = [A⁻]",
            "Where does most of the A⁻ here come from?",
        ),
        Slip::SaltAsAcid => (
            "the salt's concentration stands where a weak acid's would",
            "Which of the two gives up H⁺, the acid or its salt?",
        ),
        Slip::WeakAsStrong => (
            "every molecule of the weak acid is taken to have given up its H⁺",
            "How much of a weak acid is ionised?",
        ),
        Slip::StartingAcidKept => (
            "the amount from before the reaction is kept",
            "How much of it is left when the strong reagent has reacted?",
        ),
        Slip::StartingAcidAsBase => (
            "the starting amount of the acid is taken for the amount of A⁻",
            "What does each OH⁻ make, and how many OH⁻ are there?",
        ),
        Slip::AlkaliAddedToAcid => (
            "the alkali is added to the amount of acid",
            "What does OH⁻ do to the acid: make more of it, or use it up?",
        ),
        Slip::HalfAssumed => (
            "both forms are taken to be there in equal amounts, as half-way to equivalence",
            "Are the two amounts equal here?",
        ),
        Slip::SaltIgnored => (
            "the acid that is left is taken for a weak acid alone",
            "What else is in the flask after the reaction?",
        ),
        Slip::StockConcentrations => (
            "the concentrations in the bottles are used, without the volumes",
            "How many moles does each volume hold?",
        ),
        Slip::VolumesAsRatio => (
            "the volumes stand in the ratio in place of the amounts",
            "How many moles does each volume hold?",
        ),
        Slip::OneDiluted => (
            "only one of the two forms is diluted",
            "Which volume are both forms in, once they are together?",
        ),
        Slip::AmountOverConcentration => (
            "an amount in moles stands over a concentration, or under one",
            "Do both parts of the ratio have the same unit?",
        ),
        Slip::VolumeUnconverted => (
            "one of the two amounts is a thousand times too large: in mmol beside one in mol, or from cm³ taken for dm³",
            "Which unit has each of the two amounts, and which volume went into it?",
        ),
        Slip::WrongMolarMass => (
            "another molar mass is used, of the acid or of the salt with other water in it",
            "Which substance is on the balance?",
        ),
        Slip::OtherAcidsConstant => (
            "the Kₐ of the other acid is used",
            "Which of the two acids suits, and which Kₐ is its own?",
        ),
        Slip::GramsAsMoles => (
            "the mass in grams is taken for an amount in moles",
            "What turns a mass into an amount?",
        ),
        Slip::WrongFormSubtracted => (
            "what is added is taken from the wrong form",
            "Which form takes up what is added, and which one does it make?",
        ),
        Slip::OnlyAcidChanged => (
            "the amount of the acid form changes and that of the base form does not",
            "Each one gained of one form is made from what?",
        ),
        Slip::OnlyBaseChanged => (
            "the amount of the base form changes and that of the acid form does not",
            "Each one lost of one form turns into what?",
        ),
        Slip::AddedDirectly => (
            "all that is added is taken to stay free",
            "What does it meet in the flask?",
        ),
        Slip::MolesToConcentrations => (
            "moles are added to concentrations",
            "Do the numbers that are added have the same unit?",
        ),
        Slip::OneToOneAssumed => (
            "each formula unit is taken to bring one ion",
            "How many H⁺ or OH⁻ does one formula unit bring?",
        ),
        Slip::NaturalLogarithm => (
            "the natural logarithm (ln) is used",
            "Which logarithm is pH defined with?",
        ),
        Slip::MinusDropped => (
            "the minus sign of −log is left out",
            "What sign does the logarithm of a number below 1 have?",
        ),
        Slip::WrongInverse => (
            "10 is raised to the number itself, not to minus it",
            "Should this come out above 1 or below?",
        ),
        Slip::KbAsKa => (
            "Kb stands where Kₐ belongs",
            "What do Kₐ and Kb of a pair multiply to?",
        ),
        Slip::PohAsPh => ("pOH is taken for pH", "Is the solution acidic or alkaline?"),
        Slip::NeedlessComplement => (
            "the pH is taken from 14 once more",
            "Is −log [H⁺] the pH already, or the pOH?",
        ),
        Slip::ShareOfTotal => (
            "one form is divided by the total, not by the other form",
            "Which two amounts does the Kₐ expression compare?",
        ),
        Slip::EarlyRounding => (
            "a number is rounded on the way",
            "What comes out with every digit kept until the last line?",
        ),
        Slip::AlkaliShareForgotten => (
            "the ratio is multiplied by all of the acid",
            "Where does the A⁻ come from, and what does that leave of the HA?",
        ),
        Slip::RecipeVolumeForgotten => (
            "the mass is worked out for 1 dm³",
            "Which volume is to be made?",
        ),
        Slip::DilutionShiftsPh => (
            "each tenfold dilution is taken to move the pH by 1",
            "What does dilution do to the ratio of the two forms?",
        ),
        Slip::TotalVolumeOmitted => (
            "the volume from before the addition is used",
            "What is the volume of everything together?",
        ),
        Slip::ExhaustionIgnored => (
            "the buffer formula is used although one form has run out",
            "How much of each form is left?",
        ),
        Slip::NeutralAtEquivalence => (
            "the solution is taken to be neutral at equivalence",
            "What does the ion of the salt do in water?",
        ),
        Slip::RootForgotten => (
            "the square root is left out",
            "[H⁺] times what equals Kₐ times the concentration?",
        ),
    }
}

/// Asked where several ways lead to the same number.
const WHICH_WAY: &str = "Which of these is nearer to your way? Write out the line with its numbers before you work it out.";

const WHAT_BECAME_OF_IT: &str =
    "The acid that gave its H⁺ to OH⁻: is it still acid, or is it A⁻ now?";

const WHAT_WATER_CHANGES: &str = "Which of the two concentrations does added water change?";

/// The question that tells apart slips with one number.
const fn follow_up(slips: &[Slip]) -> &'static str {
    match slips {
        [slip] => words(*slip).1,
        [Slip::StartingAcidKept | Slip::ShareOfTotal, ..] => WHAT_BECAME_OF_IT,
        [Slip::OneDiluted | Slip::DilutionShiftsPh, ..] => WHAT_WATER_CHANGES,
        _ => WHICH_WAY,
    }
}

/// What is said about the line about `symbol` as it was marked. Empty for one that is blank.
pub fn feedback(problem: &Problem, symbol: Symbol, marked: &Marked, writer: Writer) -> Feedback {
    let number = || match marked.entry {
        Entry::Number(value) => written(symbol, value, writer),
        _ => String::new(),
    };
    let is_what_you_get =
        |reasons: &str| [&number(), " is what you get if ", reasons, "."].concat();
    let (says, asks) = match &marked.verdict {
        Verdict::Right => (RIGHT.to_owned(), ""),
        Verdict::NotMarked(Entry::Blank | Entry::Number(_) | Entry::Bare(_)) => {
            return Feedback::default();
        }
        Verdict::NotMarked(Entry::Unreadable(error)) => (unreadable(*error).to_owned(), ""),
        Verdict::NotMarked(Entry::UnitMissing) => {
            let unit = line(problem, symbol).unit;
            (
                [
                    "The unit is part of this answer: ",
                    unit,
                    ", for example. This cost nothing.",
                ]
                .concat(),
                "",
            )
        }
        Verdict::NotMarked(Entry::UnitWrong) => {
            let unit = line(problem, symbol).unit;
            let wanted = match unit {
                "" => "This line is a number without a unit.".to_owned(),
                unit => [
                    "This is another quantity's unit. This line is in ",
                    unit,
                    ".",
                ]
                .concat(),
            };
            ([&wanted, " This cost nothing."].concat(), "")
        }
        Verdict::RoundedEarly => (ROUNDED_EARLY.to_owned(), ""),
        Verdict::FollowsRounded => (FOLLOWS_ROUNDED.to_owned(), ""),
        Verdict::FollowsThrough => (FOLLOWS_THROUGH.to_owned(), ""),
        Verdict::Slips(slips) => {
            let reasons: Vec<_> = slips.iter().map(|slip| words(*slip).0).collect();
            (
                is_what_you_get(&reasons.join(", and also if ")),
                follow_up(slips),
            )
        }
        Verdict::TwoSlips(first, second) => {
            let reasons = [words(*first).0, ", and at once ", words(*second).0].concat();
            (is_what_you_get(&reasons), words(*first).1)
        }
        Verdict::Unknown => (
            ["No usual slip leads to ", &number(), "."].concat(),
            NO_MATCH,
        ),
    };
    Feedback { says, asks }
}

const RIGHT: &str = "Right.";

const ROUNDED_EARLY: &str = "Right, though not to the last digit. Rounding on the way can do that: keep every digit until the last line.";

const FOLLOWS_ROUNDED: &str = "Right from your own numbers above, so this line has its mark. They are rounded, and that has moved this one. Keep every digit until the last line.";

const FOLLOWS_THROUGH: &str = "Right from your own numbers above, so this line has its mark. It changes once the wrong one above is put right.";

const NO_MATCH: &str = "Which numbers went into this line, and with which units?";

/// Why a line could not be read.
pub const fn unreadable(error: ReadError) -> &'static str {
    match error {
        ReadError::Empty => "A unit without a number. This cost nothing.",
        ReadError::TwoMarks => "One decimal mark only, please: 0.050 or 0,050. This cost nothing.",
        ReadError::NotANumber => {
            "This could not be read as a number. Try 4.76, 1.74×10⁻⁵ or 1.74e-5. This cost nothing."
        }
        ReadError::TooLarge => "This number is too large to work with. This cost nothing.",
    }
}

/// A value of a line with its unit, as it is quoted back: anything but a pH to three figures.
pub fn written(symbol: Symbol, value: f64, writer: Writer) -> String {
    let unit = symbol.unit();
    match unit {
        // No pH is so far off the scale: then decimal places would be hundreds of digits.
        Unit::Scale if value.abs() < 10_000.0 => writer.on_ph_scale(value),
        Unit::Scale | Unit::One => writer.significant(value, 3),
        _ => {
            let number = writer.significant(value * unit.per_kept(), 3);
            [&number, " ", unit.symbol()].concat()
        }
    }
}
