//! Adding acid and alkali: who meets whom, and what is left.

use evenkeel::scene::particles::Beat;
use evenkeel::scene::shape::Shape;
use evenkeel::scene::{Reagent, View};

use super::{Solution, VIEWS, check_conserved, drawn, watch};

#[test]
fn acid_turns_base_into_acid_form_one_for_one() {
    for view in VIEWS {
        let mut solution = Solution::pair(4.87, 100, 100);
        let mut world = solution.world();
        world.set_view(view);
        world.settle();
        solution.add(&mut world, Reagent::Acid, 5);
        let ticks = watch(&mut world, 200);
        assert_eq!(world.tally().forms, [95, 105]);
        assert_eq!(world.counters().arrivals_met, 5);
        assert_eq!(world.counters().water_made, 0);
        // Two beats of at most 1.25 s and 1.2 s with 0.25 s between.
        assert!((120..=330).contains(&ticks), "{ticks} sub-steps");
    }
}

#[test]
fn alkali_turns_acid_into_base_form_and_makes_water() {
    for view in VIEWS {
        let mut solution = Solution::pair(4.87, 100, 100);
        let mut world = solution.world();
        world.set_view(view);
        world.settle();
        solution.add(&mut world, Reagent::Alkali, 5);
        watch(&mut world, 200);
        assert_eq!(world.tally().forms, [105, 95]);
        assert_eq!(world.counters().arrivals_met, 5);
        assert_eq!(world.counters().water_made, 5);
    }
}

#[test]
fn an_alkaline_pair_behaves_the_same() {
    let mut solution = Solution::pair(9.25, 60, 40);
    let mut world = solution.world();
    solution.add(&mut world, Reagent::Alkali, 10);
    watch(&mut world, 100);
    assert_eq!(world.tally().forms, [70, 30]);
    solution.add(&mut world, Reagent::Acid, 35);
    watch(&mut world, 100);
    assert_eq!(world.tally().forms, [35, 65]);
}

#[test]
fn past_exhaustion_the_excess_stays_free_where_it_emptied_the_pan() {
    let mut solution = Solution::pair(4.87, 20, 20);
    let mut world = solution.world();
    solution.add(&mut world, Reagent::Acid, 30);
    watch(&mut world, 40);
    assert_eq!(world.tally().forms, [0, 40]);
    assert_eq!(world.tally().free_h, 10);
    let middle = super::STAGE.width / 2.0;
    for shape in world.scene().shapes {
        if let Shape::Proton { at, .. } = shape {
            assert!(at.x > middle);
        }
    }

    let mut solution = Solution::pair(9.25, 20, 20);
    let mut world = solution.world();
    solution.add(&mut world, Reagent::Alkali, 30);
    watch(&mut world, 40);
    assert_eq!((world.tally().acid(), world.tally().base()), (0, 40));
    assert_eq!(world.tally().free_oh, 10);
    for shape in world.scene().shapes {
        if let Shape::Hydroxide { at, .. } = shape {
            assert!(at.x < middle);
        }
    }
}

#[test]
fn acid_after_excess_alkali_first_meets_the_free_hydroxide() {
    for (first, then) in [
        (Reagent::Alkali, Reagent::Acid),
        (Reagent::Acid, Reagent::Alkali),
    ] {
        let mut solution = Solution::pair(7.0, 20, 20);
        let mut world = solution.world();
        solution.add(&mut world, first, 30);
        watch(&mut world, 40);
        let water = world.counters().water_made;
        solution.add(&mut world, then, 4);
        watch(&mut world, 40);
        let tally = world.tally();
        assert_eq!(tally.free_h + tally.free_oh, 6);
        assert_eq!(tally.acid() * tally.base(), 0);
        assert_eq!(world.counters().water_made, water + 4);
        solution.add(&mut world, then, 10);
        watch(&mut world, 40);
        assert_eq!(world.tally().free_h + world.tally().free_oh, 0);
        assert_eq!(world.tally().acid().min(world.tally().base()), 4);
    }
}

#[test]
fn reversal_while_everything_is_in_the_air_conserves_all() {
    let mut solution = Solution::pair(4.87, 3, 3);
    let mut world = solution.world();
    for round in 0..40 {
        let reagent = if round % 2 == 0 {
            Reagent::Acid
        } else {
            Reagent::Alkali
        };
        solution.add(&mut world, reagent, 7);
        for _ in 0..(round % 5) * 4 {
            world.step(super::TICK);
            check_conserved(&world, 6);
        }
    }
    watch(&mut world, 6);
}

#[test]
fn pouring_two_hundred_additions_never_competes_for_a_particle() {
    for (view, reagent) in [
        (View::Sorted, Reagent::Acid),
        (View::Mixed, Reagent::Alkali),
    ] {
        let mut solution = Solution::pair(4.87, 100, 100);
        let mut world = solution.world();
        world.set_view(view);
        world.settle();
        let mut most = 0;
        for _ in 0..200 {
            solution.add(&mut world, reagent, 1);
            for _ in 0..18 {
                world.step(super::TICK);
            }
            check_conserved(&world, 200);
            let drawn = drawn(&world.scene());
            let tally = world.tally();
            // At a pour of one each 0.15 s, at most a readjustment and the
            // arrivals of 0.7 s are not counted yet.
            let behind = drawn.acid.abs_diff(tally.acid());
            most = most.max(behind);
        }
        assert!(most <= 8, "{most} behind");
        watch(&mut world, 200);
        assert_eq!(world.tally().free_h + world.tally().free_oh, 100);
    }
}

#[test]
fn pouring_large_additions_keeps_at_most_sixty_in_the_air() {
    let mut solution = Solution::pair(4.87, 500, 500);
    let mut world = solution.world();
    for _ in 0..12 {
        solution.add(&mut world, Reagent::Alkali, 50);
        for _ in 0..18 {
            world.step(super::TICK);
            check_conserved(&world, 1_000);
            let census = world.census();
            // Those in touch with a particle no longer fall.
            assert!(census.hydroxides_in_flight - census.protons_in_flight.min(60) <= 60);
        }
    }
    watch(&mut world, 1_000);
    assert_eq!(world.tally().free_oh, 100);
    assert_eq!(world.counters().arrivals_met, 500);
}

#[test]
fn one_particle_is_enough_and_so_is_none() {
    for (base, acid) in [(0, 1), (1, 0), (0, 0)] {
        let mut solution = Solution::pair(4.87, base, acid);
        let mut world = solution.world();
        for reagent in [
            Reagent::Acid,
            Reagent::Alkali,
            Reagent::Alkali,
            Reagent::Alkali,
        ] {
            solution.add(&mut world, reagent, 1);
            watch(&mut world, base + acid);
        }
        world.step(20.0);
        check_conserved(&world, base + acid);
    }
}

#[test]
fn a_thousand_particles_meet_a_thousand_arrivals() {
    let mut solution = Solution::pair(4.87, 500, 500);
    let mut world = solution.world();
    solution.add(&mut world, Reagent::Acid, 1_500);
    watch(&mut world, 1_000);
    assert_eq!(world.tally().free_h, 1_000);
    solution.add(&mut world, Reagent::Alkali, 2_500);
    watch(&mut world, 1_000);
    assert_eq!((world.tally().acid(), world.tally().free_oh), (0, 500));
}

#[test]
fn partners_are_taken_from_the_top() {
    let mut solution = Solution::pair(4.87, 95, 105);
    let mut world = solution.world();
    let before = world.scene();
    solution.add(&mut world, Reagent::Acid, 6);
    while world.next_beat() != Some(Beat::Crossed) {}
    let after = world.scene();
    // The highest of those that became HA lies above, or beside, every one
    // that did not.
    let mut taken = Vec::new();
    let mut left = Vec::new();
    for shape in &before.shapes {
        if let Shape::Particle {
            id,
            at,
            protons: 0,
            radius,
            ..
        } = *shape
        {
            let became = after
                .shapes
                .iter()
                .any(|s| matches!(*s, Shape::Particle { id: same, protons: 1, .. } if same == id));
            if became { &mut taken } else { &mut left }.push((at.y, radius));
        }
    }
    assert_eq!((taken.len(), left.len()), (6, 89));
    let lowest_taken = taken.iter().map(|t| t.0).fold(0.0, f64::max);
    for (y, radius) in left {
        assert!(y > lowest_taken - 2.0 * radius, "{y} above {lowest_taken}");
    }
}
