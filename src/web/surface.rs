//! A canvas made ready to be painted on.

use std::cell::Cell;

use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, window};

use crate::scene::shape::{Point, Rect};
use crate::scene::tiles::Patch;
use crate::web::page::pixels;

/// Room around the stage, so that lines on its edge are painted whole, in CSS pixels.
pub const INSET: f64 = 2.0;

/// The edge of the tiles in which a picture is painted anew, in CSS pixels, about.
const TILE: f64 = 8.0;

/// Dots to a CSS pixel, no more than can be told apart.
pub fn sharpness() -> f64 {
    window().map_or(1.0, |window| window.device_pixel_ratio().clamp(1.0, 3.0))
}

/// A canvas with its context: to ask for it in each frame would take longer than much that is painted.
pub struct Layer {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    /// How many dots it has across and down, so far as they were set here.
    dots: Cell<(u32, u32)>,
}

impl Layer {
    /// A canvas on which nothing was painted yet, if the browser can paint.
    pub fn new(canvas: HtmlCanvasElement) -> Option<Self> {
        let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
        Some(Self {
            canvas,
            context,
            dots: Cell::default(),
        })
    }
}

/// A canvas, the size of the stage on it, and its dots to a CSS pixel.
pub struct Surface<'a> {
    /// The canvas.
    pub layer: &'a Layer,
    /// Width and height of the stage in CSS pixels.
    pub size: (f64, f64),
    /// Dots to a CSS pixel.
    pub ratio: f64,
}

impl Surface<'_> {
    /// What is seen of the stage, in its own units.
    pub(super) fn area(&self) -> Rect {
        Rect {
            x: -INSET,
            y: -INSET,
            width: self.size.0 + 2.0 * INSET,
            height: self.size.1 + 2.0 * INSET,
        }
    }

    /// The edge of a tile in CSS pixels: whole dots, so that none is painted by half.
    pub(super) fn tile(&self) -> f64 {
        f64::from(pixels(TILE * self.ratio)) / self.ratio
    }

    /// Gives the canvas as many dots as it needs, and its context. A canvas that gets others is
    /// empty, which `emptied` is told.
    pub(super) fn fit(&self, emptied: impl FnOnce()) -> &CanvasRenderingContext2d {
        let (layer, area) = (self.layer, self.area());
        let dots = (
            pixels(area.width * self.ratio),
            pixels(area.height * self.ratio),
        );
        if layer.dots.replace(dots) != dots {
            layer.canvas.set_width(dots.0);
            layer.canvas.set_height(dots.1);
            emptied();
        }
        &layer.context
    }

    /// How many dots it is wide.
    pub(super) fn width(&self) -> u32 {
        self.layer.dots.get().0
    }

    /// Empties a patch and lets nothing be painted beside it.
    pub(super) fn open(&self, context: &CanvasRenderingContext2d, patch: Patch) {
        let dots = f64::from(pixels(TILE * self.ratio));
        let [left, right] = [patch.columns.0, patch.columns.1].map(|n| f64::from(n) * dots);
        let [top, bottom] = [patch.rows.0, patch.rows.1].map(|n| f64::from(n) * dots);
        context.begin_path();
        context.rect(left, top, right - left, bottom - top);
        context.clip();
        context.clear_rect(left, top, right - left, bottom - top);
    }

    /// Empties all.
    pub(super) fn wipe(&self, context: &CanvasRenderingContext2d) {
        let (width, height) = self.layer.dots.get();
        context.clear_rect(0.0, 0.0, width.into(), height.into());
    }

    /// Lets one unit be one CSS pixel, the stage beginning [`INSET`] inside, or one dot of the canvas.
    pub(super) fn scale(&self, context: &CanvasRenderingContext2d, to_pixels: bool) {
        let (unit, inset) = if to_pixels {
            (self.ratio, INSET * self.ratio)
        } else {
            (1.0, 0.0)
        };
        // Only what is no number is refused.
        let _ = context.set_transform(unit, 0.0, 0.0, unit, inset, inset);
    }

    /// Where a point of the stage is, in whole dots of the canvas.
    pub(super) fn dot(&self, point: Point) -> Point {
        let [x, y] = [point.x, point.y].map(|at| libm::round((at + INSET) * self.ratio));
        Point { x, y }
    }
}

/// A canvas beside the page, of so many dots, and its context.
pub(super) fn sheet(
    width: u32,
    height: u32,
) -> Option<(HtmlCanvasElement, CanvasRenderingContext2d)> {
    let canvas = window()?.document()?.create_element("canvas").ok()?;
    let canvas: HtmlCanvasElement = canvas.dyn_into().ok()?;
    canvas.set_width(width);
    canvas.set_height(height);
    let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    Some((canvas, context))
}

/// Copies a part of a sheet, `from` its upper left corner, so that this comes to lie at `to`. The
/// context must not be scaled.
pub(super) fn copy_part(
    sheet: &HtmlCanvasElement,
    (from, size): (Point, (f64, f64)),
    context: &CanvasRenderingContext2d,
    to: Point,
) {
    // Only an empty sheet is refused.
    let _ = context.draw_image_with_html_canvas_element_and_sw_and_sh_and_dx_and_dy_and_dw_and_dh(
        sheet, from.x, from.y, size.0, size.1, to.x, to.y, size.0, size.1,
    );
}
