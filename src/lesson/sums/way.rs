//! The formulas of the wrong ways through every form.
//!
//! Each is evaluated on the same sheet as the right way. Where a wrong formula stands in a
//! line, everything below follows from it.

mod logarithm;
mod strong;

use crate::chem::titration::Reagent;
use crate::lesson::sums::expression::{Expr, of};
use crate::lesson::sums::form::{Form, Problem};
use crate::lesson::sums::sheet::Source;
use crate::lesson::sums::slip::{Slip, Way};
use crate::lesson::sums::symbol::Symbol;

/// All single wrong ways through `problem`.
pub fn ways(problem: &Problem) -> Vec<Way> {
    let mut ways = Ways(Vec::new());
    ways.of_form(problem);
    ways.of_logarithms(problem);
    if problem.by_logarithm() {
        ways.by_logarithm(problem);
    }
    ways.0
}

pub(super) struct Ways(Vec<Way>);

impl Ways {
    fn add(&mut self, slip: Slip, symbol: Symbol, formula: Expr) {
        self.both(slip, vec![(symbol, formula)]);
    }

    fn both(&mut self, slip: Slip, formulas: Vec<(Symbol, Expr)>) {
        self.0.push(Way { slip, formulas });
    }

    fn of_form(&mut self, problem: &Problem) {
        use Symbol::*;
        let variant = problem.variant;
        match problem.form {
            Form::Concentrations => {
                let (a, b) = (AcidConcentration, BaseConcentration);
                self.buffer(problem, a, b);
                self.add(Slip::WeakAcidShortcut, Hydrogen, (of(Ka) * of(a)).root());
                self.add(Slip::SaltAsAcid, Hydrogen, (of(Ka) * of(b)).root());
                self.add(Slip::WeakAsStrong, Hydrogen, of(a));
            }
            Form::TwoVolumes => {
                self.buffer(problem, Acid, Base);
                let total = || of(AcidVolume) + of(BaseVolume);
                let ratio = |a: Expr, b: Expr| of(Ka) * a / b;
                self.add(
                    Slip::StockConcentrations,
                    Hydrogen,
                    ratio(of(AcidStock), of(BaseStock)),
                );
                self.add(
                    Slip::VolumesAsRatio,
                    Hydrogen,
                    ratio(of(AcidVolume), of(BaseVolume)),
                );
                self.add(
                    Slip::OneDiluted,
                    Hydrogen,
                    ratio(of(Acid) / total(), of(BaseStock)),
                );
                self.add(
                    Slip::OneDiluted,
                    Hydrogen,
                    ratio(of(AcidStock), of(Base) / total()),
                );
                self.unconverted(problem);
            }
            Form::AcidWithAlkali => {
                self.buffer(problem, Acid, Base);
                let volume = of(AcidVolume) + of(StrongVolume);
                self.add(Slip::StartingAcidKept, Acid, of(AcidStart));
                self.add(Slip::StartingAcidAsBase, Base, of(AcidStart));
                self.add(Slip::AlkaliAddedToAcid, Acid, of(AcidStart) + of(Strong));
                self.add(Slip::HalfAssumed, Hydrogen, of(Ka));
                let alone = (of(Ka) * of(Acid) / volume).root();
                self.add(Slip::SaltIgnored, Hydrogen, alone);
                let stocks = of(Ka) * of(AcidStock) / of(StrongStock);
                self.add(Slip::StockConcentrations, Hydrogen, stocks);
            }
            Form::BaseWithAcid => {
                self.buffer(problem, Acid, Base);
                self.add(Slip::HalfAssumed, Hydrogen, of(Ka));
                let stocks = of(Ka) * of(StrongStock) / of(BaseStock);
                self.add(Slip::StockConcentrations, Hydrogen, stocks);
                self.add(Slip::StartingAcidKept, Base, of(BaseStart));
                if variant.from_kb {
                    self.add(Slip::KbAsKa, Ka, of(Kb));
                }
            }
            Form::SaltMass => {
                self.buffer(problem, Acid, Base);
                let over = of(Ka) * of(AcidStock) / of(Base);
                self.add(Slip::AmountOverConcentration, Hydrogen, over);
                let over = of(Ka) * of(Acid) / (of(Base) / of(BufferVolume));
                self.add(Slip::AmountOverConcentration, Hydrogen, over);
                for &other in &problem.other_molar_masses {
                    let amount = of(Mass) / Expr::Number(other);
                    self.add(Slip::WrongMolarMass, Base, amount);
                }
                self.add(Slip::GramsAsMoles, Base, of(Mass));
                let thousand = Expr::Number(1000.0);
                let raw = of(AcidStock) * of(BufferVolume) * thousand;
                self.add(Slip::VolumeUnconverted, Acid, raw);
            }
            Form::AddedAcid | Form::AddedAlkali => self.added(problem),
            Form::Exhausted => self.exhausted(problem),
            Form::Equivalence => {
                let neutral = Expr::Number(7.0);
                self.add(Slip::NeutralAtEquivalence, Ph, neutral);
                self.add(Slip::HalfAssumed, Hydrogen, of(Ka));
                match variant.reagent {
                    Reagent::Alkali => {
                        let undiluted = of(Base) / of(AcidVolume);
                        self.add(Slip::TotalVolumeOmitted, BaseConcentration, undiluted);
                        self.add(Slip::PohAsPh, Ph, of(Hydroxide).minus_log());
                        let alone = (of(Ka) * of(BaseConcentration)).root();
                        self.add(Slip::SaltAsAcid, Hydrogen, alone);
                    }
                    Reagent::Acid => {
                        let undiluted = of(Acid) / of(BaseVolume);
                        self.add(Slip::TotalVolumeOmitted, AcidConcentration, undiluted);
                    }
                }
            }
            Form::HalfNeutralized => {
                let wrong = Expr::Number(0.0) - of(Pka);
                self.add(Slip::WrongInverse, Ka, wrong.ten_to_minus());
                let natural = of(Pka) / Expr::Number(std::f64::consts::LN_10);
                self.add(Slip::NaturalLogarithm, Ka, natural.ten_to_minus());
            }
            Form::Dilution => {
                self.buffer(problem, AcidDiluted, BaseDiluted);
                let shift = Expr::Number(0.0) - of(Dilution).minus_log();
                let shifted = of(Hydrogen).minus_log() + shift;
                self.add(Slip::DilutionShiftsPh, Ph, shifted);
                let one = of(Ka) * of(AcidDiluted) / of(BaseConcentration);
                self.add(Slip::OneDiluted, Hydrogen, one);
                let one = of(Ka) * of(AcidConcentration) / of(BaseDiluted);
                self.add(Slip::OneDiluted, Hydrogen, one);
            }
            Form::KaFromPh => {
                let (a, b) = (AcidConcentration, BaseConcentration);
                self.add(Slip::RatioInverted, Ka, of(Hydrogen) * of(a) / of(b));
                let alone = of(Hydrogen) * of(Hydrogen) / of(a);
                self.add(Slip::WeakAcidShortcut, Ka, alone);
                self.add(Slip::HalfAssumed, Ka, of(Hydrogen));
                self.inverse();
            }
            Form::RecipeBySalt => {
                let forgotten = of(BaseConcentration) * of(MolarMass);
                self.add(Slip::RecipeVolumeForgotten, Mass, forgotten);
                self.add(Slip::RatioInverted, Ratio, of(Hydrogen) / of(Ka));
                for &other in &problem.other_molar_masses {
                    let mass = of(Base) * Expr::Number(other);
                    self.add(Slip::WrongMolarMass, Mass, mass);
                }
                self.inverse();
            }
            Form::RecipeByAlkali => {
                let whole = of(Ratio) * of(AcidStart);
                self.add(Slip::AlkaliShareForgotten, Strong, whole);
                let share = of(AcidStart) / (Expr::Number(1.0) + of(Ratio));
                self.add(Slip::RatioInverted, Strong, share);
                self.add(Slip::HalfAssumed, Strong, of(AcidStart) / Expr::Number(2.0));
                self.inverse();
            }
            Form::ChooseAcid => {
                self.add(Slip::RatioInverted, Ratio, of(Hydrogen) / of(Ka));
                if let Some(other) = problem.other_ka {
                    let ratio = Expr::Number(other) / of(Hydrogen);
                    self.add(Slip::OtherAcidsConstant, Ratio, ratio);
                }
                self.inverse();
            }
            Form::WeakAcidAlone => {
                self.add(Slip::WeakAsStrong, Hydrogen, of(AcidStock));
                self.add(Slip::RootForgotten, Hydrogen, of(Ka) * of(AcidStock));
                self.add(Slip::HalfAssumed, Hydrogen, of(Ka));
            }
        }
    }

    /// What goes wrong with any ratio of the two forms.
    fn buffer(&mut self, problem: &Problem, acid: Symbol, base: Symbol) {
        use Symbol::{Hydrogen, Ka, Ph};
        let slip = if problem.names.alkaline {
            Slip::AlkalinePairInverted
        } else {
            Slip::RatioInverted
        };
        self.add(slip, Hydrogen, of(Ka) * of(base) / of(acid));
        let share = of(base) / (of(acid) + of(base));
        let ph = of(Ka).minus_log() - share.minus_log();
        self.add(Slip::ShareOfTotal, Ph, ph);
        // Of concentrations there is one unit; amounts come in mol and in mmol.
        if (acid, base) == (Symbol::Acid, Symbol::Base) {
            for thousand in [1e3, 1e-3] {
                let mixed = of(Ka) * of(acid) / of(base) * Expr::Number(thousand);
                self.add(Slip::VolumeUnconverted, Hydrogen, mixed);
            }
        }
        let rounded = of(Ka) * (of(acid) / of(base)).rounded(2);
        self.add(Slip::EarlyRounding, Hydrogen, rounded);
    }

    fn unconverted(&mut self, problem: &Problem) {
        for symbol in [Symbol::Acid, Symbol::Base] {
            let line = problem.sheet.find(symbol);
            if let Some(Source::Worked(right)) = line.map(|l| &l.source) {
                let raw = right.clone() * Expr::Number(1000.0);
                self.add(Slip::VolumeUnconverted, symbol, raw);
            }
        }
    }

    /// What goes wrong with the last line of every pH.
    fn of_logarithms(&mut self, problem: &Problem) {
        use Symbol::{Hydrogen, Ph};
        if problem.answer() != Ph {
            return;
        }
        let ph = || of(Hydrogen).minus_log();
        let natural = ph() * Expr::Number(std::f64::consts::LN_10);
        self.add(Slip::NaturalLogarithm, Ph, natural);
        self.add(Slip::MinusDropped, Ph, Expr::Number(0.0) - ph());
        let slip = if problem.names.alkaline {
            Slip::PohAsPh
        } else {
            Slip::NeedlessComplement
        };
        let pohs = [Form::Exhausted, Form::Equivalence];
        let alkali = problem.variant.reagent == Reagent::Alkali;
        // There −log [OH⁻] is the same number by another way, and it is on the list.
        if !(alkali && pohs.contains(&problem.form)) {
            self.add(slip, Ph, Expr::Number(14.0) - ph());
        }
    }
}
