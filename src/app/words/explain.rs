//! Explanations in words: the question, what each clause is about, what is said about it.

use crate::app::practice::Practice;
use crate::app::words::clauses::clauses;
use crate::lesson::explain::{Built, TOPICS, Topic, Verdict, order};
use crate::lesson::markup::html;

/// Above the topics.
pub const WHICH: &str = "What to explain";

/// Shows the right clauses.
pub const SHOW: &str = "Show the right clauses";

/// Goes on.
pub const NEXT: &str = "Another explanation";

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

/// The topic that is open.
pub fn topic(practice: &Practice) -> Topic {
    practice.explanation.as_ref().map_or(TOPICS[0], |b| b.topic)
}

/// What is asked.
pub fn asked(practice: &Practice) -> String {
    question(topic(practice)).to_owned()
}

/// How many clauses it has.
pub fn slots_of(practice: &Practice) -> usize {
    practice.explanation.as_ref().map_or(0, |b| b.picks.len())
}

/// A number that differs from one explanation opened to the next.
pub fn edition(practice: &Practice) -> u32 {
    let built = practice.explanation.as_ref();
    let [a, b, c, d, ..] = built.map_or(0, |b| b.seed).to_le_bytes();
    u32::from_le_bytes([a, b, c, d]) ^ topic(practice) as u32
}

/// A clause's heading, and its choices as markup in the order in which they are offered.
pub fn offered(practice: &Practice, slot: usize) -> (&'static str, Vec<(u8, String)>) {
    let Some(built) = &practice.explanation else {
        return ("", Vec::new());
    };
    let heading = headings(built.topic).get(slot).copied().unwrap_or_default();
    let choice = |choice: u8| (choice, html(clause(built, slot, choice)));
    (
        heading,
        order(built, slot).into_iter().map(choice).collect(),
    )
}

fn clause(built: &Built, slot: usize, choice: u8) -> &'static str {
    let choices = clauses(built.topic).get(slot);
    let clause = choices.and_then(|choices| choices.get(usize::from(choice)));
    clause.map_or("", |(says, _)| says)
}

/// Whether a choice is the one taken.
pub fn is_chosen(practice: &Practice, slot: usize, choice: u8) -> bool {
    let built = practice.explanation.as_ref();
    built.is_some_and(|b| b.picks.get(slot) == Some(&Some(choice)))
}

/// Whether every clause has its mark.
pub fn is_complete(practice: &Practice) -> bool {
    practice
        .explanation
        .as_ref()
        .is_some_and(Built::is_complete)
}

/// What is said about a clause, as markup; empty before it is handed in.
pub fn says(practice: &Practice, slot: usize) -> String {
    let Some(built) = &practice.explanation else {
        return String::new();
    };
    let (Some(verdict_of), Some(pick)) = (built.verdicts.get(slot), built.picks.get(slot)) else {
        return String::new();
    };
    let sign = match verdict_of {
        Verdict::Right => "✓ ",
        Verdict::Wrong(_) => "✗ ",
        // Chosen anew since: not marked yet.
        Verdict::Open if pick.is_some() => return String::new(),
        Verdict::Open => "",
    };
    html(&[sign, verdict(built.topic, slot, *pick, *verdict_of)].concat())
}

/// How many clauses have their mark, once they were handed in.
pub fn stands(practice: &Practice) -> String {
    match &practice.explanation {
        Some(built) if !built.verdicts.is_empty() => {
            let [marks, all] = [built.marks(), built.picks.len()].map(|n| n.to_string());
            let end = if built.is_complete() {
                "That is the whole explanation:"
            } else {
                "Put the others right and check again."
            };
            [&marks, " of ", &all, " clauses have their mark. ", end].concat()
        }
        _ => String::new(),
    }
}

/// The explanation as one text, as markup, once it is complete.
pub fn whole(practice: &Practice) -> String {
    let Some(built) = practice.explanation.as_ref().filter(|b| b.is_complete()) else {
        return String::new();
    };
    let picks = built.picks.iter().enumerate();
    let clauses: Vec<_> = picks
        .filter_map(|(slot, pick)| Some(clause(built, slot, (*pick)?)))
        .collect();
    html(&clauses.join(" "))
}
