//! The two beats: complete reaction, then the readjustment.

use evenkeel::scene::Reagent;
use evenkeel::scene::particles::Beat;
use evenkeel::scene::tally::Tally;

use super::{Solution, check_at_rest, drawn, watch};

#[test]
fn stepping_goes_from_beat_to_beat() {
    for reagent in [Reagent::Acid, Reagent::Alkali] {
        let mut solution = Solution::pair(4.87, 100, 100);
        let mut world = solution.world();
        assert_eq!(world.next_beat(), None);
        solution.add(&mut world, reagent, 5);
        assert_eq!(world.next_beat(), Some(Beat::Falling));
        let falling = drawn(&world.scene());
        assert_eq!(falling.protons + falling.hydroxides, 5);
        assert_eq!(world.next_beat(), Some(Beat::Met));
        assert_eq!(world.next_beat(), Some(Beat::Crossed));
        let crossed = drawn(&world.scene());
        let complete = Tally::complete(200, world.ledger(), 0, 1);
        assert_eq!(
            (crossed.acid, crossed.base),
            (complete.acid(), complete.base())
        );
        assert_eq!(world.next_beat(), Some(Beat::Readjusted));
        check_at_rest(&world, 200);
        assert_eq!(world.next_beat(), None);
    }
}

#[test]
fn a_strong_weak_acid_readjusts_in_a_second_beat() {
    // pKa 2.1: of 40 HA a good part lets go again, and takes up again.
    let mut solution = Solution::pair(2.1, 20, 20);
    let mut world = solution.world();
    let start = world.tally().clone();
    solution.add(&mut world, Reagent::Acid, 20);
    while world.next_beat() != Some(Beat::Crossed) {}
    let complete = world.census();
    let first_beat = (start.acid() + 20, start.free_h);
    assert_eq!((complete.acid, complete.free_h), first_beat);
    watch(&mut world, 40);
    let tally = world.tally();
    assert!(tally.base() > complete.base && tally.free_h > complete.free_h);
    assert!(world.counters().released > 0);
    assert!(world.counters().given > 0, "and the exchange is shown");
}

#[test]
fn a_polyprotic_pair_goes_on_to_its_next_form() {
    let mut solution = Solution::phosphate(50, 50);
    let mut world = solution.world();
    assert_eq!(world.tally().forms, [0, 50, 50, 0]);
    solution.add(&mut world, Reagent::Acid, 70);
    watch(&mut world, 100);
    let tally = world.tally().clone();
    assert_eq!(tally.base(), 0);
    assert!(
        tally.count(2) > 0 && tally.count(1) > 0 && tally.free_h > 0,
        "{tally:?}"
    );
    assert!(world.counters().released > 0);
    solution.add(&mut world, Reagent::Alkali, 200);
    watch(&mut world, 100);
    let tally = world.tally().clone();
    assert_eq!(tally.acid(), 0);
    assert!(tally.count(-1) > 0 && tally.free_oh > 0, "{tally:?}");
    assert!(world.counters().water_split + world.counters().water_made > 0);
}
