//! Chemical equations as data: on one line, and as they are read aloud.

use crate::lesson::hydrogen_ion::HydrogenIon;
use crate::lesson::notation::{Level, runs};

/// A chemical equation.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Equation {
    /// Species on the left.
    pub left: Vec<String>,
    /// Whether the arrow goes both ways.
    pub reversible: bool,
    /// Species on the right.
    pub right: Vec<String>,
}

impl Equation {
    pub(super) fn forward(left: &[&str], right: &[&str]) -> Self {
        let owned = |side: &[&str]| side.iter().map(|s| (*s).to_owned()).collect();
        Self {
            left: owned(left),
            reversible: false,
            right: owned(right),
        }
    }

    /// Water from its ions: what free H⁺ and free OH⁻ do to each other.
    pub fn water() -> Self {
        Self::forward(&["H⁺", "OH⁻"], &["H₂O"])
    }

    /// The same with free H⁺ written as `ion`. H₃O⁺ brings a water with it, which stands on the
    /// other side, so that both sides still hold the same atoms.
    #[must_use]
    pub fn with(&self, ion: HydrogenIon) -> Self {
        let mut other = self.clone();
        if ion == HydrogenIon::Bare {
            return other;
        }
        let hydrate = |from: &mut Vec<String>, to: &mut Vec<String>| {
            let Some(free) = from.iter_mut().find(|s| *s == "H⁺") else {
                return;
            };
            "H₃O⁺".clone_into(free);
            match to.iter_mut().find(|s| *s == "H₂O") {
                Some(water) => "2H₂O".clone_into(water),
                None => to.push("H₂O".to_owned()),
            }
        };
        hydrate(&mut other.left, &mut other.right);
        hydrate(&mut other.right, &mut other.left);
        other
    }

    /// On one line, for copying, print and tests.
    pub fn plain(&self) -> String {
        let arrow = if self.reversible { "⇌" } else { "→" };
        format!(
            "{} {arrow} {}",
            self.left.join(" + "),
            self.right.join(" + ")
        )
    }

    /// As it is read aloud.
    pub fn spoken(&self) -> String {
        let side = |species: &[String]| {
            species
                .iter()
                .map(|s| spoken(s))
                .collect::<Vec<_>>()
                .join(", plus ")
        };
        let arrow = if self.reversible {
            "reversible, forms"
        } else {
            "gives"
        };
        format!("{}, {arrow} {}", side(&self.left), side(&self.right))
    }
}

/// A species as it is read aloud: "H₂PO₄⁻" → "H 2 P O 4, one minus".
pub fn spoken(species: &str) -> String {
    let mut out = String::new();
    for run in runs(species) {
        match run.level {
            Level::Line => {
                for c in run.text.chars() {
                    if c.is_ascii_uppercase() && !out.is_empty() {
                        out.push(' ');
                    }
                    match c {
                        '(' => out.push_str(" bracket "),
                        ')' => out.push_str(" close bracket"),
                        _ => out.push(c),
                    }
                }
            }
            Level::Sub => out = format!("{out} {}", run.text),
            Level::Sup => {
                let (size, sign) = run
                    .text
                    .split_at(run.text.len() - run.text.chars().last().map_or(0, char::len_utf8));
                let size = match size {
                    "" => "one",
                    "2" => "two",
                    "3" => "three",
                    other => other,
                };
                let sign = if sign == "+" { "plus" } else { "minus" };
                out = format!("{out}, {size} {sign}");
            }
        }
    }
    out
}
