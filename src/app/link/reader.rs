//! Reading the pairs of a link, each with what became of it.

use crate::app::field::Problem;
use crate::app::link::Opened;
use crate::app::link::keys::{self, Coded, FIELD_KEYS, Start, from_code};
use crate::app::link::notice::Notice;
use crate::app::link::text;
use crate::app::plan::{Access, Hundredths, MOST_QUESTIONS, Part, Plan, TOLERANCES};
use crate::app::recipe::Recipe;
use crate::lesson::sums::form::Form;

/// Longest value that is looked at; the teacher's words have a length of their own.
pub(super) const LONGEST_VALUE: usize = 64;

#[derive(Default)]
pub(super) struct Reader {
    pub(super) pairs: Vec<(String, String)>,
    notices: Vec<Notice>,
}

impl Reader {
    pub(super) fn of(&self, key: &str) -> Option<&str> {
        let found = self.pairs.iter().find(|(k, _)| k == key);
        found.map(|(_, value)| value.as_str())
    }

    fn refuse(&mut self, key: &'static str) {
        self.notices.push(Notice::Refused(key));
    }

    /// The choice that a key names; the usual one if it names none.
    pub(super) fn choice<T: Coded + Default + Copy>(&mut self, key: &'static str) -> T {
        self.named(key).unwrap_or_default()
    }

    /// What a key names, if it names something known.
    fn named<T: Coded + Copy>(&mut self, key: &'static str) -> Option<T> {
        let found = from_code(self.of(key)?);
        if found.is_none() {
            self.refuse(key);
        }
        found
    }

    /// A whole number between two bounds, which it is moved to if it lies outside.
    fn whole(&mut self, key: &'static str, low: u32, high: u32) -> Option<u32> {
        let text = self.of(key)?;
        let digits = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        if !digits {
            self.refuse(key);
            return None;
        }
        // More digits than fit are more than any bound.
        let value = text.parse().unwrap_or(u64::MAX);
        let kept = u32::try_from(value).unwrap_or(u32::MAX).clamp(low, high);
        if u64::from(kept) != value {
            self.notices.push(Notice::Clamped(key, kept));
        }
        Some(kept)
    }

    /// The things that a list names; what it does not know is refused, the others count.
    fn list<T: Coded + Copy>(&mut self, key: &'static str) -> Vec<T> {
        let text = self.of(key).unwrap_or_default();
        let named: Vec<_> = text.split('.').filter(|name| !name.is_empty()).collect();
        let found: Vec<T> = named.iter().filter_map(|name| from_code(name)).collect();
        if found.len() < named.len() {
            self.refuse(key);
        }
        found
    }

    pub(super) fn plan(mut self) -> Opened {
        let mut plan = Plan {
            recipe: self.recipe(),
            guided: self.named("start") == Some(Start::Guided),
            look: self.choice("theme"),
            telling: self.choice("tell"),
            ..Plan::default()
        };
        for (key, access) in [("hide", Access::Hidden), ("lock", Access::Locked)] {
            for part in self.list::<Part>(key) {
                if plan.access(part) == Access::Open {
                    plan.access[part as usize] = access;
                }
            }
        }
        let questions = &mut plan.questions;
        questions.forms = self.forms();
        if let Some(count) = self.whole("n", 0, u32::from(MOST_QUESTIONS)) {
            questions.count = u8::try_from(count).unwrap_or(MOST_QUESTIONS);
        }
        questions.level = self.named("level");
        questions.seed = self.whole("seed", 0, u32::MAX);
        questions.feedback = self.choice("feedback");
        let conventions = &mut plan.conventions;
        conventions.concentration = self.choice("conc");
        conventions.volume = self.choice("vol");
        conventions.names = self.choice("names");
        conventions.mark = self.choice("mark");
        conventions.ph_decimals = self.choice("dp");
        conventions.ion = self.choice("ion");
        conventions.ph_by = self.choice("by");
        let (low, high) = (*TOLERANCES.start(), *TOLERANCES.end());
        if let Some(tolerance) = self.whole("tol", u32::from(low), u32::from(high)) {
            plan.tolerance = Hundredths(u8::try_from(tolerance).unwrap_or(high));
        }
        if let Some(text) = self.of("t") {
            match text::read(text) {
                Some((title, prompts)) => (plan.title, plan.prompts) = (title, prompts),
                None => self.notices.push(Notice::TextBroken),
            }
        }
        Opened {
            plan,
            notices: self.notices,
        }
    }

    /// Forms, each once, in the order of the link.
    fn forms(&mut self) -> Vec<Form> {
        let mut forms: Vec<Form> = Vec::new();
        for form in self.list("ask") {
            if !forms.contains(&form) {
                forms.push(form);
            }
        }
        forms
    }

    /// The recipe. A value outside what its field takes is moved to the nearest bound; one that
    /// is no number, and a mixture that cannot be made, are refused.
    fn recipe(&mut self) -> Recipe {
        let usual = Recipe::default();
        let mut recipe = usual.clone();
        match self.of("pair").map(keys::pair_of) {
            Some(None) => self.refuse("pair"),
            found => recipe.pair = found.flatten().unwrap_or(usual.pair),
        }
        recipe.method = self.named("made").unwrap_or(usual.method);
        for (field, key) in FIELD_KEYS {
            let Some(text) = self.of(key) else { continue };
            let text: String = text.chars().take(LONGEST_VALUE).collect();
            let text = keys::number(&text);
            recipe.set_text(field, text);
            match recipe.problem(field) {
                None => {}
                Some(Problem::OutOfRange { low, high, .. }) => {
                    let bound = keys::nearest_bound(recipe.text(field), low, high);
                    recipe.set_text(field, bound);
                    self.notices.push(Notice::OutOfRange(key));
                }
                Some(_) => {
                    recipe.set_text(field, usual.text(field).to_owned());
                    self.refuse(key);
                }
            }
        }
        if recipe.read().is_err() {
            self.notices.push(Notice::NoMixture);
            return usual;
        }
        recipe
    }
}
