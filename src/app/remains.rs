//! A calculation that starts from what is left after all reactions, for benches that no form
//! of question describes, and the steps that lead there.

use crate::app::calculation::Seen;
use crate::chem::titration::Reagent;
use crate::lesson::notation::Writing;
use crate::lesson::sums::expression::of;
use crate::lesson::sums::form::{Form, Problem, Variant};
use crate::lesson::sums::right::from_ratio;
use crate::lesson::sums::sheet::Sheet;
use crate::lesson::sums::solution::{Note, Step, Subject, Table};
use crate::lesson::sums::symbol::{KW, Symbol};

impl Seen<'_> {
    /// A calculation that takes the amounts after all reactions as given.
    pub(super) fn of_what_is_left(&self) -> Problem {
        use Symbol::*;
        let now = &self.now;
        let excess = now.excess_hydrogen + now.excess_hydroxide;
        let (acid, base) = (self.is(now.acid), self.is(now.base));
        let form = match (self.is(excess), acid && base) {
            (true, _) => Form::Exhausted,
            (false, true) => Form::TwoVolumes,
            (false, false) => Form::Equivalence,
        };
        let figures = self.figures.max(3);
        let mut sheet = Sheet::default();
        let alkali = if form == Form::Exhausted {
            self.is(now.excess_hydroxide)
        } else {
            base
        };
        if form != Form::Exhausted {
            sheet = sheet.given(Ka, self.ka(), 3);
        }
        if form == Form::TwoVolumes {
            sheet = sheet
                .given(Acid, now.acid.mol(), figures)
                .given(Base, now.base.mol(), figures);
            for (symbol, formula) in from_ratio(self.by, Acid, Base) {
                sheet = sheet.work(symbol, formula);
            }
        } else {
            sheet = sheet.given(TotalVolume, self.volume(), figures);
            if alkali {
                sheet = sheet.constant(Kw, KW, 3);
            }
            sheet = match (form, alkali) {
                (Form::Exhausted, false) => sheet
                    .given(Excess, excess.mol(), figures)
                    .work(Hydrogen, of(Excess) / of(TotalVolume)),
                (Form::Exhausted, true) => sheet
                    .given(Excess, excess.mol(), figures)
                    .work(Hydroxide, of(Excess) / of(TotalVolume)),
                (_, false) => sheet
                    .given(Acid, now.acid.mol(), figures)
                    .work(AcidConcentration, of(Acid) / of(TotalVolume))
                    .work(Hydrogen, (of(Ka) * of(AcidConcentration)).root()),
                (_, true) => sheet
                    .given(Base, now.base.mol(), figures)
                    .work(BaseConcentration, of(Base) / of(TotalVolume))
                    .work(Hydroxide, (of(Kw) * of(BaseConcentration) / of(Ka)).root()),
            };
            if alkali {
                sheet = sheet.work(Hydrogen, of(Kw) / of(Hydroxide));
            }
            sheet = sheet.work(Ph, of(Hydrogen).minus_log());
        }
        Problem {
            form,
            variant: match form {
                // A buffer again: what reacted last is what there is to say.
                Form::TwoVolumes => self.variant(),
                _ if alkali => Variant::plain(Reagent::Alkali),
                _ => Variant::plain(Reagent::Acid),
            },
            names: self.reading.setup.names.clone(),
            sheet,
            other_molar_masses: Vec::new(),
            other_ka: None,
        }
    }

    /// What the strong ions did to the pair, from the start to now.
    pub(super) fn history(&self) -> Vec<Step> {
        let strong = self.strong.abs();
        if strong <= self.nothing {
            return Vec::new();
        }
        let reagent = self.variant().reagent;
        let partner = match reagent {
            Reagent::Acid => self.start.base,
            Reagent::Alkali => self.start.acid,
        };
        let note = match strong - partner.mol() {
            _ if !self.is(partner) => Note::NoPartner,
            more if more.abs() <= self.nothing => Note::BothUsedUp,
            more if more < 0.0 => Note::ReagentUsedUp,
            _ => Note::PartnerUsedUp,
        };
        let mut notes = Vec::new();
        let was = &self.start;
        for (reagent, amount) in [
            (Reagent::Acid, was.excess_hydrogen),
            (Reagent::Alkali, was.excess_hydroxide),
        ] {
            if self.is(amount) && self.bench.has_additions() {
                notes.push(Note::HadExcess(reagent, amount.mol()));
            }
        }
        notes.extend([note, Note::Names]);
        let mut step = Step::new(Subject::Reaction, &notes);
        if self.is(partner) {
            let (acid, base) = (self.start.acid.mol(), self.start.base.mol());
            step.table = Some(Table::of(reagent, strong, acid, base, self.figures.max(3)));
            let names = &self.reading.setup.names;
            step.equation = Some(names.reaction(reagent, Writing::Formulas));
        }
        vec![step]
    }
}
