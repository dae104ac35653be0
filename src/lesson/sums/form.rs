//! The forms of question, each as a sheet: what is given, what is worked out, what is asked.

use crate::chem::titration::Reagent;
use crate::lesson::notation::PairNames;
use crate::lesson::sums::right::{has_choice, needs_kw, worked};
use crate::lesson::sums::sheet::Sheet;
use crate::lesson::sums::symbol::{KW, Symbol};

/// A form of question or of worked solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Form {
    /// pH from the concentrations of both forms.
    Concentrations,
    /// Two solutions are mixed.
    TwoVolumes,
    /// A weak acid is part-neutralized by a strong alkali.
    AcidWithAlkali,
    /// A weak base is part-neutralized by a strong acid.
    BaseWithAcid,
    /// A mass of the salt is dissolved in a solution of the acid.
    SaltMass,
    /// Strong acid is added to a buffer.
    AddedAcid,
    /// Strong alkali is added to a buffer.
    AddedAlkali,
    /// More strong acid or alkali is added than a reservoir can take.
    Exhausted,
    /// Exactly as much as the reservoir can take: only the salt is left.
    Equivalence,
    /// Half of that: pH = pKa.
    HalfNeutralized,
    /// A buffer is diluted.
    Dilution,
    /// Ka from a measured pH.
    KaFromPh,
    /// Mass of salt for a pH that is wanted.
    RecipeBySalt,
    /// Volume of alkali for a pH that is wanted.
    RecipeByAlkali,
    /// Which of two acids suits the pH that is wanted.
    ChooseAcid,
    /// A weak acid by itself; a weak base by itself if the variant's reagent is alkali.
    WeakAcidAlone,
}

/// All forms, in teaching order.
pub const FORMS: [Form; 16] = [
    Form::Concentrations,
    Form::TwoVolumes,
    Form::AcidWithAlkali,
    Form::BaseWithAcid,
    Form::SaltMass,
    Form::AddedAcid,
    Form::AddedAlkali,
    Form::Exhausted,
    Form::Equivalence,
    Form::HalfNeutralized,
    Form::Dilution,
    Form::KaFromPh,
    Form::RecipeBySalt,
    Form::RecipeByAlkali,
    Form::ChooseAcid,
    Form::WeakAcidAlone,
];

/// How the pH of a buffer is worked out, and a ratio from a pH.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Hash)]
pub enum PhBy {
    /// [H⁺] = Ka·\[HA\]/\[A⁻\], then its logarithm.
    #[default]
    Hydrogen,
    /// pH = pKa + log₁₀(\[A⁻\]/\[HA\]).
    Logarithm,
}

/// What sets apart two problems of one form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Variant {
    /// The strong reagent, where there is one.
    pub reagent: Reagent,
    /// H⁺ or OH⁻ that one formula unit of it gives: 1, or 2 for H₂SO₄ and Ba(OH)₂.
    pub ions: u8,
    /// Whether Kb is given and Ka follows from it.
    pub from_kb: bool,
    /// Whether what is added is small beside the reservoirs: then wrong ways to the pH lie too
    /// close to the right one, and the question ends with the table of amounts.
    pub small_addition: bool,
    /// How its pH is worked out, where there is a choice.
    pub by: PhBy,
}

impl Variant {
    /// A strong reagent with one ion, Ka given.
    pub const fn plain(reagent: Reagent) -> Self {
        Self {
            reagent,
            ions: 1,
            from_kb: false,
            small_addition: false,
            by: PhBy::Hydrogen,
        }
    }
}

/// A number that is given, and the significant figures (decimal places of a pH) it has.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Datum {
    /// Which quantity.
    pub symbol: Symbol,
    /// Its value in mol, dm³, mol dm⁻³, g or g mol⁻¹.
    pub value: f64,
    /// Significant figures, or decimal places.
    pub figures: usize,
}

/// A calculation with everything that is needed to write it, mark it and get it wrong.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Its form.
    pub form: Form,
    /// What sets it apart within its form.
    pub variant: Variant,
    /// The pair's symbols and names.
    pub names: PairNames,
    /// The calculation.
    pub sheet: Sheet,
    /// Molar masses in g mol⁻¹ that could be taken for the right one: the acid's, and that
    /// of the salt with other water of crystallization.
    pub other_molar_masses: Vec<f64>,
    /// Ka of another acid that the question names, mol dm⁻³.
    pub other_ka: Option<f64>,
}

impl Problem {
    /// The calculation of `form` from its data; the data must be those of
    /// [`Self::given`], in that order.
    pub fn new(form: Form, variant: Variant, names: PairNames, data: &[Datum]) -> Self {
        let mut sheet = Sheet::default();
        for datum in data {
            sheet = sheet.given(datum.symbol, datum.value, datum.figures);
        }
        if needs_kw(form, variant) {
            sheet = sheet.constant(Symbol::Kw, KW, 3);
        }
        for (symbol, formula) in worked(form, variant) {
            sheet = sheet.work(symbol, formula);
        }
        Self {
            form,
            variant,
            names,
            sheet,
            other_molar_masses: Vec::new(),
            other_ka: None,
        }
    }

    /// What must be given.
    pub fn given(form: Form, variant: Variant) -> Vec<Symbol> {
        use Symbol::*;
        let constant = if variant.from_kb { Kb } else { Ka };
        let rest: &[Symbol] = match form {
            Form::Concentrations => &[AcidConcentration, BaseConcentration],
            Form::TwoVolumes => &[AcidStock, AcidVolume, BaseStock, BaseVolume],
            Form::AcidWithAlkali => &[AcidStock, AcidVolume, StrongStock, StrongVolume],
            Form::BaseWithAcid => &[BaseStock, BaseVolume, StrongStock, StrongVolume],
            Form::SaltMass => &[Mass, MolarMass, AcidStock, BufferVolume],
            Form::AddedAcid | Form::AddedAlkali | Form::Exhausted => &[
                AcidConcentration,
                BaseConcentration,
                BufferVolume,
                StrongStock,
                StrongVolume,
            ],
            Form::Equivalence => match variant.reagent {
                Reagent::Alkali => &[AcidStock, AcidVolume, StrongStock, StrongVolume],
                Reagent::Acid => &[BaseStock, BaseVolume, StrongStock, StrongVolume],
            },
            Form::HalfNeutralized => return vec![EquivalenceVolume, GivenPh],
            Form::Dilution => &[AcidConcentration, BaseConcentration, Dilution],
            Form::KaFromPh => return vec![AcidConcentration, BaseConcentration, GivenPh],
            Form::RecipeBySalt => &[GivenPh, AcidStock, BufferVolume, MolarMass],
            Form::RecipeByAlkali => &[GivenPh, AcidStock, AcidVolume, StrongStock],
            Form::ChooseAcid => &[GivenPh],
            Form::WeakAcidAlone => match variant.reagent {
                Reagent::Acid => &[AcidStock],
                Reagent::Alkali => &[BaseStock],
            },
        };
        [&[constant], rest].concat()
    }

    /// The lines that a learner is asked for, in order; the last is the answer.
    pub fn asked(&self) -> Vec<Symbol> {
        use Symbol::*;
        let mut asked = match self.form {
            Form::WeakAcidAlone if self.variant.reagent == Reagent::Alkali => vec![Hydroxide, Ph],
            Form::Concentrations | Form::WeakAcidAlone => vec![Hydrogen, Ph],
            Form::TwoVolumes | Form::SaltMass => vec![Acid, Base, Hydrogen, Ph],
            Form::AcidWithAlkali => vec![AcidStart, Strong, Acid, Base, Hydrogen, Ph],
            Form::BaseWithAcid => vec![BaseStart, Strong, Base, Acid, Hydrogen, Ph],
            Form::AddedAcid | Form::AddedAlkali => {
                let amounts = [AcidStart, BaseStart, Strong, Acid, Base];
                let ph: &[Symbol] = if self.variant.small_addition {
                    &[]
                } else {
                    &[Hydrogen, Ph]
                };
                [&amounts, ph].concat()
            }
            Form::Exhausted => match self.variant.reagent {
                Reagent::Acid => vec![BaseStart, Strong, Excess, Hydrogen, Ph],
                Reagent::Alkali => vec![AcidStart, Strong, Excess, Hydroxide, Ph],
            },
            Form::Equivalence => match self.variant.reagent {
                Reagent::Alkali => vec![Base, BaseConcentration, Hydroxide, Ph],
                Reagent::Acid => vec![Acid, AcidConcentration, Hydrogen, Ph],
            },
            Form::HalfNeutralized => vec![HalfVolume, Pka, Ka],
            Form::Dilution => vec![AcidDiluted, BaseDiluted, Ph],
            Form::KaFromPh => vec![Hydrogen, Ka],
            Form::RecipeBySalt => vec![Hydrogen, Ratio, Base, Mass],
            Form::RecipeByAlkali => vec![AcidStart, Ratio, Strong, StrongVolume],
            Form::ChooseAcid => vec![Hydrogen, Ratio],
        };
        if self.by_logarithm() {
            for symbol in &mut asked {
                if *symbol == Hydrogen {
                    *symbol = Pka;
                }
            }
        }
        if self.variant.from_kb {
            asked.insert(0, Ka);
        }
        asked
    }

    /// Whether this is worked out with pKa and a logarithm of the ratio.
    pub fn by_logarithm(&self) -> bool {
        has_choice(self.form) && self.variant.by == PhBy::Logarithm
    }

    /// Whether a line is no more than a step on the way to the answer, so that a right answer
    /// shows that it was taken. Some questions ask for several things, each for its own sake.
    pub const fn is_step(&self, symbol: Symbol) -> bool {
        match self.form {
            Form::HalfNeutralized | Form::Dilution => false,
            Form::AddedAcid | Form::AddedAlkali if self.variant.small_addition => {
                matches!(symbol, Symbol::Strong)
            }
            _ => true,
        }
    }

    /// The line that the question ends in.
    pub fn answer(&self) -> Symbol {
        *self.asked().last().expect("every form asks for something")
    }
}
