//! A lesson as a link: readable keys in the query, the same grammar in the fragment.
//!
//! `v=1&pair=ethanoic.1&ca=0.200&ask=mix.alkali&n=6&seed=417`. Only letters, digits and
//! `- . _ ~` are written; what is as usual is left out; the order is fixed, so that one lesson
//! has one link. Reading takes any order, skips keys that it does not know, and says of each
//! value that it cannot use what became of it. The teacher's own words go into the fragment,
//! with a checksum (see [`text`]).

pub mod keys;
pub mod notice;
mod reader;
pub mod text;

use crate::app::link::keys::{FIELD_KEYS, Start, code};
use crate::app::link::notice::Notice;
use crate::app::link::reader::{LONGEST_VALUE, Reader};
use crate::app::plan::{Access, Feedback, Look, PARTS, Plan, Telling};
use crate::lesson::conventions::{ConcentrationUnit, Names, VolumeUnit};
use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::sig_fig::{DecimalMark, PhDecimals};
use crate::lesson::sums::form::PhBy;

/// The version that is written, and the only one that is read.
pub const VERSION: &str = "1";

/// Most pairs of key and value that are looked at.
const MOST_PAIRS: usize = 60;

/// A lesson that was read from a link, and what is to be said about it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Opened {
    /// The lesson; the usual page where nothing could be used.
    pub plan: Plan,
    /// What was not as the link has it.
    pub notices: Vec<Notice>,
}

/// A link's two parts, without `?` and `#`.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Link {
    /// The query.
    pub query: String,
    /// The fragment; empty unless there are words of the teacher's own.
    pub fragment: String,
}

impl Link {
    /// Both parts as they follow the page's address.
    pub fn written(&self) -> String {
        let mut out = String::new();
        for (mark, part) in [("?", &self.query), ("#", &self.fragment)] {
            if !part.is_empty() {
                out.extend([mark, part]);
            }
        }
        out
    }
}

/// The link of a lesson.
pub fn write(plan: &Plan) -> Link {
    let usual = Plan::default();
    let mut pairs: Vec<(&str, String)> = Vec::new();
    let mut put = |key, value: &str, usual: &str| {
        if value != usual {
            pairs.push((key, value.to_owned()));
        }
    };
    let recipe = &plan.recipe;
    put(
        "pair",
        &keys::pair(recipe.pair),
        &keys::pair(usual.recipe.pair),
    );
    put("made", code(recipe.method), code(usual.recipe.method));
    for (field, key) in FIELD_KEYS {
        if recipe.fields().contains(&field) {
            put(
                key,
                &keys::number(recipe.text(field)),
                usual.recipe.text(field),
            );
        }
    }
    for (key, access) in [("hide", Access::Hidden), ("lock", Access::Locked)] {
        let parts = PARTS
            .into_iter()
            .filter(|part| plan.access(*part) == access);
        put(key, &parts.map(code).collect::<Vec<_>>().join("."), "");
    }
    put(
        "start",
        if plan.guided { code(Start::Guided) } else { "" },
        "",
    );
    let questions = &plan.questions;
    let forms: Vec<_> = questions.forms.iter().map(|form| code(*form)).collect();
    put("ask", &forms.join("."), "");
    put("n", &questions.count.to_string(), "0");
    put("level", questions.level.map_or("", code), "");
    put(
        "seed",
        &questions
            .seed
            .map(|seed| seed.to_string())
            .unwrap_or_default(),
        "",
    );
    put("feedback", code(questions.feedback), code(Feedback::AtOnce));
    let conventions = plan.conventions;
    put(
        "conc",
        code(conventions.concentration),
        code(ConcentrationUnit::default()),
    );
    put("vol", code(conventions.volume), code(VolumeUnit::default()));
    put("names", code(conventions.names), code(Names::default()));
    put("mark", code(conventions.mark), code(DecimalMark::default()));
    put(
        "dp",
        code(conventions.ph_decimals),
        code(PhDecimals::default()),
    );
    put("ion", code(conventions.ion), code(HydrogenIon::default()));
    put("by", code(conventions.ph_by), code(PhBy::default()));
    put("tol", &plan.tolerance.0.to_string(), "1");
    put("theme", code(plan.look), code(Look::default()));
    put("tell", code(plan.telling), code(Telling::default()));
    let fragment = text::write(&plan.title, &plan.prompts);
    let mut query = String::new();
    if !(pairs.is_empty() && fragment.is_empty()) {
        query.push_str("v=");
        query.push_str(VERSION);
    }
    for (key, value) in pairs {
        query.extend(["&", key, "=", &value]);
    }
    Link { query, fragment }
}

/// Reads a link's query and fragment, each with or without its mark. Of a key that stands in it
/// more than once, the first counts.
pub fn read(query: &str, fragment: &str) -> Opened {
    let mut reader = Reader::default();
    for part in [
        query.trim_start_matches('?'),
        fragment.trim_start_matches('#'),
    ] {
        for pair in part.split('&').take(MOST_PAIRS) {
            let (key, value) = pair.split_once('=').unwrap_or((pair, ""));
            if key.len() <= LONGEST_VALUE && reader.of(key).is_none() {
                reader
                    .pairs
                    .push((keys::decoded(key), keys::decoded(value)));
            }
        }
    }
    match reader.of("v").map(str::to_owned) {
        Some(version) if version != VERSION => Opened {
            plan: Plan {
                look: reader.choice("theme"),
                ..Plan::default()
            },
            notices: vec![Notice::UnknownVersion],
        },
        _ => reader.plan(),
    }
}
