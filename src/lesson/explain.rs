//! Explanations that are built from clauses: which choices there are, and which are right.
//!
//! The words are elsewhere. Here a choice is a number; in each slot the right ones come
//! first, and [`order`] says in which order they are offered.

/// What is to be explained.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Topic {
    /// How a buffer meets added acid.
    AddedAcid,
    /// How it meets added alkali.
    AddedAlkali,
    /// How an alkaline buffer meets both.
    AlkalineBuffer,
    /// Why water holds no pH.
    Water,
    /// Why only small amounts.
    SmallAmounts,
}

/// All topics, in teaching order.
pub const TOPICS: [Topic; 5] = [
    Topic::AddedAcid,
    Topic::AddedAlkali,
    Topic::AlkalineBuffer,
    Topic::Water,
    Topic::SmallAmounts,
];

impl Topic {
    /// The one that comes after it; after the last, the first.
    pub const fn next(self) -> Self {
        TOPICS[(self as usize + 1) % TOPICS.len()]
    }
}

/// One clause of an explanation: how many choices it has and how many of them, the first,
/// are right. More than one is where more than one way to say it earns the mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// Right choices.
    pub right: u8,
    /// All choices.
    pub choices: u8,
}

const ONE_OF_THREE: Slot = Slot {
    right: 1,
    choices: 3,
};

const TWO_OF_FOUR: Slot = Slot {
    right: 2,
    choices: 4,
};

/// The clauses of a topic.
pub const fn slots(topic: Topic) -> &'static [Slot] {
    match topic {
        Topic::AddedAcid | Topic::AlkalineBuffer => &[ONE_OF_THREE; 4],
        // OH⁻ may take H⁺ from HA, or the free H⁺ first.
        Topic::AddedAlkali => &[ONE_OF_THREE, TWO_OF_FOUR, ONE_OF_THREE, ONE_OF_THREE],
        Topic::Water | Topic::SmallAmounts => &[ONE_OF_THREE; 3],
    }
}

/// An explanation as far as it is built.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Built {
    /// Its topic.
    pub topic: Topic,
    /// Decides the order in which choices are offered.
    pub seed: u64,
    /// The choice in each slot.
    pub picks: Vec<Option<u8>>,
    /// What became of each slot when it was last handed in; empty before.
    pub verdicts: Vec<Verdict>,
    /// How often it was handed in with something wrong.
    pub wrong: u8,
    /// Whether the right choices were shown.
    pub helped: bool,
}

/// What became of a clause.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing chosen.
    Open,
    /// It earns its mark.
    Right,
    /// It does not; the number is the choice, for its reason.
    Wrong(u8),
}

impl Built {
    /// An explanation with nothing chosen.
    pub fn new(topic: Topic, seed: u64) -> Self {
        Self {
            topic,
            seed,
            picks: vec![None; slots(topic).len()],
            verdicts: Vec::new(),
            wrong: 0,
            helped: false,
        }
    }

    /// With `choice` in `slot`; anything else there is left as it is.
    #[must_use]
    pub fn with(&self, slot: usize, choice: u8) -> Self {
        let mut next = self.clone();
        let fits = slots(self.topic)
            .get(slot)
            .is_some_and(|s| choice < s.choices);
        if let Some(pick) = next.picks.get_mut(slot).filter(|_| fits) {
            *pick = Some(choice);
            if let Some(verdict) = next.verdicts.get_mut(slot) {
                *verdict = Verdict::Open;
            }
        }
        next
    }

    /// Handed in: every clause marked by itself.
    #[must_use]
    pub fn marked(&self) -> Self {
        let mut next = self.clone();
        let clause = |(slot, pick): (&Slot, &Option<u8>)| match pick {
            None => Verdict::Open,
            Some(choice) if *choice < slot.right => Verdict::Right,
            Some(choice) => Verdict::Wrong(*choice),
        };
        next.verdicts = slots(self.topic)
            .iter()
            .zip(&self.picks)
            .map(clause)
            .collect();
        let is_wrong = |verdict: &Verdict| matches!(verdict, Verdict::Wrong(_));
        if next.verdicts.iter().any(is_wrong) {
            next.wrong = next.wrong.saturating_add(1);
        }
        next
    }

    /// With the right choice in every slot, shown.
    #[must_use]
    pub fn shown(&self) -> Self {
        let mut next = self.clone();
        next.picks.fill(Some(0));
        next.helped = true;
        next.marked()
    }

    /// Clauses that earn their mark.
    pub fn marks(&self) -> usize {
        let right = self.verdicts.iter().filter(|v| **v == Verdict::Right);
        right.count()
    }

    /// Whether every clause does.
    pub fn is_complete(&self) -> bool {
        self.marks() == self.picks.len()
    }
}

/// The choices of a slot in the order in which they are offered.
pub fn order(built: &Built, slot: usize) -> Vec<u8> {
    let choices = slots(built.topic).get(slot).map_or(0, |s| s.choices);
    // A turn for each slot, from three bits of the seed of its own.
    let bits = (built.seed >> (3 * (slot % 21))) & 7;
    let turn = u8::try_from(bits).unwrap_or(0);
    (0..choices).map(|n| (n + turn) % choices).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_topic_leads_to_the_next_and_round() {
        let round = TOPICS.map(Topic::next);
        assert_eq!(round[..4], TOPICS[1..]);
        assert_eq!(round[4], TOPICS[0]);
    }

    #[test]
    fn each_clause_is_marked_by_itself_and_corrected_by_itself() {
        let built = Built::new(Topic::AddedAlkali, 5);
        let built = built.with(0, 0).with(1, 1).with(2, 2).marked();
        let expected = [
            Verdict::Right,
            Verdict::Right,
            Verdict::Wrong(2),
            Verdict::Open,
        ];
        assert_eq!(built.verdicts, expected);
        assert_eq!((built.marks(), built.wrong), (2, 1));
        let built = built.with(2, 0).with(3, 0).marked();
        assert!(built.is_complete());
        assert_eq!(built.with(9, 0), built);
        assert_eq!(built.with(0, 7), built);
    }

    #[test]
    fn every_choice_is_offered_once() {
        for topic in TOPICS {
            for seed in 0..100 {
                let built = Built::new(topic, seed * 0x0123_4567_89ab);
                for (place, slot) in slots(topic).iter().enumerate() {
                    let mut order = order(&built, place);
                    order.sort_unstable();
                    assert_eq!(order, (0..slot.choices).collect::<Vec<_>>());
                }
            }
        }
    }
}
