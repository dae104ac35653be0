//! Lessons as links, there and back. No source: the grammar is our own; percent-encoding is that
//! of RFC 3986, section 2.1.

mod opened;

use evenkeel::app::link::keys::{Coded, code};
use evenkeel::app::link::{Opened, read, write};
use evenkeel::app::pair::PAIRS;
use evenkeel::app::plan::{
    ACCESSES, Feedback, Hundredths, LONGEST_PROMPT, LONGEST_TITLE, Look, MOST_PROMPTS,
    MOST_QUESTIONS, PARTS, Part, Plan, QuestionSet, Telling, tidy,
};
use evenkeel::app::progress::Level;
use evenkeel::app::recipe::{Method, Recipe};
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
