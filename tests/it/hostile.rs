//! What nobody should type, send or keep, and what becomes of it. Each test here is something that
//! went wrong once. No source: how this page behaves.

use evenkeel::app::action::Action;
use evenkeel::app::apply::apply;
use evenkeel::app::desk::{DeskAction, work};
use evenkeel::app::link;
use evenkeel::app::recipe::Field;
use evenkeel::app::state::State;
use evenkeel::app::words::slip::written;
use evenkeel::lesson::markup::own_words;
use evenkeel::lesson::read::{ReadError, number};
use evenkeel::lesson::sig_fig::Writer;
use evenkeel::lesson::sums::symbol::Symbol;

#[test]
fn a_number_far_off_the_scale_is_quoted_in_a_few_digits() {
    let quoted = |value| written(Symbol::Ph, value, Writer::default());
    assert_eq!(quoted(1e300), "1.00×10³⁰⁰");
    assert_eq!(quoted(-12_345.0), "−1.23×10⁴");
    assert_eq!(quoted(4.764), "4.76");
}

#[test]
fn the_largest_number_that_is_read_can_be_written_in_any_unit() {
    assert!(number("1e300").is_ok());
    assert_eq!(number("1.7e308"), Err(ReadError::TooLarge));
    // An amount without its unit may be meant in mol, and is then quoted in mmol.
    for symbol in [Symbol::Acid, Symbol::TotalVolume, Symbol::Ka] {
        let text = written(symbol, 1000.0 * 1e301, Writer::default());
        assert!(text.starts_with("1.00×10³"), "{text}");
    }
}

#[test]
fn every_sign_that_a_field_understands_becomes_plain_in_a_link() {
    for typed in ["2∙10⁻¹", "2·10^-1", "2 × 10‐1", "2*10‑¹", "+0,2", "2E−1"] {
        let state = apply(
            &State::default(),
            Action::Typed(Field::AcidConcentration, typed.to_owned()),
        );
        assert_eq!(state.bench.recipe.text(Field::AcidConcentration), typed);
        let state = work(&state, DeskAction::PlanBegun);
        let link = link::write(state.desk.draft.as_ref().unwrap());
        assert!(link.query.is_ascii(), "{typed} became {}", link.query);
        let opened = link::read(&link.query, &link.fragment);
        assert!(
            opened.notices.is_empty(),
            "{:?} of {}",
            opened.notices,
            link.query
        );
        let text = opened.plan.recipe.text(Field::AcidConcentration);
        assert_eq!(number(text), number(typed), "{typed} became {text}");
    }
}

#[test]
fn what_somebody_typed_is_shown_literally_and_apart() {
    let shown = own_words("\u{202e}<b>&\"");
    assert_eq!(shown, "<bdi>\u{202e}&lt;b&gt;&amp;&quot;</bdi>");
}
