//! The bench on one page, in words.

use super::{Printed, UNTITLED, together};
use crate::app::paper::handout::Handout;
use crate::app::picture::Picture;
use crate::app::plan::{LONGEST_TITLE, Plan, tidy};
use crate::app::reading::{CONDITIONS, Solved};
use crate::app::recipe::Recipe;
use crate::app::words::addition::{Voice, ion, nothing_added};
use crate::app::words::explanation::explanation;
use crate::app::words::{label, recipe as recipes, reservoir};
use crate::chem::quantity::Amount;
use crate::lesson::markup::{html, own_words};
use crate::lesson::sig_fig::Writer;

const BENCH: &str = "The bench";

const FLASK: &str = "The flask";

const AT_THE_START: &str = "At the start";

const NOW: &str = "Now";

const AFTER_EXAMPLE: &str = "After the example";

/// Beside the sign of each body.
pub const KEY: [&str; 2] = ["H⁺ by itself", "OH⁻ by itself"];

/// Pictures that are drawn elsewhere, as markup.
#[derive(Debug, Clone, Copy)]
pub struct Pictures<'a> {
    /// The signs of the particles with what they stand for.
    pub key: &'a str,
    /// The curve.
    pub curve: &'a str,
}

/// The page; the stills are painted on its two canvases.
pub fn handout(
    handout: &Handout,
    lesson: (&Plan, &Recipe),
    pictures: Pictures<'_>,
    writer: Writer,
) -> Printed {
    let (plan, recipe) = lesson;
    let reading = &handout.reading;
    let voice = Voice::of(reading, writer);
    let title = match tidy(&plan.title, LONGEST_TITLE) {
        title if title.is_empty() => UNTITLED.to_owned(),
        title => title,
    };
    let foot = BENCH.to_owned();
    let head = [
        "<header><div><p class=\"what\">",
        &foot,
        "</p><h1>",
        &own_words(&title),
    ];
    let head = head.concat() + "</h1></div></header>";
    let pka = writer.on_ph_scale(reading.setup.pair.pka_at(&CONDITIONS));
    let held = reading.start.mixture.weak().iter().map(|part| part.total);
    let reserves = reading.start.reserves;
    let others = held
        .sum::<Amount>()
        .checked_sub(reserves.acid + reserves.base);
    let flask = [
        &recipes::described(recipe, writer),
        ", pKₐ ",
        &pka,
        ". ",
        &nothing_added(&voice, others.unwrap_or_default()),
    ];
    let mut body = ["<p>", &html(&together(&flask.concat())), "</p>"].concat();
    if handout.is_example {
        body.extend([
            "<p class=\"caution\">",
            &html(&together(&example(handout, writer))),
            "</p>",
        ]);
    }
    let now = if handout.is_example {
        AFTER_EXAMPLE
    } else {
        NOW
    };
    let heads = [AT_THE_START, now];
    body.push_str("<div class=\"stills\">");
    for (name, solved) in heads.iter().zip([&reading.start, &reading.now]) {
        let ph = writer.ph(solved.ph());
        body.extend(["<figure><figcaption>", name, ": pH ", &ph]);
        body.push_str("</figcaption><canvas></canvas></figure>");
    }
    body.extend(["</div><p class=\"signs\">", pictures.key, "</p><p>"]);
    body.push_str(&html(&together(&reservoir::legend(
        &voice,
        reading,
        &handout.now,
    ))));
    body.extend(["</p><div class=\"two\"><div><h2>", FLASK, "</h2>"]);
    body.push_str(&figures(handout, &voice, heads));
    body.extend([
        "</div><div class=\"why\">",
        &explanation(&voice, reading),
        "</div></div>",
    ]);
    body.extend([
        "<figure class=\"chart\"><figcaption>",
        label::CURVE,
        "</figcaption>",
    ]);
    let unit = reading.scale.symbol();
    body.extend([
        pictures.curve,
        "<p class=\"ends\"><span>",
        &label::acid_axis(unit),
    ]);
    body.extend([
        "</span><span>",
        &label::alkali_axis(unit),
        "</span></p><p class=\"signs\">",
    ]);
    let lines = [
        ("solid", label::THIS_BUFFER),
        ("dashed", label::WATER_ALONE),
    ];
    for (class, name) in lines {
        body.extend(["<span class=\"", class, "\">", name, "</span>"]);
    }
    for (sign, text) in label::CURVE_KEY {
        body.extend(["<span>", sign, " ", &html(text), "</span>"]);
    }
    body.extend([
        "</p></figure><p class=\"caution\">",
        label::SAFETY_SHORT,
        "</p>",
    ]);
    Printed { head, body, foot }
}

/// Says that nothing was added, and what the second still shows instead.
fn example(handout: &Handout, writer: Writer) -> String {
    let reading = &handout.reading;
    let Some(change) = reading.change() else {
        return String::new();
    };
    format!(
        "Nothing has been added to this bench yet. As an example, this page shows what {} of {} does to it.",
        writer.amount(change.amount, reading.scale),
        ion(change.reagent),
    )
}

/// Amounts, particles and pH at the start and now.
fn figures(handout: &Handout, voice: &Voice<'_>, heads: [&str; 2]) -> String {
    let reading = &handout.reading;
    let (writer, scale, names) = (voice.writer, voice.scale, voice.names);
    let mut out = String::from("<table class=\"figures digits\"><thead><tr><td></td>");
    for head in heads {
        out.extend(["<th scope=\"col\">", head, "</th>"]);
    }
    out.push_str("</tr></thead><tbody>");
    let mut row = |name: &str, of: &dyn Fn(&Solved, &Picture) -> String| {
        out.extend(["<tr><th scope=\"row\">", &html(name), "</th>"]);
        for cell in [
            of(&reading.start, &handout.start),
            of(&reading.now, &handout.now),
        ] {
            out.extend(["<td>", &html(&cell), "</td>"]);
        }
        out.push_str("</tr>");
    };
    let unit = scale.symbol();
    let particles = |count: u32| writer.fixed(f64::from(count), 0);
    let [acid, base] = [&names.acid_symbol, &names.base_symbol];
    row(&[acid, " / ", unit].concat(), &|solved, _| {
        writer.amount_number(solved.reserves.acid, scale)
    });
    row(&["particles of ", acid].concat(), &|_, picture| {
        particles(picture.tally.count(1))
    });
    row(&[base, " / ", unit].concat(), &|solved, _| {
        writer.amount_number(solved.reserves.base, scale)
    });
    row(&["particles of ", base].concat(), &|_, picture| {
        particles(picture.tally.count(0))
    });
    row("pH", &|solved, _| writer.ph(solved.ph()));
    row(label::PH_ROWS[1], &|solved, _| writer.ph(solved.water));
    row("volume", &|solved, _| writer.volume(solved.volume()));
    out.push_str("</tbody></table>");
    out
}
