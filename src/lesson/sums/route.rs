//! Which steps lead through each form, and why.

use crate::chem::titration::Reagent;
use crate::lesson::sums::expression::of;
use crate::lesson::sums::form::Form;
use crate::lesson::sums::solution::{Note, Subject};
use crate::lesson::sums::steps::Builder;
use crate::lesson::sums::symbol::Symbol;

impl Builder<'_> {
    pub(super) fn through(&mut self) {
        use Symbol::*;
        if self.problem.variant.from_kb {
            self.add(Subject::Constant, &[Note::KaFromKb], &[Ka]);
        }
        match self.problem.form {
            Form::Concentrations => {
                self.mixture(Note::IsBuffer);
                self.buffer();
                self.check(vec![self.beside_pka(
                    AcidConcentration,
                    BaseConcentration,
                    Ph,
                )]);
            }
            Form::TwoVolumes | Form::SaltMass => {
                self.mixture(Note::IsBuffer);
                self.amounts(&[Acid, Base]);
                self.buffer();
                self.check(vec![self.beside_pka(Acid, Base, Ph)]);
            }
            Form::AcidWithAlkali => {
                self.mixture(Note::MakesBuffer);
                self.amounts(&[AcidStart, Strong]);
                self.reaction([self.get(Strong), self.get(AcidStart), 0.0], &[Acid, Base]);
                self.buffer();
                self.check(vec![self.beside_pka(Acid, Base, Ph)]);
            }
            Form::BaseWithAcid => {
                self.mixture(Note::MakesBuffer);
                self.amounts(&[BaseStart, Strong]);
                self.reaction([self.get(Strong), 0.0, self.get(BaseStart)], &[Base, Acid]);
                self.buffer();
                self.check(vec![self.beside_pka(Acid, Base, Ph)]);
            }
            Form::AddedAcid | Form::AddedAlkali => {
                self.mixture(Note::BufferMeets);
                self.amounts(&[AcidStart, BaseStart, Strong]);
                self.reaction(self.start(), &[Acid, Base]);
                self.buffer();
                let before = self.get(Ka) * self.get(AcidStart) / self.get(BaseStart);
                let moved = Note::Moved {
                    from: -libm::log10(before),
                    to: self.get(Ph),
                };
                self.check(vec![moved, self.beside_pka(Acid, Base, Ph)]);
            }
            Form::Exhausted => self.exhausted(),
            Form::Equivalence => self.equivalence(),
            Form::HalfNeutralized => {
                self.add(Subject::Half, &[Note::HalfTurned], &[HalfVolume]);
                self.with_ka(&[], &[Pka, Ka]);
            }
            Form::Dilution => {
                self.mixture(Note::IsBuffer);
                self.add(
                    Subject::Concentrations,
                    &[Note::SameFactor],
                    &[AcidDiluted, BaseDiluted],
                );
                self.buffer();
                let times = self.get(Dilution);
                self.check(vec![
                    Note::SmallerReserve(times),
                    self.beside_pka(AcidDiluted, BaseDiluted, Ph),
                ]);
            }
            Form::KaFromPh => {
                if self.problem.by_logarithm() {
                    self.add(Subject::FromKa, &[Note::LogarithmOfKa], &[Pka, Ka]);
                } else {
                    self.add(Subject::Hydrogen, &[Note::Backwards], &[Hydrogen]);
                    self.with_ka(&[], &[Ka]);
                }
                self.check(vec![self.beside_pka(
                    AcidConcentration,
                    BaseConcentration,
                    GivenPh,
                )]);
            }
            Form::RecipeBySalt => {
                self.backwards();
                self.add(Subject::Recipe, &[], &[BaseConcentration, Base, Mass]);
                self.check(vec![self.within_range(), Note::Caution]);
            }
            Form::RecipeByAlkali => {
                self.backwards();
                let lines = [AcidStart, Strong, StrongVolume];
                self.add(Subject::Recipe, &[Note::ShareOfAcid], &lines);
                self.check(vec![self.within_range(), Note::Caution]);
            }
            Form::ChooseAcid => {
                self.backwards();
                self.check(vec![self.within_range()]);
            }
            Form::WeakAcidAlone => self.alone(),
        }
    }

    fn start(&self) -> [f64; 3] {
        [Symbol::Strong, Symbol::AcidStart, Symbol::BaseStart].map(|s| self.get(s))
    }

    fn mixture(&mut self, note: Note) {
        self.add(Subject::Mixture, &[note, Note::Names], &[]);
    }

    fn backwards(&mut self) {
        use Symbol::{Hydrogen, Pka, Ratio};
        if self.problem.by_logarithm() {
            let notes = [Note::VolumeCancels, Note::LogarithmOfKa, Note::Backwards];
            self.add(Subject::FromKa, &notes, &[Pka, Ratio]);
            return;
        }
        self.add(Subject::Hydrogen, &[Note::Backwards], &[Hydrogen]);
        self.with_ka(&[Note::VolumeCancels], &[Ratio]);
    }

    fn within_range(&self) -> Note {
        Note::WithinRange {
            pka: -libm::log10(self.get(Symbol::Ka)),
            ph: self.get(Symbol::GivenPh),
        }
    }

    fn exhausted(&mut self) {
        use Symbol::*;
        // A sheet that starts from what is left brings its own steps.
        if self.problem.sheet.find(Strong).is_some() {
            self.mixture(Note::FirstReact);
            self.amounts(&[AcidStart, BaseStart, Strong]);
            self.reaction(self.start(), &[Excess]);
        }
        let concentration = match self.problem.variant.reagent {
            Reagent::Acid => Hydrogen,
            Reagent::Alkali => Hydroxide,
        };
        self.add(
            Subject::Concentrations,
            &[Note::KaNotNeeded, Note::VolumeCounts],
            &[TotalVolume, concentration],
        );
        self.last_lines();
        self.check(vec![Note::SideOfSeven(self.get(Ph))]);
    }

    /// [H⁺] from [OH⁻] where it is not there yet, and the pH.
    fn last_lines(&mut self) {
        if self.problem.sheet.find(Symbol::Hydroxide).is_some() {
            self.add(Subject::Hydrogen, &[Note::ByKw], &[Symbol::Hydrogen]);
        }
        self.add(Subject::Ph, &[Note::KeepDigits], &[Symbol::Ph]);
    }

    fn equivalence(&mut self) {
        use Symbol::*;
        let reagent = self.problem.variant.reagent;
        let (left, concentration, started) = match reagent {
            Reagent::Alkali => (Base, BaseConcentration, AcidStock),
            Reagent::Acid => (Acid, AcidConcentration, BaseStock),
        };
        if self.problem.sheet.find(started).is_some() {
            self.mixture(Note::FirstReact);
            let n = self.get(left);
            let start = match reagent {
                Reagent::Alkali => [n, n, 0.0],
                Reagent::Acid => [n, 0.0, n],
            };
            self.reaction(start, &[left]);
            if let Some(step) = self.steps.last_mut() {
                step.notes.push(Note::AllTurned);
            }
        }
        self.add(
            Subject::Concentrations,
            &[Note::VolumeCounts],
            &[TotalVolume, concentration],
        );
        self.by_root(reagent);
        self.last_lines();
        let share = self.share(concentration);
        self.check(vec![Note::SideOfSeven(self.get(Ph)), share]);
    }

    /// The square root, for an acid form or a base form that is alone.
    fn by_root(&mut self, reagent: Reagent) {
        if reagent == Reagent::Alkali {
            self.with_ka(
                &[Note::SaltDecides(Reagent::Alkali), Note::HydroxideIsAcid],
                &[Symbol::Hydroxide],
            );
            // The base form takes H⁺ from water: its own constant is Kw/Ka.
            if let Some(step) = self.steps.last_mut() {
                let (ka, base) = (Symbol::AcidConcentration, Symbol::BaseConcentration);
                let expression = of(Symbol::Hydroxide) * of(ka) / of(base);
                step.definition = Some((Symbol::Kb, expression));
                step.subject = Subject::FromKb;
            }
        } else {
            self.with_ka(
                &[Note::HydrogenIsBase, Note::NotInBuffer],
                &[Symbol::Hydrogen],
            );
        }
    }

    fn share(&self, concentration: Symbol) -> Note {
        let free = match self.values.get(Symbol::Hydroxide) {
            Some(hydroxide) => hydroxide,
            None => self.get(Symbol::Hydrogen),
        };
        Note::Ionized(free / self.get(concentration))
    }

    fn alone(&mut self) {
        let reagent = self.problem.variant.reagent;
        self.mixture(Note::IsAlone(reagent));
        self.by_root(reagent);
        self.last_lines();
        let stock = match reagent {
            Reagent::Acid => Symbol::AcidStock,
            Reagent::Alkali => Symbol::BaseStock,
        };
        let share = self.share(stock);
        self.check(vec![share, Note::SideOfSeven(self.get(Symbol::Ph))]);
    }
}
