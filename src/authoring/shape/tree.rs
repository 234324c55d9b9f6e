//! Shapes of conditions, events, gates and cases.

use std::collections::BTreeMap;

use serde::Deserialize;
use serde_yaml::Value;

use super::OneOrMore;

/// A condition.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Condition {
    pub ask: String,
    pub chance: Option<f64>,
    pub one_of: Option<serde_yaml::Mapping>,
    pub quantity: Option<String>,
    #[serde(default)]
    pub usual: Vec<String>,
    pub bands: Option<serde_yaml::Mapping>,
    pub in_plant: Option<String>,
    pub source: Option<String>,
    pub note: Option<String>,
}

/// A basic event.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Event {
    pub title: Option<String>,
    pub fault: Option<String>,
    pub rate: Option<String>,
    pub chance: Option<f64>,
    pub seen: Option<Seen>,
    pub exposure: Option<String>,
    pub given: Option<String>,
    pub moves: Option<Value>,
    pub confirm: Option<Confirm>,
    pub remedy: Option<Value>,
    pub looks_like: Option<String>,
    #[serde(default)]
    pub cautions: Vec<String>,
    pub reference: Option<String>,
    pub source: Option<String>,
    pub note: Option<String>,
}

/// A count of reports.
#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Seen {
    pub count: u32,
    pub of: u32,
}

/// A confirming check.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Confirm {
    pub check: String,
    pub answer: String,
}

/// A remedy that is work.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Remedy {
    #[serde(rename = "do")]
    pub instruction: String,
    pub minutes: Option<f64>,
    pub people: Option<u32>,
    #[serde(default)]
    pub puts_back: Vec<String>,
}

/// A gate.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Gate {
    pub title: Option<String>,
    pub any: Option<Vec<String>>,
    pub all: Option<Vec<String>>,
    pub at_least: Option<usize>,
    pub of: Option<Vec<String>>,
    pub not: Option<String>,
    pub either: Option<Vec<String>>,
    pub note: Option<String>,
}

/// A worked case.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Case {
    pub name: String,
    #[serde(default)]
    pub given: BTreeMap<String, String>,
    #[serde(default)]
    pub answers: BTreeMap<String, String>,
    pub expect: Expect,
    pub source: Option<String>,
}

/// What a case must come to.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Expect {
    pub first: OneOrMore<String>,
}

/// The rule of a tree.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Rule {
    pub share: f64,
    pub confirm: Option<String>,
}
