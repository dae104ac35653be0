//! The give and take that never stops.

use super::crowd::View;
use super::particles::World;
use super::shape::Side;

impl World {
    /// Whether there is at least one particle of each of the pair's two forms.
    pub(super) fn can_exchange(&self) -> bool {
        self.promised.count(0) > 0 && self.promised.count(1) > 0
    }

    /// One acid form gives its proton to a base form, and each becomes what
    /// the other was: the counts stay the same. With less than a particle of
    /// either form nothing is shown, since its partner would have to be drawn
    /// where the counts say that there is none.
    pub(super) fn begin_exchange(&mut self) {
        let giver = self.any_of(1);
        let Some((giver, taker)) = giver.and_then(|g| Some((g, self.partner_for(g, 0)?))) else {
            return;
        };
        self.crowd.claim(giver);
        self.crowd.claim(taker);
        self.transfer(giver, taker);
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
