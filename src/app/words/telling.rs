//! The three writers of a worked solution.

use crate::app::words::reason::subject;
use crate::app::words::working::{Part, Telling};
use crate::lesson::markup::{escaped, html, mathml};
use crate::lesson::sums::solution::{Step, Table};
use crate::lesson::sums::written::{Pen, Row};

/// Above the list of a step's numbers.
const WHERE_FROM: &str = "Where the numbers come from";

/// Caption of a table of amounts.
const AMOUNTS: &str = "Amounts / mmol";

/// Its rows.
const START_CHANGE_END: [&str; 3] = ["start", "change", "end"];

/// A formula of some rows for the screen.
pub(super) fn block(pen: &Pen<'_>, rows: &[Row], out: &mut String) {
    let spoken: Vec<String> = rows.iter().map(|row| pen.spoken(row)).collect();
    let math: Vec<String> = rows.iter().map(|row| pen.math(row)).collect();
    boxed(&spoken.join(", "), &math.concat(), out);
}

/// Math is read aloud in our own words, the same on every device. It may be wider than a
/// phone: it scrolls by itself, by keyboard too.
fn boxed(spoken: &str, math: &str, out: &mut String) {
    out.push_str("<div class=\"block\" tabindex=\"0\" role=\"math\" aria-label=\"");
    out.push_str(&escaped(spoken));
    out.extend(["\"><div aria-hidden=\"true\">", math, "</div></div>"]);
}

impl Telling<'_> {
    pub(super) fn html(&self) -> String {
        let mut out = String::new();
        for (i, step) in self.solution.steps.iter().enumerate() {
            out.push_str("<details name=\"working\" class=\"step\"");
            out.push_str(if i == 0 { " open>" } else { ">" });
            out.push_str("<summary>");
            out.push_str(&(i + 1).to_string());
            out.push_str(" · ");
            out.push_str(&html(&self.heading(step)));
            out.push_str("</summary>");
            self.step_html(step, &mut out);
            out.push_str("</details>");
        }
        out
    }

    /// The steps one after the other.
    pub(super) fn laid_out(&self) -> String {
        let mut out = String::new();
        for (i, step) in self.solution.steps.iter().enumerate() {
            let number = (i + 1).to_string();
            let heading = html(&self.heading(step));
            out.extend([
                "<div class=\"step\"><h4>",
                &number,
                " · ",
                &heading,
                "</h4>",
            ]);
            for part in self.parts(step) {
                if !matches!(part, Part::Origins(_)) {
                    self.part_html(part, &mut out);
                }
            }
            out.push_str("</div>");
        }
        out
    }

    fn step_html(&self, step: &Step, out: &mut String) {
        for part in self.parts(step) {
            self.part_html(part, out);
        }
    }

    fn part_html(&self, part: Part<'_>, out: &mut String) {
        match part {
            Part::Sentence(text) => out.extend(["<p>", &html(&text), "</p>"]),
            Part::Equation(equation) => {
                let equation = equation.with(self.pen.writer.ion);
                boxed(&equation.spoken(), &mathml(&equation, true), out);
            }
            Part::Formula(rows) => block(&self.pen, &rows, out),
            Part::Table(table) => self.table_html(table, out),
            Part::Origins(terms) => {
                out.extend([
                    "<p class=\"quiet\">",
                    WHERE_FROM,
                    "</p><ul class=\"origins\">",
                ]);
                for term in &terms {
                    let value = self.value(term.symbol, term.value, term.figures);
                    out.push_str("<li><details class=\"origin\"><summary>");
                    out.push_str(&html(&value));
                    out.push_str("</summary>");
                    out.push_str(&html(&self.origin(term)));
                    out.push_str("</details></li>");
                }
                out.push_str("</ul>");
            }
        }
    }

    fn table_html(&self, table: &Table, out: &mut String) {
        let (names, rows) = self.cells(table);
        out.extend([
            "<table class=\"figures digits\"><caption>",
            AMOUNTS,
            "</caption>",
        ]);
        out.push_str("<thead><tr><td></td>");
        for name in &names {
            out.extend(["<th scope=\"col\">", &html(name), "</th>"]);
        }
        out.push_str("</tr></thead><tbody>");
        for (name, row) in START_CHANGE_END.iter().zip(&rows) {
            out.extend(["<tr><th scope=\"row\">", name, "</th>"]);
            for cell in row {
                out.extend(["<td>", &html(cell), "</td>"]);
            }
            out.push_str("</tr>");
        }
        out.push_str("</tbody></table>");
    }

    pub(super) fn plain(&self) -> String {
        let mut out = String::new();
        for (i, step) in self.solution.steps.iter().enumerate() {
            out.push_str(&(i + 1).to_string());
            out.extend([". ", &self.heading(step), "\n"]);
            for part in self.parts(step) {
                match part {
                    Part::Sentence(text) => out.extend(["   ", &text, "\n"]),
                    Part::Equation(equation) => {
                        let equation = equation.with(self.pen.writer.ion);
                        out.extend(["   ", &equation.plain(), "\n"]);
                    }
                    Part::Formula(rows) => {
                        let rows: Vec<String> =
                            rows.iter().map(|row| self.pen.plain(row)).collect();
                        // The rows that follow start with their sign.
                        out.extend(["   ", &rows.join("\n     "), "\n"]);
                    }
                    Part::Table(table) => self.table_plain(table, &mut out),
                    Part::Origins(terms) => {
                        out.extend(["   ", WHERE_FROM, ":\n"]);
                        for term in &terms {
                            let value = self.value(term.symbol, term.value, term.figures);
                            out.extend(["   - ", &value, ": ", &self.origin(term), "\n"]);
                        }
                    }
                }
            }
        }
        out
    }

    fn table_plain(&self, table: &Table, out: &mut String) {
        let (names, rows) = self.cells(table);
        let mut line = |head: &str, cells: &[String; 3]| {
            out.push_str("   ");
            out.push_str(head);
            let mut width = head.chars().count();
            for cell in cells {
                let own = cell.chars().count();
                let blank = (width + own..16).map(|_| ' ').chain([' ']);
                out.extend(blank);
                out.push_str(cell);
                width = 4;
            }
            out.push('\n');
        };
        line(AMOUNTS, &names);
        for (name, row) in START_CHANGE_END.iter().zip(&rows) {
            line(name, row);
        }
    }

    pub(super) fn spoken(&self) -> String {
        let mut out = String::new();
        for (i, step) in self.solution.steps.iter().enumerate() {
            out.push_str("Step ");
            out.push_str(&(i + 1).to_string());
            out.extend([": ", subject(step.subject), "\n"]);
            for part in self.parts(step) {
                match part {
                    Part::Sentence(text) => out.push_str(&text),
                    Part::Equation(equation) => {
                        out.push_str(&equation.with(self.pen.writer.ion).spoken());
                    }
                    Part::Formula(rows) => {
                        let rows: Vec<String> =
                            rows.iter().map(|row| self.pen.spoken(row)).collect();
                        out.push_str(&rows.join(", "));
                    }
                    Part::Table(table) => {
                        let (names, rows) = self.cells(table);
                        for (k, name) in names.iter().enumerate() {
                            out.extend([name.as_str(), ": "]);
                            for (head, row) in START_CHANGE_END.iter().zip(&rows) {
                                out.extend([head, " ", row[k].as_str(), ", "]);
                            }
                        }
                        out.push_str("in millimoles");
                    }
                    Part::Origins(_) => continue,
                }
                out.push('\n');
            }
        }
        out
    }
}
