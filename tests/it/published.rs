//! Published tables: reading them, and holding computed values against them.

use std::collections::{BTreeMap, HashMap};

/// One row of a table in `tests/data`, by column name.
pub struct Row(HashMap<String, String>);

/// Every row of `tests/data/<name>.csv`.
pub fn rows(name: &str) -> Vec<Row> {
    let path = format!("{}/tests/data/{name}.csv", env!("CARGO_MANIFEST_DIR"));
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    let rows: Vec<Row> = reader.deserialize().map(|row| Row(row.unwrap())).collect();
    assert!(!rows.is_empty(), "{path} is empty");
    rows
}

impl Row {
    pub fn text(&self, column: &str) -> &str {
        self.0
            .get(column)
            .unwrap_or_else(|| panic!("no column {column}"))
            .trim()
    }

    pub fn number(&self, column: &str) -> f64 {
        self.text(column)
            .parse()
            .unwrap_or_else(|e| panic!("{column}: {e}"))
    }

    /// A number where the table has one.
    pub fn maybe_number(&self, column: &str) -> Option<f64> {
        (!self.text(column).is_empty()).then(|| self.number(column))
    }

    /// A check of `computed` against `published`, with this row's source and status.
    pub fn check(&self, place: String, computed: f64, published: f64) -> Check {
        Check {
            place,
            computed,
            published,
            source: self.text("source").into(),
            status: self.text("status").into(),
            known_failure: None,
        }
    }
}

/// Size of one unit in the last printed digit: 0.01 for "4.74", 1e-6 for "7.56e-4".
pub fn last_digit(text: &str) -> f64 {
    let (mantissa, exponent) = text.split_once('e').unwrap_or((text, "0"));
    let decimals = mantissa
        .split_once('.')
        .map_or(0, |(_, digits)| digits.len()) as f64;
    libm::exp10(exponent.parse::<f64>().unwrap() - decimals)
}

/// One computed value beside its published one.
pub struct Check {
    pub place: String,
    pub computed: f64,
    pub published: f64,
    pub source: String,
    pub status: String,
    /// Why the row is known to disagree. Such a row must miss the tolerance: once it
    /// meets it, the reason is out of date and the test says so.
    pub known_failure: Option<&'static str>,
}

impl Check {
    /// A check that no published source stands behind; `status` says what does.
    pub fn without_source(place: &str, computed: f64, expected: f64, status: &str) -> Self {
        Self {
            place: place.into(),
            computed,
            published: expected,
            source: "no source".into(),
            status: status.into(),
            known_failure: None,
        }
    }

    pub fn known_failure(self, reason: Option<&'static str>) -> Self {
        Self {
            known_failure: reason,
            ..self
        }
    }

    fn deviation(&self) -> f64 {
        self.computed - self.published
    }

    fn line(&self) -> String {
        format!(
            "{}: {:+.4} (computed {:.6}, published {:.6}) source: {} [{}]",
            self.place,
            self.deviation(),
            self.computed,
            self.published,
            self.source,
            self.status
        )
    }
}

/// Prints the sources and the largest deviation; fails with every row that misses the
/// tolerance, on either side, and every known failure that no longer does.
pub fn check_table(title: &str, tolerance: f64, checks: &[Check]) {
    assert!(!checks.is_empty(), "{title}: nothing to check");
    // NaN is not within anything.
    let within = |check: &&Check| check.deviation().abs() <= tolerance;
    let (known, asked): (Vec<&Check>, Vec<&Check>) = checks
        .iter()
        .partition(|check| check.known_failure.is_some());
    let size = |check: &&&Check| check.deviation().abs();
    println!("\n{title}: {} rows, asked {tolerance}", checks.len());
    if let Some(worst) = asked.iter().max_by(|a, b| size(a).total_cmp(&size(b))) {
        println!("  largest {:+.4} at {}", worst.deviation(), worst.place);
    }
    let mut sources: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for check in checks {
        sources
            .entry(&check.source)
            .or_default()
            .push(&check.status);
    }
    for (source, statuses) in sources {
        let remembered = statuses
            .iter()
            .filter(|status| status.contains("from memory"))
            .count();
        let all = statuses.len();
        match remembered {
            0 => println!("  source: {source} ({all} rows, {})", statuses[0]),
            _ => println!("  source: {source} ({remembered} of {all} rows in part from memory)"),
        }
    }
    for check in &known {
        println!(
            "  known to disagree, {:+.4} at {}: {}",
            check.deviation(),
            check.place,
            check.known_failure.unwrap_or_default()
        );
    }
    let missed = asked
        .iter()
        .filter(|c| !within(c))
        .map(|c| format!("misses {}", c.line()));
    let healed = known
        .iter()
        .filter(|c| within(c))
        .map(|c| format!("now agrees, remove its known_failure: {}", c.line()));
    let wrong: Vec<String> = missed.chain(healed).collect();
    assert!(
        wrong.is_empty(),
        "{title}, tolerance {tolerance}:\n{}",
        wrong.join("\n")
    );
}
