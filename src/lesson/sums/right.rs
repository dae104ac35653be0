//! The right way through every form, line by line.

use crate::chem::titration::Reagent;
use crate::lesson::sums::expression::{Expr, of};
use crate::lesson::sums::form::{Form, Variant};
use crate::lesson::sums::symbol::Symbol;

/// Whether the ionic product of water is among the constants.
pub(super) fn needs_kw(form: Form, variant: Variant) -> bool {
    let alkali = variant.reagent == Reagent::Alkali;
    variant.from_kb
        || (matches!(
            form,
            Form::Exhausted | Form::Equivalence | Form::WeakAcidAlone
        ) && alkali)
}

/// What is worked out, line by line, by the right way.
pub(super) fn worked(form: Form, variant: Variant) -> Vec<(Symbol, Expr)> {
    use Symbol::*;
    let mut lines = Vec::new();
    if variant.from_kb {
        lines.push((Ka, of(Kw) / of(Kb)));
    }
    let strong = || {
        let once = of(StrongStock) * of(StrongVolume);
        match variant.ions {
            1 => once,
            n => Expr::Number(f64::from(n)) * once,
        }
    };
    let buffer = |acid: Symbol, base: Symbol| (Hydrogen, of(Ka) * of(acid) / of(base));
    let ph = (Ph, of(Hydrogen).minus_log());
    let total = |other: Symbol| (TotalVolume, of(other) + of(StrongVolume));
    let at_start = [
        (AcidStart, of(AcidConcentration) * of(BufferVolume)),
        (BaseStart, of(BaseConcentration) * of(BufferVolume)),
        (Strong, strong()),
    ];
    match form {
        Form::Concentrations => {
            lines.extend([buffer(AcidConcentration, BaseConcentration), ph]);
        }
        Form::TwoVolumes => lines.extend([
            (Acid, of(AcidStock) * of(AcidVolume)),
            (Base, of(BaseStock) * of(BaseVolume)),
            buffer(Acid, Base),
            ph,
        ]),
        Form::AcidWithAlkali => lines.extend([
            (AcidStart, of(AcidStock) * of(AcidVolume)),
            (Strong, strong()),
            (Acid, of(AcidStart) - of(Strong)),
            (Base, of(Strong)),
            buffer(Acid, Base),
            ph,
        ]),
        Form::BaseWithAcid => lines.extend([
            (BaseStart, of(BaseStock) * of(BaseVolume)),
            (Strong, strong()),
            (Base, of(BaseStart) - of(Strong)),
            (Acid, of(Strong)),
            buffer(Acid, Base),
            ph,
        ]),
        Form::SaltMass => lines.extend([
            (Acid, of(AcidStock) * of(BufferVolume)),
            (Base, of(Mass) / of(MolarMass)),
            buffer(Acid, Base),
            ph,
        ]),
        Form::AddedAcid => {
            lines.extend(at_start);
            lines.extend([
                (Acid, of(AcidStart) + of(Strong)),
                (Base, of(BaseStart) - of(Strong)),
                buffer(Acid, Base),
                ph,
            ]);
        }
        Form::AddedAlkali => {
            lines.extend(at_start);
            lines.extend([
                (Acid, of(AcidStart) - of(Strong)),
                (Base, of(BaseStart) + of(Strong)),
                buffer(Acid, Base),
                ph,
            ]);
        }
        Form::Exhausted => {
            lines.extend(at_start);
            match variant.reagent {
                Reagent::Acid => lines.extend([
                    (Excess, of(Strong) - of(BaseStart)),
                    total(BufferVolume),
                    (Hydrogen, of(Excess) / of(TotalVolume)),
                ]),
                Reagent::Alkali => lines.extend([
                    (Excess, of(Strong) - of(AcidStart)),
                    total(BufferVolume),
                    (Hydroxide, of(Excess) / of(TotalVolume)),
                    (Hydrogen, of(Kw) / of(Hydroxide)),
                ]),
            }
            lines.push(ph);
        }
        Form::Equivalence => {
            match variant.reagent {
                Reagent::Alkali => lines.extend([
                    (Base, of(AcidStock) * of(AcidVolume)),
                    total(AcidVolume),
                    (BaseConcentration, of(Base) / of(TotalVolume)),
                    (Hydroxide, (of(Kw) * of(BaseConcentration) / of(Ka)).root()),
                    (Hydrogen, of(Kw) / of(Hydroxide)),
                ]),
                Reagent::Acid => lines.extend([
                    (Acid, of(BaseStock) * of(BaseVolume)),
                    total(BaseVolume),
                    (AcidConcentration, of(Acid) / of(TotalVolume)),
                    (Hydrogen, (of(Ka) * of(AcidConcentration)).root()),
                ]),
            }
            lines.push(ph);
        }
        Form::HalfNeutralized => lines.extend([
            (HalfVolume, of(EquivalenceVolume) / Expr::Number(2.0)),
            (Pka, of(GivenPh)),
            (Ka, of(Pka).ten_to_minus()),
        ]),
        Form::Dilution => lines.extend([
            (AcidDiluted, of(AcidConcentration) / of(Dilution)),
            (BaseDiluted, of(BaseConcentration) / of(Dilution)),
            buffer(AcidDiluted, BaseDiluted),
            ph,
        ]),
        Form::KaFromPh => lines.extend([
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (
                Ka,
                of(Hydrogen) * of(BaseConcentration) / of(AcidConcentration),
            ),
        ]),
        Form::RecipeBySalt => lines.extend([
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (Ratio, of(Ka) / of(Hydrogen)),
            (BaseConcentration, of(Ratio) * of(AcidStock)),
            (Base, of(BaseConcentration) * of(BufferVolume)),
            (Mass, of(Base) * of(MolarMass)),
        ]),
        Form::RecipeByAlkali => lines.extend([
            (AcidStart, of(AcidStock) * of(AcidVolume)),
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (Ratio, of(Ka) / of(Hydrogen)),
            (
                Strong,
                of(AcidStart) * of(Ratio) / (Expr::Number(1.0) + of(Ratio)),
            ),
            (StrongVolume, of(Strong) / of(StrongStock)),
        ]),
        Form::ChooseAcid => lines.extend([
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (Ratio, of(Ka) / of(Hydrogen)),
        ]),
        Form::WeakAcidAlone => {
            match variant.reagent {
                Reagent::Acid => lines.push((Hydrogen, (of(Ka) * of(AcidStock)).root())),
                Reagent::Alkali => lines.extend([
                    (Hydroxide, (of(Kw) * of(BaseStock) / of(Ka)).root()),
                    (Hydrogen, of(Kw) / of(Hydroxide)),
                ]),
            }
            lines.push(ph);
        }
    }
    lines
}
