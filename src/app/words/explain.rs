//! Explanations in words: the question, what each clause is about, what is said about it.

use crate::app::words::clauses::clauses;
use crate::lesson::explain::{Topic, Verdict};

/// What is to be explained.
pub const fn question(topic: Topic) -> &'static str {
    match topic {
        Topic::AddedAcid => {
            "A little strong acid is added to a buffer of HA and its salt. Explain why the pH changes little."
        }
        Topic::AddedAlkali => {
            "A little strong alkali is added to a buffer of HA and its salt. Explain why the pH changes little."
        }
        Topic::AlkalineBuffer => {
            "Explain how a buffer of ammonia and ammonium chloride meets added acid and added alkali."
        }
        Topic::Water => {
            "1 mmol of strong acid is added to 100 cm³ of water. Explain why its pH falls so far."
        }
        Topic::SmallAmounts => "Explain why a buffer holds its pH against small additions only.",
    }
}

/// What each clause is about.
pub const fn headings(topic: Topic) -> &'static [&'static str] {
    match topic {
        Topic::AddedAcid | Topic::AddedAlkali => {
            &["What is there", "The equation", "How much of it", "So"]
        }
        Topic::AlkalineBuffer => &["Added acid", "Added alkali", "What is there", "So"],
        Topic::Water => &["What is there", "What becomes of H⁺", "So"],
        Topic::SmallAmounts => &["Each addition", "In the long run", "At the end"],
    }
}

/// What is said about a clause once it is handed in.
pub fn verdict(topic: Topic, slot: usize, choice: Option<u8>, verdict: Verdict) -> &'static str {
    match (verdict, choice) {
        (Verdict::Open, _) | (_, None) => "Choose one.",
        (Verdict::Right | Verdict::Wrong(_), Some(choice)) => clauses(topic)
            .get(slot)
            .and_then(|choices| choices.get(usize::from(choice)))
            .map_or("", |(_, because)| because),
    }
}
