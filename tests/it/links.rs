//! Lessons as links. No source: the grammar is our own; percent-encoding is that of RFC 3986,
//! section 2.1.

use evenkeel::app::link::keys::{Coded, code};
use evenkeel::app::link::notice::Notice;
use evenkeel::app::link::{Opened, read, write};
use evenkeel::app::pair::PAIRS;
use evenkeel::app::plan::{
    ACCESSES, Access, Feedback, Hundredths, LONGEST_PROMPT, LONGEST_TITLE, Look, MOST_PROMPTS,
    MOST_QUESTIONS, PARTS, Part, Plan, QuestionSet, Telling, tidy,
};
use evenkeel::app::progress::Level;
use evenkeel::app::recipe::{Field, Method, Recipe};
use evenkeel::lesson::conventions::{ConcentrationUnit, Conventions, Names, VolumeUnit};
use evenkeel::lesson::hydrogen_ion::HydrogenIon;
use evenkeel::lesson::sig_fig::{DecimalMark, PhDecimals};
use evenkeel::lesson::sums::form::{FORMS, Form, PhBy};
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

use crate::draws::check;

fn recipes() -> impl Strategy<Value = Recipe> {
    let texts = prop::collection::vec((1..999u32, -4..3i32), 10);
    let method = select(vec![Method::TwoSolutions, Method::PartNeutralized]);
    (select(PAIRS.to_vec()), method, texts).prop_map(|(pair, method, texts)| {
        let mut recipe = Recipe::default();
        (recipe.pair, recipe.method) = (pair, method);
        for (field, (digits, exponent)) in recipe.fields().into_iter().zip(texts) {
            let before = recipe.text(field).to_owned();
            recipe.set_text(field, format!("{digits}e{exponent}"));
            if recipe.read().is_err() {
                recipe.set_text(field, before);
            }
        }
        recipe
    })
}

fn question_sets() -> impl Strategy<Value = QuestionSet> {
    let levels = [
        None,
        Some(Level::WorkedExample),
        Some(Level::MissingSteps),
        Some(Level::Whole),
    ];
    (
        subsequence(FORMS.to_vec(), 0..=FORMS.len()).prop_shuffle(),
        0..=MOST_QUESTIONS,
        select(levels.to_vec()),
        any::<Option<u32>>(),
        select(vec![Feedback::AtOnce, Feedback::AtTheEnd]),
    )
        .prop_map(|(forms, count, level, seed, feedback)| QuestionSet {
            forms,
            count,
            level,
            seed,
            feedback,
        })
}

fn conventions() -> impl Strategy<Value = Conventions> {
    (
        select(ConcentrationUnit::CODES.to_vec()),
        select(VolumeUnit::CODES.to_vec()),
        select(Names::CODES.to_vec()),
        select(DecimalMark::CODES.to_vec()),
        select(PhDecimals::CODES.to_vec()),
        select(HydrogenIon::CODES.to_vec()),
        select(PhBy::CODES.to_vec()),
    )
        .prop_map(
            |(concentration, volume, names, mark, ph_decimals, ion, ph_by)| Conventions {
                concentration: concentration.0,
                volume: volume.0,
                names: names.0,
                mark: mark.0,
                ph_decimals: ph_decimals.0,
                ion: ion.0,
                ph_by: ph_by.0,
            },
        )
}

fn plans() -> impl Strategy<Value = Plan> {
    let access = prop::array::uniform5(select(ACCESSES.to_vec()));
    let words = prop::collection::vec(any::<String>(), 0..=MOST_PROMPTS);
    let looks = select(vec![Look::System, Look::Light, Look::Dark]);
    let tellings = vec![Telling::Bench, Telling::Results];
    (
        (recipes(), access, any::<bool>(), question_sets()),
        (
            conventions(),
            1..=10u8,
            looks,
            select(tellings),
            any::<String>(),
            words,
        ),
    )
        .prop_map(|(bench, manner)| {
            let (recipe, access, guided, questions) = bench;
            let (conventions, tolerance, look, telling, title, prompts) = manner;
            let prompts = prompts.iter().map(|p| tidy(p, LONGEST_PROMPT));
            Plan {
                recipe,
                access,
                guided,
                questions,
                conventions,
                tolerance: Hundredths(tolerance),
                look,
                telling,
                title: tidy(&title, LONGEST_TITLE),
                prompts: prompts.filter(|p| !p.is_empty()).collect(),
            }
        })
}

/// What counts of a recipe: the fields that are not shown are not kept.
fn same(a: &Plan, b: &Plan) -> bool {
    let fields = |plan: &Plan| -> Vec<String> {
        let fields = plan.recipe.fields().into_iter();
        fields.map(|f| plan.recipe.text(f).to_owned()).collect()
    };
    let rest = |plan: &Plan| {
        let mut recipe = Recipe::default();
        (recipe.pair, recipe.method) = (plan.recipe.pair, plan.recipe.method);
        Plan {
            recipe,
            ..plan.clone()
        }
    };
    fields(a) == fields(b) && rest(a) == rest(b)
}

#[test]
fn a_lesson_comes_back_from_its_link() {
    check(&plans(), |plan| {
        let link = write(&plan);
        let plain = |c: char| c.is_ascii_alphanumeric() || "-._~&=".contains(c);
        prop_assert!(link.query.chars().all(plain), "{}", link.query);
        prop_assert!(link.fragment.chars().all(plain), "{}", link.fragment);
        let opened = read(&link.query, &link.fragment);
        prop_assert_eq!(&opened.notices, &[]);
        prop_assert!(same(&opened.plan, &plan), "{link:?}\n{opened:?}");
        // One lesson, one link.
        prop_assert_eq!(write(&opened.plan), link.clone());
        // All of it in the fragment, as some platforms have it; and with keys of others.
        let all = format!("#{}&{}&utm_source=x&=&&%", link.query, link.fragment);
        prop_assert_eq!(read("", &all).plan, opened.plan);
        Ok(())
    });
}

#[test]
fn the_usual_page_has_no_link_of_its_own() {
    let plan = Plan::default();
    assert_eq!(write(&plan).written(), "");
    assert_eq!(read("", ""), Opened::default());
    let dark = Plan {
        look: Look::Dark,
        ..plan
    };
    assert_eq!(write(&dark).written(), "?v=1&theme=dark");
}

/// Links that were given away once must open for ever. Lines are added here, never changed.
#[test]
fn old_links_open() {
    let golden = include_str!("../data/links.txt");
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

#[test]
fn codes_are_apart_and_all_there() {
    for form in FORMS {
        assert!(!code(form).is_empty(), "{form:?}");
    }
    for part in PARTS {
        assert!(!code::<Part>(part).is_empty(), "{part:?}");
    }
    let forms: std::collections::HashSet<_> = Form::CODES.iter().map(|(_, c)| c).collect();
    assert_eq!(forms.len(), FORMS.len());
}
