//! Additions of strong acid and alkali from stock solutions, and the curves they draw.

use std::collections::BinaryHeap;

use super::balance::Balance;
use super::equilibrium::{Conditions, SolveError, ph_of, settle};
use super::mixture::{Charge, Mixture};
use super::quantity::{Amount, Concentration, Ph, QuantityError, SignedAmount};

/// A strong monoprotic acid or a strong alkali in solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reagent {
    /// H⁺, as hydrochloric acid.
    Acid,
    /// OH⁻, as sodium hydroxide.
    Alkali,
}

/// The stock solutions that additions come from, acid and alkali alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stock {
    concentration: Concentration,
}

impl Stock {
    /// A stock of this concentration.
    ///
    /// # Errors
    /// [`QuantityError::OutOfRange`] outside 1e-6 to 20 mol dm⁻³: no volume could deliver
    /// the first in a lifetime, and no bottle holds more than the second.
    pub fn new(concentration: Concentration) -> Result<Self, QuantityError> {
        let (low, high) = (1e-6, 20.0);
        if (low..=high).contains(&concentration.molar()) {
            Ok(Self { concentration })
        } else {
            Err(QuantityError::OutOfRange { low, high })
        }
    }

    /// Its concentration.
    pub const fn concentration(&self) -> Concentration {
        self.concentration
    }

    /// `start` after `acid` of H⁺ and `alkali` of OH⁻ from this stock, volumes added.
    pub fn added_to(&self, start: &Mixture, acid: Amount, alkali: Amount) -> Mixture {
        let volume = (acid + alkali)
            .at_concentration(self.concentration)
            .expect("a stock's concentration is far from zero");
        start
            .clone()
            .with_strong_acid(acid, Charge::One)
            .with_strong_alkali(alkali, Charge::One)
            .with_water(volume)
    }
}

/// One point of a curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CurvePoint {
    /// Strong reagent added since the start; alkali positive.
    pub added: SignedAmount,
    /// pH there.
    pub ph: Ph,
}

/// pH against signed amount added, both ways from `start`, volume changes included.
///
/// `points` points at most (at least the even ones and the `through` points come first):
/// even spacing to begin with, every point of `through` with a close pair of neighbors, and
/// the rest where the curve is longest on a square picture of it, so that it stays smooth
/// where it is steep. Points are in order of `added`.
///
/// # Errors
/// The first [`SolveError`] met; a range without extent gives its one point.
///
/// # Example
/// 10 mmol of a weak acid, half-neutralized on the way:
/// ```
/// use evenkeel::chem::{equilibrium::Conditions, mixture::{Charge, Mixture},
///     quantity::{Amount, Concentration, Pka, SignedAmount, Volume}, systems::AcidSystem,
///     titration::{Stock, curve}};
/// # fn main() -> Result<(), evenkeel::chem::quantity::QuantityError> {
/// let acid = AcidSystem::acid(Pka::new(4.8)?);
/// let flask = Mixture::water(Volume::from_cm3(100.0)?)
///     .with_weak(acid, 1, Amount::from_mmol(10.0)?, Charge::One);
/// let stock = Stock::new(Concentration::from_molar(1.0)?)?;
/// let half = SignedAmount::from_mol(0.005)?;
/// let ends = (SignedAmount::default(), SignedAmount::from_mol(0.015)?);
/// let points = curve(&flask, &Conditions::classroom(), &stock, ends, &[half], 100)
///     .expect("a plain mixture");
/// let there = points.iter().find(|point| point.added == half).expect("asked for");
/// assert!((there.ph.value() - 4.8).abs() < 0.01);
/// # Ok(())
/// # }
/// ```
pub fn curve(
    start: &Mixture,
    conditions: &Conditions,
    stock: &Stock,
    range: (SignedAmount, SignedAmount),
    through: &[SignedAmount],
    points: usize,
) -> Result<Vec<CurvePoint>, SolveError> {
    let base = Balance::new(start, conditions.temperature, conditions.pkw);
    let (low, high) = (
        range.0.mol().min(range.1.mol()),
        range.0.mol().max(range.1.mol()),
    );
    let point = |x: f64| -> Result<CurvePoint, SolveError> {
        let mut balance = base.clone();
        balance.with_strong(x, x.abs() / stock.concentration.molar());
        let a = settle(&mut balance, conditions)?;
        let added = SignedAmount::from_mol(x).expect("between two finite ends");
        Ok(CurvePoint {
            added,
            ph: ph_of(a),
        })
    };
    let width = high - low;
    let even = (points / 4).clamp(2, 64);
    // The upper end itself, which a sum of steps can miss by the last bit.
    let mut places: Vec<f64> = (0..even - 1)
        .map(|i| low + width * (i as f64 / (even - 1) as f64))
        .chain([high])
        .collect();
    for mark in through
        .iter()
        .map(|m| m.mol())
        .filter(|m| (low..=high).contains(m))
    {
        let near = 1e-4 * width;
        places.extend([mark, (mark - near).max(low), (mark + near).min(high)]);
    }
    places.sort_by(f64::total_cmp);
    places.dedup();
    let mut found = Vec::with_capacity(points.max(places.len()));
    for place in places {
        found.push(point(place)?);
    }
    let mut gaps: BinaryHeap<Gap> = found
        .windows(2)
        .map(|pair| Gap::between(pair[0], pair[1], width))
        .collect();
    while found.len() < points {
        let Some(gap) = gaps.pop() else { break };
        let middle = 0.5 * (gap.from.added.mol() + gap.to.added.mol());
        if middle <= gap.from.added.mol() || middle >= gap.to.added.mol() {
            continue;
        }
        let between = point(middle)?;
        gaps.push(Gap::between(gap.from, between, width));
        gaps.push(Gap::between(between, gap.to, width));
        found.push(between);
    }
    found.sort_by(|a, b| a.added.mol().total_cmp(&b.added.mol()));
    Ok(found)
}

/// Two neighboring points, ordered by how far apart they are on a picture as high (14 pH
/// units) as it is wide.
struct Gap {
    length: f64,
    from: CurvePoint,
    to: CurvePoint,
}

impl Gap {
    fn between(from: CurvePoint, to: CurvePoint, width: f64) -> Self {
        let across = (to.added.mol() - from.added.mol()) / width;
        let up = (to.ph.value() - from.ph.value()) / 14.0;
        Self {
            length: across * across + up * up,
            from,
            to,
        }
    }
}

impl PartialEq for Gap {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Gap {}

impl PartialOrd for Gap {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Gap {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.length.total_cmp(&other.length)
    }
}
