//! The guided start as somebody goes through it. No source: how this page behaves.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::guide::{Guide, GuideAction, GuideStep, STEPS};
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::prediction::{Direction, Gap, Size, gap};
use evenkeel::app::reading::Reading;
use evenkeel::app::shown::Shown;
use evenkeel::app::state::{BenchEvent, State};
use evenkeel::app::words::addition::Voice;
use evenkeel::app::words::guide as words;
use evenkeel::chem::titration::Reagent;
use evenkeel::scene::View;

use crate::writers::POINT;

fn reading(state: &State) -> Reading {
    Reading::of(&state.bench, state.bench.recipe.read().unwrap()).unwrap()
}

/// The page as its user goes on in it.
#[derive(Default)]
struct Page {
    state: State,
}

impl Page {
    fn guide(&self) -> &Guide {
        &self.state.desk.guide
    }

    fn act(&mut self, action: Action) {
        self.state = apply(&self.state, action);
        self.watch();
    }

    fn work(&mut self, action: DeskAction) {
        self.state = work(&self.state, action);
        self.watch();
    }

    fn add(&mut self, reagent: Reagent, steps: u32) {
        let press = Press::Tap;
        self.act(Action::Added {
            reagent,
            steps,
            press,
        });
    }

    fn go(&mut self, action: GuideAction) {
        self.work(DeskAction::Guided(action));
    }

    fn predict(&mut self, direction: Direction, size: Size) {
        self.go(GuideAction::DirectionChosen(direction));
        self.go(GuideAction::SizeChosen(size));
        self.go(GuideAction::Locked);
    }

    /// What the card does once the page shows the state.
    fn watch(&mut self) {
        let news = words::news(&self.state, &Shown::of(&self.state, None), POINT);
        if !news.is_empty() {
            self.state = work(&self.state, DeskAction::Guided(GuideAction::Seen(news)));
        }
    }

    fn gap(&self) -> Option<Gap> {
        let decimals = self.state.writer().ph_decimals;
        gap(
            &self.guide().prediction,
            &reading(&self.state).change()?,
            decimals,
        )
    }

    fn says(&self) -> String {
        let reading = reading(&self.state);
        let voice = Voice::of(&reading, POINT);
        words::compare(&voice, &self.guide().prediction, &reading.change().unwrap()).unwrap()
    }
}

#[test]
fn six_steps_each_done_by_doing_it() {
    let mut page = Page::default();
    page.add(Reagent::Acid, 5);
    page.go(GuideAction::Started);
    assert_eq!(
        (page.guide().step, page.guide().done()),
        (Some(GuideStep::Look), false)
    );
    page.act(Action::ViewChosen(View::Mixed));
    page.act(Action::ViewChosen(View::Sorted));
    assert!(page.guide().done());

    page.go(GuideAction::WentOn);
    // What was added before does not count, nor does anything before the lock.
    assert!(!page.guide().done() && page.guide().holds_additions());
    page.go(GuideAction::Locked);
    let before = page.state.bench.clone();
    page.add(Reagent::Acid, 1);
    assert!(!page.guide().done() && page.guide().holds_additions());
    assert_eq!(
        (page.state.event, &page.state.bench),
        (BenchEvent::Held, &before)
    );
    page.predict(Direction::Down, Size::Slight);
    assert!(!page.guide().done() && !page.guide().holds_additions());
    page.go(GuideAction::DirectionChosen(Direction::Up));
    assert_eq!(page.guide().prediction.direction, Some(Direction::Down));
    page.add(Reagent::Alkali, 1);
    assert!(!page.guide().done());
    page.add(Reagent::Acid, 1);
    assert!(page.guide().done());
    assert_eq!(page.gap(), Some(Gap::None));

    page.go(GuideAction::WentOn);
    page.predict(Direction::Nowhere, Size::Slight);
    page.add(Reagent::Alkali, 5);
    assert!(page.guide().done());
    assert_eq!(page.gap(), Some(Gap::NotNowhere));

    page.go(GuideAction::WentOn);
    assert!(!page.guide().done());
    page.add(Reagent::Acid, 1);
    assert!(page.guide().done());

    page.go(GuideAction::WentOn);
    page.add(Reagent::Acid, 20);
    assert!(!page.guide().done());
    page.add(Reagent::Acid, 200);
    assert!(page.guide().done());

    page.go(GuideAction::WentOn);
    page.work(DeskAction::Practised(PracticeAction::Began { seed: 1 }));
    assert!(!page.guide().done());
    page.work(DeskAction::Practised(PracticeAction::LayoutAsked));
    assert!(page.guide().done());
    page.go(GuideAction::WentOn);
    assert_eq!(page.guide().step, None);
}

#[test]
fn every_step_can_be_skipped_and_gone_back_to() {
    let mut page = Page::default();
    page.go(GuideAction::Started);
    for step in STEPS {
        assert_eq!(page.guide().step, Some(step));
        page.go(GuideAction::WentOn);
    }
    assert_eq!(page.guide().step, None);
    page.go(GuideAction::WentTo(GuideStep::AddAlkali));
    assert_eq!(page.guide().predicts(), Some(Reagent::Alkali));
    page.go(GuideAction::Closed);
    assert!(!page.guide().holds_additions());
}

#[test]
fn a_prediction_is_held_against_what_happened() {
    let mut text = String::new();
    let cases = [
        (Reagent::Acid, 1, Direction::Down, Size::Slight, Gap::None),
        (Reagent::Acid, 1, Direction::Down, Size::Large, Gap::LessFar),
        (Reagent::Acid, 1, Direction::Up, Size::Slight, Gap::OtherWay),
        (
            Reagent::Acid,
            1,
            Direction::Nowhere,
            Size::Slight,
            Gap::NotNowhere,
        ),
        (
            Reagent::Acid,
            60,
            Direction::Down,
            Size::Slight,
            Gap::Further,
        ),
        (
            Reagent::Acid,
            200,
            Direction::Down,
            Size::Slight,
            Gap::Further,
        ),
        (
            Reagent::Acid,
            200,
            Direction::Nowhere,
            Size::Slight,
            Gap::NotNowhere,
        ),
        (
            Reagent::Alkali,
            5,
            Direction::Up,
            Size::Moderate,
            Gap::LessFar,
        ),
        (
            Reagent::Alkali,
            5,
            Direction::Down,
            Size::Moderate,
            Gap::OtherWay,
        ),
    ];
    for (reagent, steps, direction, size, expected) in cases {
        let mut page = Page::default();
        page.go(GuideAction::WentTo(match reagent {
            Reagent::Acid => GuideStep::AddAcid,
            Reagent::Alkali => GuideStep::AddAlkali,
        }));
        page.predict(direction, size);
        page.add(reagent, steps);
        assert_eq!(
            page.gap(),
            Some(expected),
            "{reagent:?} {steps} {direction:?}"
        );
        text += &format!("{reagent:?} {steps}: {}\n", page.says());
    }
    insta::assert_snapshot!(text);
}
