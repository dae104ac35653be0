//! What is written in a particle scene: marks with their names, charges.

use crate::scene::shape::{Point, Rect, Side, words_beside};
use crate::scene::tiles::Words;
use crate::web::canvas::Painter;

/// Radius from which a free proton carries its plus.
const ROOM_FOR_PLUS: f64 = 3.0;

/// Fonts of the words at start marks, and of those at free ions.
const AT_START: &str = "0.6875rem";
const FREE: &str = "700 0.8125rem";

impl Painter<'_> {
    /// How large the words are that may have to be written.
    pub(super) fn words_room(&self) -> Words {
        let [hydroxide, hydrogen] = self.brush.free;
        let sizes = [
            (self.brush.at_start, AT_START),
            (hydroxide, FREE),
            (hydrogen, FREE),
        ];
        let sizes = sizes.into_iter().filter_map(|(words, font)| {
            self.font(font);
            let size = self.context.measure_text(words).ok()?;
            Some((size.width(), size.font_bounding_box_ascent()))
        });
        sizes.fold((0.0, 0.0), |(width, height), (w, h)| {
            // Browsers of yesteryear do not know the height, which is less than a word's width.
            (width.max(w), height.max(if h.is_nan() { w } else { h }))
        })
    }

    fn font(&self, font: &str) {
        self.context
            .set_font(&[font, " system-ui, sans-serif"].concat());
        self.context.set_text_baseline("bottom");
    }

    pub(super) fn start_mark(&self, from: Point, to: Point, labeled: bool) {
        let palette = self.brush.palette;
        self.stroke_style(&palette.ink, 1.5);
        self.dashed(4.0, 3.0);
        self.line(from, to);
        self.solid();
        if labeled {
            let leftwards = to.x < from.x;
            self.words(self.brush.at_start, AT_START, from, leftwards);
        }
    }

    /// The upper edge of the free ions, named at the outer wall: "at start" has the inner one.
    pub(super) fn free_ions(&self, rect: Rect, side: Side) {
        self.stroke_style(&self.brush.palette.ink, 1.0);
        let [left, right] = [rect.x, rect.right()].map(|x| Point::new(x, rect.y));
        self.line(left, right);
        let [hydroxide, hydrogen] = self.brush.free;
        if side == Side::Acid {
            self.words(hydroxide, FREE, left, false);
        } else {
            self.words(hydrogen, FREE, right, true);
        }
    }

    /// Words above a line that begins at a wall, on a ground of their own.
    fn words(&self, words: &str, font: &str, wall: Point, leftwards: bool) {
        let c = self.context;
        let palette = self.brush.palette;
        self.font(font);
        c.set_text_align(if leftwards { "right" } else { "left" });
        c.set_line_join("round");
        let Point { x, y } = words_beside(wall, leftwards);
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
