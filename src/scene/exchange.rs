//! The give and take that never stops.

use super::crowd::View;
use super::flight::Errand;
use super::motion::span;
use super::particles::World;
use super::shape::Side;

/// How long a proton is away from a particle with no partner in sight, 0.9 s.
const LOAN: u64 = 108;

impl World {
    /// One particle gives its proton to one that is a proton short of it, and
    /// each becomes what the other was. Where only one form is drawn, a
    /// particle gives its proton to the solvent and takes it back, or takes
    /// one from water and gives it back: the counts stay the same either way.
    pub(super) fn begin_exchange(&mut self) {
        for protons in self.pairs_by_preference() {
            let Some(giver) = self.any_of(protons) else {
                continue;
            };
            let Some(taker) = self.partner_for(giver, protons - 1) else {
                continue;
            };
            self.crowd.claim(giver);
            self.crowd.claim(taker);
            self.transfer(giver, taker);
            return;
        }
        self.exchange_with_solvent();
    }

    fn exchange_with_solvent(&mut self) {
        let (lowest, highest) = (self.promised.lowest, self.promised.highest());
        let acid = (1.max(lowest + 1)..=highest).find_map(|k| self.any_of(k));
        if let Some(body) = acid {
            self.crowd.claim(body);
            let end = self.crowd.now + span::TURN;
            let lower = self.crowd.bodies[body].protons - 1;
            self.crowd.turn_up(body, lower, end);
            self.crowd.change(body, -1);
            self.launch(LOAN, Errand::Loan { body });
            return;
        }
        let base = (lowest..highest).rev().find_map(|k| self.any_of(k));
        if let Some(body) = base {
            self.crowd.claim(body);
            self.raise_water(body, true);
        }
    }

    /// The acid form of each pair of neighboring forms, the pair on the bench
    /// first.
    fn pairs_by_preference(&self) -> Vec<i8> {
        let mut acids: Vec<i8> = (self.promised.lowest + 1..=self.promised.highest()).collect();
        acids.sort_by_key(|&protons| (protons - 1).unsigned_abs());
        acids
    }

    /// A free particle of this form by chance: from the top row of its pan,
    /// or from anywhere in the mixed view.
    fn any_of(&mut self, protons: i8) -> Option<usize> {
        let pile = self.crowd.pile(Side::of(protons));
        let depth = match self.crowd.view {
            View::Sorted => self.crowd.layout.columns(),
            View::Mixed => pile.len(),
        };
        let candidates: Vec<usize> = pile
            .iter()
            .rev()
            .take(depth)
            .copied()
            .filter(|&id| self.crowd.bodies[id].protons == protons && self.crowd.is_free(id))
            .collect();
        if candidates.is_empty() {
            return self.crowd.topmost(protons);
        }
        Some(candidates[self.chance.below(candidates.len())])
    }

    /// A taker: the nearest one in the mixed view, so that the proton's way
    /// is short.
    fn partner_for(&mut self, giver: usize, protons: i8) -> Option<usize> {
        if self.crowd.view == View::Sorted {
            return self.any_of(protons);
        }
        let at = self.crowd.body_at(giver);
        let distance = |id: usize| self.crowd.body_at(id).distance_squared(at);
        let pile = self.crowd.pile(Side::of(protons)).iter().copied();
        pile.filter(|&id| self.crowd.bodies[id].protons == protons && self.crowd.is_free(id))
            .min_by(|&a, &b| distance(a).total_cmp(&distance(b)))
    }
}
