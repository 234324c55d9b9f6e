//! Conditions: yes or no, one of several values, or a quantity cut into bands.

use super::forms;
use super::located::Located;
use crate::authoring::scalar::quantity;
use crate::authoring::shape::tree as shape;
use crate::base::dimension::Dimension;
use crate::base::normal::{NORMAL_95, normal_below};
use crate::base::unit::Unit;
use crate::diagnosis::fact::Fact;
use crate::diagnosis::model::{BandScale, Question};
use crate::source::codes::tree as code;
use crate::source::place::Place;
use crate::source::problem::Problem;
use crate::tree::fault_tree::Condition;

/// How far a sum of chances may be off 1.
pub const SUM_SLACK: f64 = 1e-6;

/// Lowers one condition. Adds what is wrong with it and returns what could be understood.
pub fn lower(
    entry: &Located<'_>,
    shape: &shape::Condition,
    problems: &mut Vec<Problem>,
) -> (Condition, Question) {
    let mut question = Question {
        ask: shape.ask.clone(),
        quantity: None,
        fact: None,
    };
    let forms = forms::standing(&[
        ("chance", shape.chance.is_some()),
        ("one-of", shape.one_of.is_some()),
        ("quantity", shape.quantity.is_some()),
    ]);
    let values = match forms[..] {
        ["chance"] => {
            let yes = shape.chance.unwrap_or_default();
            vec![("yes".to_owned(), yes), ("no".to_owned(), 1.0 - yes)]
        }
        ["one-of"] => one_of(entry, problems),
        ["quantity"] if shape.in_plant.is_some() => fact(entry, shape, &mut question, problems),
        ["quantity"] => match bands(entry, shape, problems) {
            Some((values, scale)) => {
                question.quantity = Some(scale);
                values
            }
            None => Vec::new(),
        },
        _ => {
            let found = forms::found(&forms, "no chance, no one-of and no quantity");
            let message = format!("condition `{}` has {found}", entry.key);
            let problem = Problem::new(code::CONDITION_FORM, entry.place(), message);
            problems.push(problem.hint("write exactly one of `chance`, `one-of` and `quantity`"));
            Vec::new()
        }
    };
    let id = entry.key.to_owned();
    (Condition { id, values }, question)
}

/// The one value of a fact that the plant takes as it is typed.
const TYPED: &str = "typed";

/// A fact: its unit must measure what the plant takes, and bands would do nothing.
fn fact(
    entry: &Located<'_>,
    shape: &shape::Condition,
    question: &mut Question,
    problems: &mut Vec<Problem>,
) -> Vec<(String, f64)> {
    let name = shape.in_plant.as_deref().unwrap_or_default();
    let unit = shape.quantity.as_deref().and_then(Unit::find);
    let (Some(fact), Some(unit)) = (Fact::find(name), unit) else {
        return Vec::new();
    };
    let row = fact.row();
    let mut refuse = |key: &str, message: String, hint: &str| {
        let problem = Problem::new(code::FACT, entry.place_of(key), message);
        problems.push(problem.hint(hint));
    };
    if unit.dimension != row.dimension {
        let (is, wanted) = (unit.dimension.word(), row.dimension.word());
        let message = format!("`{name}` is {wanted}, and `{}` measures {is}", unit.symbol);
        let hint = format!(
            "write one of {}",
            Unit::symbols_of(row.dimension).join(", ")
        );
        refuse("quantity", message, &hint);
    }
    for key in ["bands", "usual"] {
        if entry.field(key).is_some() {
            let message = format!("`{key}` does nothing where the plant takes the number");
            refuse(key, message, "leave it out, or leave out `in-plant`");
        }
    }
    question.fact = Some(fact);
    question.quantity = Some(BandScale {
        unit,
        bands: Vec::new(),
    });
    vec![(TYPED.to_owned(), 1.0)]
}

/// Facts that are asked for a second time.
pub fn twice(entries: &[Located<'_>], questions: &[Question]) -> Vec<Problem> {
    let mut problems = Vec::new();
    for (at, (entry, question)) in entries.iter().zip(questions).enumerate() {
        let same = |other: &Question| other.fact.is_some() && other.fact == question.fact;
        if let Some(first) = questions[..at].iter().position(same) {
            let message = format!(
                "`{}` asks for the fact of `{}`",
                entry.key, entries[first].key
            );
            let problem = Problem::new(code::FACT, entry.place_of("in-plant"), message)
                .second(entries[first].place_of("in-plant"), "this one")
                .hint("ask for it once");
            problems.push(problem);
        }
    }
    problems
}

fn one_of(entry: &Located<'_>, problems: &mut Vec<Problem>) -> Vec<(String, f64)> {
    let Some(field) = entry.field("one-of") else {
        return Vec::new();
    };
    let mut values: Vec<(String, f64)> = Vec::new();
    for value in Located::entries(entry.file, field.node) {
        let chance = value.node.text().and_then(|text| text.parse().ok());
        values.push((value.key.to_owned(), chance.unwrap_or_default()));
    }
    let sum: f64 = values.iter().map(|value| value.1).sum();
    if (sum - 1.0).abs() > SUM_SLACK || values.len() < 2 {
        let message = format!("the values of `{}` add up to {}", entry.key, shown(sum));
        let problem = Problem::new(code::ONE_OF_SUM, field.place(), message);
        problems.push(problem.hint("make two or more values add up to 1"));
    }
    // Rounding in the text is spread over all values, so that the rest of the sums stay exact.
    for value in &mut values {
        value.1 /= sum.max(f64::MIN_POSITIVE);
    }
    values
}

/// A sum with at most nine decimals, without the noise of binary fractions.
pub fn shown(sum: f64) -> String {
    let text = format!("{sum:.9}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// One band while it is read.
struct Band<'a> {
    entry: Located<'a>,
    low: f64,
    high: f64,
}

fn bands(
    entry: &Located<'_>,
    shape: &shape::Condition,
    problems: &mut Vec<Problem>,
) -> Option<(Vec<(String, f64)>, BandScale)> {
    let unit = shape.quantity.as_deref().and_then(Unit::find)?;
    let before = problems.len();
    let usual = usual(entry, shape, unit.dimension, problems);
    let mut read = Vec::new();
    let field = entry.field("bands");
    for band in field
        .iter()
        .flat_map(|f| Located::entries(entry.file, f.node))
    {
        match band_ends(&band, unit.dimension) {
            Ok((low, high)) => read.push(Band {
                entry: band,
                low,
                high,
            }),
            Err(problem) => problems.push(problem),
        }
    }
    if read.is_empty() && problems.len() == before {
        let message = format!("`{}` has no bands", entry.key);
        let problem = Problem::new(code::BANDS, entry.place_of("bands"), message);
        problems.push(problem.hint("name at least one: {overnight: above 6 h}"));
    }
    overlaps(&read, problems);
    let (low, high) = usual?;
    if problems.len() > before {
        return None;
    }
    let law = Law::through(low, high, unit.dimension);
    let mut values = Vec::new();
    let mut ends = Vec::new();
    for band in &read {
        let chance = law.below(band.high) - law.below(band.low);
        values.push((band.entry.key.to_owned(), chance.max(0.0)));
        ends.push(Some((band.low, band.high)));
    }
    let rest: f64 = 1.0 - values.iter().map(|value| value.1).sum::<f64>();
    let covered = read.iter().map(|b| b.low).fold(f64::INFINITY, f64::min) == f64::NEG_INFINITY
        && rest < 1e-12;
    if !covered {
        values.push(("between".to_owned(), rest.max(0.0)));
        ends.push(None);
    }
    Some((values, BandScale { unit, bands: ends }))
}

fn usual(
    entry: &Located<'_>,
    shape: &shape::Condition,
    dimension: Dimension,
    problems: &mut Vec<Problem>,
) -> Option<(f64, f64)> {
    let mut ends = Vec::new();
    for (item, text) in shape.usual.iter().enumerate() {
        match quantity(text, dimension, entry.place_of_item("usual", item)) {
            Ok(value) => ends.push(value.si()),
            Err(problem) => {
                problems.push(problem);
                return None;
            }
        }
    }
    match ends[..] {
        [low, high] if low < high && (low > 0.0 || normal(dimension)) => Some((low, high)),
        _ => {
            let message = "`usual` is not a range from a smaller to a larger value";
            let problem = Problem::new(code::USUAL, entry.place_of("usual"), message);
            problems.push(problem.hint("write two values with their units: [1 h, 14 h]"));
            None
        }
    }
}

/// `up to 0.3 h`, `above 6 h`, `0.3 h to 6 h` as SI ends.
fn band_ends(band: &Located<'_>, dimension: Dimension) -> Result<(f64, f64), Problem> {
    let text = band.node.text().unwrap_or_default();
    ends_of(text, dimension, &band.value_place())
}

/// The same of a text that stands at a place.
pub fn ends_of(text: &str, dimension: Dimension, place: &Place) -> Result<(f64, f64), Problem> {
    let read = |part: &str| {
        quantity(part, dimension, place.clone()).map(crate::base::quantity::Quantity::si)
    };
    if let Some(part) = text.strip_prefix("up to ") {
        return Ok((f64::NEG_INFINITY, read(part)?));
    }
    if let Some(part) = text.strip_prefix("above ") {
        return Ok((read(part)?, f64::INFINITY));
    }
    let wrong = |message: String| {
        Problem::new(code::BANDS, place.clone(), message)
            .hint("write `up to 0.3 h`, `above 6 h` or `0.3 h to 6 h`")
    };
    let (low, high) = text
        .split_once(" to ")
        .ok_or_else(|| wrong(format!("`{text}` is not a band")))?;
    let (low, high) = (read(low)?, read(high)?);
    if low < high {
        Ok((low, high))
    } else {
        Err(wrong(format!("the band `{text}` is empty")))
    }
}

fn overlaps(bands: &[Band<'_>], problems: &mut Vec<Problem>) {
    for (at, band) in bands.iter().enumerate() {
        let earlier = bands[..at]
            .iter()
            .find(|other| other.low < band.high && band.low < other.high);
        if let Some(earlier) = earlier {
            let message = format!("band `{}` overlaps `{}`", band.entry.key, earlier.entry.key);
            let problem = Problem::new(code::BANDS, band.entry.value_place(), message)
                .second(earlier.entry.value_place(), "this one")
                .hint("a value may fall into one band only");
            problems.push(problem);
        }
    }
}

/// Temperature and slope spread evenly to both sides; times, pressures and the like do not.
fn normal(dimension: Dimension) -> bool {
    matches!(dimension, Dimension::Temperature | Dimension::Slope)
}

/// The spread of a quantity: normal, or log-normal, through two points.
struct Law {
    logarithmic: bool,
    middle: f64,
    spread: f64,
}

impl Law {
    /// One in twenty below `low`, one in twenty above `high`.
    fn through(low: f64, high: f64, dimension: Dimension) -> Self {
        let logarithmic = !normal(dimension);
        let (low, high) = if logarithmic {
            (low.ln(), high.ln())
        } else {
            (low, high)
        };
        Self {
            logarithmic,
            middle: f64::midpoint(low, high),
            spread: (high - low) / (2.0 * NORMAL_95),
        }
    }

    /// Chance of a value below `si`.
    fn below(&self, si: f64) -> f64 {
        let x = match (self.logarithmic, si > 0.0) {
            (true, true) => si.ln(),
            (true, false) => return 0.0,
            (false, _) => si,
        };
        normal_below((x - self.middle) / self.spread)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_log_normal_law_leaves_one_in_twenty_outside_each_end() {
        let law = Law::through(3600.0, 14.0 * 3600.0, Dimension::Time);
        assert!((law.below(3600.0) - 0.05).abs() < 1e-12);
        assert!((law.below(14.0 * 3600.0) - 0.95).abs() < 1e-12);
        assert!(law.below(0.0).abs() < 1e-300);
    }
}
