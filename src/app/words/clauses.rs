//! The clauses of the explanations, with what speaks for each or against it.

use crate::lesson::explain::Topic;

/// A choice: what it says, and why it earns its mark or does not.
pub type Clause = (&'static str, &'static str);

const CONSTANT: Clause = (
    "So the pH stays constant.",
    "It moves a little: look at the second decimal. “Constant” earns no mark.",
);

const SEVEN: Clause = (
    "So the pH goes back to 7.",
    "A buffer holds the pH it has, near its pKₐ. 7 is nothing special to it.",
);

const EVERY_LAST_ONE: Clause = (
    "Every last ion that was added is removed.",
    "A very few always stay free, so “nearly all” is what earns the mark.",
);

const STAYS_FREE: Clause = (
    "What was added stays free in the solution.",
    "In water it would. Here the other form of the pair meets them.",
);

const NEARLY_ALL: Clause = (
    "Nearly all of what was added is removed.",
    "Nearly all, not quite all: that is the point.",
);

const RATIO_MOVES_LITTLE: Clause = (
    "The ratio n(A⁻)/n(HA) changes little, and with it [H⁺] and the pH.",
    "Both amounts are large, so a little more of one and less of the other hardly moves their ratio.",
);

/// The choices of each clause, the right ones first.
pub const fn clauses(topic: Topic) -> &'static [&'static [Clause]] {
    match topic {
        Topic::AddedAcid => &[
            &[
                (
                    "The salt supplies plenty of A⁻.",
                    "A⁻ is the store that meets H⁺.",
                ),
                (
                    "The weak acid supplies plenty of A⁻.",
                    "A weak acid is hardly ionised. Most A⁻ comes from the salt.",
                ),
                (
                    "Water supplies plenty of OH⁻.",
                    "An acidic buffer holds less than 10⁻⁷ mol dm⁻³ of OH⁻: no store at all.",
                ),
            ],
            &[
                ("A⁻ + H⁺ → HA", "A⁻ takes up the H⁺."),
                (
                    "HA ⇌ H⁺ + A⁻",
                    "Read forwards, this makes H⁺. What takes it up?",
                ),
                (
                    "OH⁻ + H⁺ → H₂O",
                    "There is hardly any OH⁻ in an acidic buffer. Which base is there in plenty?",
                ),
            ],
            &[NEARLY_ALL, EVERY_LAST_ONE, STAYS_FREE],
            &[RATIO_MOVES_LITTLE, CONSTANT, SEVEN],
        ],
        Topic::AddedAlkali => &[
            &[
                (
                    "The weak acid supplies plenty of HA.",
                    "HA is the store that meets OH⁻: hardly any of it is ionised.",
                ),
                (
                    "There is plenty of free H⁺.",
                    "There is about one free H⁺ for thousands of HA. What is the store?",
                ),
                (
                    "The salt supplies plenty of H⁺.",
                    "The salt supplies A⁻, which takes H⁺ and gives none.",
                ),
            ],
            &[
                ("HA + OH⁻ → A⁻ + H₂O", "HA gives its H⁺ to OH⁻."),
                (
                    "H⁺ + OH⁻ → H₂O, then more HA ⇌ H⁺ + A⁻",
                    "This way earns the mark too: HA makes up for the H⁺ that OH⁻ took.",
                ),
                (
                    "A⁻ + H₂O ⇌ HA + OH⁻",
                    "Read forwards, this makes OH⁻. What takes it away?",
                ),
                (
                    "HA ⇌ H⁺ + A⁻, and no more",
                    "What becomes of the OH⁻? It has to stand in an equation.",
                ),
            ],
            &[NEARLY_ALL, EVERY_LAST_ONE, STAYS_FREE],
            &[RATIO_MOVES_LITTLE, CONSTANT, SEVEN],
        ],
        Topic::AlkalineBuffer => &[
            &[
                ("NH₃ + H⁺ → NH₄⁺", "NH₃ is the store that meets H⁺."),
                (
                    "NH₄⁺ → NH₃ + H⁺",
                    "This makes H⁺. Which of the two takes it up?",
                ),
                (
                    "OH⁻ + H⁺ → H₂O, and no more",
                    "There is some OH⁻, but far too little to last. Which base is there in plenty?",
                ),
            ],
            &[
                (
                    "NH₄⁺ + OH⁻ → NH₃ + H₂O",
                    "NH₄⁺ is the store that meets OH⁻.",
                ),
                (
                    "NH₃ + OH⁻ → NH₂⁻ + H₂O",
                    "NH₃ gives up no H⁺ in water. Which of the two does?",
                ),
                (
                    "NH₃ + H₂O ⇌ NH₄⁺ + OH⁻",
                    "Read forwards, this makes OH⁻. What takes it away?",
                ),
            ],
            &[
                (
                    "Both NH₃ and NH₄⁺ are there in plenty, NH₄⁺ from its salt.",
                    "One store for each direction.",
                ),
                (
                    "NH₃ makes all the NH₄⁺ that is needed.",
                    "A weak base makes little NH₄⁺ by itself. The salt supplies it.",
                ),
                (
                    "NH₄Cl neutralises the NH₃.",
                    "They do not use each other up: swap H⁺ between them and the same pair is there.",
                ),
            ],
            &[
                (
                    "The ratio n(NH₃)/n(NH₄⁺) changes little, and with it [H⁺] and the pH.",
                    "Both amounts are large, so their ratio hardly moves.",
                ),
                CONSTANT,
                SEVEN,
            ],
        ],
        Topic::Water => &[
            &[
                (
                    "Water holds no store that takes up H⁺.",
                    "No A⁻, and OH⁻ at 10⁻⁷ mol dm⁻³ only.",
                ),
                (
                    "The OH⁻ of water takes up the H⁺.",
                    "There are 10⁻⁷ mol dm⁻³ of OH⁻, for 10⁻² of H⁺.",
                ),
                (
                    "Water is neutral, so it takes up acid and alkali.",
                    "Neutral says that H⁺ and OH⁻ are equally few. It says nothing of a store.",
                ),
            ],
            &[
                ("The added H⁺ stays free.", "Nothing takes it up."),
                (
                    "H₂O + H⁺ → H₃O⁺ removes it.",
                    "H₃O⁺ is what free H⁺ in water is. The pH counts it.",
                ),
                (
                    "Half of it becomes water.",
                    "For that as much OH⁻ would have to be there.",
                ),
            ],
            &[
                (
                    "[H⁺] rises from 10⁻⁷ to 10⁻² mol dm⁻³: five pH units.",
                    "1 mmol in 100 cm³ is 0.01 mol dm⁻³.",
                ),
                (
                    "[H⁺] doubles: less than one pH unit.",
                    "It rises from 10⁻⁷ to 10⁻²: how many times is that?",
                ),
                (
                    "The pH falls to 0.01.",
                    "0.01 mol dm⁻³ is the concentration. The pH is −log of it.",
                ),
            ],
        ],
        Topic::SmallAmounts => &[
            &[
                (
                    "Each addition turns some of one form into the other.",
                    "What takes up H⁺ or OH⁻ is used up by it.",
                ),
                (
                    "Each addition leaves the buffer as it was.",
                    "Nothing vanishes: each H⁺ taken up is one A⁻ less and one HA more.",
                ),
                (
                    "Each addition dilutes the buffer until it is too weak.",
                    "Dilution leaves the ratio as it is. The reaction changes it.",
                ),
            ],
            &[
                (
                    "When that form runs low, the ratio changes faster and faster.",
                    "The last few are a large share of what is left.",
                ),
                (
                    "The ratio changes by the same step every time.",
                    "Taking 1 from 10 changes a ratio less than taking 1 from 2.",
                ),
                (
                    "The reaction gets slower until it stops.",
                    "It is fast all along. What runs out is the form itself.",
                ),
            ],
            &[
                (
                    "Once it is used up, what is added stays free and the pH runs away.",
                    "Then the excess decides the pH.",
                ),
                (
                    "Once it is used up, the pH stays at pKₐ.",
                    "pH = pKₐ holds where both forms are equal, and now one is gone.",
                ),
                (
                    "Once it is used up, the other form takes over.",
                    "The other form meets the other reagent only.",
                ),
            ],
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::words::explain::headings;
    use crate::lesson::explain::{TOPICS, slots};

    #[test]
    fn every_choice_has_its_words() {
        for topic in TOPICS {
            let counts: Vec<usize> = clauses(topic).iter().map(|c| c.len()).collect();
            let slots: Vec<usize> = slots(topic).iter().map(|s| s.choices.into()).collect();
            assert_eq!(counts, slots, "{topic:?}");
            assert_eq!(headings(topic).len(), slots.len(), "{topic:?}");
        }
    }

    #[test]
    fn a_constant_ph_is_refused() {
        for topic in [Topic::AddedAcid, Topic::AddedAlkali, Topic::AlkalineBuffer] {
            let place = clauses(topic)[3].iter().position(|c| *c == CONSTANT);
            let right = usize::from(slots(topic)[3].right);
            assert!(place.is_some_and(|place| place >= right), "{topic:?}");
        }
    }
}
