//! Undo, redo, a different mixture, and stills.

use evenkeel::scene::particles::Counters;
use evenkeel::scene::shape::Shape;
use evenkeel::scene::{Reagent, View};

use super::{Solution, TICK, VIEWS, check_at_rest, check_conserved, watch};

#[test]
fn undo_brings_the_particles_back_without_arrivals() {
    for view in VIEWS {
        for count in [5, 120] {
            let mut solution = Solution::pair(4.87, 100, 100);
            let mut world = solution.world();
            world.set_view(view);
            world.settle();
            let (before, amounts) = (world.clone(), solution.amounts());
            solution.add(&mut world, Reagent::Acid, count);
            let (after, ledger) = (solution.amounts(), world.ledger());
            world.step(0.5);
            world.show(&amounts, before.ledger());
            let counters = world.counters();
            assert_eq!(world.tally(), before.tally());
            let ticks = watch(&mut world, 200);
            assert!(ticks <= 60, "a short move, not {ticks}");
            assert_eq!(world.counters(), counters);
            world.show(&after, ledger);
            watch(&mut world, 200);
            assert_eq!(world.tally().acid(), (100 + count).min(200));
        }
    }
}

#[test]
fn undoing_a_polyprotic_addition_restores_every_form() {
    let mut solution = Solution::phosphate(40, 60);
    let mut world = solution.world();
    let (before, amounts, ledger) = (world.tally().clone(), solution.amounts(), world.ledger());
    solution.add(&mut world, Reagent::Acid, 150);
    world.step(1.0);
    check_conserved(&world, 100);
    world.show(&amounts, ledger);
    watch(&mut world, 100);
    assert_eq!(world.tally(), &before);
}

#[test]
fn nothing_jumps_on_an_undo_in_mid_flight() {
    let mut solution = Solution::pair(4.87, 100, 100);
    let mut world = solution.world();
    let (amounts, ledger) = (solution.amounts(), world.ledger());
    solution.add(&mut world, Reagent::Acid, 20);
    world.step(0.9);
    let before = super::picture::places(&world.scene());
    world.show(&amounts, ledger);
    assert_eq!(super::picture::places(&world.scene()), before);
}

#[test]
fn a_different_mixture_starts_anew_and_keeps_the_view() {
    let mut solution = Solution::pair(4.87, 100, 100);
    let mut world = solution.world();
    world.set_view(View::Mixed);
    solution.add(&mut world, Reagent::Acid, 20);
    world.step(0.7);
    let other = Solution::pair(9.25, 30, 10);
    world.rebase(super::UNIT, &other.amounts());
    check_at_rest(&world, 40);
    assert_eq!(world.view(), View::Mixed);
    assert_eq!(world.counters(), Counters::default());
    let mut fresh = other.world();
    fresh.set_view(View::Mixed);
    fresh.settle();
    assert_eq!(world.scene(), fresh.scene());
}

#[test]
fn stills_show_before_and_after_with_the_difference_marked() {
    for view in VIEWS {
        let mut solution = Solution::pair(4.87, 100, 100);
        let mut world = solution.world();
        world.set_view(view);
        world.set_still(true);
        let marked = |world: &evenkeel::scene::particles::World| -> Vec<i8> {
            let mark = |shape: &Shape| match *shape {
                Shape::Particle {
                    protons,
                    marked: true,
                    ..
                } => Some(protons),
                _ => None,
            };
            world.scene().shapes.iter().filter_map(mark).collect()
        };
        assert!(marked(&world).is_empty());
        solution.add(&mut world, Reagent::Acid, 7);
        check_at_rest(&world, 200);
        assert_eq!(marked(&world), [1; 7]);
        assert_eq!(world.counters().arrivals_met, 7);
        // The marks outlast the exchanges, which go on without travel.
        let given = world.counters().given;
        for _ in 0..120 * 60 {
            world.step(TICK);
            assert!(!world.is_moving());
        }
        assert!(world.counters().given > given + 5);
        assert_eq!(marked(&world), [1; 7]);
        check_at_rest(&world, 200);
        solution.add(&mut world, Reagent::Alkali, 3);
        assert_eq!(marked(&world), [0; 3]);
        world.set_still(false);
        assert!(marked(&world).is_empty());
    }
}
