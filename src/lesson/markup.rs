//! Text and equations as markup: HTML with real sub- and superscripts, and MathML.

use crate::lesson::notation::{Equation, Level, runs};

/// Text whose Unicode sub- and superscripts become `<sub>` and `<sup>`; everything else is
/// escaped.
pub fn html(text: &str) -> String {
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

/// An equation in MathML, on a line of its own or within one, with its reading aloud.
pub fn mathml(equation: &Equation, block: bool) -> String {
    let side = |species: &[String]| -> String {
        species
            .iter()
            .map(|s| self::species(s))
            .collect::<Vec<_>>()
            .join("<mo>+</mo>")
    };
    format!(
        "<math display=\"{}\" aria-label=\"{}\">{}<mo stretchy=\"false\">{}</mo>{}</math>",
        if block { "block" } else { "inline" },
        escaped(&equation.spoken()),
        side(&equation.left),
        if equation.reversible { "⇌" } else { "→" },
        side(&equation.right),
    )
}

/// A species as a MathML row: runs of upright letters with their indices.
fn species(text: &str) -> String {
    let mut out = String::from("<mrow>");
    let runs = runs(text);
    let mut i = 0;
    while i < runs.len() {
        let base = format!("<mtext>{}</mtext>", escaped(&runs[i].text));
        let index = |place: usize, level: Level| {
            runs.get(place)
                .filter(|r| r.level == level)
                .map(|r| format!("<mn>{}</mn>", escaped(&r.text)))
        };
        match (
            index(i + 1, Level::Sub),
            index(i + 1, Level::Sup),
            index(i + 2, Level::Sup),
        ) {
            (Some(sub), _, Some(sup)) => {
                out += &format!("<msubsup>{base}{sub}{sup}</msubsup>");
                i += 3;
            }
            (Some(sub), _, None) => {
                out += &format!("<msub>{base}{sub}</msub>");
                i += 2;
            }
            (None, Some(sup), _) => {
                out += &format!("<msup>{base}{sup}</msup>");
                i += 2;
            }
            (None, None, _) => {
                out += &base;
                i += 1;
            }
        }
    }
    out + "</mrow>"
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_becomes_markup_and_is_escaped() {
        assert_eq!(html("mol dm⁻³"), "mol dm<sup>−3</sup>");
        assert_eq!(
            html("H₂PO₄⁻ <b>"),
            "H<sub>2</sub>PO<sub>4</sub><sup>−</sup> &lt;b&gt;"
        );
    }

    #[test]
    fn equations_become_mathml() {
        let text = mathml(&Equation::water(), true);
        assert_eq!(
            text,
            "<math display=\"block\" aria-label=\"H, one plus, plus O H, one minus, gives H 2 O\">\
             <mrow><msup><mtext>H</mtext><mn>+</mn></msup></mrow><mo>+</mo>\
             <mrow><msup><mtext>OH</mtext><mn>−</mn></msup></mrow>\
             <mo stretchy=\"false\">→</mo>\
             <mrow><msub><mtext>H</mtext><mn>2</mn></msub><mtext>O</mtext></mrow></math>"
        );
        assert!(
            species("H₂PO₄⁻")
                .ends_with("<msubsup><mtext>PO</mtext><mn>4</mn><mn>−</mn></msubsup></mrow>")
        );
    }
}
