//! The page as a lesson opens it.

use std::sync::Arc;

use crate::app::action::Action;
use crate::app::apply::apply;
use crate::app::bench::Bench;
use crate::app::desk::Desk;
use crate::app::link::Opened;
use crate::app::plan::{Access, Part};
use crate::app::practice::Practice;
use crate::app::state::{Panel, State};
use crate::lesson::sig_fig::Writer;

impl State {
    /// A lesson just opened.
    pub fn opened(opened: Opened) -> Self {
        let Opened { plan, notices } = opened;
        let desk = Desk {
            practice: Practice::of(&plan),
            ..Desk::default()
        };
        // Who is to answer questions finds them.
        let asks = plan.questions.count > 0 && plan.access(Part::Practice) == Access::Open;
        let panel = if asks && !plan.guided {
            Panel::Practice
        } else {
            Panel::default()
        };
        let state = Self {
            panel,
            bench: Bench::new(plan.recipe.clone()),
            draft: plan.recipe.clone(),
            look: plan.look,
            desk: Arc::new(desk),
            plan: Arc::new(plan),
            notices: notices.into(),
            ..Self::default()
        };
        if state.plan.guided {
            apply(&state, Action::GuideStarted)
        } else {
            state
        }
    }

    /// Whether a part can be used now: what is locked opens with the end of the questions.
    pub fn access(&self, part: Part) -> Access {
        match self.plan.access(part) {
            Access::Locked if self.desk.practice.set_is_over() => Access::Open,
            access => access,
        }
    }

    /// How numbers and equations are written.
    pub fn writer(&self) -> Writer {
        self.plan.conventions.writer()
    }
}
