//! The right way through every form, line by line.

use crate::chem::titration::Reagent;
use crate::lesson::sums::expression::{Expr, of};
use crate::lesson::sums::form::{Form, PhBy, Variant};
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

/// Whether the ratio of the two forms is what counts, so that [H⁺] and the logarithm both lead
/// there. Half-neutralized, the ratio is 1 and nothing has to be worked out with it.
pub(super) const fn has_choice(form: Form) -> bool {
    !matches!(
        form,
        Form::Exhausted | Form::Equivalence | Form::WeakAcidAlone | Form::HalfNeutralized
    )
}

/// The lines to the pH of a buffer, from the amounts or concentrations of both forms.
pub fn from_ratio(by: PhBy, acid: Symbol, base: Symbol) -> [(Symbol, Expr); 2] {
    use Symbol::{Hydrogen, Ka, Ph, Pka};
    match by {
        PhBy::Hydrogen => [
            (Hydrogen, of(Ka) * of(acid) / of(base)),
            (Ph, of(Hydrogen).minus_log()),
        ],
        PhBy::Logarithm => [
            (Pka, of(Ka).minus_log()),
            (Ph, of(Pka) + (of(base) / of(acid)).log()),
        ],
    }
}

/// The lines from a pH that is wanted to the ratio of base form to acid form.
fn to_ratio(by: PhBy) -> [(Symbol, Expr); 2] {
    use Symbol::{GivenPh, Hydrogen, Ka, Pka, Ratio};
    match by {
        PhBy::Hydrogen => [
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (Ratio, of(Ka) / of(Hydrogen)),
        ],
        PhBy::Logarithm => [
            (Pka, of(Ka).minus_log()),
            (Ratio, (of(Pka) - of(GivenPh)).ten_to_minus()),
        ],
    }
}

/// The lines from a buffer's pH to Ka.
fn to_ka(by: PhBy) -> [(Symbol, Expr); 2] {
    use Symbol::{AcidConcentration, BaseConcentration, GivenPh, Hydrogen, Ka, Pka};
    let (acid, base) = (of(AcidConcentration), of(BaseConcentration));
    match by {
        PhBy::Hydrogen => [
            (Hydrogen, of(GivenPh).ten_to_minus()),
            (Ka, of(Hydrogen) * base / acid),
        ],
        PhBy::Logarithm => [
            (Pka, of(GivenPh) - (base / acid).log()),
            (Ka, of(Pka).ten_to_minus()),
        ],
    }
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
    let by = variant.by;
    let ph = (Ph, of(Hydrogen).minus_log());
    let total = |other: Symbol| (TotalVolume, of(other) + of(StrongVolume));
    let at_start = [
        (AcidStart, of(AcidConcentration) * of(BufferVolume)),
        (BaseStart, of(BaseConcentration) * of(BufferVolume)),
        (Strong, strong()),
    ];
    match form {
        Form::Concentrations => {
            lines.extend(from_ratio(by, AcidConcentration, BaseConcentration));
        }
        Form::TwoVolumes => {
            lines.extend([
                (Acid, of(AcidStock) * of(AcidVolume)),
                (Base, of(BaseStock) * of(BaseVolume)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
        }
        Form::AcidWithAlkali => {
            lines.extend([
                (AcidStart, of(AcidStock) * of(AcidVolume)),
                (Strong, strong()),
                (Acid, of(AcidStart) - of(Strong)),
                (Base, of(Strong)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
        }
        Form::BaseWithAcid => {
            lines.extend([
                (BaseStart, of(BaseStock) * of(BaseVolume)),
                (Strong, strong()),
                (Base, of(BaseStart) - of(Strong)),
                (Acid, of(Strong)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
        }
        Form::SaltMass => {
            lines.extend([
                (Acid, of(AcidStock) * of(BufferVolume)),
                (Base, of(Mass) / of(MolarMass)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
        }
        Form::AddedAcid => {
            lines.extend(at_start);
            lines.extend([
                (Acid, of(AcidStart) + of(Strong)),
                (Base, of(BaseStart) - of(Strong)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
        }
        Form::AddedAlkali => {
            lines.extend(at_start);
            lines.extend([
                (Acid, of(AcidStart) - of(Strong)),
                (Base, of(BaseStart) + of(Strong)),
            ]);
            lines.extend(from_ratio(by, Acid, Base));
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
        Form::Dilution => {
            lines.extend([
                (AcidDiluted, of(AcidConcentration) / of(Dilution)),
                (BaseDiluted, of(BaseConcentration) / of(Dilution)),
            ]);
            lines.extend(from_ratio(by, AcidDiluted, BaseDiluted));
        }
        Form::KaFromPh => lines.extend(to_ka(by)),
        Form::RecipeBySalt => {
            lines.extend(to_ratio(by));
            lines.extend([
                (BaseConcentration, of(Ratio) * of(AcidStock)),
                (Base, of(BaseConcentration) * of(BufferVolume)),
                (Mass, of(Base) * of(MolarMass)),
            ]);
        }
        Form::RecipeByAlkali => {
            lines.push((AcidStart, of(AcidStock) * of(AcidVolume)));
            lines.extend(to_ratio(by));
            let strong = of(AcidStart) * of(Ratio) / (Expr::Number(1.0) + of(Ratio));
            lines.extend([
                (Strong, strong),
                (StrongVolume, of(Strong) / of(StrongStock)),
            ]);
        }
        Form::ChooseAcid => lines.extend(to_ratio(by)),
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
