//! Paints a particle scene on a canvas. No decision is made here: one `match`.

use core::cell::Cell;
use core::f64::consts::TAU;
use core::ptr;

use web_sys::{CanvasRenderingContext2d, Path2d};

use crate::scene::shape::{CORNER, Point, Rect, Shape, Side, seat, seat_angle, seat_between};
pub use crate::web::palette::Palette;
pub use crate::web::surface::{INSET, Layer, Surface};

/// Half the opening of a base form's ring, in radians.
const GAP: f64 = 0.55;

/// Radius from which a charge is written on a particle.
const ROOM_FOR_CHARGE: f64 = 7.0;

/// What the painter must know besides the scene.
pub struct Brush<'a> {
    /// Colors.
    pub palette: &'a Palette,
    /// Charge of the pair's base form.
    pub base_charge: i8,
    /// The words at the start marks.
    pub at_start: &'a str,
    /// The words at free OH⁻, in the acid pan, and at free H⁺, in the base pan.
    pub free: [&'a str; 2],
}

pub(super) struct Painter<'a> {
    pub(super) context: &'a CanvasRenderingContext2d,
    pub(super) brush: &'a Brush<'a>,
    /// Where the colors in use, and the width, came from: a color crosses to the browser as a
    /// text, which takes longer than painting what has it.
    filling: Cell<*const u8>,
    stroking: Cell<(*const u8, f64)>,
}

impl<'a> Painter<'a> {
    pub(super) fn new(context: &'a CanvasRenderingContext2d, brush: &'a Brush<'a>) -> Self {
        Self {
            context,
            brush,
            filling: Cell::new(ptr::null()),
            stroking: Cell::new((ptr::null(), 0.0)),
        }
    }

    pub(super) fn shape(&self, shape: &Shape) {
        match *shape {
            Shape::SolventStrip { rect } => self.solvent(rect),
            Shape::Pan { rect, .. } => self.pan(rect),
            Shape::Level { rect, side } => self.level(rect, side),
            Shape::StartMark {
                from, to, labeled, ..
            } => self.start_mark(from, to, labeled),
            // These take a path that is kept.
            Shape::Path { .. } => (),
            Shape::Particle {
                at,
                radius,
                protons,
                facing,
                marked,
                ..
            } => {
                self.particle(at, radius, protons, facing, marked);
            }
            Shape::FreeIons { rect, side } => self.free_ions(rect, side),
            Shape::Proton { at, radius, .. } => {
                self.proton(at, radius);
                self.plus(at, radius);
            }
            Shape::Hydroxide { at, radius, .. } => self.hydroxide(at, radius),
            Shape::Water { at, radius } => self.water(at, radius),
        }
    }

    fn circle(&self, at: Point, radius: f64) {
        self.context.begin_path();
        // Only a negative radius is refused, and a scene has none.
        let _ = self.context.arc(at.x, at.y, radius.max(0.0), 0.0, TAU);
    }

    pub(super) fn line(&self, from: Point, to: Point) {
        self.context.begin_path();
        self.context.move_to(from.x, from.y);
        self.context.line_to(to.x, to.y);
        self.context.stroke();
    }

    pub(super) fn fill_style(&self, color: &str) {
        if self.filling.replace(color.as_ptr()) != color.as_ptr() {
            self.context.set_fill_style_str(color);
        }
    }

    pub(super) fn stroke_style(&self, color: &str, width: f64) {
        let (last, last_width) = self.stroking.replace((color.as_ptr(), width));
        if last != color.as_ptr() {
            self.context.set_stroke_style_str(color);
        }
        if last_width.to_bits() != width.to_bits() {
            self.context.set_line_width(width);
        }
    }

    pub(super) fn dashed(&self, on: f64, off: f64) {
        let pattern = js_sys::Array::of2(&on.into(), &off.into());
        let _ = self.context.set_line_dash(&pattern);
    }

    pub(super) fn solid(&self) {
        let _ = self.context.set_line_dash(&js_sys::Array::new());
    }

    fn solvent(&self, rect: Rect) {
        self.stroke_style(&self.brush.palette.water, 1.0);
        self.dashed(1.0, 4.0);
        self.line(Point::new(rect.x, rect.y), Point::new(rect.right(), rect.y));
        self.solid();
    }

    fn pan(&self, rect: Rect) {
        self.stroke_style(&self.brush.palette.edge, 2.0);
        let corner = CORNER.min(rect.width / 4.0);
        let c = self.context;
        c.begin_path();
        c.move_to(rect.x, rect.y);
        c.line_to(rect.x, rect.bottom() - corner);
        let _ = c.arc_to(
            rect.x,
            rect.bottom(),
            rect.x + corner,
            rect.bottom(),
            corner,
        );
        c.line_to(rect.right() - corner, rect.bottom());
        let _ = c.arc_to(
            rect.right(),
            rect.bottom(),
            rect.right(),
            rect.bottom() - corner,
            corner,
        );
        c.line_to(rect.right(), rect.y);
        c.stroke();
    }

    fn level(&self, rect: Rect, side: Side) {
        let palette = self.brush.palette;
        let (tint, line) = match side {
            Side::Acid => (&palette.acid_tint, Some(&palette.acid_line)),
            Side::Base => (&palette.base_tint, Some(&palette.base_line)),
            Side::Both => (&palette.panel, None),
        };
        self.fill_style(tint);
        self.context
            .fill_rect(rect.x, rect.y, rect.width, rect.height);
        if let Some(line) = line {
            self.stroke_style(line, 1.5);
            self.line(Point::new(rect.x, rect.y), Point::new(rect.right(), rect.y));
        }
    }

    /// A crossing's course along its path.
    pub(super) fn course(&self, shape: &Shape, path: &Path2d) {
        let palette = self.brush.palette;
        let is_acid = matches!(shape, Shape::Path { side, .. } if *side == Side::Acid);
        let color = if is_acid {
            &palette.acid_line
        } else {
            &palette.base_line
        };
        self.fill_style(color);
        self.context.fill_with_path_2d(path);
    }

    fn particle(&self, at: Point, radius: f64, protons: i8, facing: f64, marked: bool) {
        let palette = self.brush.palette;
        if marked {
            self.circle(at, radius + 2.5);
            self.stroke_style(&palette.focus, 2.0);
            self.context.stroke();
        }
        if protons >= 1 {
            self.circle(at, radius);
            self.fill_style(&palette.acid_fill);
            self.context.fill();
            self.stroke_style(&palette.acid_line, (radius * 0.14).max(0.8));
            self.context.stroke();
            for nth in 0..protons.unsigned_abs() {
                self.proton(seat(at, radius, facing, nth), radius * 0.36);
            }
        } else {
            self.stroke_style(&palette.base_line, (radius * 0.34).max(1.2));
            self.ring(at, radius * 0.86, facing, protons);
        }
        if radius >= ROOM_FOR_CHARGE {
            self.charge(at, radius, self.brush.base_charge + protons, protons >= 1);
        }
    }

    /// A ring with a gap at every open seat.
    fn ring(&self, at: Point, radius: f64, facing: f64, protons: i8) {
        let mut gaps: Vec<f64> = (protons..=0)
            .map(|lower| seat_angle(facing, seat_between(lower)).rem_euclid(TAU))
            .collect();
        gaps.sort_by(f64::total_cmp);
        for (i, gap) in gaps.iter().enumerate() {
            let next = gaps.get(i + 1).copied().unwrap_or(gaps[0] + TAU);
            if next - gap > 2.0 * GAP {
                self.context.begin_path();
                let _ = self.context.arc(at.x, at.y, radius, gap + GAP, next - GAP);
                self.context.stroke();
            }
        }
    }

    /// The trails of what falls.
    pub(super) fn trails(&self, trails: &[(Point, f64)]) {
        self.context.begin_path();
        for (foot, length) in trails {
            self.context.move_to(foot.x, foot.y);
            self.context.line_to(foot.x, foot.y - length);
        }
        self.stroke_style(&self.brush.palette.muted, 1.0);
        self.context.stroke();
    }

    fn proton(&self, at: Point, radius: f64) {
        let palette = self.brush.palette;
        self.circle(at, radius);
        self.fill_style(&palette.ink);
        self.context.fill();
        self.stroke_style(&palette.panel, (radius * 0.25).min(1.0));
        self.context.stroke();
    }

    fn hydroxide(&self, at: Point, radius: f64) {
        self.stroke_style(&self.brush.palette.hydroxide, (radius * 0.4).max(1.2));
        self.circle(at, radius * 0.8);
        self.context.stroke();
        let bar = radius * 0.8;
        self.line(Point::new(at.x - bar, at.y), Point::new(at.x + bar, at.y));
    }

    fn water(&self, at: Point, radius: f64) {
        let palette = self.brush.palette;
        self.circle(at, radius);
        self.fill_style(&palette.panel);
        self.context.fill();
        self.stroke_style(&palette.water, 1.5);
        self.context.stroke();
        for side in [-1.0, 1.0] {
            self.circle(
                Point::new(at.x + side * radius * 0.8, at.y + radius * 0.6),
                radius * 0.3,
            );
            self.fill_style(&palette.ink);
            self.context.fill();
        }
    }
}
