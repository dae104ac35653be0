//! What a link opens: those given away once, those with faults in them, and any text.

use evenkeel::app::link::notice::Notice;
use evenkeel::app::link::{Opened, read, write};
use evenkeel::app::plan::{
    Access, LONGEST_TITLE, Look, MOST_PROMPTS, MOST_QUESTIONS, PARTS, Plan, Telling,
};
use evenkeel::app::recipe::{Field, Recipe};
use evenkeel::lesson::sums::form::Form;

use super::same;

/// Links that were given away once must open for ever. Lines are added here, never changed.
#[test]
fn old_links_open() {
    let golden = include_str!("../../data/links.txt");
    let mut count = 0;
    for line in golden
        .lines()
        .filter(|l| !l.starts_with('#') && !l.is_empty())
    {
        let (link, expected) = line.split_once("  ").expect("a link and its lesson");
        let (query, fragment) = link.split_once('#').unwrap_or((link, ""));
        let opened = read(query, fragment);
        assert_eq!(opened.notices, [], "{link}");
        assert_eq!(described(&opened.plan).trim(), expected.trim(), "{link}");
        count += 1;
    }
    assert!(count >= 8);
}

/// A lesson in a line, independent of how links are written.
fn described(plan: &Plan) -> String {
    let recipe = &plan.recipe;
    let fields = recipe.fields().into_iter().map(|f| recipe.text(f));
    let parts = PARTS
        .into_iter()
        .filter_map(|part| match plan.access(part) {
            Access::Open => None,
            access => Some(format!("{part:?} {access:?}")),
        });
    let questions = &plan.questions;
    let conventions = &plan.conventions;
    // What came later is left out where it is as usual, so that old lines stand as they are.
    let later = (conventions.ph_decimals, conventions.ion, conventions.ph_by);
    let later = if later == Default::default() {
        String::new()
    } else {
        format!(" {:?} {:?} {:?}", later.0, later.1, later.2)
    };
    let line = format!(
        "{:?} {:?} {} | {} | {} | {:?} {} {:?} {:?} {:?} | {:?} {:?} {:?} {:?}{later} | {} {:?} | {} | {}",
        recipe.pair,
        recipe.method,
        fields.collect::<Vec<_>>().join(" "),
        parts.collect::<Vec<_>>().join(", "),
        if plan.guided { "guided" } else { "free" },
        questions.forms,
        questions.count,
        questions.level,
        questions.seed,
        questions.feedback,
        conventions.concentration,
        conventions.volume,
        conventions.names,
        conventions.mark,
        plan.tolerance.0,
        plan.look,
        plan.title,
        plan.prompts.join(" / "),
    );
    // Lines from before there was this choice stay as they are.
    match plan.telling {
        Telling::Bench => line,
        Telling::Results => format!("{line} | Results"),
    }
}

#[test]
fn what_a_link_gets_wrong_is_said_and_the_rest_counts() {
    let notices = |query: &str| read(query, "").notices;
    for (query, expected) in [
        ("?v=2&ca=0.2", Notice::UnknownVersion),
        ("?v=1&pair=vinegar", Notice::Refused("pair")),
        ("?v=1&ca=lots", Notice::Refused("ca")),
        ("?v=1&ca=1e9", Notice::OutOfRange("ca")),
        (
            "?v=1&n=999",
            Notice::Clamped("n", u32::from(MOST_QUESTIONS)),
        ),
        ("?v=1&n=-1", Notice::Refused("n")),
        (
            "?v=1&seed=99999999999999999999",
            Notice::Clamped("seed", u32::MAX),
        ),
        ("?v=1&ask=mix.juggle", Notice::Refused("ask")),
        ("?v=1&tol=50", Notice::Clamped("tol", 10)),
        ("?v=1&theme=plaid", Notice::Refused("theme")),
        ("?v=1&tell=everything", Notice::Refused("tell")),
        ("?v=1&start=", Notice::Refused("start")),
        ("?v=1&ca=0&cb=0", Notice::NoMixture),
        ("?v=1&t=1.00000000.abc", Notice::TextBroken),
        ("?v=1&t=9.cbf43926.abc", Notice::TextBroken),
    ] {
        assert_eq!(notices(query), [expected], "{query}");
        let opened = read(query, "");
        assert!(opened.plan.recipe.read().is_ok(), "{query}");
    }
    let opened = read("?v=1&ask=mix.juggle.ka&cb=0%2C25&va=1e9", "");
    assert_eq!(
        opened.plan.questions.forms,
        [Form::TwoVolumes, Form::KaFromPh]
    );
    assert_eq!(opened.plan.recipe.text(Field::BaseConcentration), "0.25");
    assert_eq!(opened.plan.recipe.text(Field::AcidVolume), "10000");
    // An unknown version is not guessed at, but for the light.
    let newer = read("?v=7&ca=0.2&theme=dark", "").plan;
    assert_eq!((newer.look, newer.recipe), (Look::Dark, Recipe::default()));
    // A link that was cut on its way.
    let plan = Plan {
        title: "Bakery buffers".to_owned(),
        ..Plan::default()
    };
    let mut fragment = write(&plan).fragment;
    fragment.pop();
    assert_eq!(read("v=1", &fragment).notices, [Notice::TextBroken]);
}

/// Random and hostile strings: never a panic, always a page that can be used.
#[test]
fn whatever_stands_in_a_link_there_is_a_page() {
    use rand_core::{Rng, SeedableRng};
    let mut generator = rand_pcg::Pcg32::seed_from_u64(7);
    let keys = [
        "v", "pair", "made", "pka", "ca", "va", "cb", "vb", "cw", "vw", "cs", "vs", "stock",
        "hide", "lock", "start", "ask", "n", "level", "seed", "feedback", "conc", "vol", "names",
        "mark", "tol", "theme", "tell", "t", "", "%", "<script>",
    ];
    let values = [
        "1",
        "",
        "0",
        "-0",
        "1e-300",
        "1e300",
        "NaN",
        "inf",
        "own-acid",
        "own-base",
        "citric.2",
        "part",
        "guided",
        "mix.mix.mix",
        "setup.practice",
        "%",
        "%f",
        "%00",
        "%ff%fe",
        "+",
        "🧪",
        "\u{202e}4.76",
        "٣٫٥",
        "<img src=x>",
        "' OR 1=1",
        "1.cbf43926.MTIzNDU2Nzg5",
        "1.0.",
        "1..",
        "dark",
        "end",
        "L",
        "mL",
        "comma",
        "9999999999",
        "0.1",
        "0,1",
        "\u{0}",
        "../../x",
        "{}",
    ];
    let mut below = |n: usize| generator.next_u32() as usize % n;
    for _ in 0..100_000 {
        let mut text = String::new();
        for _ in 0..below(9) {
            match below(4) {
                0 => text.extend(
                    (0..below(40))
                        .filter_map(|_| char::from_u32(u32::try_from(below(0x3000)).unwrap())),
                ),
                _ => {
                    let many = if below(50) == 0 { 3000 } else { 1 };
                    let value = values[below(values.len())].repeat(many);
                    text += &format!("{}={value}", keys[below(keys.len())]);
                }
            }
            text += ["&", "&", "&", ";", "#", "?"][below(6)];
        }
        let cut = below(3) == 0;
        let (query, fragment) = if cut {
            ("", text.as_str())
        } else {
            (text.as_str(), "")
        };
        let Opened { plan, .. } = read(query, fragment);
        let setup = plan.recipe.read();
        assert!(setup.is_ok(), "{text:?}");
        assert!(plan.questions.count <= MOST_QUESTIONS);
        assert!(plan.title.chars().count() <= LONGEST_TITLE && plan.prompts.len() <= MOST_PROMPTS);
        let again = write(&plan);
        assert!(
            same(&read(&again.query, &again.fragment).plan, &plan),
            "{text:?}"
        );
    }
}
