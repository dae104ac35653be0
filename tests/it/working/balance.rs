//! Every form of question against the full balance.

use evenkeel::chem::buffer::Pair;
use evenkeel::chem::equilibrium::{Conditions, solve};
use evenkeel::chem::mixture::{Charge, Mixture};
use evenkeel::chem::quantity::{Amount, Volume};
use evenkeel::chem::systems::AcidSystem;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::sums::form::{FORMS, Form, Problem};
use evenkeel::lesson::sums::question::question;
use evenkeel::lesson::sums::symbol::Symbol;

/// The mixture that a problem is about: its weak system, amounts in mol of acid form, base
/// form and strong reagent, and the volume; and the pH that its answer stands for.
fn mixture(problem: &Problem) -> (Mixture, Pair, f64) {
    use Symbol::*;
    let right = problem.sheet.right();
    let get = |symbol| right.get(symbol).unwrap();
    let ka = evenkeel::chem::quantity::Pka::new(-libm::log10(get(Ka))).unwrap();
    let system = if problem.names.alkaline {
        AcidSystem::cationic_acid(ka)
    } else {
        AcidSystem::acid(ka)
    };
    // Where a question says nothing of the concentration, it is one of a classroom.
    let any = 0.1;
    let (acid, base, strong, volume) = match problem.form {
        Form::Concentrations | Form::KaFromPh => {
            (get(AcidConcentration), get(BaseConcentration), 0.0, 1.0)
        }
        Form::TwoVolumes => (get(Acid), get(Base), 0.0, get(AcidVolume) + get(BaseVolume)),
        Form::AcidWithAlkali => (
            get(AcidStock) * get(AcidVolume),
            0.0,
            get(StrongStock) * get(StrongVolume),
            get(AcidVolume) + get(StrongVolume),
        ),
        Form::BaseWithAcid => (
            0.0,
            get(BaseStock) * get(BaseVolume),
            get(StrongStock) * get(StrongVolume),
            get(BaseVolume) + get(StrongVolume),
        ),
        Form::SaltMass => (
            get(AcidStock) * get(BufferVolume),
            get(Mass) / get(MolarMass),
            0.0,
            get(BufferVolume),
        ),
        Form::AddedAcid | Form::AddedAlkali | Form::Exhausted => (
            get(AcidConcentration) * get(BufferVolume),
            get(BaseConcentration) * get(BufferVolume),
            f64::from(problem.variant.ions) * get(StrongStock) * get(StrongVolume),
            get(BufferVolume) + get(StrongVolume),
        ),
        Form::Equivalence => {
            let strong = get(StrongStock) * get(StrongVolume);
            match problem.variant.reagent {
                Reagent::Alkali => (
                    get(AcidStock) * get(AcidVolume),
                    0.0,
                    strong,
                    get(AcidVolume) + get(StrongVolume),
                ),
                Reagent::Acid => (
                    0.0,
                    get(BaseStock) * get(BaseVolume),
                    strong,
                    get(BaseVolume) + get(StrongVolume),
                ),
            }
        }
        Form::HalfNeutralized => (any, any, 0.0, 1.0),
        Form::ChooseAcid => (any, any * get(Ratio), 0.0, 1.0),
        Form::Dilution => (get(AcidDiluted), get(BaseDiluted), 0.0, 1.0),
        Form::RecipeBySalt => (
            get(AcidStock) * get(BufferVolume),
            get(Mass) / get(MolarMass),
            0.0,
            get(BufferVolume),
        ),
        Form::RecipeByAlkali => (
            get(AcidStock) * get(AcidVolume),
            0.0,
            get(StrongStock) * get(StrongVolume),
            get(AcidVolume) + get(StrongVolume),
        ),
        Form::WeakAcidAlone => match problem.variant.reagent {
            Reagent::Acid => (get(AcidStock), 0.0, 0.0, 1.0),
            Reagent::Alkali => (0.0, get(BaseStock), 0.0, 1.0),
        },
    };
    let amount = |mol: f64| Amount::from_mol(mol).unwrap();
    let mixed = Mixture::water(Volume::from_dm3(volume).unwrap())
        .with_weak(system, 1, amount(acid), Charge::One)
        .with_weak(system, 0, amount(base), Charge::One);
    let mixed = match problem.variant.reagent {
        Reagent::Acid => mixed.with_strong_acid(amount(strong), Charge::One),
        Reagent::Alkali => mixed.with_strong_alkali(amount(strong), Charge::One),
    };
    let ph = right.get(Ph).or(right.get(GivenPh)).unwrap();
    (mixed, Pair::new(system, 1).unwrap(), ph)
}

/// The most by which questions of a form may lie off the full balance, in pH.
fn most(form: Form) -> f64 {
    match form {
        // Numbers in which free H⁺ or OH⁻ is more than 2 % of either form are drawn again:
        // log₁₀(1.02/0.98) = 0.017.
        Form::Concentrations
        | Form::TwoVolumes
        | Form::AcidWithAlkali
        | Form::BaseWithAcid
        | Form::SaltMass
        | Form::AddedAcid
        | Form::AddedAlkali
        | Form::Dilution
        | Form::KaFromPh => 0.018,
        // 0.1 mol dm⁻³ is our own addition to the question, and not screened.
        Form::HalfNeutralized | Form::ChooseAcid => 0.04,
        // Backwards from a pH down to 3, where free H⁺ is 1 mmol dm⁻³.
        Form::RecipeBySalt | Form::RecipeByAlkali => 0.03,
        // √(Ka·c) takes nothing off c; the strongest acid in the thinnest bottle is 8 % ionized.
        Form::WeakAcidAlone | Form::Equivalence => 0.02,
        // What the pair adds to a small excess is no constant: only the bound below holds.
        Form::Exhausted => 0.018,
    }
}

/// The most that what a short form leaves out can move the pH in this very mixture. `acid`
/// and `base` are the concentrations after complete reaction, `excess` that of strong ions
/// left over, `h` and `oh` the solved ones, all in mol dm⁻³.
fn bound([acid, base, excess, h, oh]: [f64; 5], ka: f64) -> f64 {
    let kw = 1e-14;
    let ten = std::f64::consts::LN_10;
    if excess > 0.0 {
        // The pair gives what its own constant allows beside the excess, and no more.
        let given = if h > oh {
            ka * acid / excess
        } else {
            kw / ka * base / excess
        };
        libm::log10(1.0 + (given + kw / excess) / excess)
    } else if acid > 0.0 && base > 0.0 {
        // Both forms change by the free ions, as the ratio does.
        let free = (h - oh).abs();
        libm::log10((1.0 + free / acid.min(base)) / (1.0 - free / acid.min(base)))
    } else {
        // Half of the share that reacts, and half of the share of water's own ions.
        let (ion, other) = if h > oh { (h, oh) } else { (oh, h) };
        1.2 * (ion / (acid + base) + other / ion) / (2.0 * ten)
    }
}

#[test]
fn every_form_against_the_full_balance() {
    let mut wrong = Vec::new();
    for form in FORMS {
        let mut worst: (f64, u64) = (0.0, 0);
        for seed in 0..500 {
            let (mixture, pair, short) = mixture(&question(form, seed).problem);
            let solved = solve(&mixture, &Conditions::classroom()).unwrap();
            let off = short - solved.ph().value();
            if off.abs() > worst.0.abs() {
                worst = (off, seed);
            }
            let complete = pair.complete_reaction(&mixture).unwrap();
            let volume = mixture.volume().dm3();
            let total = (complete.acid + complete.base).mol();
            // Below a billionth of the pair an amount is rounding.
            let concentration = |amount: Amount| {
                let mol = amount.mol();
                if mol > 1e-9 * total {
                    mol / volume
                } else {
                    0.0
                }
            };
            let found = [
                concentration(complete.acid),
                concentration(complete.base),
                concentration(complete.excess_hydrogen + complete.excess_hydroxide),
                solved.hydrogen().molar(),
                solved.hydroxide().molar(),
            ];
            let ka = libm::exp10(-pair.pka().value());
            let bound = bound(found, ka) + 1e-6;
            if off.abs() > bound {
                wrong.push(format!("{form:?} {seed}: {off:+.4}, explained {bound:.4}"));
            }
        }
        println!(
            "{:<18} worst {:+.4} (seed {})",
            format!("{form:?}"),
            worst.0,
            worst.1
        );
        if worst.0.abs() > most(form) {
            wrong.push(format!("{form:?}: {worst:?}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
