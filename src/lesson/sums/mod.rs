//! Calculations as data: quantities, formulas, sheets, forms of question, and slips.

pub mod entry;
pub mod expression;
pub mod form;
pub mod kind;
pub mod mark;
pub mod question;
pub mod right;
mod route;
pub mod screen;
pub mod sheet;
pub mod slip;
pub mod solution;
mod spoken;
mod steps;
pub mod symbol;
pub mod verdict;
pub mod way;
mod writers;
pub mod written;
