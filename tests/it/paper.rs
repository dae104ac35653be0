//! A lesson on paper: the questions that a class gets, their answers, and the bench.
//! No source: what is checked is that paper, screen and marking say the same.

mod numbers;

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::link;
use evenkeel::app::paper::handout::Handout;
use evenkeel::app::paper::{Sheet, USUAL_COUNT};
use evenkeel::app::plan::{Access, LONGEST_PROMPT, LONGEST_TITLE, Part, Plan};
use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::state::State;
use evenkeel::app::words::paper::answers::answers;
use evenkeel::app::words::paper::handout::{Pictures, handout};
use evenkeel::app::words::paper::{CODE, Printed, questions};
use evenkeel::app::words::slip::written;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::markup::html;
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::kind::offered;
use evenkeel::lesson::sums::question::Question;
use evenkeel::scene::shape::Shape;

use crate::writers::POINT;

const PAGE: &str = "https://school.example/evenkeel/";

fn plan(forms: &[Form], count: u8, seed: Option<u32>) -> Plan {
    let mut plan = Plan::default();
    plan.questions.forms = forms.to_vec();
    plan.questions.count = count;
    plan.questions.seed = seed;
    plan
}

/// What a class gets from a link, question by question.
fn on_screens(address: &str, count: usize) -> Vec<Question> {
    let link = address.strip_prefix(PAGE).unwrap();
    let (query, fragment) = link.split_once('#').unwrap_or((link, ""));
    let opened = link::read(query, fragment);
    assert_eq!(opened.notices, [], "{address}");
    let began = PracticeAction::Began { seed: 31 };
    let mut practice = practise(&Practice::of(&opened.plan), began);
    let mut all = Vec::new();
    while all.len() < count {
        all.push(Question::clone(&practice.task.as_ref().unwrap().question));
        practice = practise(&practice, PracticeAction::NextAsked);
    }
    all
}

#[test]
fn a_sheet_asks_what_its_link_asks_on_screens() {
    let some = [Form::TwoVolumes, Form::AddedAcid, Form::ChooseAcid];
    for (plan, count) in [
        (plan(&some, 5, Some(417)), 5),
        (plan(&some, 12, None), 12),
        (plan(&some, 0, Some(9)), usize::from(USUAL_COUNT)),
        (plan(&[], 0, None), usize::from(USUAL_COUNT)),
        (plan(&[], 40, Some(u32::MAX)), 40),
    ] {
        let sheet = Sheet::of(&plan, 20_261);
        assert_eq!(sheet.seed, plan.questions.seed.unwrap_or(20_261));
        assert_eq!(sheet.questions.len(), count);
        let opens = sheet.opens(PAGE, CODE).unwrap();
        assert!(opens.code.is_some(), "{}", opens.address);
        assert!(opens.address.contains(&format!("&seed={}", sheet.seed)));
        assert_eq!(on_screens(&opens.address, count), sheet.questions);
        // The same lesson is the same sheet, and so is what the sheet's link opens.
        assert_eq!(Sheet::of(&plan, 20_261), sheet);
        assert_eq!(Sheet::of(&sheet.lesson, 1), sheet);
    }
    let forms = |count| {
        let sheet = Sheet::of(&plan(&[], count, None), 3);
        let forms = sheet.questions.iter().map(|q| q.problem.form);
        forms.collect::<Vec<_>>()
    };
    assert_eq!(forms(0), FORMS[..6]);
    assert_eq!(forms(18)[14..], [FORMS[14], FORMS[15], FORMS[0], FORMS[1]]);
}

#[test]
fn a_lesson_without_practice_has_a_sheet_and_no_link_to_it() {
    let mut plan = plan(&[], 2, Some(5));
    plan.access[Part::Practice as usize] = Access::Hidden;
    let sheet = Sheet::of(&plan, 0);
    assert_eq!(sheet.opens(PAGE, CODE), None);
    let printed = questions(&sheet, None, POINT);
    assert!(!printed.head.contains("<svg") && !printed.head.contains("http"));
    assert!(printed.head.contains("seed 5"));
}

#[test]
fn every_form_has_its_lines_its_choices_and_its_answers() {
    for form in FORMS {
        for seed in 0..12 {
            let sheet = Sheet::of(&plan(&[form], 1, Some(seed)), 0);
            let question = &sheet.questions[0];
            let printed = questions(&sheet, None, POINT);
            let count = |part: &str| printed.body.matches(part).count();
            assert_eq!(count("<li><i></i>"), offered(question).len(), "{form:?}");
            assert_eq!(count("</b><i></i><em>"), Sheet::marks(question), "{form:?}");
            let recipe = matches!(form, Form::RecipeBySalt | Form::RecipeByAlkali);
            assert_eq!(count("class=\"caution\""), usize::from(recipe), "{form:?}");
            assert_eq!(count("<em>with unit"), usize::from(recipe), "{form:?}");
            // No answer stands on the pupils' sheet.
            let answer = question.problem.answer();
            let right = question.problem.sheet.right().get(answer).unwrap();
            let right = html(&written(answer, right, POINT));
            let stands = printed.body.contains(&[" ", &right].concat());
            assert!(!stands, "{form:?} {seed}: {right}");
            let told = answers(&sheet, POINT);
            let marks = told.body.matches("<tr><th scope=\"row\">").count();
            assert!(marks >= Sheet::marks(question), "{form:?}");
            for text in [&printed.foot, &told.foot] {
                assert!(text.ends_with(&format!("seed {seed}")) && !text.contains('"'));
            }
        }
    }
}

/// What a teacher could type, or paste.
const HOSTILE: [&str; 4] = [
    "<script>alert(1)</script> & \"quotes\" <b>bold</b>",
    "\u{202e}שלום עולם\u{202c} مرحبا",
    "🧪👩‍🔬 e\u{301}\u{301}\u{301}",
    "mol dm⁻³ cm³ ethanoic acid\nsecond line\u{0}",
];

#[test]
fn a_teachers_words_are_text_and_stay_as_they_are() {
    for text in HOSTILE {
        let mut plan = plan(&[Form::Dilution], 1, Some(8));
        plan.title = text.to_owned();
        plan.prompts = vec![String::new(), text.to_owned()];
        let sheet = Sheet::of(&plan, 0);
        assert_eq!(
            sheet.lesson.prompts.len(),
            1,
            "an empty prompt has no number"
        );
        let heads = [
            questions(&sheet, None, POINT).head,
            answers(&sheet, POINT).head,
            bench(&State::default(), &plan).1.head,
        ];
        for head in heads {
            for markup in ["<script", "<b>", "<img"] {
                assert!(!head.contains(markup), "{head}");
            }
            assert!(!head.contains('\n') && !head.contains('\0'), "{head}");
        }
    }
    // Too long for a code with the words in it: the paper has them, the code does without.
    let mut plan = plan(&FORMS, 12, Some(8));
    plan.title = "é".repeat(LONGEST_TITLE + 9);
    plan.prompts = vec!["水".repeat(LONGEST_PROMPT); 5];
    let sheet = Sheet::of(&plan, 0);
    let opens = sheet.opens(PAGE, CODE).unwrap();
    assert!(opens.code.is_some() && !opens.address.contains('#'));
    assert_eq!(on_screens(&opens.address, 12), sheet.questions);
    let head = questions(&sheet, Some(&opens), POINT).head;
    assert_eq!(head.matches('é').count(), LONGEST_TITLE);
    assert_eq!(head.matches('水').count(), 5 * LONGEST_PROMPT);
}

/// A printed part as somebody reads it.
fn read(printed: &Printed) -> String {
    let mut text = String::new();
    let mut is_tag = false;
    let markup = [&printed.head, &printed.body].map(String::as_str).concat();
    for (place, c) in markup.char_indices() {
        match c {
            '<' => {
                is_tag = true;
                let tag = &markup[place..];
                let line = [
                    "</p>", "</li>", "</tr>", "</h", "</math>", "</fig", "</div>",
                ];
                if line.iter().any(|end| tag.starts_with(end)) {
                    text.push('\n');
                } else if tag.starts_with("</t") || tag.starts_with("<span>") {
                    text.push_str("  ");
                }
            }
            '>' => is_tag = false,
            c if !is_tag => text.push(c),
            _ => {}
        }
    }
    let lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn a_sheet_and_its_answers_read_well() {
    let mut plan = plan(
        &[Form::TwoVolumes, Form::Exhausted, Form::RecipeBySalt],
        3,
        Some(417),
    );
    plan.title = "Bakery buffers".to_owned();
    plan.prompts = vec!["Say first what reacts with what.".to_owned()];
    let sheet = Sheet::of(&plan, 0);
    let opens = sheet.opens(PAGE, CODE);
    insta::assert_snapshot!("questions", read(&questions(&sheet, opens.as_ref(), POINT)));
    insta::assert_snapshot!("answers", read(&answers(&sheet, POINT)));
}

fn bench(state: &State, plan: &Plan) -> (Handout, Printed) {
    let shown = Handout::of(&state.bench);
    let pictures = Pictures { key: "", curve: "" };
    let printed = handout(&shown, (plan, &state.bench.recipe), pictures, POINT);
    (shown, printed)
}

fn added(state: &State, reagent: Reagent, steps: u32) -> State {
    let action = Action::Added {
        reagent,
        steps,
        press: Press::Tap,
    };
    apply(state, action)
}

#[test]
fn the_handout_shows_the_start_and_now() {
    let plain = State::default();
    let gone = added(&added(&plain, Reagent::Acid, 130), Reagent::Acid, 5);
    for state in [plain.clone(), added(&plain, Reagent::Alkali, 20), gone] {
        let (shown, printed) = bench(&state, &Plan::default());
        assert_eq!(shown.is_example, state.bench.last.is_none());
        assert_eq!(printed.body.contains("As an example"), shown.is_example);
        let pictures = [&shown.start, &shown.now];
        let solved = [&shown.reading.start, &shown.reading.now];
        for ((scene, picture), solved) in shown.stills().iter().zip(pictures).zip(solved) {
            let drawn = |acid: bool| {
                let is = |shape: &&Shape| matches!(shape, Shape::Particle { protons, .. } if (*protons >= 1) == acid);
                u32::try_from(scene.shapes.iter().filter(is).count()).unwrap()
            };
            let tally = &picture.tally;
            assert_eq!([drawn(true), drawn(false)], [tally.acid(), tally.base()]);
            let off = |count: u32, mol: f64| (f64::from(count) - mol / picture.unit).abs();
            assert!(off(tally.count(1), solved.reserves.acid.mol()) <= 1.0);
            assert!(off(tally.count(0), solved.reserves.base.mol()) <= 1.0);
            assert!(
                printed
                    .body
                    .contains(&format!("pH {}", POINT.ph(solved.ph())))
            );
            assert!(
                printed
                    .body
                    .contains(&format!("<td>{}</td>", POINT.ph(solved.water)))
            );
        }
    }
    // Nothing on the bench itself is changed by the example.
    let (shown, printed) = bench(&plain, &Plan::default());
    assert_eq!(shown.reading.change().unwrap().reagent, Reagent::Acid);
    insta::assert_snapshot!("bench", read(&printed));
}
