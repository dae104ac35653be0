//! The guided start as somebody goes through it. No source: how this page behaves.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::guide::{
    Direction, Gap, Guide, GuideAction, GuideStep, STEPS, Since, Size, gap, guide,
};
use evenkeel::app::practice::{Practice, PracticeAction, practise};
use evenkeel::app::reading::Reading;
use evenkeel::app::state::State;
use evenkeel::app::words::addition::Voice;
use evenkeel::app::words::guide as words;
use evenkeel::chem::titration::Reagent;
use evenkeel::lesson::sig_fig::Writer;
use evenkeel::scene::View;

fn reading(state: &State) -> Reading {
    Reading::of(&state.bench, state.bench.recipe.read().unwrap()).unwrap()
}

/// The page as far as the guide sees it.
#[derive(Default)]
struct Page {
    state: State,
    practice: Practice,
    guide: Guide,
}

impl Page {
    fn act(&mut self, action: Action) {
        self.state = apply(&self.state, action);
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

    fn practise(&mut self, action: PracticeAction) {
        self.practice = practise(&self.practice, action);
        self.watch();
    }

    fn guide(&mut self, action: GuideAction) {
        let now = Since::now(&self.state, &self.practice);
        self.guide = guide(&self.guide, action, now);
        self.watch();
    }

    fn predict(&mut self, direction: Direction, size: Size) {
        self.guide(GuideAction::DirectionChosen(direction));
        self.guide(GuideAction::SizeChosen(size));
        self.guide(GuideAction::Locked);
    }

    fn watch(&mut self) {
        self.guide = self
            .guide
            .watching(&self.state, &reading(&self.state), &self.practice);
    }

    fn gap(&self) -> Option<Gap> {
        gap(&self.guide.prediction, &reading(&self.state).change()?)
    }

    fn says(&self) -> String {
        let reading = reading(&self.state);
        let voice = Voice::of(&reading, Writer::default());
        words::compare(&voice, &self.guide.prediction, &reading.change().unwrap()).unwrap()
    }
}

#[test]
fn six_steps_each_done_by_doing_it() {
    let mut page = Page::default();
    page.add(Reagent::Acid, 5);
    page.guide(GuideAction::Started);
    assert_eq!(
        (page.guide.step, page.guide.done),
        (Some(GuideStep::Look), false)
    );
    page.act(Action::ViewChosen(View::Mixed));
    page.act(Action::ViewChosen(View::Sorted));
    assert!(page.guide.done);

    page.guide(GuideAction::WentOn);
    // What was added before does not count, nor does anything before the lock.
    assert!(!page.guide.done && page.guide.holds_additions());
    page.guide(GuideAction::Locked);
    page.add(Reagent::Acid, 1);
    assert!(!page.guide.done && page.guide.holds_additions());
    page.predict(Direction::Down, Size::Slight);
    assert!(!page.guide.done && !page.guide.holds_additions());
    page.guide(GuideAction::DirectionChosen(Direction::Up));
    assert_eq!(page.guide.prediction.direction, Some(Direction::Down));
    page.add(Reagent::Alkali, 1);
    assert!(!page.guide.done);
    page.add(Reagent::Acid, 1);
    assert!(page.guide.done);
    assert_eq!(page.gap(), Some(Gap::None));

    page.guide(GuideAction::WentOn);
    page.predict(Direction::Nowhere, Size::Slight);
    page.add(Reagent::Alkali, 5);
    assert!(page.guide.done);
    assert_eq!(page.gap(), Some(Gap::NotNowhere));

    page.guide(GuideAction::WentOn);
    assert!(!page.guide.done);
    page.add(Reagent::Acid, 1);
    assert!(page.guide.done);

    page.guide(GuideAction::WentOn);
    page.add(Reagent::Acid, 20);
    assert!(!page.guide.done);
    page.add(Reagent::Acid, 200);
    assert!(page.guide.done);

    page.guide(GuideAction::WentOn);
    page.practise(PracticeAction::Began { seed: 1 });
    assert!(!page.guide.done);
    page.practise(PracticeAction::LayoutAsked);
    assert!(page.guide.done);
    page.guide(GuideAction::WentOn);
    assert_eq!(page.guide.step, None);
}

#[test]
fn every_step_can_be_skipped_and_gone_back_to() {
    let mut page = Page::default();
    page.guide(GuideAction::Started);
    for step in STEPS {
        assert_eq!(page.guide.step, Some(step));
        page.guide(GuideAction::WentOn);
    }
    assert_eq!(page.guide.step, None);
    page.guide(GuideAction::WentTo(GuideStep::AddAlkali));
    assert_eq!(page.guide.predicts(), Some(Reagent::Alkali));
    page.guide(GuideAction::Closed);
    assert!(!page.guide.holds_additions());
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
        page.guide(GuideAction::WentTo(match reagent {
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
