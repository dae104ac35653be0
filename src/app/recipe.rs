//! How the buffer on the bench is made: what was typed, and what it means.
//!
//! Typed text is kept as typed. [`Recipe::read`] turns it into a [`Setup`] or says, field
//! by field, what is in the way.

use crate::app::field::{FIELD_COUNT, MOST_EXCESS};
pub use crate::app::field::{Field, Problem};
pub use crate::app::pair::{PAIRS, PairChoice};
use crate::chem::buffer::Pair;
use crate::chem::mixture::{Charge, Mixture};
use crate::chem::quantity::{Amount, Concentration, Pka, Volume};
use crate::chem::systems::Entry;
use crate::chem::titration::Stock;
use crate::lesson::notation::PairNames;
use crate::lesson::read;

/// How the two forms get into the flask.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Method {
    /// A solution of the acid form and one of the base form are mixed.
    TwoSolutions,
    /// A weak acid is part-neutralized by strong alkali, or a weak base by strong acid.
    PartNeutralized,
}

impl Method {
    /// The two solutions that it takes: concentration and volume of each.
    pub const fn solutions(self) -> [[Field; 2]; 2] {
        match self {
            Self::TwoSolutions => [
                [Field::AcidConcentration, Field::AcidVolume],
                [Field::BaseConcentration, Field::BaseVolume],
            ],
            Self::PartNeutralized => [
                [Field::WeakConcentration, Field::WeakVolume],
                [Field::StrongConcentration, Field::StrongVolume],
            ],
        }
    }
}

/// A recipe as typed.
#[derive(Debug, Clone, PartialEq)]
pub struct Recipe {
    /// The pair.
    pub pair: PairChoice,
    /// How it is made.
    pub method: Method,
    texts: [String; FIELD_COUNT],
}

impl Default for Recipe {
    /// The starting bench: propanoic acid and sodium propanoate, 0.050 mol dm⁻³ each in
    /// 200 cm³ (an invented dairy's test room).
    fn default() -> Self {
        let texts = [
            "5.00", "0.100", "100", "0.100", "100", "0.200", "100", "0.100", "100", "1.00",
        ];
        Self {
            pair: PairChoice::Listed("propanoic", 1),
            method: Method::TwoSolutions,
            texts: texts.map(str::to_owned),
        }
    }
}

/// A recipe understood.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    /// The pair.
    pub pair: Pair,
    /// Its line in the table of systems; `None` for an own pair.
    pub entry: Option<&'static Entry>,
    /// How its forms are written and called.
    pub names: PairNames,
    /// How it is made.
    pub method: Method,
    /// The mixture before any addition.
    pub mixture: Mixture,
    /// Where additions come from.
    pub stock: Stock,
}

impl Recipe {
    /// What stands in a field.
    pub fn text(&self, field: Field) -> &str {
        &self.texts[field as usize]
    }

    /// Replaces what stands in a field.
    pub fn set_text(&mut self, field: Field, text: String) {
        self.texts[field as usize] = text;
    }

    /// The fields that count for this pair and method, in the order shown.
    pub fn fields(&self) -> Vec<Field> {
        let mut fields = Vec::new();
        if self.pair.is_own() {
            fields.push(Field::OwnPka);
        }
        fields.extend(self.method.solutions().into_iter().flatten());
        fields.push(Field::Stock);
        fields
    }

    /// What is wrong with the text of `field` by itself.
    pub fn problem(&self, field: Field) -> Option<Problem> {
        self.value(field).err()
    }

    /// Reads the recipe.
    ///
    /// # Errors
    /// Every field that counts and cannot be used, with what is wrong with it.
    pub fn read(&self) -> Result<Setup, Vec<(Field, Problem)>> {
        let fields = self.fields();
        let wrong: Vec<_> = fields
            .iter()
            .filter_map(|&f| Some((f, self.problem(f)?)))
            .collect();
        if !wrong.is_empty() {
            return Err(wrong);
        }
        // Where no pKa is asked for it does not matter.
        let own_pka = fields.contains(&Field::OwnPka);
        let own_pka = own_pka.then(|| self.value(Field::OwnPka));
        let own_pka = own_pka.unwrap_or(Ok(7.0)).ok();
        let own_pka = own_pka.and_then(|v| Pka::new(v).ok());
        let own_pka = own_pka.expect("checked above");
        let (pair, entry) = self.pair.resolve(own_pka);
        let mixture = self.mixture(&pair);
        if mixture.weak().iter().all(|part| part.total == Amount::ZERO) {
            let field = match self.method {
                Method::TwoSolutions => Field::BaseConcentration,
                Method::PartNeutralized => Field::WeakConcentration,
            };
            return Err(vec![(field, Problem::NothingOfThePair)]);
        }
        if self.method == Method::PartNeutralized {
            let strong = self.amount(Field::StrongConcentration, Field::StrongVolume);
            let weak = self.amount(Field::WeakConcentration, Field::WeakVolume);
            // The allowance keeps a hundred times, typed in decimals, from being a hair more.
            if strong.mol() > weak.times(MOST_EXCESS).mol() * (1.0 + 1e-9) {
                return Err(vec![(Field::StrongConcentration, Problem::TooMuchStrong)]);
            }
        }
        let naming = entry.map(|e| e.classroom).unwrap_or_default();
        Ok(Setup {
            pair,
            entry,
            names: PairNames::new(&pair, entry, naming),
            method: self.method,
            mixture,
            stock: Stock::new(self.concentration(Field::Stock)).expect("checked above"),
        })
    }

    fn mixture(&self, pair: &Pair) -> Mixture {
        let solution = |protons, concentration, volume| {
            let amount = self.amount(concentration, volume);
            let water = Mixture::water(self.volume(volume));
            water.with_weak(pair.system(), protons, amount, Charge::One)
        };
        let (acid, base) = (pair.acid_protons(), pair.base_protons());
        match self.method {
            Method::TwoSolutions => solution(acid, Field::AcidConcentration, Field::AcidVolume)
                .mixed_with(&solution(base, Field::BaseConcentration, Field::BaseVolume)),
            Method::PartNeutralized => {
                let strong = self.amount(Field::StrongConcentration, Field::StrongVolume);
                let start = if self.starts_from_base() { base } else { acid };
                let weak = solution(start, Field::WeakConcentration, Field::WeakVolume);
                let weak = weak.with_water(self.volume(Field::StrongVolume));
                if self.starts_from_base() {
                    weak.with_strong_acid(strong, Charge::One)
                } else {
                    weak.with_strong_alkali(strong, Charge::One)
                }
            }
        }
    }

    /// Whether part-neutralizing starts from the weak base (and takes strong acid).
    pub fn starts_from_base(&self) -> bool {
        self.pair.names().alkaline
    }

    fn value(&self, field: Field) -> Result<f64, Problem> {
        let value = read::number(self.text(field)).map_err(Problem::Unreadable)?;
        let (low, high, or_zero) = field.range();
        if (low..=high).contains(&value) || (or_zero && value == 0.0) {
            Ok(value)
        } else {
            Err(Problem::OutOfRange { low, high, or_zero })
        }
    }

    fn amount(&self, concentration: Field, volume: Field) -> Amount {
        self.concentration(concentration) * self.volume(volume)
    }

    fn concentration(&self, field: Field) -> Concentration {
        let value = self.value(field).ok();
        value
            .and_then(|v| Concentration::from_molar(v).ok())
            .expect("every field is checked first")
    }

    fn volume(&self, field: Field) -> Volume {
        let value = self.value(field).ok();
        value
            .and_then(|v| Volume::from_cm3(v).ok())
            .expect("every field is checked first")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::read::ReadError;

    #[test]
    fn every_pair_can_be_made_both_ways() {
        for &pair in PAIRS {
            for method in [Method::TwoSolutions, Method::PartNeutralized] {
                let recipe = Recipe {
                    pair,
                    method,
                    ..Recipe::default()
                };
                let setup = recipe.read().unwrap();
                assert!((setup.mixture.volume().cm3() - 200.0).abs() < 1e-9);
                let complete = setup.pair.complete_reaction(&setup.mixture).unwrap();
                assert!(
                    (complete.acid.mmol() - 10.0).abs() < 1e-9,
                    "{pair:?} {method:?}"
                );
                assert!(
                    (complete.base.mmol() - 10.0).abs() < 1e-9,
                    "{pair:?} {method:?}"
                );
            }
        }
    }

    #[test]
    fn typed_text_is_kept_and_its_problem_named() {
        let mut recipe = Recipe::default();
        let outside = Problem::OutOfRange {
            low: 1e-5,
            high: 10.0,
            or_zero: true,
        };
        for (text, problem) in [
            ("", Problem::Unreadable(ReadError::Empty)),
            ("lots", Problem::Unreadable(ReadError::NotANumber)),
            ("-0.1", outside),
            ("1e9", outside),
        ] {
            recipe.set_text(Field::AcidConcentration, text.to_owned());
            assert_eq!(
                recipe.read(),
                Err(vec![(Field::AcidConcentration, problem)])
            );
            assert_eq!(recipe.text(Field::AcidConcentration), text);
        }
    }

    #[test]
    fn strong_reagent_is_limited_to_a_hundred_times_the_pair() {
        let mut recipe = Recipe {
            method: Method::PartNeutralized,
            ..Recipe::default()
        };
        recipe.set_text(Field::WeakConcentration, "0.07".to_owned());
        recipe.set_text(Field::StrongConcentration, "7".to_owned());
        assert!(recipe.read().is_ok());
        recipe.set_text(Field::StrongConcentration, "7.01".to_owned());
        let problem = (Field::StrongConcentration, Problem::TooMuchStrong);
        assert_eq!(recipe.read(), Err(vec![problem]));
        recipe.method = Method::TwoSolutions;
        assert!(recipe.read().is_ok());
    }

    #[test]
    fn hidden_fields_do_not_count_and_an_empty_bench_is_refused() {
        let mut recipe = Recipe::default();
        recipe.set_text(Field::OwnPka, "nonsense".to_owned());
        recipe.set_text(Field::WeakVolume, "nonsense".to_owned());
        recipe.set_text(Field::AcidConcentration, "0".to_owned());
        assert!(recipe.read().is_ok());
        recipe.set_text(Field::BaseConcentration, "0,0".to_owned());
        assert_eq!(
            recipe.read(),
            Err(vec![(Field::BaseConcentration, Problem::NothingOfThePair)])
        );
    }
}
