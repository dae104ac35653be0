//! The formulas of what goes wrong where a strong acid or alkali is added.

use crate::chem::titration::Reagent;
use crate::lesson::sums::expression::{Expr, of};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::slip::Slip;
use crate::lesson::sums::symbol::Symbol;
use crate::lesson::sums::way::Ways;

impl Ways {
    pub(super) fn added(&mut self, problem: &Problem) {
        use Symbol::*;
        self.buffer(problem, Acid, Base);
        let acid = problem.form == Form::AddedAcid;
        let (more, less) = (
            |s: Symbol| of(s) + of(Strong),
            |s: Symbol| of(s) - of(Strong),
        );
        let swapped = if acid {
            vec![(Acid, less(AcidStart)), (Base, more(BaseStart))]
        } else {
            vec![(Acid, more(AcidStart)), (Base, less(BaseStart))]
        };
        self.both(Slip::WrongFormSubtracted, swapped);
        self.add(Slip::OnlyAcidChanged, Base, of(BaseStart));
        self.add(Slip::OnlyBaseChanged, Acid, of(AcidStart));
        let before = of(Ka) * of(AcidStart) / of(BaseStart);
        let added = of(Strong) / of(BufferVolume);
        let (ca, cb) = (AcidConcentration, BaseConcentration);
        if acid {
            self.add(Slip::AddedDirectly, Hydrogen, before + added);
            let mixed = of(Ka) * more(ca) / less(cb);
            self.add(Slip::MolesToConcentrations, Hydrogen, mixed);
        } else {
            let mixed = of(Ka) * less(ca) / more(cb);
            self.add(Slip::MolesToConcentrations, Hydrogen, mixed);
        }
        self.one_to_one(problem);
    }

    pub(super) fn exhausted(&mut self, problem: &Problem) {
        use Symbol::*;
        let undiluted = of(Excess) / of(BufferVolume);
        match problem.variant.reagent {
            Reagent::Acid => {
                self.add(Slip::TotalVolumeOmitted, Hydrogen, undiluted);
                let left = (of(BaseStart) - of(Strong)).size();
                let ignored = of(Ka) * (of(AcidStart) + of(Strong)) / left;
                self.add(Slip::ExhaustionIgnored, Hydrogen, ignored);
                let whole = of(Strong) / of(TotalVolume);
                self.add(Slip::AddedDirectly, Hydrogen, whole);
            }
            Reagent::Alkali => {
                self.add(Slip::TotalVolumeOmitted, Hydroxide, undiluted);
                let left = (of(AcidStart) - of(Strong)).size();
                let ignored = of(Ka) * left / (of(BaseStart) + of(Strong));
                self.add(Slip::ExhaustionIgnored, Hydrogen, ignored);
                let whole = of(Strong) / of(TotalVolume);
                self.add(Slip::AddedDirectly, Hydroxide, whole);
                self.add(Slip::PohAsPh, Ph, of(Hydroxide).minus_log());
            }
        }
        self.one_to_one(problem);
    }

    pub(super) fn one_to_one(&mut self, problem: &Problem) {
        if problem.variant.ions > 1 {
            let once = of(Symbol::StrongStock) * of(Symbol::StrongVolume);
            self.add(Slip::OneToOneAssumed, Symbol::Strong, once);
        }
    }

    /// [H⁺] from a pH by the wrong power.
    pub(super) fn inverse(&mut self) {
        let wrong = (Expr::Number(0.0) - of(Symbol::GivenPh)).ten_to_minus();
        self.add(Slip::WrongInverse, Symbol::Hydrogen, wrong);
    }
}
