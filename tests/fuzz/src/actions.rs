//! A person at the page: the first line is the link of a lesson, each line after it something that
//! they do. Whatever it is, the bench stays sound.

use evenkeel::app::action::{Action, Press};
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{Desk, DeskAction, work};
use evenkeel::app::guide::{GuideAction, STEPS};
use evenkeel::app::host::asked::{Asked, Command, read as asked};
use evenkeel::app::link;
use evenkeel::app::picture::Detail;
use evenkeel::app::planning::PlanAction;
use evenkeel::app::playback::Playback;
use evenkeel::app::practice::PracticeAction;
use evenkeel::app::prediction::{DIRECTIONS, SIZES};
use evenkeel::app::recipe::{Field, Method, PAIRS};
use evenkeel::app::shown::Shown;
use evenkeel::app::state::State;
use evenkeel::chem::titration::Reagent;
use evenkeel::scene::View;
use evenkeel::scene::shape::Scene;
use evenkeel::scene::stage::Stage;

use crate::links::opened;
use crate::{parts, sound};

/// Most things that are done in one input.
const MOST: usize = 40;

const FIELDS: [Field; 10] = [
    Field::OwnPka,
    Field::AcidConcentration,
    Field::AcidVolume,
    Field::BaseConcentration,
    Field::BaseVolume,
    Field::WeakConcentration,
    Field::WeakVolume,
    Field::StrongConcentration,
    Field::StrongVolume,
    Field::Stock,
];

/// What a line does.
enum Does {
    AtBench(Action),
    AtDesk(DeskAction),
    ByHost(Asked),
    /// Time passes, in seconds.
    Time(f64),
    Replay,
    Step,
}

/// The number at the end of a line; 0 without one.
fn number(text: &str) -> usize {
    let digits = text.trim_start_matches(|c: char| !c.is_ascii_digit());
    digits.parse().unwrap_or(0)
}

fn of<T: Copy>(list: &[T], place: usize) -> T {
    list[place % list.len()]
}

/// `a5` and `b5` add five steps of acid and base, `A5` and `B5` by a button held down, `Aa` lets it
/// go; `<`, `>`, `0` go back, forward, to the start; `p3` takes a pair, `m1` a way of making it;
/// `f2 0.5` types into a field; `v1` looks at it another way, `d1` on another screen; `g` guides, with
/// `g+`, `g-`, `g3`, `gd1`, `gs2`, `gl`; `q` asks, `qb` puts the question on the bench; `h0.002` is the
/// host that adds so much; `t2` lets seconds pass, `r` and `s` replay and step; `L` sets a lesson up.
fn does(line: &str) -> Option<Does> {
    let n = number(line);
    let steps = u32::try_from(n).unwrap_or(u32::MAX);
    let add = |reagent, press| {
        Does::AtBench(Action::Added {
            reagent,
            steps,
            press,
        })
    };
    let guided = |action| Does::AtDesk(DeskAction::Guided(action));
    let mut letters = line.chars();
    Some(match (letters.next()?, letters.next()) {
        ('A', Some('a')) => Does::AtBench(Action::PourEnded),
        ('a', _) => add(Reagent::Acid, Press::Tap),
        ('b', _) => add(Reagent::Alkali, Press::Tap),
        ('A', _) => add(Reagent::Acid, Press::PourWentOn),
        ('B', _) => add(Reagent::Alkali, Press::PourBegun),
        ('<', _) => Does::AtBench(Action::Undone),
        ('>', _) => Does::AtBench(Action::Redone),
        ('0', _) => Does::AtBench(Action::StartedAgain),
        ('p', _) => Does::AtBench(Action::PairChosen(of(PAIRS, n))),
        ('m', _) => {
            let method = of(&[Method::TwoSolutions, Method::PartNeutralized], n);
            Does::AtBench(Action::MethodChosen(method))
        }
        ('f', _) => {
            let (field, text) = line[1..].split_once(' ')?;
            Does::AtBench(Action::Typed(of(&FIELDS, number(field)), text.to_owned()))
        }
        ('v', _) => Does::AtBench(Action::ViewChosen(of(&[View::Sorted, View::Mixed], n))),
        ('d', _) => Does::AtBench(Action::ScreenMeasured(of(
            &[Detail::Phone, Detail::Wide],
            n,
        ))),
        ('g', None) => Does::AtBench(Action::GuideStarted),
        ('g', Some('+')) => guided(GuideAction::WentOn),
        ('g', Some('-')) => guided(GuideAction::Closed),
        ('g', Some('d')) => guided(GuideAction::DirectionChosen(of(&DIRECTIONS, n))),
        ('g', Some('s')) => guided(GuideAction::SizeChosen(of(&SIZES, n))),
        ('g', Some('l')) => guided(GuideAction::Locked),
        ('g', Some(_)) => guided(GuideAction::WentTo(of(&STEPS, n))),
        ('q', Some('b')) => Does::AtDesk(DeskAction::QuestionPutOnBench),
        ('q', _) => Does::AtDesk(DeskAction::Practised(PracticeAction::Began {
            seed: u64::try_from(n).ok()?,
        })),
        ('h', _) => Does::ByHost(Asked {
            version: Some(1.0),
            command: Some("add".to_owned()),
            reagent: Some(if line.contains('-') { "acid" } else { "alkali" }.to_owned()),
            mol: line[1..].trim_start_matches('-').parse().ok(),
            ..Asked::default()
        }),
        ('t', _) => Does::Time(f64::from(steps.min(3)) / 2.0),
        ('r', _) => Does::Replay,
        ('s', _) => Does::Step,
        ('L', None) => Does::AtDesk(DeskAction::PlanBegun),
        ('L', Some('b')) => Does::AtDesk(DeskAction::BenchTaken),
        ('L', Some('t')) => {
            let title = line[2..].to_owned();
            Does::AtDesk(DeskAction::Planned(PlanAction::TitleTyped(title)))
        }
        ('L', Some(_)) => {
            let prompt = PlanAction::PromptTyped(n % 7, line[1..].to_owned());
            Does::AtDesk(DeskAction::Planned(prompt))
        }
        _ => return None,
    })
}

/// The state after something was done at the bench, with what else must be so of it.
fn applied(state: &State, action: Action) -> State {
    let next = apply(state, action.clone());
    match &action {
        Action::Typed(field, text) => assert_eq!(next.draft.text(*field), text, "typed, and lost"),
        Action::Undone if !state.past.is_empty() => {
            assert_eq!(
                apply(&next, Action::Redone).bench,
                state.bench,
                "back and forward again"
            );
        }
        Action::Redone if !state.future.is_empty() => {
            assert_eq!(
                apply(&next, Action::Undone).bench,
                state.bench,
                "forward and back again"
            );
        }
        Action::Added { reagent, .. } if next.bench != state.bench => {
            let more = |of: fn(&State) -> u32| of(&next) - of(state);
            let (acid, alkali) = (more(|s| s.bench.acid), more(|s| s.bench.alkali));
            assert!((acid == 0) != (alkali == 0), "both or neither");
            assert_eq!(*reagent == Reagent::Acid, acid > 0, "the other reagent");
            assert!(next.bench.reactions - state.bench.reactions <= acid + alkali);
        }
        _ => {}
    }
    assert_eq!(apply(state, action), next, "the same action, another state");
    next
}

/// The lesson that is being set up opens as it is set up.
fn drafted(desk: &Desk) {
    if let Some(plan) = &desk.draft {
        let link = link::write(plan);
        let opened = link::read(&link.query, &link.fragment);
        assert!(
            opened.notices.is_empty(),
            "of the lesson's own link {}",
            link.written()
        );
        assert_eq!(link::write(&opened.plan), link);
    }
}

/// What the particle world shows is what the bench holds, once it has come to rest.
fn at_rest(playback: &Playback, shown: &Shown) {
    let (census, tally) = (playback.world().census(), &shown.picture.tally);
    assert_eq!(
        census.acid + census.base,
        shown.picture.particles,
        "particles came or went"
    );
    assert_eq!(
        census.ledger(),
        playback.world().ledger(),
        "H⁺ came or went"
    );
    if !playback.world().is_moving() && playback.world().ledger() == tally.ledger() {
        assert_eq!(
            (census.acid, census.base),
            (tally.acid(), tally.base()),
            "the counts"
        );
    }
}

/// A person at the page of a lesson.
pub fn check(text: &str) {
    let (query, fragment, lines) = parts(text);
    let mut state = opened(query, fragment);
    let mut shown = sound::bench(&state, None);
    let stage = Stage {
        width: 320.0,
        height: 180.0,
    };
    let mut playback = Playback::new(&shown.picture, stage, state.view);
    let mut scene = Scene::default();
    for line in lines.take(MOST) {
        let Some(does) = does(line) else { continue };
        match does {
            Does::AtBench(action) => state = applied(&state, action),
            Does::AtDesk(action) => state = work(&state, action),
            Does::ByHost(ask) => match asked(&ask, &state, false) {
                Ok(Command::Act(action)) => {
                    let next = applied(&state, action);
                    assert_ne!(next.bench, state.bench, "carried out, and nothing happened");
                    state = next;
                }
                Ok(other) => panic!("{other:?} for an addition"),
                Err(refusal) => assert!(!refusal.code().is_empty()),
            },
            Does::Time(seconds) => playback.pass(seconds),
            Does::Replay => {
                playback.replay();
            }
            Does::Step => {
                playback.step_through();
            }
        }
        shown = sound::bench(&state, Some(&shown));
        playback.set_view(state.view);
        playback.follow(state.event, &shown.picture);
        playback.scene_into(&mut scene);
        at_rest(&playback, &shown);
        drafted(&state.desk);
        state.desk.practice.task.iter().for_each(sound::task);
    }
}
