//! Pieces of formulas as plain text and as MathML.

use crate::lesson::markup::{escaped, html, species};
use crate::lesson::sums::written::{Pen, Piece, joined};

impl Pen<'_> {
    /// As plain text.
    pub fn plain(&self, row: &[Piece]) -> String {
        let mut out = String::new();
        for piece in row {
            match piece {
                Piece::Symbol(symbol) => out.push_str(&self.symbol(*symbol)),
                Piece::Value(number, unit) => out.push_str(&joined(number, unit)),
                Piece::Sign(sign) => {
                    if !out.is_empty() {
                        out.push(' ');
                    }
                    out.push_str(sign);
                    out.push(' ');
                }
                Piece::Side(symbols) => {
                    symbols.iter().for_each(|s| out.push_str(&self.symbol(*s)));
                }
                Piece::Fraction(upper, lower) => {
                    let tight = |row: &[Piece]| match row {
                        [Piece::Symbol(symbol)] => !self.symbol(*symbol).contains(' '),
                        other => matches!(other, [Piece::Side(_)]),
                    };
                    out.push_str(&self.guarded(upper));
                    out.push_str(if tight(upper) && tight(lower) {
                        "/"
                    } else {
                        " / "
                    });
                    out.push_str(&self.guarded(lower));
                }
                Piece::Root(inner) => {
                    out.push('√');
                    self.bracketed(inner, &mut out);
                }
                Piece::Brackets(inner) => self.bracketed(inner, &mut out),
                Piece::MinusLog(inner) | Piece::Log(inner) => {
                    out.push_str(logarithm(piece));
                    if matches!(**inner, [Piece::Symbol(_)]) {
                        out.push_str(&self.plain(inner));
                    } else {
                        self.bracketed(inner, &mut out);
                    }
                }
                Piece::TenTo(inner) | Piece::TenToMinus(inner) => {
                    out.extend(["10^(", minus(piece), &self.plain(inner), ")"]);
                }
            }
        }
        out
    }

    fn bracketed(&self, row: &[Piece], out: &mut String) {
        out.push('(');
        out.push_str(&self.plain(row));
        out.push(')');
    }

    /// In brackets if it is more than one piece.
    fn guarded(&self, row: &[Piece]) -> String {
        let mut out = String::new();
        if row.len() > 1 {
            self.bracketed(row, &mut out);
        } else {
            out = self.plain(row);
        }
        out
    }

    /// As MathML on a line of its own, with its reading aloud as the label.
    pub fn math(&self, row: &[Piece]) -> String {
        let mut out = "<math display=\"block\" aria-label=\"".to_owned();
        out.push_str(&escaped(&self.spoken(row)));
        out.push_str("\">");
        self.mathml(row, &mut out);
        out.push_str("</math>");
        out
    }

    fn mathml(&self, row: &[Piece], out: &mut String) {
        let element = |name: &str, inner: &[Piece], out: &mut String| {
            out.extend(["<", name, ">"]);
            self.mathml(inner, out);
            out.extend(["</", name, ">"]);
        };
        let brackets = |inner: &[Piece], out: &mut String| {
            out.push_str("<mo stretchy=\"false\">(</mo><mrow>");
            self.mathml(inner, out);
            out.push_str("</mrow><mo stretchy=\"false\">)</mo>");
        };
        for piece in row {
            match piece {
                Piece::Symbol(symbol) => out.push_str(&italic(&self.symbol(*symbol))),
                Piece::Value(number, unit) => out.push_str(&species(&joined(number, unit))),
                Piece::Sign(sign) => out.extend(["<mo>", sign, "</mo>"]),
                Piece::Side(symbols) => {
                    for symbol in symbols {
                        out.push_str(&italic(&self.symbol(*symbol)));
                    }
                }
                Piece::Fraction(upper, lower) => {
                    out.push_str("<mfrac>");
                    element("mrow", upper, out);
                    element("mrow", lower, out);
                    out.push_str("</mfrac>");
                }
                Piece::Root(inner) => element("msqrt", inner, out),
                Piece::Brackets(inner) => brackets(inner, out),
                Piece::MinusLog(inner) | Piece::Log(inner) => {
                    out.push_str(&species(logarithm(piece)));
                    match **inner {
                        [Piece::Symbol(_)] => self.mathml(inner, out),
                        // As high as the fraction.
                        [Piece::Fraction(..)] => {
                            out.push_str("<mrow><mo>(</mo>");
                            self.mathml(inner, out);
                            out.push_str("<mo>)</mo></mrow>");
                        }
                        _ => brackets(inner, out),
                    }
                }
                // Raised as HTML: MathML's own scripts need a font that phones lack.
                Piece::TenTo(inner) | Piece::TenToMinus(inner) => {
                    let power = html(&self.plain(inner));
                    out.extend(["<mtext><span>10<sup>", minus(piece)]);
                    out.extend([&power, "</sup></span></mtext>"]);
                }
            }
        }
    }
}

/// The sign of a power.
const fn minus(piece: &Piece) -> &'static str {
    match piece {
        Piece::TenToMinus(_) => "−",
        _ => "",
    }
}

/// The sign of a logarithm.
const fn logarithm(piece: &Piece) -> &'static str {
    match piece {
        Piece::Log(_) => "log₁₀",
        _ => "−log₁₀",
    }
}

/// A symbol as MathML text, its letter in italics if a bracket follows or it is alone.
fn italic(symbol: &str) -> String {
    let text = species(symbol);
    let is_letter = matches!(symbol.as_bytes(), [b'a'..=b'z' | b'A'..=b'Z'])
        || matches!(symbol.as_bytes(), [b'n' | b'c' | b'V', b'(', ..]);
    if !is_letter {
        return text;
    }
    let letter = &symbol[..1];
    let plain = ["<span>", letter].concat();
    text.replacen(&plain, &["<span><i>", letter, "</i>"].concat(), 1)
}
