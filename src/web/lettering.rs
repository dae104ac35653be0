//! What is written in a particle scene: marks with their names, charges.

use crate::scene::shape::{Point, Rect, Side};
use crate::web::canvas::Painter;

/// Radius from which a free proton carries its plus.
const ROOM_FOR_PLUS: f64 = 3.0;

impl Painter<'_> {
    pub(super) fn start_mark(&self, from: Point, to: Point, labeled: bool) {
        let palette = self.brush.palette;
        self.stroke_style(&palette.ink, 1.5);
        self.dashed(4.0, 3.0);
        self.line(from, to);
        self.solid();
        if labeled {
            let leftwards = to.x < from.x;
            self.words(self.brush.at_start, "0.6875rem", from, leftwards);
        }
    }

    /// The upper edge of the free ions, named at the outer wall: "at start" has the inner one.
    pub(super) fn free_ions(&self, rect: Rect, side: Side) {
        self.stroke_style(&self.brush.palette.ink, 1.0);
        let [left, right] = [rect.x, rect.right()].map(|x| Point::new(x, rect.y));
        self.line(left, right);
        let [hydroxide, hydrogen] = self.brush.free;
        if side == Side::Acid {
            self.words(hydroxide, "700 0.8125rem", left, false);
        } else {
            self.words(hydrogen, "700 0.8125rem", right, true);
        }
    }

    /// Words above a line that begins at a wall, on a ground of their own.
    fn words(&self, words: &str, font: &str, wall: Point, leftwards: bool) {
        let c = self.context;
        let palette = self.brush.palette;
        c.set_font(&[font, " system-ui, sans-serif"].concat());
        c.set_text_align(if leftwards { "right" } else { "left" });
        c.set_text_baseline("bottom");
        c.set_line_join("round");
        let x = wall.x + if leftwards { -6.0 } else { 6.0 };
        let y = (wall.y - 3.0).max(14.0);
        // So wide an outline that it is a ground: particles behind the words stay out of them.
        self.stroke_style(&palette.panel, 8.0);
        let _ = c.stroke_text(words, x, y);
        self.fill_style(&palette.ink);
        let _ = c.fill_text(words, x, y);
    }

    pub(super) fn charge(&self, at: Point, radius: f64, charge: i8, on_fill: bool) {
        let text = match charge {
            0 => return,
            1 => "+".to_owned(),
            -1 => "−".to_owned(),
            c if c < 0 => format!("{}−", -c),
            c => format!("{c}+"),
        };
        let c = self.context;
        let palette = self.brush.palette;
        c.set_font(&format!("700 {:.0}px system-ui, sans-serif", radius * 1.15));
        self.fill_style(if on_fill {
            &palette.on_acid
        } else {
            &palette.base_line
        });
        c.set_text_align("center");
        c.set_text_baseline("middle");
        let _ = c.fill_text(&text, at.x, at.y + radius * 0.06);
    }

    /// The charge of a free proton.
    pub(super) fn plus(&self, at: Point, radius: f64) {
        if radius >= ROOM_FOR_PLUS {
            let arm = radius * 0.55;
            self.stroke_style(&self.brush.palette.panel, radius * 0.3);
            let c = self.context;
            c.begin_path();
            c.move_to(at.x - arm, at.y);
            c.line_to(at.x + arm, at.y);
            c.move_to(at.x, at.y - arm);
            c.line_to(at.x, at.y + arm);
            c.stroke();
        }
    }
}
