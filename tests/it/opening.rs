//! A lesson as it opens, and its questions to the end. No source: how this page behaves.

mod handed_in;

use evenkeel::app::carried::Carried;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::guide::GuideStep;
use evenkeel::app::link::read;
use evenkeel::app::plan::{Access, Feedback, PARTS, Part};
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::progress::Level;
use evenkeel::app::state::{PANELS, Panel, State};
use evenkeel::app::task::{End, Filled};
use evenkeel::app::words::lesson::notices;
use evenkeel::app::words::slip::written;
use evenkeel::app::words::summary;
use evenkeel::app::words::task as words;
use evenkeel::lesson::conventions::rewritten;
use evenkeel::lesson::sums::form::Form;

fn opened(query: &str) -> State {
    State::opened(read(query, ""))
}

fn act(state: &mut State, action: PracticeAction) {
    *state = work(state, DeskAction::Practised(action));
}

/// Answers the open question; `wrong` spoils its last line.
fn answer(state: &mut State, wrong: bool) {
    let task = state.desk.practice.task.clone().unwrap();
    act(state, PracticeAction::Sorted(task.kind()));
    let last = task.lines.len() - 1;
    for (place, line) in task.lines.iter().enumerate() {
        if line.filled == Filled::ByLearner {
            let right = written(
                line.symbol,
                task.right(line.symbol).unwrap(),
                state.writer(),
            );
            let spoiled = wrong && place == last;
            let text = if spoiled { "1.11".to_owned() } else { right };
            act(state, PracticeAction::Typed { place, text });
        }
    }
    act(state, PracticeAction::Checked);
}

#[test]
fn a_lesson_opens_as_it_was_set_up() {
    let state =
        opened("v=1&pair=ethanoic.1&ca=0.2&start=guided&hide=curve&lock=working&mark=comma");
    assert_eq!(
        state.bench.recipe.read().unwrap().names.acid_name,
        "ethanoic acid"
    );
    assert_eq!(state.desk.guide.step, Some(GuideStep::Look));
    assert_eq!(state.access(Part::Curve), Access::Hidden);
    assert_eq!(state.access(Part::Working), Access::Locked);
    assert_eq!(state.access(Part::Practice), Access::Open);
    assert_eq!(state.writer().fixed(4.76, 2), "4,76");
    assert!(opened("").notices.is_empty());
    assert_eq!(opened(""), State::default());
}

#[test]
fn the_questions_of_a_lesson_come_in_turn_and_end() {
    let mut state = opened("v=1&ask=mix.ka&n=3&level=whole&seed=417&lock=curve");
    act(&mut state, PracticeAction::Began { seed: 99 });
    let mut forms = Vec::new();
    for number in 1..=3 {
        assert!(!state.desk.practice.set_is_over());
        assert_eq!(state.access(Part::Curve), Access::Locked);
        forms.push(
            state
                .desk
                .practice
                .task
                .as_ref()
                .unwrap()
                .question
                .problem
                .form,
        );
        assert!(
            words::heading(&state.desk.practice).starts_with(&format!("Question {number} of 3 · "))
        );
        answer(&mut state, number == 2);
        if number == 2 {
            answer(&mut state, false);
            assert_eq!(
                state.desk.practice.task.as_ref().unwrap().end,
                Some(End::Solved)
            );
        }
        if number < 3 {
            act(&mut state, PracticeAction::NextAsked);
        }
    }
    assert_eq!(forms, [Form::TwoVolumes, Form::KaFromPh, Form::TwoVolumes]);
    let practice = &state.desk.practice;
    assert!(practice.set_is_over());
    assert_eq!(state.access(Part::Curve), Access::Open);
    assert_eq!(
        summary::heading(practice),
        "All 3 questions are done: 2 right at the first try, 9 of 10 marks."
    );
    let before = practice.clone();
    act(&mut state, PracticeAction::NextAsked);
    assert_eq!(*state.desk.practice.finished, before.finished);
    assert_eq!(state.desk.practice.number, 3);
    // The same seed, the same questions; another visitor's own chance does not count.
    let mut other = opened("v=1&ask=mix.ka&n=3&level=whole&seed=417");
    act(&mut other, PracticeAction::Began { seed: 7 });
    let question = |state: &State| state.desk.practice.task.as_ref().unwrap().question.clone();
    let mut again = opened("v=1&ask=mix.ka&n=3&level=whole&seed=417");
    act(&mut again, PracticeAction::Began { seed: 8 });
    assert_eq!(question(&other), question(&again));
}

/// Where a lesson says what is asked a learner does not, and "after the last question" needs one.
#[test]
fn a_lesson_asks_what_it_says() {
    let mut state = opened("v=1&ask=mix&n=2&seed=1");
    act(&mut state, PracticeAction::Began { seed: 1 });
    let before = state.desk.practice.clone();
    act(&mut state, PracticeAction::FormChosen(Some(Form::Dilution)));
    act(&mut state, PracticeAction::LevelChosen(Some(Level::Whole)));
    assert_eq!(state.desk.practice, before);
    let endless = opened("v=1&feedback=end");
    assert_eq!(endless.desk.practice.manner.feedback, Feedback::AtOnce);
}

/// What a course system is told and gives back goes on where it was.
#[test]
fn questions_go_on_where_a_course_system_left_them() {
    let link = "v=1&ask=mix.ka&n=3&level=whole";
    let mut state = opened(link);
    act(&mut state, PracticeAction::Began { seed: 99 });
    assert_eq!(state.desk.practice.report().unwrap().score, None);
    answer(&mut state, false);
    act(&mut state, PracticeAction::NextAsked);
    answer(&mut state, true);
    answer(&mut state, false);
    let told = state.desk.practice.report().unwrap();
    assert_eq!(
        (told.score, told.done, told.state.as_str()),
        (Some(83.3), false, "v1;99;2;1;5;6")
    );
    act(&mut state, PracticeAction::NextAsked);
    let third = state.desk.practice.task.as_ref().unwrap().question.clone();
    // Another visit, with another chance.
    let mut again = opened(link);
    act(
        &mut again,
        PracticeAction::Resumed(Carried::read(&told.state).unwrap()),
    );
    act(&mut again, PracticeAction::Began { seed: 5 });
    assert_eq!(again.desk.practice.task.as_ref().unwrap().question, third);
    assert_eq!(again.desk.practice.report().unwrap().state, told.state);
    answer(&mut again, false);
    assert!(again.desk.practice.set_is_over());
    assert!(
        summary::heading(&again.desk.practice).starts_with("All 3 questions are done: 2 right")
    );
    // And once it is over there is nothing to ask.
    let over = again.desk.practice.report().unwrap();
    assert!(over.done);
    let mut late = opened(link);
    act(
        &mut late,
        PracticeAction::Resumed(Carried::read(&over.state).unwrap()),
    );
    act(&mut late, PracticeAction::Began { seed: 5 });
    assert_eq!(
        (
            late.desk.practice.task.is_none(),
            late.desk.practice.set_is_over()
        ),
        (true, true)
    );
    assert_eq!(words::heading(&late.desk.practice), "");
    for junk in [
        "",
        "v2;1;1;1;1;1",
        "v1;x",
        "v1;1;2;3;1;1",
        "v1;1;1;1;9;1",
        "🧪",
    ] {
        assert_eq!(Carried::read(junk), None, "{junk}");
    }
    assert_eq!(opened("").desk.practice.report(), None);
}

/// Every text of a lesson is in its conventions: nothing of the usual ones is left over.
#[test]
fn conventions_reach_every_text() {
    let mut state = opened(
        "v=1&ask=mix.salt.add-acid&n=9&level=whole&seed=3&conc=L&vol=mL&names=common&mark=comma",
    );
    let exchanges = state.plan.conventions.exchanges();
    act(&mut state, PracticeAction::Began { seed: 1 });
    for _ in 0..9 {
        let writer = state.writer();
        act(&mut state, PracticeAction::LayoutAsked);
        let practice = &state.desk.practice;
        for text in [
            words::question(practice, writer),
            words::solution(practice, writer),
        ] {
            let text = rewritten(text, &exchanges);
            for usual in ["dm", "cm³", "cm<sup>", "decimetre", "centimetre"] {
                assert!(!text.contains(usual), "{usual}: {text}");
            }
            for usual in [
                "ethanoic",
                "ethanoate",
                "methanoic",
                "propanoate",
                "butanoic",
            ] {
                let bare = |at: usize| !text[..at].ends_with(char::is_alphabetic);
                let found = text.match_indices(usual).any(|(at, _)| bare(at));
                assert!(!found, "{usual}: {text}");
            }
        }
        act(&mut state, PracticeAction::NextAsked);
    }
    // A part of a word is no word, and nothing is exchanged twice.
    let put = |text: &str| rewritten(text.to_owned(), &exchanges);
    assert_eq!(
        put("Ethanoic acid and sodium ethanoate"),
        "Acetic acid and sodium acetate"
    );
    assert_eq!(
        put("0,100 mol dm⁻³ in 25 cm³, or 1 dm³"),
        "0,100 mol L⁻¹ in 25 mL, or 1 L"
    );
    assert_eq!(
        put("hydrogen and methylammonium"),
        "hydrogen and methylammonium"
    );
}

/// What a lesson locks or leaves out is a panel, but for the guided start.
#[test]
fn each_part_is_one_panel() {
    let of_panels: Vec<Part> = PANELS.into_iter().filter_map(Panel::part).collect();
    assert_eq!(of_panels, PARTS[1..]);
    assert_eq!(PARTS[0], Part::Guide);
}

#[test]
fn what_could_not_be_used_is_said_in_words() {
    let state = opened("v=1&ca=lots&n=999&ask=juggle&t=1.7.x");
    let said = notices(&state.notices);
    assert_eq!(said.len(), 4);
    assert!(said.iter().all(|text| text.ends_with('.')), "{said:?}");
}
