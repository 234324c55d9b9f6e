//! A reading beside what the plant would read, in words.

use super::rank_text::share_words;
use crate::base::text::decimal;
use crate::diagnosis::model::Model;
use crate::diagnosis::predicted::{Compared, Predicted};

/// `a healthy aircraft 186.5 bar, Park valve jammed open 74.0 bar`.
pub fn predicted_words(model: &Model, predicted: &[Predicted]) -> String {
    let one = |one: &Predicted| {
        format!(
            "{} {} {}",
            name(model, one),
            decimal(one.number, 1),
            one.unit
        )
    };
    let all: Vec<String> = predicted.iter().map(one).collect();
    all.join(", ")
}

/// The sum of a reading: what each would read, what was read, what it fits.
pub fn compared_words(model: &Model, predicted: &[Predicted], compared: &Compared) -> String {
    let all = predicted_words(model, predicted);
    let unit = predicted.first().map_or("", |first| first.unit);
    let share = share_words(compared.healthy);
    let fits = name(model, &predicted[compared.best]);
    format!(
        "By the plant: {all}. Read {} {unit}: fits {fits}; {share} of 100 healthy.",
        decimal(compared.read, 1)
    )
}

fn name<'a>(model: &'a Model, one: &Predicted) -> &'a str {
    one.event.map_or("a healthy aircraft", |event| {
        model.causes[event].title.as_str()
    })
}
