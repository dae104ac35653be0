//! Acid–base systems: what can lose protons, how readily, and what the forms are called.

use super::constants::pka_at;
use super::quantity::{Celsius, Pka};
pub use super::systems_table::TABLE;

/// The largest number of protons that a system here can lose.
pub const MAX_STEPS: usize = 3;

/// One ionization step at 25 °C and zero ionic strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// pKa at 25 °C and zero ionic strength.
    pub pka: Pka,
    /// ΔH° of ionization in kJ mol⁻¹ and ΔCp° in J mol⁻¹ K⁻¹, where known.
    pub heat: Option<Heat>,
}

/// How an ionization step answers to temperature.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heat {
    /// ΔH° of ionization, kJ mol⁻¹.
    pub enthalpy: f64,
    /// ΔCp° of ionization, J mol⁻¹ K⁻¹; zero where no value is known.
    pub capacity: f64,
}

impl Step {
    /// pKa at `temperature`; the 25 °C value where no heat of ionization is known.
    pub fn pka_at(&self, temperature: Celsius) -> f64 {
        match self.heat {
            Some(heat) if temperature != Celsius::STANDARD => {
                pka_at(self.pka, heat.enthalpy, heat.capacity, temperature)
            }
            _ => self.pka.value(),
        }
    }
}

/// A mono- to triprotic acid–base system: a charge and its ionization steps.
///
/// Two systems are the same substance for a [`Mixture`](super::mixture::Mixture) if they
/// are equal here.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AcidSystem {
    top_charge: i8,
    steps: [Option<Step>; MAX_STEPS],
}

/// Why steps do not make a system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SystemError {
    /// No step, or more than [`MAX_STEPS`].
    StepCount(usize),
    /// A form would carry a charge beyond ±3, past what the activity model is for.
    Charge(i8),
}

impl AcidSystem {
    /// A system whose fully protonated form carries `top_charge`, losing one proton a step.
    ///
    /// # Errors
    /// [`SystemError`] for no step or more than three, or a form charged beyond ±3.
    pub fn new(top_charge: i8, steps: &[Step]) -> Result<Self, SystemError> {
        if steps.is_empty() || steps.len() > MAX_STEPS {
            return Err(SystemError::StepCount(steps.len()));
        }
        let lowest = steps
            .iter()
            .fold(i16::from(top_charge), |charge, _| charge - 1);
        if top_charge > 3 || lowest < -3 {
            return Err(SystemError::Charge(top_charge));
        }
        let mut own = [None; MAX_STEPS];
        for (place, step) in own.iter_mut().zip(steps) {
            *place = Some(*step);
        }
        Ok(Self {
            top_charge,
            steps: own,
        })
    }

    /// For the table alone, whose entries a test checks.
    pub(super) const fn tabulated(top_charge: i8, steps: [Option<Step>; MAX_STEPS]) -> Self {
        Self { top_charge, steps }
    }

    /// A neutral monoprotic acid of the given pKa, without temperature data.
    pub const fn acid(pka: Pka) -> Self {
        Self {
            top_charge: 0,
            steps: [Some(Step { pka, heat: None }), None, None],
        }
    }

    /// The cation BH⁺ of a neutral weak base, by its pKa, without temperature data.
    pub const fn cationic_acid(pka: Pka) -> Self {
        Self {
            top_charge: 1,
            steps: [Some(Step { pka, heat: None }), None, None],
        }
    }

    /// The number of protons that the fully protonated form can lose.
    pub fn protons(&self) -> u8 {
        self.steps().map(|_| 1).sum()
    }

    /// The steps, from the fully protonated form down.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.steps.iter().flatten()
    }

    /// The step that takes the form with `protons` protons to the one with one fewer.
    pub fn step_from(&self, protons: u8) -> Option<&Step> {
        let index = self.protons().checked_sub(protons)?;
        self.steps.get(usize::from(index))?.as_ref()
    }

    /// Charge of the form that still holds `protons` of the protons it can lose.
    pub fn charge(&self, protons: u8) -> i8 {
        self.top_charge - (self.protons() as i8 - protons as i8)
    }

    /// Charge of the fully protonated form.
    pub const fn top_charge(&self) -> i8 {
        self.top_charge
    }
}

/// What a form is called and how it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FormName {
    /// Formula without its charge, digits as they stand ("CH3CH2COO").
    pub formula: &'static str,
    /// Systematic name ("propanoate").
    pub systematic: &'static str,
    /// Name in common use ("propionate"); equal to the systematic one where there is none.
    pub common: &'static str,
    /// What stands on a bottle of it ("tris hydrochloride"), where that is not simply its
    /// name with as many sodium or chloride ions as it takes.
    pub bottle: Option<&'static str>,
}

/// One entry of the table of systems.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Entry {
    /// Short key, stable: links and tests use it.
    pub key: &'static str,
    /// The system itself.
    pub system: AcidSystem,
    /// Forms from fully protonated down, one more than the steps.
    pub forms: &'static [FormName],
    /// What the formula leaves out, where it leaves something out.
    pub note: Option<&'static str>,
    /// Which of a form's two names classrooms use.
    pub classroom: Naming,
}

/// A choice between a form's names.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Naming {
    /// The systematic name.
    #[default]
    Systematic,
    /// The name in common use.
    Common,
}

impl FormName {
    /// The name of this kind.
    pub const fn name(&self, naming: Naming) -> &'static str {
        match naming {
            Naming::Systematic => self.systematic,
            Naming::Common => self.common,
        }
    }
}

impl Entry {
    /// Name and formula of the form that holds `protons` protons.
    pub fn form(&self, protons: u8) -> &'static FormName {
        let last = self.forms.len() - 1;
        &self.forms[last.saturating_sub(usize::from(protons))]
    }
}

/// The entry of `key`, if the table has it.
pub fn find(key: &str) -> Option<&'static Entry> {
    TABLE.iter().find(|entry| entry.key == key)
}

/// Where the figures of the system of this key come from and how far they were confirmed,
/// one line a step.
pub fn sources(key: &str) -> Option<&'static [&'static str]> {
    super::systems_sources::SOURCES
        .iter()
        .find(|line| line.0 == key)
        .map(|line| line.1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_entry_is_whole() {
        for entry in TABLE {
            let steps = entry.system.steps().count();
            assert_eq!(entry.forms.len(), steps + 1, "{}", entry.key);
            assert_eq!(sources(entry.key).unwrap().len(), steps, "{}", entry.key);
            assert!(
                core::ptr::eq(find(entry.key).unwrap(), entry),
                "{} twice",
                entry.key
            );
            let pkas: Vec<f64> = entry.system.steps().map(|s| s.pka.value()).collect();
            assert!(pkas.is_sorted(), "{}", entry.key);
        }
        assert!(find("nothing").is_none());
    }

    #[test]
    fn charges_count_down_from_the_top() {
        let phosphoric = find("phosphoric").unwrap();
        assert_eq!(
            [3, 2, 1, 0].map(|p| phosphoric.system.charge(p)),
            [0, -1, -2, -3]
        );
        assert_eq!(phosphoric.form(2).formula, "H2PO4");
        assert_eq!(find("ammonium").unwrap().system.charge(0), 0);
        assert!(phosphoric.system.step_from(0).is_none());
        assert_eq!(phosphoric.system.step_from(2).unwrap().pka.value(), 7.198);
    }

    #[test]
    fn impossible_systems_are_refused() {
        assert_eq!(AcidSystem::new(0, &[]), Err(SystemError::StepCount(0)));
        let step = Step {
            pka: Pka::new(5.0).unwrap(),
            heat: None,
        };
        assert_eq!(
            AcidSystem::new(0, &[step; 4]),
            Err(SystemError::StepCount(4))
        );
        assert_eq!(
            AcidSystem::new(-2, &[step; 2]),
            Err(SystemError::Charge(-2))
        );
    }
}
