//! A lesson in words: what it says of itself, and of a link that could not be used as it is.

use crate::app::link::notice::Notice;
use crate::app::plan::Plan;

/// Above the teacher's prompts; empty if there is nothing to say.
pub fn heading(plan: &Plan) -> String {
    match (plan.title.is_empty(), plan.prompts.is_empty()) {
        (false, _) => plan.title.clone(),
        (true, false) => PROMPTS.to_owned(),
        (true, true) => String::new(),
    }
}

const PROMPTS: &str = "From your teacher";

/// Above what could not be used.
pub const NOT_AS_WRITTEN: &str = "This page does not open quite as its link says:";

/// Shown in a part that is locked.
pub const fn locked(with_questions: bool) -> &'static str {
    if with_questions {
        "Your teacher has locked this part. It opens once the questions in Practice are done."
    } else {
        "Your teacher has locked this part for this lesson."
    }
}

/// What could not be used, a sentence each.
pub fn notices(notices: &[Notice]) -> Vec<String> {
    notices.iter().map(notice).collect()
}

fn notice(notice: &Notice) -> String {
    match notice {
        Notice::UnknownVersion => {
            "The link is made for another version of this page. The usual bench is there instead."
                .to_owned()
        }
        Notice::Refused(key) => {
            format!("“{key}” has a value that means nothing here. The usual one is there instead.")
        }
        Notice::Clamped(key, kept) => {
            format!("“{key}” is out of range. {kept}, the nearest possible value, is used.")
        }
        Notice::OutOfRange(key) => {
            format!("“{key}” is out of range. The nearest possible value is on the bench.")
        }
        Notice::NoMixture => {
            "The mixture cannot be made. The usual one is on the bench instead.".to_owned()
        }
        Notice::TextBroken => {
            "The teacher's own words did not arrive whole, so they are left out. Ask for the link again."
                .to_owned()
        }
    }
}
