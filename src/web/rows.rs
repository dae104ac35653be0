//! Rows of equal small pictures, copied as one: when the pile under them grows, hundreds of free
//! ions move up together, and a copy of each would be most of what the frame costs.

use core::ops::Range;

use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::scene::shape::Point;
use crate::web::page::pixels;
use crate::web::stamps::{Placed, Stamp, copy};
use crate::web::surface::{copy_part, sheet};

/// The shortest row that is copied as one.
const SHORTEST: usize = 8;

/// As many rows are kept: the full row, which is mostly the same in all, and rows with gaps.
const KEPT: u16 = 8;

/// For how many turns a row that was asked for once is remembered: a frame has up to three, one for
/// each canvas.
const REMEMBERED: u32 = 4;

/// The rows painted so far, one under the other on a sheet of their own.
pub(super) struct Rows {
    /// None until there is a row to be painted.
    sheet: Option<(HtmlCanvasElement, CanvasRenderingContext2d)>,
    /// Its width, and half the edge of a picture, in dots.
    width: u32,
    half: f64,
    kept: Vec<Kept>,
    /// Rows that were not there, and when: only what is asked for again is painted. Ions that go
    /// to other columns are no row twice.
    missed: Vec<(Stamp, Vec<f64>, u32)>,
    /// How often rows were looked for.
    turn: u32,
}

struct Kept {
    picture: Stamp,
    /// Where the pictures are, in dots to the right of the first.
    aside: Vec<f64>,
    row: Row,
    /// When it was last asked for.
    turn: u32,
}

/// A row on the sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Row {
    number: u16,
    /// How far left of the first picture's middle it begins, and how wide it is, in dots.
    left: f64,
    width: f64,
}

impl Rows {
    /// An empty sheet for rows of so many dots and pictures of this half edge.
    pub(super) fn new(width: u32, half: f64) -> Self {
        Self {
            sheet: None,
            width,
            half,
            kept: Vec::new(),
            missed: Vec::new(),
            turn: 0,
        }
    }

    pub(super) fn is_as_wide(&self, width: u32) -> bool {
        self.width == width
    }

    /// Finds the rows among pictures that are painted one after the other, each with the dot of its
    /// middle, and paints on the sheet those that are not there yet, from the sheet of pictures.
    pub(super) fn find(
        &mut self,
        placed: &[Option<Placed>],
        pictures: &HtmlCanvasElement,
    ) -> Vec<(Range<usize>, Row)> {
        self.turn = self.turn.saturating_add(1);
        let since = self.turn.saturating_sub(REMEMBERED);
        self.missed.retain(|(.., turn)| *turn > since);
        let mut rows = Vec::new();
        let mut start = 0;
        let alike = |a: &Option<Placed>, b: &Option<Placed>| match (a, b) {
            (Some((one, at)), Some((other, then))) => one == other && same(at.y, then.y),
            _ => false,
        };
        for run in placed.chunk_by(alike) {
            let range = start..start + run.len();
            start = range.end;
            if let (Some(Some((picture, first))), SHORTEST..) = (run.first(), run.len()) {
                let aside = run.iter().flatten().map(|(_, dot)| dot.x - first.x);
                let row = self.row(*picture, aside.collect(), pictures);
                rows.extend(row.map(|row| (range, row)));
            }
        }
        rows
    }

    fn row(
        &mut self,
        picture: Stamp,
        aside: Vec<f64>,
        pictures: &HtmlCanvasElement,
    ) -> Option<Row> {
        let turn = self.turn;
        let mut kept = self.kept.iter_mut();
        if let Some(kept) = kept.find(|kept| kept.picture == picture && kept.aside == aside) {
            kept.turn = turn;
            return Some(kept.row);
        }
        let mut missed = self.missed.iter();
        if !missed.any(|(other, there, _)| *other == picture && *there == aside) {
            self.missed.push((picture, aside, turn));
            return None;
        }
        let (from, to) = aside
            .iter()
            .fold((0.0_f64, 0.0_f64), |(a, b), x| (a.min(*x), b.max(*x)));
        let half = self.half;
        let mut row = Row {
            number: 0,
            left: half - from,
            width: to - from + 2.0 * half,
        };
        if row.width > f64::from(self.width) {
            return None;
        }
        // In place of what was longest not asked for, unless that is needed now.
        let oldest = (0..self.kept.len()).min_by_key(|n| self.kept[*n].turn);
        let place = match oldest {
            Some(oldest) if self.kept.len() >= KEPT.into() => oldest,
            _ => self.kept.len(),
        };
        if self.kept.get(place).is_some_and(|kept| kept.turn == turn) {
            return None;
        }
        row.number = u16::try_from(place).ok()?;
        if self.sheet.is_none() {
            let height = pixels(2.0 * self.half * f64::from(KEPT));
            self.sheet = sheet(self.width, height);
        }
        self.paint(row, picture, &aside, pictures)?;
        let kept = Kept {
            picture,
            aside,
            row,
            turn,
        };
        if place < self.kept.len() {
            self.kept[place] = kept;
        } else {
            self.kept.push(kept);
        }
        Some(row)
    }

    fn paint(
        &self,
        row: Row,
        picture: Stamp,
        aside: &[f64],
        pictures: &HtmlCanvasElement,
    ) -> Option<()> {
        let (_, context) = self.sheet.as_ref()?;
        let edge = 2.0 * self.half;
        let top = f64::from(row.number) * edge;
        context.clear_rect(0.0, top, self.width.into(), edge);
        for x in aside {
            let dot = Point::new(row.left + x, top + self.half);
            copy(pictures, (picture, dot), context);
        }
        Some(())
    }

    /// Copies a row, its first picture's middle at `dot`. The context must not be scaled.
    pub(super) fn copy(&self, row: Row, dot: Point, context: &CanvasRenderingContext2d) {
        let Some((canvas, _)) = &self.sheet else {
            return;
        };
        let edge = 2.0 * self.half;
        let part = Point::new(0.0, f64::from(row.number) * edge);
        let to = Point::new(dot.x - row.left, dot.y - self.half);
        copy_part(canvas, (part, (row.width, edge)), context, to);
    }
}

/// Whole dots are equal or are not.
fn same(one: f64, other: f64) -> bool {
    one.to_bits() == other.to_bits()
}
