//! A canvas made ready to be painted on.

use crate::scene::shape::Rect;
use crate::scene::tiles::Tiles;
use crate::web::page::pixels;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, window};

/// Room around the stage, so that lines on its edge are painted whole, in CSS pixels.
pub const INSET: f64 = 2.0;

/// The edge of the tiles in which a picture is painted anew, in CSS pixels, about.
const TILE: f64 = 16.0;

/// Dots to a CSS pixel, no more than can be told apart.
pub fn sharpness() -> f64 {
    window().map_or(1.0, |window| window.device_pixel_ratio().clamp(1.0, 3.0))
}

/// A canvas, the size of the stage on it, and its dots to a CSS pixel.
pub struct Surface<'a> {
    /// The canvas.
    pub canvas: &'a HtmlCanvasElement,
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
    /// empty, so `tiles` forget it.
    pub(super) fn fit(&self, tiles: &mut Tiles) -> Option<CanvasRenderingContext2d> {
        let (canvas, area) = (self.canvas, self.area());
        let (w, h) = (
            pixels(area.width * self.ratio),
            pixels(area.height * self.ratio),
        );
        if canvas.width() != w || canvas.height() != h {
            canvas.set_width(w);
            canvas.set_height(h);
            tiles.forget();
        }
        canvas.get_context("2d").ok()??.dyn_into().ok()
    }

    /// Empties these rows of tiles (column, row, number) and lets nothing be painted beside
    /// them, one unit being one CSS pixel and the stage beginning [`INSET`] inside.
    pub(super) fn clear(
        &self,
        context: &CanvasRenderingContext2d,
        stale: impl Iterator<Item = (usize, usize, usize)>,
    ) {
        let dots = f64::from(pixels(TILE * self.ratio));
        context.begin_path();
        for (column, row, number) in stale {
            let [x, y, width] = [column, row, number].map(|tiles| tiles as f64 * dots);
            context.rect(x, y, width, dots);
        }
        context.clip();
        let (width, height) = (self.canvas.width(), self.canvas.height());
        context.clear_rect(0.0, 0.0, width.into(), height.into());
        let inset = INSET * self.ratio;
        // Only what is no number is refused.
        let _ = context.set_transform(self.ratio, 0.0, 0.0, self.ratio, inset, inset);
    }
}
