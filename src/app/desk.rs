//! The learner's desk: practice, the guided start, and what is kept of them. Its actions
//! change the same state as those of the bench, by a function of their own, so that a page
//! can fetch this part once somebody turns to it.

use std::sync::Arc;

use crate::app::guide::{Guide, GuideAction, Since, guide};
use crate::app::plan::{Access, Part, Plan};
use crate::app::planning::{PlanAction, plan};
use crate::app::practice::{Practice, PracticeAction, practise};
use crate::app::progress::Outcome;
use crate::app::state::State;

/// What practice shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Page {
    /// Questions.
    #[default]
    Questions,
    /// Explanations to build.
    Explanations,
    /// How the learner stands.
    Standing,
}

/// All pages, in the order in which they are offered.
pub const PAGES: [Page; 3] = [Page::Questions, Page::Explanations, Page::Standing];

/// Whether results are kept on the device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Keeping {
    /// Nobody asked for it.
    #[default]
    No,
    /// They are.
    Yes,
    /// It was asked for, and the browser refused.
    Refused,
}

/// What lies on the desk.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Desk {
    /// Questions, explanations, and how they went.
    pub practice: Practice,
    /// What practice shows.
    pub page: Page,
    /// The guided start.
    pub guide: Guide,
    /// The lesson that a teacher is setting up, once one is.
    pub draft: Option<Plan>,
    /// The seed of its questions on paper where the lesson fixes none: the answers are printed
    /// after the questions, and go with them.
    pub paper: Option<u32>,
    /// Whether results are kept on the device.
    pub keeping: Keeping,
    /// Whether what the device keeps has been looked for.
    pub restored: bool,
}

/// Something that happened at the desk.
#[derive(Debug, Clone, PartialEq)]
pub enum DeskAction {
    /// In practice.
    Practised(PracticeAction),
    /// Another page of practice was opened.
    PageOpened(Page),
    /// In the guided start.
    Guided(GuideAction),
    /// A lesson was begun to be set up: from the one that is open, and what is on the bench.
    PlanBegun,
    /// The lesson is to start from what is on the bench.
    BenchTaken,
    /// Its questions on paper have the numbers of this seed.
    PaperSeeded(u32),
    /// In setting up a lesson.
    Planned(PlanAction),
    /// The mixture of the question was put on the bench.
    QuestionPutOnBench,
    /// What the device keeps was looked for: results, if it keeps any.
    Restored(Option<Vec<Outcome>>),
    /// The device keeps results from now on, or does not, or refused to.
    KeepingChanged(Keeping),
    /// All results were cleared, here and on the device.
    Cleared,
}

impl State {
    /// Whether the mixture of the question can be put on the bench: the bench can make it, and
    /// the lesson does not keep the bench as it is.
    pub fn takes_question(&self) -> bool {
        self.access(Part::SetUp) == Access::Open && self.desk.practice.recipe().is_some()
    }
}

/// The state after `action`. Pure: the same state and action give the same result.
pub fn work(state: &State, action: DeskAction) -> State {
    let mut next = state.clone();
    let desk = Arc::make_mut(&mut next.desk);
    match action {
        DeskAction::Practised(action) => desk.practice = practise(&desk.practice, action),
        DeskAction::PageOpened(page) => desk.page = page,
        DeskAction::Guided(action) => {
            desk.guide = guide(&desk.guide, action, Since::now(state));
            next.freshen(state.desk.guide.step != next.desk.guide.step);
        }
        DeskAction::PlanBegun => {
            let mut draft = Plan::clone(&state.plan);
            draft.recipe = state.bench.recipe.clone();
            desk.draft.get_or_insert(draft);
        }
        DeskAction::BenchTaken => {
            if let Some(draft) = &mut desk.draft {
                draft.recipe = state.bench.recipe.clone();
            }
        }
        DeskAction::PaperSeeded(seed) => desk.paper = Some(seed),
        DeskAction::Planned(action) => {
            desk.draft = desk.draft.as_ref().map(|draft| plan(draft, action));
        }
        DeskAction::Restored(results) => {
            desk.restored = true;
            if let Some(results) = results {
                let earlier = PracticeAction::ResultsRestored(results);
                desk.practice = practise(&desk.practice, earlier);
                desk.keeping = Keeping::Yes;
            }
        }
        DeskAction::KeepingChanged(keeping) => desk.keeping = keeping,
        DeskAction::Cleared => {
            desk.practice = practise(&desk.practice, PracticeAction::ResultsCleared);
            desk.keeping = Keeping::No;
        }
        DeskAction::QuestionPutOnBench => {
            if let Some(recipe) = desk.practice.recipe() {
                next.set_up(recipe);
            }
        }
    }
    next
}
