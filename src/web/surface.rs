//! A canvas made ready to be painted on.

use crate::web::page::pixels;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, window};

/// Room around the stage, so that lines on its edge are painted whole, in CSS pixels.
pub const INSET: f64 = 2.0;

/// Makes the canvas as sharp as the screen and returns its context, scaled so that one
/// unit is one CSS pixel and the stage begins [`INSET`] inside.
pub fn prepare(
    canvas: &HtmlCanvasElement,
    width: f64,
    height: f64,
) -> Option<CanvasRenderingContext2d> {
    let ratio = window()?.device_pixel_ratio().clamp(1.0, 3.0);
    prepare_for(canvas, (width, height), ratio)
}

/// The same with so many dots to a CSS pixel.
pub fn prepare_for(
    canvas: &HtmlCanvasElement,
    (width, height): (f64, f64),
    ratio: f64,
) -> Option<CanvasRenderingContext2d> {
    let (width, height) = (width + 2.0 * INSET, height + 2.0 * INSET);
    let (w, h) = (pixels(width * ratio), pixels(height * ratio));
    if canvas.width() != w || canvas.height() != h {
        canvas.set_width(w);
        canvas.set_height(h);
    }
    let context: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    context
        .set_transform(ratio, 0.0, 0.0, ratio, INSET * ratio, INSET * ratio)
        .ok()?;
    context.clear_rect(-INSET, -INSET, width, height);
    Some(context)
}
