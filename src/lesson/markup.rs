//! Text and equations as markup: HTML with real sub- and superscripts, and MathML.

use crate::lesson::notation::{Equation, Level, runs};

/// Text whose Unicode sub- and superscripts become `<sub>` and `<sup>`; everything else is
/// escaped. The constants Kₐ, Kb and Kw get their italic letter and their subscript: there
/// are no such Unicode letters for b and w.
pub fn html(text: &str) -> String {
    let mut out = lifted(text);
    for (written, letter) in [("K<sub>a</sub>", "a"), ("Kb", "b"), ("Kw", "w")] {
        if out.contains(written) {
            out = out.replace(written, &["<i>K</i><sub>", letter, "</sub>"].concat());
        }
    }
    out
}

fn lifted(text: &str) -> String {
    runs(text)
        .iter()
        .map(|run| {
            let text = escaped(&run.text);
            match run.level {
                Level::Line => text,
                Level::Sub => format!("<sub>{text}</sub>"),
                Level::Sup => format!("<sup>{text}</sup>"),
            }
        })
        .collect()
}

/// An equation in MathML, on a line of its own or within one, with its reading aloud. On a line
/// of its own each side is a row, so that a stylesheet can let it go on below its arrow.
pub fn mathml(equation: &Equation, block: bool) -> String {
    let (display, row, end) = if block {
        ("block", "<mrow>", "</mrow>")
    } else {
        ("inline", "", "")
    };
    let side = |species: &[String]| -> String {
        let species: Vec<String> = species.iter().map(|s| self::species(s)).collect();
        [row, &species.join("<mo>+</mo>"), end].concat()
    };
    format!(
        "<math display=\"{display}\" aria-label=\"{}\">{}<mo stretchy=\"false\">{}</mo>{}</math>",
        escaped(&equation.spoken()),
        side(&equation.left),
        if equation.reversible { "⇌" } else { "→" },
        side(&equation.right),
    )
}

/// A species as MathML text. Its indices are `<sub>` and `<sup>` inside it, because most
/// phones have no mathematical font, and without one MathML's own scripts fly off the line.
/// The span keeps them on one line: a browser lays each child of `mtext` out as a block.
pub(super) fn species(text: &str) -> String {
    format!("<mtext><span>{}</span></mtext>", html(text))
}

pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// What somebody typed, as markup: it reads from right to left if its letters do, and whatever it
/// is, the words around it stay in their order.
pub fn own_words(text: &str) -> String {
    ["<bdi>", &escaped(text), "</bdi>"].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_becomes_markup_and_is_escaped() {
        assert_eq!(html("mol dm⁻³"), "mol dm<sup>−3</sup>");
        assert_eq!(
            html("pKₐ, Kw"),
            "p<i>K</i><sub>a</sub>, <i>K</i><sub>w</sub>"
        );
        assert_eq!(
            html("H₂PO₄⁻ <b>"),
            "H<sub>2</sub>PO<sub>4</sub><sup>−</sup> &lt;b&gt;"
        );
    }

    #[test]
    fn equations_become_mathml() {
        assert_eq!(
            mathml(&Equation::water(), true),
            "<math display=\"block\" aria-label=\"H, one plus, plus O H, one minus, gives H 2 O\">\
             <mrow><mtext><span>H<sup>+</sup></span></mtext><mo>+</mo><mtext><span>OH<sup>−</sup></span></mtext>\
             </mrow><mo stretchy=\"false\">→</mo><mrow><mtext><span>H<sub>2</sub>O</span></mtext></mrow></math>"
        );
    }
}
