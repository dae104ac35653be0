//! The exchange that never stops.

use evenkeel::scene::particles::Counters;
use evenkeel::scene::{Reagent, View};

use super::{Solution, TICK, VIEWS, check_conserved, watch};

#[test]
fn giving_and_taking_go_on_equally_and_change_nothing() {
    for view in VIEWS {
        let mut world = Solution::pair(4.87, 70, 130).world();
        world.set_view(view);
        let mut last = 0;
        for _ in 0..120 * 60 {
            world.step(TICK);
            check_conserved(&world, 200);
            let counters = world.counters();
            assert_eq!(counters.given, counters.taken);
            last = counters.given;
        }
        // One exchange every 3 s or so: slow and sparse.
        assert!((8..=24).contains(&last), "{last} in a minute");
        world.settle();
        watch(&mut world, 200);
        assert_eq!(world.tally().forms, [70, 130]);
    }
}

#[test]
fn neither_counter_stops_after_a_disturbance() {
    for reagent in [Reagent::Acid, Reagent::Alkali] {
        // Little, and nearly all that the buffer takes.
        for count in [5, 95] {
            let mut solution = Solution::pair(7.0, 100, 100);
            let mut world = solution.world();
            solution.add(&mut world, reagent, count);
            watch(&mut world, 200);
            let before = world.counters();
            world.step(30.0);
            let after = world.counters();
            assert!(after.given > before.given && after.taken > before.taken);
            world.settle();
            watch(&mut world, 200);
        }
    }
}

#[test]
fn no_exchange_starts_while_an_addition_is_in_flight() {
    let mut solution = Solution::pair(7.0, 100, 100);
    let mut world = solution.world();
    for _ in 0..100 {
        solution.add(&mut world, Reagent::Acid, 0);
        solution.add(&mut world, Reagent::Acid, 1);
        for _ in 0..18 {
            world.step(TICK);
            assert!(world.is_adding());
        }
        assert_eq!(world.counters().given, 0);
    }
}

#[test]
fn the_wait_for_the_next_exchange_is_known_while_nothing_moves() {
    let mut world = Solution::pair(4.87, 100, 100).world();
    for _ in 0..5 {
        assert!(!world.is_moving());
        let wait = world.until_next_exchange();
        assert!((2.4..5.0).contains(&wait), "{wait}");
        world.step(wait - 2.0 * TICK);
        assert!(!world.is_moving());
        world.step(3.0 * TICK);
        assert!(world.is_moving());
        while world.is_moving() {
            world.step(TICK);
        }
    }
    let none = Solution::pair(4.87, 0, 0).world();
    assert!(none.until_next_exchange().is_infinite());
}

#[test]
fn with_one_form_missing_nothing_is_exchanged() {
    // So little that less than a particle of the other form arises.
    for (base, acid) in [(20, 0), (0, 20), (1, 0), (0, 1)] {
        let mut world = Solution::pair(4.87, base, acid).world();
        assert!(world.until_next_exchange().is_infinite());
        let still = world.scene();
        world.step(30.0);
        assert_eq!(world.counters().given, 0);
        assert_eq!(world.scene(), still);
        watch(&mut world, base + acid);
    }
}

#[test]
fn counting_starts_again_from_nought() {
    let mut world = Solution::pair(4.87, 100, 100).world();
    world.step(30.0);
    assert!(world.counters().given > 0);
    world.restart_counters();
    assert_eq!(world.counters(), Counters::default());
}

#[test]
fn in_the_mixed_view_both_change_in_place() {
    let mut world = Solution::pair(4.87, 100, 100).world();
    world.set_view(View::Mixed);
    world.settle();
    let places = super::picture::places(&world.scene());
    world.step(30.0);
    world.settle();
    assert!(world.counters().given > 3);
    assert_eq!(super::picture::places(&world.scene()), places);
}
