//! Amounts into whole particles, for random amounts.

use evenkeel::scene::tally::{Amounts, Tally};
use proptest::prelude::*;

use super::{Solution, UNIT};
use crate::draws::config;

/// How well counts keep the rules; the more the better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Kept {
    /// Some count is more than one particle off.
    Neither,
    /// All are within one.
    WithinOne,
    /// And free ions are drawn only from half a unit on.
    FromHalf,
    /// And only from a whole unit on.
    FromWhole,
}

/// A hair more than the noise that the counting itself allows for.
const HAIR: f64 = 1e-8;

fn kept(amounts: &Amounts, forms: &[u32], free: i64) -> Kept {
    let free_h = u32::try_from(free).unwrap_or(0);
    let free_oh = u32::try_from(-free).unwrap_or(0);
    let drawn = forms.iter().chain([&free_h, &free_oh]);
    let wanted = amounts
        .forms
        .iter()
        .chain([&amounts.free_h, &amounts.free_oh]);
    let off = |(drawn, wanted): (&u32, &f64)| (f64::from(*drawn) - wanted / UNIT).abs();
    if drawn.zip(wanted).map(off).any(|off| off > 1.0 + HAIR) {
        return Kept::Neither;
    }
    let present = if free > 0 {
        amounts.free_h
    } else {
        amounts.free_oh
    } / UNIT;
    match present {
        _ if free == 0 => Kept::FromWhole,
        p if p >= 1.0 - HAIR => Kept::FromWhole,
        p if p >= 0.5 - HAIR => Kept::FromHalf,
        _ => Kept::WithinOne,
    }
}

/// The best that any counts could do, by trying all that are within one.
fn best(amounts: &Amounts, n: u32, ledger: i64) -> Kept {
    let around = |amount: f64| -> Vec<u32> {
        let within = |count: &u32| (f64::from(*count) - amount / UNIT).abs() <= 1.0 + HAIR;
        (0..=700).filter(within).collect()
    };
    let mut all: Vec<Vec<u32>> = vec![Vec::new()];
    for &amount in &amounts.forms {
        let longer = |forms: &Vec<u32>| -> Vec<Vec<u32>> {
            let counts = around(amount).into_iter();
            counts
                .map(|count| [forms.as_slice(), &[count]].concat())
                .collect()
        };
        all = all.iter().flat_map(longer).collect();
    }
    let adds_up = |forms: &&Vec<u32>| forms.iter().sum::<u32>() == n;
    let rate = |forms: &Vec<u32>| {
        let protons = forms.iter().zip(i64::from(amounts.lowest)..);
        let seated: i64 = protons.map(|(&count, k)| i64::from(count) * k).sum();
        kept(amounts, forms, ledger - seated)
    };
    let rated = all.iter().filter(adds_up).map(rate);
    rated.max().unwrap_or(Kept::Neither)
}

/// Checks what always holds, and that no counts keep the rules better.
fn check(amounts: &Amounts, n: u32, ledger: i64) -> Result<Kept, TestCaseError> {
    let tally = Tally::of(amounts, UNIT, n, ledger);
    prop_assert_eq!(tally.particles(), n);
    prop_assert_eq!(tally.ledger(), ledger);
    prop_assert!(tally.free_h == 0 || tally.free_oh == 0);
    let free = i64::from(tally.free_h) - i64::from(tally.free_oh);
    let kept = kept(amounts, &tally.forms, free);
    prop_assert_eq!(
        kept,
        best(amounts, n, ledger),
        "{:?} for {:?}",
        tally,
        amounts
    );
    Ok(kept)
}

proptest! {
    #![proptest_config(config(2_000))]

    #[test]
    fn a_tidy_pair_keeps_every_rule_wherever_it_is_pushed(
        pka in 1.0..13.0_f64,
        base in 0..300_u32,
        acid in 0..300_u32,
        added in -700..700_i64,
        volume in -2.0..1.0_f64,
    ) {
        let mut solution = Solution::pair(pka, base, acid);
        solution.volume = libm::pow(10.0, volume);
        let start = solution.amounts();
        let (n, ledger) = (start.particles(UNIT), start.ledger(UNIT));
        prop_assert_eq!((n, ledger), (base + acid, i64::from(acid)));
        solution.ledger += UNIT * added as f64;
        let kept = check(&solution.amounts(), n, ledger + added)?;
        prop_assert_eq!(kept, Kept::FromWhole);
    }

    #[test]
    fn an_untidy_pair_rounds_and_still_conserves(
        pka in 1.0..13.0_f64,
        total in 0.0..300.0_f64,
        share in -0.5..1.5_f64,
        added in -700..700_i64,
    ) {
        let mut solution = Solution::pair(pka, 0, 0);
        solution.total = UNIT * total;
        solution.ledger = UNIT * total * share;
        let start = solution.amounts();
        let (n, ledger) = (start.particles(UNIT), start.ledger(UNIT));
        let kept = check(&start, n, ledger)?;
        prop_assert!(kept >= Kept::WithinOne);
        solution.ledger += UNIT * added as f64;
        let kept = check(&solution.amounts(), n, ledger + added)?;
        prop_assert!(kept >= Kept::WithinOne);
    }

    #[test]
    fn so_does_a_polyprotic_system(
        first in 1.0..6.0_f64,
        gaps in prop::collection::vec(0.3..5.0_f64, 1..3),
        lowest in -2..=0_i8,
        total in 0.0..300.0_f64,
        share in -0.5..3.5_f64,
        added in -500..500_i64,
    ) {
        let mut pkas = vec![first];
        for gap in gaps {
            pkas.push(pkas[pkas.len() - 1] + gap);
        }
        pkas.reverse();
        let ledger = UNIT * total * (f64::from(lowest) + share);
        let mut solution = Solution { lowest, pkas, total: UNIT * total, volume: 0.2, ledger };
        let start = solution.amounts();
        let (n, ledger) = (start.particles(UNIT), start.ledger(UNIT));
        check(&start, n, ledger)?;
        solution.ledger += UNIT * added as f64;
        check(&solution.amounts(), n, ledger + added)?;
    }

    #[test]
    fn a_tidy_polyprotic_system_keeps_within_one_wherever_it_is_pushed(
        first in 1.0..6.0_f64,
        gaps in prop::collection::vec(0.3..5.0_f64, 1..3),
        lowest in -2..=0_i8,
        n in 0..300_u32,
        ledger in -1_000..1_000_i64,
    ) {
        let mut pkas = vec![first];
        for gap in gaps {
            pkas.push(pkas[pkas.len() - 1] + gap);
        }
        pkas.reverse();
        let solution = Solution {
            lowest,
            pkas,
            total: UNIT * f64::from(n),
            volume: 0.2,
            ledger: UNIT * ledger as f64,
        };
        let amounts = solution.amounts();
        prop_assert_eq!((amounts.particles(UNIT), amounts.ledger(UNIT)), (n, ledger));
        let kept = check(&amounts, n, ledger)?;
        prop_assert_eq!(kept, Kept::FromWhole);
    }
}
