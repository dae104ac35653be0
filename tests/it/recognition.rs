//! Every slip of every form, in 2,000 questions each, by [H⁺] and by a logarithm: is its number recognized as that slip?
//! No source: what is checked is that the marking tells the wrong ways apart.

use std::collections::BTreeMap;
use std::io::Write;

use evenkeel::lesson::sums::entry::{read_line, unit_wanted};
use evenkeel::lesson::sums::form::{FORMS, Form, PhBy, Problem};
use evenkeel::lesson::sums::mark::{Entry, Tolerance, Verdict, mark, score};
use evenkeel::lesson::sums::question::{question, question_by, shows};
use evenkeel::lesson::sums::slip::{Slip, Way, ways};
use evenkeel::lesson::sums::symbol::{Symbol, Unit};

const QUESTIONS: u64 = 2000;

/// How amounts and volumes are typed: in the unit that the line shows (mmol, cm³), or in mol
/// and dm³ without saying so, as many learners work.
#[derive(Clone, Copy, PartialEq)]
enum Habit {
    AsShown,
    InMol,
}

/// A learner at a question.
struct Learner<'a> {
    problem: &'a Problem,
    habit: Habit,
}

impl Learner<'_> {
    /// A value as it is typed: a pH to two decimal places, else three figures.
    fn types(&self, symbol: Symbol, value: f64) -> Entry {
        let unit = symbol.unit();
        let bare = matches!(unit, Unit::Mmol | Unit::Cm3) && !unit_wanted(self.problem, symbol);
        let text = match unit {
            Unit::Scale => format!("{value:.2}"),
            _ if bare && self.habit == Habit::InMol => format!("{value:.2e}"),
            _ => format!("{:.2e}", value * unit.per_kept()),
        };
        let unit = match unit_wanted(self.problem, symbol) {
            true => unit.symbol(),
            false => "",
        };
        read_line(self.problem, symbol, &format!("{text} {unit}"))
    }

    fn own_answers(&self) -> Vec<Entry> {
        let right = self.problem.sheet.right();
        let entry = |s: Symbol| self.types(s, right.get(s).unwrap());
        self.problem.asked().into_iter().map(entry).collect()
    }

    /// Whether a wrong value, typed so, is the right number in the unit that the line shows:
    /// 6.00 for "6.00 mol" where 6.00 mmol is right. Nobody could tell.
    fn happens_to_be_right(&self, symbol: Symbol, value: f64) -> bool {
        let right = self.problem.sheet.right().get(symbol).unwrap();
        let bare = matches!(self.types(symbol, value), Entry::Bare(_));
        bare && self.habit == Habit::InMol && (value / 1000.0 - right).abs() < 1e-9 * right
    }
}

#[derive(Default, Clone)]
struct Tally {
    found: u32,
    confused: u32,
    missed: u32,
    /// Slips that gave the very same number, and how often.
    groups: BTreeMap<Vec<Slip>, u32>,
}

impl Tally {
    fn count(&mut self, slip: Slip, verdict: &Verdict) {
        match verdict {
            Verdict::Slips(slips) if slips.contains(&slip) => {
                self.found += 1;
                if slips.len() > 1 {
                    let mut group = slips.clone();
                    group.sort_unstable();
                    *self.groups.entry(group).or_default() += 1;
                }
            }
            // Rounding too early is within the band: a note, or nothing to note.
            Verdict::RoundedEarly | Verdict::Right if slip == Slip::EarlyRounding => {
                self.found += 1;
            }
            Verdict::Slips(_) | Verdict::TwoSlips(..) => self.confused += 1,
            _ => self.missed += 1,
        }
    }
}

/// Form, whether by a logarithm, and slip.
type Table = BTreeMap<(Form, bool, Slip), Tally>;

/// Hands in the right lines above the one that shows the slip, and the slip's number there.
fn line_by_line(learner: &Learner<'_>, way: &Way) -> Option<(Vec<Entry>, usize)> {
    let (symbol, value) = shows(learner.problem, way)?;
    let place = learner.problem.asked().iter().position(|s| *s == symbol)?;
    let mut entries = learner.own_answers();
    entries.truncate(place);
    entries.push(learner.types(symbol, value));
    (!learner.happens_to_be_right(symbol, value)).then_some((entries, place))
}

/// Hands in nothing but the slip's answer.
fn answer_only(learner: &Learner<'_>, way: &Way) -> Option<(Vec<Entry>, usize)> {
    let problem = learner.problem;
    let values = way.values(problem);
    let asked = problem.asked();
    let place = asked.len() - 1;
    let value = values.get(asked[place])?;
    let right = problem.sheet.right().get(asked[place])?;
    if (value - right).abs() < 1e-9 * right.abs() {
        return None;
    }
    let mut entries = vec![Entry::Blank; place];
    entries.push(learner.types(asked[place], value));
    Some((entries, place))
}

fn of_form(form: Form, by: PhBy) -> Table {
    let mut table = Table::new();
    for seed in 0..QUESTIONS {
        let problem = question_by(form, seed, by).problem;
        if by == PhBy::Logarithm && !problem.by_logarithm() {
            break;
        }
        for habit in [Habit::AsShown, Habit::InMol] {
            let problem = &problem;
            let learner = Learner { problem, habit };
            let full = mark(problem, &learner.own_answers(), Tolerance::default());
            assert!(
                full.iter().all(|line| line.verdict == Verdict::Right),
                "{form:?} {by:?} {seed}: {full:?}"
            );
            assert_eq!(score(problem, &full), problem.asked().len());
            let as_shown = Learner {
                problem,
                habit: Habit::AsShown,
            };
            for way in ways(problem) {
                for hand_in in [line_by_line, answer_only] {
                    let Some((entries, place)) = hand_in(&learner, &way) else {
                        continue;
                    };
                    // Without an amount in it, both habits are one.
                    let again = || hand_in(&as_shown, &way).is_some_and(|(e, _)| e == entries);
                    if habit == Habit::InMol && again() {
                        continue;
                    }
                    let marked = &mark(problem, &entries, Tolerance::default())[place];
                    let tally = table
                        .entry((form, problem.by_logarithm(), way.slip))
                        .or_default();
                    tally.count(way.slip, &marked.verdict);
                }
            }
        }
    }
    table
}

/// The table as text, and its cells that are not good enough.
fn written(table: &Table) -> (String, Vec<String>) {
    let row = |cells: [String; 5], note: &str| {
        let [form, slip, found, confused, missed] = cells;
        format!("{form:<20} {slip:<22} {found:>6} {confused:>8} {missed:>6}  {note}\n")
    };
    let head = ["form", "slip", "found", "confused", "missed"].map(str::to_owned);
    let mut text = row(head, "same number as");
    let mut bad = Vec::new();
    for ((form, logarithm, slip), tally) in table {
        let others = |(group, times): (&Vec<Slip>, &u32)| {
            let others: Vec<_> = group.iter().filter(|s| *s != slip).collect();
            format!("{others:?} ×{times}")
        };
        let note: Vec<String> = tally.groups.iter().map(others).collect();
        let counts = [tally.found, tally.confused, tally.missed].map(|n| n.to_string());
        let [found, confused, missed] = counts;
        let cells = [
            format!("{form:?}{}", if *logarithm { ", log" } else { "" }),
            format!("{slip:?}"),
            found,
            confused,
            missed,
        ];
        let line = row(cells, &note.join(", "));
        let all = tally.found + tally.confused + tally.missed;
        if tally.confused > 0 || f64::from(tally.found) < 0.99 * f64::from(all) {
            bad.push(line.clone());
        }
        text += &line;
    }
    let total = |count: fn(&Tally) -> u32| table.values().map(count).sum::<u32>();
    let (found, confused) = (total(|t| t.found), total(|t| t.confused));
    let all = found + confused + total(|t| t.missed);
    let share = 100.0 * f64::from(found) / f64::from(all);
    text += &format!("{share:.2} % of {all} found, {confused} confused\n");
    (text, bad)
}

#[test]
fn every_slip_is_recognized_and_none_is_taken_for_another() {
    let table = std::thread::scope(|scope| {
        let of = |by| FORMS.into_iter().flat_map(move |form| of_form(form, by));
        let other = scope.spawn(move || of(PhBy::Logarithm).collect::<Table>());
        let mut table: Table = of(PhBy::Hydrogen).collect();
        table.extend(other.join().unwrap());
        table
    });
    let (text, bad) = written(&table);
    // Past the test harness, which keeps what passing tests print to itself: this table is
    // asked for with every run.
    std::io::stdout().write_all(text.as_bytes()).unwrap();
    assert!(bad.is_empty(), "{}", bad.concat());
}

/// Small additions are asked for, and their table of amounts is what is marked.
#[test]
fn small_additions_end_with_the_table_of_amounts() {
    for form in [Form::AddedAcid, Form::AddedAlkali] {
        let small = (0..40).filter(|seed| question(form, *seed).problem.variant.small_addition);
        assert!(small.count() > 5, "{form:?}");
    }
}
