//! A question's mixture on the bench.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::link;
use evenkeel::app::on_bench::put_on_bench;
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::progress::Level;
use evenkeel::app::state::State;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::sums::form::{FORMS, Form};
use evenkeel::lesson::sums::question::question;

use super::open;

#[test]
fn mixtures_go_on_the_bench_where_it_can_make_them() {
    for form in FORMS {
        for seed in 0..30 {
            let question = question(form, seed);
            let makes = [
                Form::TwoVolumes,
                Form::AcidWithAlkali,
                Form::BaseWithAcid,
                Form::Equivalence,
            ];
            let recipe = put_on_bench(&question);
            assert_eq!(recipe.is_some(), makes.contains(&form), "{form:?} {seed}");
            let Some(recipe) = recipe else { continue };
            let setup = recipe.read().unwrap();
            let conditions = evenkeel::app::reading::CONDITIONS;
            let solved =
                evenkeel::chem::equilibrium::solve_ph(&setup.mixture, &conditions).unwrap();
            let answer = question
                .problem
                .sheet
                .right()
                .get(question.problem.answer())
                .unwrap();
            // The short form against the full balance, with the printed Ka against the table's.
            assert!(
                (solved.value() - answer).abs() < 0.03,
                "{form:?} {seed} {solved:?} {answer}"
            );
        }
    }
}

/// What was added to a question's mixture is taken back when it is put on the bench again.
#[test]
fn a_mixture_is_put_on_the_bench_afresh() {
    let opened = open(Form::AcidWithAlkali, Level::Whole, 4);
    let mut state = State::default();
    state = work(
        &state,
        DeskAction::Practised(PracticeAction::QuestionOpened {
            form: Form::AcidWithAlkali,
            level: Level::Whole,
            seed: 4,
        }),
    );
    state = work(&state, DeskAction::QuestionPutOnBench);
    let fresh = state.bench.clone();
    assert_eq!(fresh.recipe, opened.recipe().unwrap());
    let add = Action::Added {
        reagent: Reagent::Acid,
        steps: 3,
        press: Press::Tap,
    };
    state = apply(&state, add);
    assert_ne!(state.bench, fresh);
    state = work(&state, DeskAction::QuestionPutOnBench);
    assert_eq!(state.bench, fresh);
    // One step back from there.
    assert_eq!(state.past.last().map(|b| b.acid), Some(3));
}

/// Offered where the bench can make the mixture and the lesson does not fix the bench.
#[test]
fn a_lesson_can_keep_the_bench_as_it_is() {
    let takes = |query: &str, form| {
        let state = State::opened(link::read(query, ""));
        let opened = PracticeAction::QuestionOpened {
            form,
            level: Level::Whole,
            seed: 4,
        };
        work(&state, DeskAction::Practised(opened)).takes_question()
    };
    assert!(!State::default().takes_question());
    assert!(takes("", Form::AcidWithAlkali));
    assert!(!takes("", Form::SaltMass));
    assert!(!takes("v=1&lock=setup", Form::AcidWithAlkali));
    assert!(!takes("v=1&hide=setup", Form::AcidWithAlkali));
}
