//! The conjugate pairs on offer.

use crate::chem::buffer::Pair;
use crate::chem::quantity::Pka;
use crate::chem::systems::{self, AcidSystem, Entry};
use crate::lesson::notation::PairNames;

/// Which conjugate pair is on the bench.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PairChoice {
    /// A pair of the table: its system's key and the protons of its acid form.
    Listed(&'static str, u8),
    /// An acid HA of the user's own pKa.
    OwnAcid,
    /// A weak base B whose cation BH⁺ has the user's own pKa.
    OwnBase,
}

/// The pairs offered, in the order offered: every step of every system in the table, and the
/// user's own.
pub const PAIRS: &[PairChoice] = &[
    PairChoice::Listed("ethanoic", 1),
    PairChoice::Listed("propanoic", 1),
    PairChoice::Listed("methanoic", 1),
    PairChoice::Listed("butanoic", 1),
    PairChoice::Listed("lactic", 1),
    PairChoice::Listed("benzoic", 1),
    PairChoice::Listed("chloroethanoic", 1),
    PairChoice::Listed("citric", 3),
    PairChoice::Listed("citric", 2),
    PairChoice::Listed("citric", 1),
    PairChoice::Listed("tartaric", 2),
    PairChoice::Listed("tartaric", 1),
    PairChoice::Listed("oxalic", 2),
    PairChoice::Listed("oxalic", 1),
    PairChoice::Listed("phthalic", 2),
    PairChoice::Listed("phthalic", 1),
    PairChoice::Listed("carbonic", 2),
    PairChoice::Listed("carbonic", 1),
    PairChoice::Listed("phosphoric", 3),
    PairChoice::Listed("phosphoric", 2),
    PairChoice::Listed("phosphoric", 1),
    PairChoice::Listed("boric", 1),
    PairChoice::Listed("tris", 1),
    PairChoice::Listed("ammonium", 1),
    PairChoice::Listed("methylammonium", 1),
    PairChoice::Listed("ethylammonium", 1),
    PairChoice::Listed("hydrofluoric", 1),
    PairChoice::Listed("nitrous", 1),
    PairChoice::Listed("hypochlorous", 1),
    PairChoice::Listed("hydrogen_sulfide", 1),
    PairChoice::OwnAcid,
    PairChoice::OwnBase,
];

impl PairChoice {
    /// Whether its pKa is typed.
    pub const fn is_own(self) -> bool {
        matches!(self, Self::OwnAcid | Self::OwnBase)
    }

    /// The pair and its line in the table, with `own_pka` for a pair of the user's own.
    pub(super) fn resolve(self, own_pka: Pka) -> (Pair, Option<&'static Entry>) {
        let listed = |key, protons| {
            let entry = systems::find(key)?;
            Some((Pair::new(entry.system, protons)?, Some(entry)))
        };
        let own = |system| Some((Pair::new(system, 1)?, None));
        match self {
            Self::Listed(key, protons) => listed(key, protons),
            Self::OwnAcid => own(AcidSystem::acid(own_pka)),
            Self::OwnBase => own(AcidSystem::cationic_acid(own_pka)),
        }
        .expect("a test makes every pair on offer")
    }

    /// Names of the pair, whatever its pKa.
    pub fn names(self) -> PairNames {
        let (pair, entry) = self.resolve(Pka::new(7.0).expect("7 is a pKa"));
        let naming = entry.map(|e| e.classroom).unwrap_or_default();
        PairNames::new(&pair, entry, naming)
    }

    /// pKa of a listed pair.
    pub fn pka(self) -> Option<Pka> {
        match self {
            Self::Listed(key, protons) => {
                Some(Pair::new(systems::find(key)?.system, protons)?.pka())
            }
            Self::OwnAcid | Self::OwnBase => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pair_of_the_table_is_offered_once() {
        let listed = systems::TABLE.iter().flat_map(|entry| {
            (1..=entry.system.protons()).map(|protons| PairChoice::Listed(entry.key, protons))
        });
        let all: Vec<PairChoice> = listed
            .chain([PairChoice::OwnAcid, PairChoice::OwnBase])
            .collect();
        for pair in &all {
            let offered = PAIRS.iter().filter(|p| *p == pair).count();
            assert_eq!(offered, 1, "{pair:?}");
        }
        assert_eq!(PAIRS.len(), all.len());
    }
}
