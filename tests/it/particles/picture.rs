//! What is drawn where.

use std::collections::BTreeMap;

use evenkeel::scene::particles::World;
use evenkeel::scene::shape::{Point, Scene, Shape, Side};
use evenkeel::scene::stage::Stage;
use evenkeel::scene::{Reagent, View};
use proptest::prelude::*;

use super::{Solution, TICK, UNIT, VIEWS, check_conserved, watch};
use crate::draws::config;

/// The place of each particle, as bits so that "the same" is exact.
pub(super) fn places(scene: &Scene) -> BTreeMap<u32, (u64, u64)> {
    let place = |shape: &Shape| match *shape {
        Shape::Particle { id, at, .. } => Some((id, (at.x.to_bits(), at.y.to_bits()))),
        _ => None,
    };
    scene.shapes.iter().filter_map(place).collect()
}

/// Every round thing at rest: center and radius.
fn circles(scene: &Scene) -> Vec<(Point, f64)> {
    let circle = |shape: &Shape| match *shape {
        Shape::Particle { at, radius, .. }
        | Shape::Proton { at, radius, .. }
        | Shape::Hydroxide { at, radius, .. }
        | Shape::Water { at, radius } => Some((at, radius)),
        _ => None,
    };
    scene.shapes.iter().filter_map(circle).collect()
}

fn check_no_overlap(world: &World, stage: Stage) {
    let circles = circles(&world.scene());
    for (i, (a, ra)) in circles.iter().enumerate() {
        assert!(a.x - ra >= 0.0 && a.x + ra <= stage.width, "{a:?}");
        assert!(a.y - ra >= 0.0 && a.y + ra <= stage.height, "{a:?}");
        for (b, rb) in &circles[..i] {
            let touch = ra + rb;
            assert!(
                a.distance_squared(*b) >= touch * touch,
                "{a:?} {b:?} {touch}"
            );
        }
    }
}

fn check_no_overlap_in_any_view(world: &mut World, stage: Stage) {
    world.settle();
    for view in VIEWS {
        world.set_view(view);
        world.settle();
        check_no_overlap(world, stage);
    }
}

proptest! {
    #![proptest_config(config(48))]

    #[test]
    fn nothing_overlaps_at_rest(
        width in 320.0..900.0_f64,
        height in 180.0..420.0_f64,
        n in prop_oneof![1..20_u32, 20..400_u32, 400..=1_000_u32],
        share in 0..=1_000_u32,
        added in 0..300_u32,
        alkali: bool,
        seed: u64,
    ) {
        let acid = n * share / 1_000;
        let mut solution = Solution::pair(4.87, n - acid, acid);
        let stage = Stage { width, height };
        let mut world = World::new(seed, stage, UNIT, &solution.amounts());
        check_no_overlap(&world, stage);
        let reagent = if alkali { Reagent::Alkali } else { Reagent::Acid };
        solution.add(&mut world, reagent, added);
        check_no_overlap_in_any_view(&mut world, stage);
    }
}

#[test]
fn the_largest_crowds_do_not_overlap_on_the_smallest_and_largest_stage() {
    for (width, height) in [(320.0, 180.0), (900.0, 420.0)] {
        let stage = Stage { width, height };
        let mut solution = Solution::pair(4.87, 500, 500);
        let mut world = World::new(1, stage, UNIT, &solution.amounts());
        solution.add(&mut world, Reagent::Acid, 1_500);
        check_no_overlap_in_any_view(&mut world, stage);
    }
}

#[test]
fn levels_stand_in_proportion_to_the_counts_and_the_start_stays_marked() {
    let mut solution = Solution::pair(4.87, 60, 140);
    let mut world = solution.world();
    let heights = |world: &World| {
        let mut heights = [0.0, 0.0];
        for shape in world.scene().shapes {
            if let Shape::Level { rect, side } = shape {
                heights[usize::from(side == Side::Base)] = rect.height;
            }
        }
        heights
    };
    let marks = |world: &World| -> Vec<Shape> {
        let is_mark = |shape: &Shape| matches!(shape, Shape::StartMark { .. });
        world.scene().shapes.into_iter().filter(is_mark).collect()
    };
    let start = heights(&world);
    let start_marks = marks(&world);
    assert_eq!(start_marks.len(), 4);
    assert!((start[0] / start[1] - 140.0 / 60.0).abs() < 1e-9);
    solution.add(&mut world, Reagent::Acid, 20);
    let mut last = start;
    while world.is_moving() {
        world.step(TICK);
        let now = heights(&world);
        // What leaves one pan is what comes to the other, and without jumps:
        // at most 20 particles over 54 sub-steps, gathered within 30.
        assert!((now[0] + now[1] - start[0] - start[1]).abs() < 1e-9);
        assert!((now[0] - last[0]).abs() <= 1.0 / 54.0 * 21.0 * start[1] / 60.0 + 1e-9);
        last = now;
    }
    assert!((last[0] / last[1] - 160.0 / 40.0).abs() < 1e-9);
    assert_eq!(marks(&world), start_marks);
}

#[test]
fn a_change_of_view_moves_every_particle_and_changes_none() {
    let mut world = Solution::pair(4.87, 80, 120).world();
    let identity = |world: &World| -> BTreeMap<u32, (i8, u64)> {
        let form = |shape: &Shape| match *shape {
            Shape::Particle {
                id,
                protons,
                facing,
                ..
            } => Some((id, (protons, facing.to_bits()))),
            _ => None,
        };
        world.scene().shapes.iter().filter_map(form).collect()
    };
    let (before, at) = (identity(&world), places(&world.scene()));
    world.set_view(View::Mixed);
    let mut ticks = 0;
    while world.is_moving() {
        assert_eq!(identity(&world), before);
        world.step(TICK);
        ticks += 1;
    }
    assert_eq!(ticks, 72, "0.6 s");
    assert_ne!(places(&world.scene()), at);
    world.set_view(View::Sorted);
    while world.is_moving() {
        world.step(TICK);
    }
    assert_eq!(identity(&world), before);
    assert_eq!(places(&world.scene()), at);
}

#[test]
fn the_mixed_view_intersperses_both_forms() {
    let mut world = Solution::pair(4.87, 100, 100).world();
    world.set_view(View::Mixed);
    world.settle();
    // In each quarter of the box each form holds its share, give or take.
    let mut quarters = [[0_u32; 2]; 4];
    for shape in world.scene().shapes {
        if let Shape::Particle { at, protons, .. } = shape {
            let right = usize::from(at.x > super::STAGE.width / 2.0);
            let low = usize::from(at.y > super::STAGE.height * 0.57);
            quarters[2 * low + right][usize::from(protons == 1)] += 1;
        }
    }
    for [base, acid] in quarters {
        assert!(base >= 12 && acid >= 12, "{quarters:?}");
    }
}

#[test]
fn a_new_stage_in_mid_flight_ends_in_the_same_place_as_one_before() {
    let large = Stage {
        width: 900.0,
        height: 420.0,
    };
    for view in VIEWS {
        let mut early = Solution::pair(4.87, 30, 100);
        let mut late = early.clone();
        let (mut one, mut two) = (early.world(), late.world());
        one.set_view(view);
        two.set_view(view);
        one.set_stage(large);
        early.add(&mut one, Reagent::Acid, 40);
        late.add(&mut two, Reagent::Acid, 40);
        two.step(0.8);
        two.set_stage(large);
        check_conserved(&two, 130);
        watch(&mut one, 130);
        watch(&mut two, 130);
        assert_eq!(one.scene(), two.scene());
    }
}

#[test]
fn protons_pass_visibly_from_body_to_body() {
    // During the hand-over to OH⁻ the proton is between the two: it starts in
    // its seat and ends on the OH⁻.
    let mut solution = Solution::pair(4.87, 10, 10);
    let mut world = solution.world();
    solution.add(&mut world, Reagent::Alkali, 1);
    let mut seen = 0;
    while world.is_moving() && world.counters().arrivals_met == 0 {
        world.step(TICK);
        let scene = world.scene();
        let find = |wanted: fn(&Shape) -> Option<Point>| scene.shapes.iter().find_map(wanted);
        let proton = find(|s| match *s {
            Shape::Proton { at, .. } => Some(at),
            _ => None,
        });
        let hydroxide = find(|s| match *s {
            Shape::Hydroxide { at, .. } => Some(at),
            _ => None,
        });
        if let (Some(proton), Some(hydroxide)) = (proton, hydroxide) {
            seen += 1;
            let radius = circles(&scene)[0].1;
            assert!(proton.distance_squared(hydroxide) < radius * radius);
        }
    }
    assert!(seen >= 10, "{seen} sub-steps");
}

/// Where the free H⁺ that rest begin over their pile, and how high that is.
fn ions_over_pile(world: &World) -> Option<(f64, f64)> {
    let scene = world.scene();
    let ions = scene.shapes.iter().find_map(|shape| match shape {
        Shape::FreeIons { rect, .. } => Some(rect.bottom()),
        _ => None,
    })?;
    let pile = scene.shapes.iter().rev().find_map(|shape| match shape {
        Shape::Level {
            rect,
            side: Side::Base,
        } => Some(rect.y),
        Shape::Pan { rect, .. } => Some(rect.bottom()),
        _ => None,
    })?;
    Some((ions, pile))
}

#[test]
fn hundreds_of_free_ions_do_not_follow_a_pile_that_falls_and_rises() {
    let mut solution = Solution::pair(1.0, 100, 100);
    let mut world = solution.world();
    let (mut most, mut moves) = (0, 0);
    for reagent in [Reagent::Acid, Reagent::Alkali] {
        for nth in 0..45 {
            solution.add(&mut world, reagent, 20);
            // Every third is overtaken by the next.
            if nth % 3 == 0 {
                world.step(0.7);
                continue;
            }
            let before = world.tally().free_h.min(world.census().free_h);
            let mut floors = Vec::new();
            for _ in 0..240 {
                world.step(0.025);
                let ions = ions_over_pile(&world).filter(|_| before > 60);
                floors.extend(ions.map(|(ions, _)| ions.to_bits()));
            }
            floors.dedup();
            moves = moves.max(floors.len().saturating_sub(1));
            world.settle();
            check_no_overlap(&world, super::STAGE);
            let free = world.tally().free_h;
            most = most.max(free);
            if let Some((ions, pile)) = ions_over_pile(&world) {
                let radius = circles(&world.scene())[0].1;
                // A row of the pile that is begun, and one more.
                let gap = pile - ions;
                assert!((-1e-9..6.0 * radius).contains(&gap), "{free}: {gap}");
            }
        }
    }
    assert!(most > 600, "at most {most} free H⁺");
    assert!(moves <= 1, "they move {moves} times in one addition");
}
