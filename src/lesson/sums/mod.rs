//! Calculations as data: quantities, formulas, sheets, forms of question, and slips.

pub mod expression;
pub mod form;
pub mod mark;
pub mod question;
pub mod sheet;
pub mod slip;
pub mod symbol;
