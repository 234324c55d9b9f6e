//! Parts and their faults, read key by key from the table of their kind.

use super::located::Located;
use crate::authoring::scalar::{self, quantity};
use crate::authoring::tables::aircraft::{common_fault_keys, common_part_keys};
use crate::base::dimension::Dimension;
use crate::base::physical::Rate;
use crate::base::quantity::plain_decimal;
use crate::base::text::with_article;
use crate::plant::aircraft::{Fault, Parameter, Part};
use crate::plant::kind::{Kind, ParameterForm, ParameterSpec};
use crate::plant::kinds::KINDS;
use crate::source::codes::aircraft as code;
use crate::source::codes::document::{UNKNOWN_WORD, WRONG_FORM};
use crate::source::problem::Problem;

/// Lowers one part. `None` where its kind is not known.
pub fn lower(entry: &Located<'_>, problems: &mut Vec<Problem>) -> Option<Part> {
    let name = entry.field("kind")?.node.text()?;
    let Some(kind) = Kind::find(name) else {
        let known: Vec<&str> = KINDS.iter().map(|kind| kind.name).collect();
        let message = format!("there is no kind of part `{name}`");
        let problem = Problem::new(code::UNKNOWN_KIND, entry.place_of("kind"), message);
        problems.push(problem.suggest(name, &known));
        return None;
    };
    let common: Vec<&str> = common_part_keys().collect();
    let parameters = parameters(entry, kind, &common, problems);
    for spec in kind.parameters.iter().filter(|spec| spec.required) {
        if entry.field(spec.name).is_none() {
            let message = format!("part `{}` without `{}`", entry.key, spec.name);
            let problem = Problem::new(code::MISSING_PARAMETER, entry.place(), message);
            problems.push(problem.hint(format!("add `{}:`", spec.name)));
        }
    }
    let title = entry.field("title").and_then(|field| field.node.text());
    Some(Part {
        id: entry.key.to_owned(),
        kind,
        title: title.map_or_else(|| entry.key.replace('-', " "), str::to_owned),
        at: grid_place(entry),
        parameters,
        faults: faults(entry, kind, problems),
    })
}

fn grid_place(entry: &Located<'_>) -> Option<(u32, u32)> {
    let at = entry.field("at")?;
    let number = |item: usize| at.node.items().get(item)?.text()?.parse().ok();
    Some((number(0)?, number(1)?))
}

fn faults(entry: &Located<'_>, kind: &'static Kind, problems: &mut Vec<Problem>) -> Vec<Fault> {
    let common: Vec<&str> = common_fault_keys().collect();
    let mut found = Vec::new();
    let Some(field) = entry.field("faults") else {
        return found;
    };
    for fault in Located::entries(entry.file, field.node) {
        if !kind.faults.contains(&fault.key) {
            let message = format!("{} has no fault `{}`", with_article(kind.name), fault.key);
            let problem = Problem::new(code::UNKNOWN_FAULT_NAME, fault.place(), message);
            problems.push(problem.suggest(fault.key, kind.faults));
        }
        let text = |key: &str| fault.field(key).and_then(|field| field.node.text());
        let rate = text("rate").and_then(|text| {
            let rate = quantity(text, Dimension::Rate, fault.place_of("rate")).ok()?;
            Rate::new(rate.si())
        });
        let Some(rate) = rate.or_else(|| Rate::new(0.0)) else {
            continue;
        };
        found.push(Fault {
            id: fault.key.to_owned(),
            title: text("title").unwrap_or_default().to_owned(),
            rate,
            severity: text("severity").and_then(plain_decimal).unwrap_or(1.0),
            overrides: parameters(&fault, kind, &common, problems),
            source: text("source").map(str::to_owned),
        });
    }
    found
}

/// The parameters among the keys of an entry; other keys than `common` ones are refused.
fn parameters(
    entry: &Located<'_>,
    kind: &'static Kind,
    common: &[&str],
    problems: &mut Vec<Problem>,
) -> Vec<(&'static str, Parameter)> {
    let mut found = Vec::new();
    for field in Located::entries(entry.file, entry.node) {
        if common.contains(&field.key) || field.key == "<<" {
            continue;
        }
        let Some(spec) = kind.parameter(field.key) else {
            let mut known: Vec<&str> = kind.parameters.iter().map(|spec| spec.name).collect();
            known.extend(common);
            let message = format!(
                "{} has no parameter `{}`",
                with_article(kind.name),
                field.key
            );
            let problem = Problem::new(code::UNKNOWN_PARAMETER, field.place(), message);
            problems.push(problem.suggest(field.key, &known));
            continue;
        };
        match parameter(&field, spec) {
            Ok(value) => found.push((spec.name, value)),
            Err(problem) => problems.push(problem),
        }
    }
    found
}

fn parameter(field: &Located<'_>, spec: &ParameterSpec) -> Result<Parameter, Problem> {
    let Some(text) = field.node.text() else {
        let message = format!(
            "a single value is wanted here, and {} was found",
            field.node.word()
        );
        let problem = Problem::new(WRONG_FORM, field.place(), message);
        return Err(problem.hint("remove the brackets or the keys below it"));
    };
    let place = field.value_place();
    match &spec.form {
        ParameterForm::Quantity(dimension) => {
            quantity(text, *dimension, place).map(Parameter::Quantity)
        }
        ParameterForm::AtTemperature(dimension) => {
            let Some((value, temperature)) = text.split_once(" at ") else {
                // Units first: a slip there matters more than the missing temperature.
                quantity(text, *dimension, place.clone())?;
                let message = format!("`{text}` does not say at which temperature");
                let problem = Problem::new(WRONG_FORM, place, message);
                return Err(problem.hint(format!("write `{text} at 20 C`")));
            };
            let value = quantity(value, *dimension, place.clone())?;
            let temperature = quantity(temperature, Dimension::Temperature, place)?;
            Ok(Parameter::At(value, temperature))
        }
        ParameterForm::Number => {
            let form = crate::authoring::form::Form::Number;
            match scalar::check(text, true, &form, place) {
                Some(problem) => Err(problem),
                None => Ok(Parameter::Number(plain_decimal(text).unwrap_or_default())),
            }
        }
        ParameterForm::Word(words) if words.contains(&text) => Ok(Parameter::Word(text.to_owned())),
        ParameterForm::Word(words) => {
            let message = format!("`{text}` is not one of the words accepted here");
            Err(Problem::new(UNKNOWN_WORD, place, message).suggest(text, words))
        }
    }
}
