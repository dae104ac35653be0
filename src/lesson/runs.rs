//! Text split into what stands on the line and what is raised or lowered.

use crate::lesson::superscript;

/// Where a run of characters stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Level {
    /// On the line.
    Line,
    /// Subscript.
    Sub,
    /// Superscript.
    Sup,
}

/// Characters on one level, written with ordinary digits and signs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Run {
    /// Where it stands.
    pub level: Level,
    /// Its characters.
    pub text: String,
}

/// Splits text with Unicode sub- and superscripts into runs.
pub fn runs(text: &str) -> Vec<Run> {
    let mut out: Vec<Run> = Vec::new();
    for c in text.chars() {
        let (level, c) = lowered(c)
            .map(|c| (Level::Sub, c))
            .or_else(|| raised(c).map(|c| (Level::Sup, c)))
            .unwrap_or((Level::Line, c));
        match out.last_mut() {
            Some(run) if run.level == level => run.text.push(c),
            _ => out.push(Run {
                level,
                text: c.to_string(),
            }),
        }
    }
    out
}

fn lowered(c: char) -> Option<char> {
    if c == 'ₐ' {
        return Some('a');
    }
    let digit = u32::from(c).checked_sub(0x2080).filter(|d| *d < 10)?;
    char::from_digit(digit, 10)
}

fn raised(c: char) -> Option<char> {
    match c {
        '⁺' => Some('+'),
        '⁻' => Some('−'),
        c => superscript::digit(c),
    }
}
