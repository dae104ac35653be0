//! Questions in words: what there is, and what is given.

use crate::app::pair::PairChoice;
use crate::app::words::asked::{exactness, task};
use crate::app::words::{capital, label};
use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sig_fig::Writer;
use crate::lesson::sums::entry::is_recipe;
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::question::Question;
use crate::lesson::sums::sheet::Source;
use crate::lesson::sums::symbol::{Symbol, Unit};

/// A question as it is read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wording {
    /// What there is, in a sentence or two.
    pub situation: String,
    /// What is to be worked out, and how exactly.
    pub task: String,
    /// The constants that go with it, each with its unit.
    pub constants: Vec<String>,
    /// A caution, where something is made.
    pub caution: Option<&'static str>,
}

/// Above a question's data.
pub const DATA: &str = "Data, at 25 °C";

/// The words of a question.
pub fn question(question: &Question, writer: Writer) -> Wording {
    let asking = Asking {
        question,
        problem: &question.problem,
        names: &question.problem.names,
        writer,
    };
    Wording {
        situation: [asking.context(), &asking.situation()].concat(),
        task: [
            task(asking.problem),
            exactness(asking.problem, writer.ph_decimals),
        ]
        .concat(),
        constants: asking.constants(),
        caution: is_recipe(question.problem.form).then_some(label::SAFETY_SHORT),
    }
}

struct Asking<'a> {
    question: &'a Question,
    problem: &'a Problem,
    names: &'a PairNames,
    writer: Writer,
}

impl Asking<'_> {
    /// A datum with its unit, to the figures that it is given to.
    fn of(&self, symbol: Symbol) -> String {
        let Some((value, figures)) = self
            .problem
            .sheet
            .find(symbol)
            .and_then(|l| match l.source {
                Source::Given(value) | Source::Constant(value) => Some((value, l.figures)),
                Source::Worked(_) => None,
            })
        else {
            return String::new();
        };
        let unit = symbol.unit();
        let number = match unit {
            Unit::Scale => self.writer.fixed(value, figures),
            // "10 times", not "10.0 times".
            Unit::One => self.writer.fixed(value, 0),
            _ => self.writer.significant(value * unit.per_kept(), figures),
        };
        match unit.symbol() {
            "" => number,
            unit => [&number, " ", unit].concat(),
        }
    }

    /// "40.0 cm³ of 0.150 mol dm⁻³ propanoic acid".
    fn portion(&self, volume: Symbol, concentration: Symbol, what: &str) -> String {
        let (volume, concentration) = (self.of(volume), self.of(concentration));
        [&volume, " of ", &concentration, " ", what].concat()
    }

    fn acid_portion(&self) -> String {
        self.portion(
            Symbol::AcidVolume,
            Symbol::AcidStock,
            &self.names.acid_source,
        )
    }

    fn base_portion(&self) -> String {
        self.portion(
            Symbol::BaseVolume,
            Symbol::BaseStock,
            &self.names.base_source,
        )
    }

    fn strong(&self) -> &'static str {
        match (self.problem.variant.reagent, self.problem.variant.ions) {
            (Reagent::Acid, 1) => "hydrochloric acid (HCl)",
            (Reagent::Acid, _) => "sulfuric acid (H₂SO₄, taken as fully ionised)",
            (Reagent::Alkali, 1) => "sodium hydroxide (NaOH)",
            (Reagent::Alkali, _) => "barium hydroxide, Ba(OH)₂,",
        }
    }

    fn strong_portion(&self) -> String {
        self.portion(Symbol::StrongVolume, Symbol::StrongStock, self.strong())
    }

    /// What the volume is measured with: marked glassware where there is such a size.
    fn glass(&self, volume: Symbol) -> &'static str {
        let cm3 = self.problem.sheet.right().get(volume).unwrap_or(0.0) * 1000.0;
        let is = |size: &f64| (cm3 - size).abs() < 1e-6;
        if [10.0, 20.0, 25.0, 50.0].iter().any(is) {
            "a pipette"
        } else if cm3 < 50.0 {
            "a burette"
        } else {
            "a measuring cylinder"
        }
    }

    /// The salt as it is weighed.
    fn salt(&self) -> String {
        let salt = &self.names.base_source;
        let molar_mass = self.of(Symbol::MolarMass);
        let water = if self.question.hydrate {
            " trihydrate"
        } else {
            ""
        };
        let dry = self.question.key == "ethanoic" && !self.question.hydrate;
        let dry = if dry { "anhydrous " } else { "" };
        [dry, salt, water, " (M = ", &molar_mass, ")"].concat()
    }

    /// Where the question comes from: the test room of an invented bakery and dairy.
    fn context(&self) -> &'static str {
        let made = matches!(
            self.problem.form,
            Form::Concentrations
                | Form::TwoVolumes
                | Form::AcidWithAlkali
                | Form::SaltMass
                | Form::RecipeBySalt
                | Form::RecipeByAlkali
        );
        match self.question.key {
            "lactic" if made => "A dairy's test room checks its pH meter with a buffer. ",
            "propanoic" if made => "A bakery's test room checks its pH meter with a buffer. ",
            "ammonium" if self.problem.form == Form::BaseWithAcid => {
                "A test room checks the diluted ammonia of the cleaning store. "
            }
            _ => "",
        }
    }

    fn buffer(&self) -> String {
        let (a, b) = (Symbol::AcidConcentration, Symbol::BaseConcentration);
        let (acid, base) = (&self.names.acid_source, &self.names.base_source);
        [&self.of(a), " ", acid, " and ", &self.of(b), " ", base].concat()
    }

    fn situation(&self) -> String {
        use Symbol::*;
        match self.problem.form {
            Form::Concentrations => format!("One solution contains {}.", self.buffer()),
            Form::TwoVolumes => format!(
                "{}, measured with {}, is mixed with {}, measured with {}.",
                self.acid_portion(),
                self.glass(AcidVolume),
                self.base_portion(),
                self.glass(BaseVolume),
            ),
            Form::AcidWithAlkali | Form::BaseWithAcid | Form::Equivalence => {
                let (weak, volume) = match self.problem.variant.reagent {
                    Reagent::Alkali => (self.acid_portion(), AcidVolume),
                    Reagent::Acid => (self.base_portion(), BaseVolume),
                };
                format!(
                    "{weak} is measured into a flask with {}. {} is added from {}.",
                    self.glass(volume),
                    self.strong_portion(),
                    if self.glass(StrongVolume) == "a pipette" {
                        "a burette"
                    } else {
                        self.glass(StrongVolume)
                    },
                )
            }
            Form::SaltMass => format!(
                "{} of {} is dissolved in {}. The volume hardly changes.",
                self.of(Mass),
                self.salt(),
                self.portion(BufferVolume, AcidStock, &self.names.acid_source),
            ),
            Form::AddedAcid | Form::AddedAlkali | Form::Exhausted => format!(
                "{} of a buffer contains {}. {} is added.",
                self.of(BufferVolume),
                self.buffer(),
                self.strong_portion(),
            ),
            Form::HalfNeutralized => format!(
                "A weak acid HA is titrated with sodium hydroxide. The equivalence point is at {}. Half-way there the pH meter shows {}.",
                self.of(EquivalenceVolume),
                self.of(GivenPh),
            ),
            Form::Dilution => format!(
                "One solution contains {}. Water is added until the volume is {} times what it was.",
                self.buffer(),
                self.of(Dilution),
            ),
            Form::KaFromPh => format!(
                "A buffer contains {} of a weak acid HA and {} of its ion A⁻. The pH meter shows {}.",
                self.of(AcidConcentration),
                self.of(BaseConcentration),
                self.of(GivenPh),
            ),
            Form::RecipeBySalt => format!(
                "A buffer of pH {} is wanted. There is {}, in which {} is to be dissolved. The volume hardly changes.",
                self.of(GivenPh),
                self.portion(BufferVolume, AcidStock, &self.names.acid_source),
                self.salt(),
            ),
            Form::RecipeByAlkali => format!(
                "A buffer of pH {} is wanted. There is {}, to which {} {} is to be added.",
                self.of(GivenPh),
                self.acid_portion(),
                self.of(StrongStock),
                self.strong(),
            ),
            Form::ChooseAcid => format!(
                "A buffer of pH {} is wanted, made from one of the two acids below and its sodium salt.",
                self.of(GivenPh),
            ),
            Form::WeakAcidAlone => format!(
                "A flask contains {} {} and nothing else.",
                self.of(AcidStock),
                self.names.acid_source,
            ),
        }
    }

    fn constants(&self) -> Vec<String> {
        let ion = if self.names.alkaline { " ion" } else { "" };
        let the = if self.names.alkaline { "the " } else { "" };
        let ka = |name: &str, value: &str| ["Kₐ of ", the, name, ion, " = ", value].concat();
        let mut lines = Vec::new();
        let of = |symbol| match self.of(symbol) {
            text if text.is_empty() => None,
            text => Some(text),
        };
        if self.is_given(Symbol::Ka) {
            lines.extend(of(Symbol::Ka).map(|value| ka(&self.names.acid_name, &value)));
        }
        if let Some((key, datum)) = self.question.other {
            let names = PairChoice::Listed(key, 1).names();
            let value = self.writer.significant(datum.value, datum.figures);
            lines.push(ka(&names.acid_name, &[&value, " mol dm⁻³"].concat()));
            // The one that suits does not always come first.
            if self.question.seed % 2 == 1 {
                lines.reverse();
            }
        }
        lines.extend(of(Symbol::Kb).map(|v| ["Kb of ", &self.names.base_name, " = ", &v].concat()));
        lines.extend(of(Symbol::Kw).map(|v| ["Kw = ", &v].concat()));
        lines.iter().map(|line| capital(line)).collect()
    }

    fn is_given(&self, symbol: Symbol) -> bool {
        let line = self.problem.sheet.find(symbol);
        line.is_some_and(|l| matches!(l.source, Source::Given(_)))
    }
}
