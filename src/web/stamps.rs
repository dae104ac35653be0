//! Pictures of single small particles, painted once and then copied: hundreds of outlines in a
//! frame are what a slow phone cannot keep up with, and particles of one form, turned alike, look
//! alike.

use core::f64::consts::TAU;
use core::ops::Range;

use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::scene::shape::{Point, Scene, Shape};
use crate::web::canvas::{Brush, Painter, Surface};
use crate::web::page::pixels;
use crate::web::rows::{Row, Rows};
use crate::web::surface::{copy_part, sheet};

/// Ways that a copied particle may face; between one and the next, the rim of the largest moves by
/// less than two dots.
const WAYS: u16 = 48;

/// Forms that are copied: at most three protons more or fewer than the base form.
const FORMS: u16 = 7;

/// The largest radius, in dots, that is copied. Of larger particles there are few.
const LARGEST: f64 = 15.0;

/// Places on the sheet, across and down: four forms in all ways they face, and free ions.
const PLACES: (u16, u16) = (32, 8);

/// With so many sizes of lone ions a new sheet is begun: most are of additions gone by.
const SIZES: usize = 48;

/// In what steps an ion shrinks that falls into a seat, in CSS pixels of its radius.
const STEP: f64 = 0.25;

/// A place in the list of kinds that is not on the sheet.
const NOWHERE: u16 = u16::MAX;

/// The sheet that pictures are copied from.
#[derive(Default)]
pub struct Stamps {
    sheet: Option<Sheet>,
}

struct Sheet {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    /// Particle radius in CSS pixels, dots to a CSS pixel, charge of the base form.
    made_for: (f64, f64, i8),
    /// Lone ions on the sheet: whether it is H⁺, radius, place. There are few sizes at a time.
    ions: Vec<(bool, f64, u16)>,
    /// Half the edge of a place, in dots.
    half: f64,
    /// Where the particles are, form by form and way by way.
    particles: Vec<u16>,
    taken: u16,
    /// Rows of its pictures.
    rows: Rows,
}

/// A picture on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stamp {
    /// Where on the sheet it is, in dots.
    left: f64,
    top: f64,
    /// Half the edge of the square that it takes.
    half: f64,
}

/// A picture and the dot of the canvas that its middle is painted on.
pub(super) type Placed = (Stamp, Point);

impl Stamps {
    /// Paints everything anew, in other colors for instance.
    pub fn forget(&mut self) {
        self.sheet = None;
    }

    /// Makes ready for a scene.
    pub(super) fn prepare(&mut self, scene: &Scene, ratio: f64, brush: &Brush<'_>) {
        let radius = |shape: &Shape| match *shape {
            Shape::Particle { radius, .. } => Some(radius),
            _ => None,
        };
        // All particles are of one size.
        let radius = scene.shapes.iter().find_map(radius).unwrap_or(LARGEST);
        let made_for = (radius, ratio, brush.base_charge);
        let is_fit = |sheet: &Sheet| sheet.made_for == made_for && sheet.ions.len() < SIZES;
        if !self.sheet.as_ref().is_some_and(is_fit) {
            let small = radius * ratio <= LARGEST;
            self.sheet = small.then(|| Sheet::new(made_for)).flatten();
        }
    }

    /// The picture to copy for a shape, painted now if need be, and where to; none of what must be
    /// painted in its place.
    pub(super) fn of(
        &mut self,
        shape: &Shape,
        surface: &Surface<'_>,
        brush: &Brush<'_>,
    ) -> Option<Placed> {
        let (number, at) = self.sheet.as_mut()?.stamp(shape, brush)?;
        // Around a whole dot, so that it is not blurred.
        Some((self.sheet.as_ref()?.place(number), surface.dot(at)))
    }

    /// Which of these pictures are rows that can be copied at once.
    pub(super) fn rows(
        &mut self,
        pictures: &[Option<Placed>],
        surface: &Surface<'_>,
    ) -> Vec<(Range<usize>, Row)> {
        let rows = self.sheet.as_mut().map(|sheet| {
            let width = surface.width();
            if !sheet.rows.is_as_wide(width) {
                sheet.rows = Rows::new(width, sheet.half);
            }
            sheet.rows.find(pictures, &sheet.canvas)
        });
        rows.unwrap_or_default()
    }

    /// Copies a picture. The context must not be scaled.
    pub(super) fn copy(&self, placed: Placed, context: &CanvasRenderingContext2d) {
        if let Some(sheet) = &self.sheet {
            copy(&sheet.canvas, placed, context);
        }
    }

    /// Copies a row whose first picture is this one. The context must not be scaled.
    pub(super) fn copy_row(&self, row: Row, (_, dot): Placed, context: &CanvasRenderingContext2d) {
        if let Some(sheet) = &self.sheet {
            sheet.rows.copy(row, dot, context);
        }
    }
}

/// Copies a picture from its sheet. The context must not be scaled.
pub(super) fn copy(
    sheet: &HtmlCanvasElement,
    (stamp, dot): Placed,
    context: &CanvasRenderingContext2d,
) {
    let Stamp { left, top, half } = stamp;
    let edge = 2.0 * half;
    let to = Point::new(dot.x - half, dot.y - half);
    copy_part(sheet, (Point::new(left, top), (edge, edge)), context, to);
}

impl Sheet {
    fn new(made_for: (f64, f64, i8)) -> Option<Self> {
        let (radius, ratio, _) = made_for;
        // Seated protons stand out over the rim.
        let half = libm::ceil((1.4 * radius + 1.0) * ratio) + 1.0;
        let [width, height] = [PLACES.0, PLACES.1].map(|n| pixels(2.0 * half * f64::from(n)));
        let (canvas, context) = sheet(width, height)?;
        Some(Self {
            canvas,
            context,
            made_for,
            ions: Vec::new(),
            half,
            particles: vec![NOWHERE; usize::from(FORMS * WAYS)],
            taken: 0,
            rows: Rows::new(0, half),
        })
    }

    /// The place of a shape's picture, and where on the stage it belongs.
    fn stamp(&mut self, shape: &Shape, brush: &Brush<'_>) -> Option<(u16, Point)> {
        match *shape {
            Shape::Particle {
                at,
                protons,
                facing,
                marked: false,
                ..
            } => {
                let (kind, way) = kind(protons, facing)?;
                if self.particles[kind] == NOWHERE {
                    let mut typical = *shape;
                    if let Shape::Particle { facing, .. } = &mut typical {
                        *facing = way;
                    }
                    self.particles[kind] = self.paint(&typical, at, brush)?;
                }
                Some((self.particles[kind], at))
            }
            Shape::Proton { at, radius, trail } | Shape::Hydroxide { at, radius, trail } => {
                let is_proton = matches!(shape, Shape::Proton { .. });
                // What stays as large as it is there already does not change on landing.
                let known = self.known(is_proton, radius);
                let radius = match (known, trail) {
                    (None, Some(_)) => step(radius),
                    _ => radius,
                };
                let known = known.or_else(|| self.known(is_proton, radius));
                let number = known.or_else(|| {
                    let trail = None;
                    let typical = if is_proton {
                        Shape::Proton { at, radius, trail }
                    } else {
                        Shape::Hydroxide { at, radius, trail }
                    };
                    let number = self.paint(&typical, at, brush)?;
                    self.ions.push((is_proton, radius, number));
                    Some(number)
                })?;
                Some((number, at))
            }
            _ => None,
        }
    }

    /// The place of a lone ion that is on the sheet.
    fn known(&self, is_proton: bool, radius: f64) -> Option<u16> {
        let is_this =
            |ion: &&(bool, f64, u16)| (ion.0, ion.1.to_bits()) == (is_proton, radius.to_bits());
        self.ions.iter().find(is_this).map(|ion| ion.2)
    }

    fn place(&self, number: u16) -> Stamp {
        let edge = 2.0 * self.half;
        Stamp {
            left: f64::from(number % PLACES.0) * edge,
            top: f64::from(number / PLACES.0) * edge,
            half: self.half,
        }
    }

    /// Paints one more picture, if there is room for it: a shape around `at`. Returns its place.
    fn paint(&mut self, shape: &Shape, at: Point, brush: &Brush<'_>) -> Option<u16> {
        let number = self.taken;
        if number >= PLACES.0 * PLACES.1 {
            return None;
        }
        self.taken += 1;
        let (_, ratio, _) = self.made_for;
        let Stamp { left, top, half } = self.place(number);
        let (x, y) = (left + half - ratio * at.x, top + half - ratio * at.y);
        // Only what is no number is refused.
        let _ = self.context.set_transform(ratio, 0.0, 0.0, ratio, x, y);
        Painter::new(&self.context, brush).shape(shape);
        Some(number)
    }
}

/// The radius nearest this one of those that what falls is copied with.
fn step(radius: f64) -> f64 {
    libm::round(radius / STEP) * STEP
}

/// The number of a particle's form and way, and where that way is.
fn kind(protons: i8, facing: f64) -> Option<(usize, f64)> {
    let form = u16::try_from(protons + 3).ok()?;
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a part of a turn is from nought to one"
    )]
    let way = libm::round((facing / TAU).rem_euclid(1.0) * f64::from(WAYS)) as u16 % WAYS;
    let facing = TAU * f64::from(way) / f64::from(WAYS);
    (form < FORMS).then(|| (usize::from(form * WAYS + way), facing))
}
