//! Square tiles over an area.

use super::extent::{Words, parts};
use super::shape::{Rect, Shape};

/// Tiles of one size over `area`, beginning at its upper left corner. How large words are decides
/// how far shapes reach.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Grid {
    area: Rect,
    edge: f64,
    pub words: Words,
    pub columns: usize,
    pub rows: usize,
}

/// From one tile up to before another.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Span {
    /// The first column, and the one after the last.
    pub columns: (u16, u16),
    /// The same of rows.
    pub rows: (u16, u16),
}

impl Grid {
    pub fn new(area: Rect, edge: f64, words: Words) -> Self {
        Self {
            area,
            edge,
            words,
            columns: whole(area.width / edge) + 1,
            rows: whole(area.height / edge) + 1,
        }
    }

    /// The tiles that a part reaches into.
    pub fn span(&self, part: Rect) -> Span {
        let span = |from: f64, length: f64, most: usize| {
            let end = if from + length < 0.0 {
                0
            } else {
                whole((from + length) / self.edge) + 1
            };
            (tile(whole(from / self.edge)), tile(end.min(most)))
        };
        Span {
            columns: span(part.x - self.area.x, part.width, self.columns),
            rows: span(part.y - self.area.y, part.height, self.rows),
        }
    }

    /// The tiles around all parts of a shape.
    pub fn reach(&self, shape: &Shape) -> Span {
        let mut reach: Option<Span> = None;
        parts(shape, self.words, &mut |part| {
            let span = self.span(part);
            reach = Some(reach.map_or(span, |reach| reach.with(span)));
        });
        reach.unwrap_or_default()
    }

    /// All tiles.
    pub fn all(&self) -> Span {
        Span {
            columns: (0, tile(self.columns)),
            rows: (0, tile(self.rows)),
        }
    }

    /// Takes a rectangle of tiles that are `left`, as wide and then as high as it gets.
    pub fn take_patch(&self, left: &mut [bool]) -> Option<Span> {
        let first = left.iter().position(|tile| *tile)?;
        let (row, column) = (first / self.columns, first % self.columns);
        let width = left[first..(row + 1) * self.columns]
            .iter()
            .take_while(|tile| **tile)
            .count();
        let mut end = row;
        while end < self.rows {
            let start = end * self.columns + column;
            let below = &mut left[start..start + width];
            if !below.iter().all(|tile| *tile) {
                break;
            }
            below.fill(false);
            end += 1;
        }
        Some(Span {
            columns: (tile(column), tile(column + width)),
            rows: (tile(row), tile(end)),
        })
    }

    /// The places of these tiles, row by row.
    pub fn under(&self, span: Span) -> impl Iterator<Item = usize> + use<> {
        let across = self.columns;
        let (left, right) = (usize::from(span.columns.0), usize::from(span.columns.1));
        let rows = usize::from(span.rows.0)..usize::from(span.rows.1);
        rows.flat_map(move |row| row * across + left..row * across + right.max(left))
    }
}

impl Span {
    /// Whether there are tiles in both.
    pub fn overlaps(self, other: Span) -> bool {
        let both = |a: (u16, u16), b: (u16, u16)| a.0 < b.1 && b.0 < a.1;
        both(self.columns, other.columns) && both(self.rows, other.rows)
    }

    /// Both, and what lies between.
    fn with(self, other: Span) -> Span {
        let both = |a: (u16, u16), b: (u16, u16)| (a.0.min(b.0), a.1.max(b.1));
        Span {
            columns: both(self.columns, other.columns),
            rows: both(self.rows, other.rows),
        }
    }
}

/// The whole part of a length in tiles; nought for what lies before the first.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "as many tiles as a screen holds, and a cast takes what is below nought as nought"
)]
fn whole(tiles: f64) -> usize {
    tiles as usize
}

/// A place among the tiles; past the last of them all places are the same.
fn tile(place: usize) -> u16 {
    u16::try_from(place).unwrap_or(u16::MAX)
}
