//! Formulas as they are read aloud.

use crate::lesson::notation::{Level, runs, spoken};
use crate::lesson::sums::symbol::Symbol;
use crate::lesson::sums::written::{Pen, Piece};

impl Pen<'_> {
    /// A row as it is read aloud.
    pub fn spoken(&self, row: &[Piece]) -> String {
        let mut words: Vec<String> = Vec::new();
        for piece in row {
            match piece {
                Piece::Symbol(symbol) => words.push(self.symbol_aloud(*symbol)),
                Piece::Value(number, unit) => words.push(value_aloud(number, unit)),
                Piece::Sign(sign) => words.push(sign_aloud(sign).to_owned()),
                Piece::Side(symbols) => {
                    let all: Vec<String> = symbols.iter().map(|s| self.symbol_aloud(*s)).collect();
                    words.push(all.join(" times "));
                }
                Piece::Fraction(upper, lower) => {
                    let simple = upper.len() == 1 && lower.len() == 1;
                    words.push(if simple { "" } else { "fraction," }.to_owned());
                    words.push(self.spoken(upper));
                    words.push("over".to_owned());
                    words.push(self.spoken(lower));
                    words.push(if simple { "" } else { ", end of fraction" }.to_owned());
                }
                Piece::Root(inner) => {
                    self.around("the square root of", inner, "end of root", &mut words);
                }
                Piece::Brackets(inner) => {
                    self.around("bracket", inner, "close bracket", &mut words);
                }
                Piece::MinusLog(inner) => {
                    words.push("minus log to base ten of".to_owned());
                    words.push(self.spoken(inner));
                }
                Piece::Log(inner) => {
                    words.push("log to base ten of".to_owned());
                    words.push(self.spoken(inner));
                }
                Piece::TenTo(inner) => {
                    self.around("ten to the", inner, "end of power", &mut words);
                }
                Piece::TenToMinus(inner) => {
                    words.push("ten to the minus".to_owned());
                    words.push(self.spoken(inner));
                }
            }
        }
        words.retain(|word| !word.is_empty());
        let text = words.join(" ").replace(" ,", ",").replace(",,", ",");
        text.trim_end_matches(',').to_owned()
    }

    fn around(&self, before: &str, inner: &[Piece], after: &str, words: &mut Vec<String>) {
        words.push(before.to_owned());
        words.push(self.spoken(inner));
        words.push([", ", after].concat());
    }

    /// A quantity as it is read aloud: "n of H A at the start".
    fn symbol_aloud(&self, symbol: Symbol) -> String {
        let written = self.symbol(symbol);
        match symbol {
            Symbol::Ka => return "K a".to_owned(),
            Symbol::Kb => return "K b".to_owned(),
            Symbol::Kw => return "K w".to_owned(),
            Symbol::Pka => return "p K a".to_owned(),
            Symbol::Ph | Symbol::GivenPh => return "p H".to_owned(),
            _ => {}
        }
        // "[A⁻] after dilution", "n(HA) at the start", "ratio".
        let Some(open) = written.find(['[', '(']) else {
            return written;
        };
        let close = written.rfind([']', ')']).unwrap_or(open);
        let inside = &written[open + 1..close];
        let inside = match symbol {
            Symbol::BufferVolume | Symbol::EquivalenceVolume | Symbol::HalfVolume => {
                inside.to_owned()
            }
            _ => spoken(inside),
        };
        let before = match &written[..open] {
            "" => "the concentration",
            letter => letter,
        };
        let mut out = [before, " of ", &inside].concat();
        // "of A, one minus over …" needs its pause.
        if inside.contains(',') {
            out.push(',');
        }
        out.push_str(&written[close + 1..]);
        out
    }
}

fn sign_aloud(sign: &str) -> &'static str {
    match sign {
        "=" => "equals",
        "+" => "plus",
        "−" => "minus",
        _ => "times",
    }
}

/// "1.75×10⁻⁵" and its unit: "1.75 times ten to the minus 5 moles per cubic decimetre".
pub(super) fn value_aloud(number: &str, unit: &str) -> String {
    let mut out = String::new();
    for run in runs(number) {
        match run.level {
            Level::Sup => {
                out.push_str("ten to the ");
                out.push_str(&run.text.replace('−', "minus "));
            }
            Level::Line | Level::Sub => {
                let text = run.text.replace("×10", " times ");
                out.push_str(&text.replace('−', "minus "));
            }
        }
    }
    let unit = match unit {
        "mol dm⁻³" => " moles per cubic decimetre",
        "mol² dm⁻⁶" => " moles squared per decimetre to the sixth",
        "cm³" => " cubic centimetres",
        "mmol" => " millimoles",
        "mol" => " moles",
        "g" => " grams",
        "g mol⁻¹" => " grams per mole",
        _ => "",
    };
    out.push_str(unit);
    out
}
