//! Paints of a picture only what differs from the one before.

use web_sys::CanvasRenderingContext2d;

use crate::scene::shape::{Scene, Shape};
use crate::scene::tiles::{Tiles, Words};
use crate::web::canvas::{Brush, Painter, Surface};
use crate::web::hand::{Courses, Hand, Pile};
use crate::web::stamps::Stamps;

/// What is kept from one picture to the next.
#[derive(Default)]
pub struct Kept {
    tiles: Tiles,
    stamps: Stamps,
    courses: Courses,
    words: Option<Words>,
    /// What is on the lowest canvas.
    ground: Vec<Shape>,
    /// Whether anything is on the highest canvas.
    moving: bool,
}

impl Kept {
    /// Lets all of the next picture be painted anew, in other colors for instance.
    pub fn forget(&mut self) {
        self.stamps.forget();
        self.forget_pictures();
    }

    /// The same with the small pictures as they are.
    fn forget_pictures(&mut self) {
        self.tiles.forget();
        self.words = None;
        self.ground.clear();
        self.moving = true;
    }
}

/// Paints `scene` on a canvas that shows what was painted last: only what differs, and small
/// particles by copying.
pub fn paint(scene: &Scene, surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    kept.stamps.prepare(scene, surface.ratio, brush);
    kept.courses.prepare(&scene.shapes);
    paint_rest(&scene.shapes, surface, brush, kept);
}

/// The same on canvases that lie over each other: the pans and their levels, what rests, and what
/// moves. Levels rise and fall as long as anything moves, and what rests need not be painted with
/// either.
pub fn paint_in_layers(
    scene: &Scene,
    [ground, rest, moving]: [&Surface<'_>; 3],
    brush: &Brush<'_>,
    kept: &mut Kept,
) {
    kept.stamps.prepare(scene, rest.ratio, brush);
    kept.courses.prepare(&scene.shapes);
    let (still, those_moving) = scene.shapes.split_at(scene.moving);
    let (pans, those_resting) = still.split_at(scene.resting);
    paint_rest(those_resting, rest, brush, kept);
    paint_ground(pans, ground, brush, kept);
    paint_moving(those_moving, moving, brush, kept);
}

fn paint_ground(shapes: &[Shape], surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    let context = surface.fit(|| kept.ground.clear());
    if kept.ground != shapes {
        kept.ground.clear();
        kept.ground.extend_from_slice(shapes);
        paint_all(shapes, surface, context, brush, kept);
    }
}

fn paint_rest(shapes: &[Shape], surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    let context = surface.fit(|| kept.forget_pictures());
    let words = *kept
        .words
        .get_or_insert_with(|| Painter::new(context, brush).words_room());
    let tiles = &mut kept.tiles;
    let key = brush.base_charge;
    tiles.follow(shapes, surface.area(), surface.tile(), words, key);
    if tiles.patches().is_empty() {
        return;
    }
    let touched: Vec<_> = (0..shapes.len())
        .filter(|at| tiles.is_touched(*at))
        .collect();
    let those = touched.iter().map(|at| &shapes[*at]);
    let pile = Pile::new(those, surface, brush, &mut kept.stamps);
    for &patch in tiles.patches() {
        context.save();
        surface.open(context, patch);
        let mut hand = Hand::new(surface, context, brush, &kept.stamps, &kept.courses);
        hand.put(&pile, |nth| tiles.reaches(touched[nth], patch));
        context.restore();
    }
}

fn paint_moving(shapes: &[Shape], surface: &Surface<'_>, brush: &Brush<'_>, kept: &mut Kept) {
    let context = surface.fit(|| ());
    let was_moving = std::mem::replace(&mut kept.moving, !shapes.is_empty());
    if !was_moving && shapes.is_empty() {
        return;
    }
    paint_all(shapes, surface, context, brush, kept);
}

/// Paints shapes on a canvas that is emptied.
fn paint_all(
    shapes: &[Shape],
    surface: &Surface<'_>,
    context: &CanvasRenderingContext2d,
    brush: &Brush<'_>,
    kept: &mut Kept,
) {
    let pile = Pile::new(shapes.iter(), surface, brush, &mut kept.stamps);
    context.save();
    surface.wipe(context);
    Hand::new(surface, context, brush, &kept.stamps, &kept.courses).put(&pile, |_| true);
    context.restore();
}
