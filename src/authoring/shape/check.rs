//! Shapes of checks and answer lines.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::OneOrMore;

/// A check.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Check {
    pub title: Option<String>,
    pub ask: String,
    pub how: Option<String>,
    pub asks: Option<String>,
    pub yes: Option<Vec<Line>>,
    pub answers: Option<Vec<String>>,
    pub lines: Option<Vec<Line>>,
    pub reads: Option<String>,
    #[serde(default)]
    pub shows: BTreeMap<String, Vec<String>>,
    pub minutes: Option<f64>,
    pub people: Option<u32>,
    pub access: Option<String>,
    #[serde(default)]
    pub tools: Vec<String>,
    #[serde(default)]
    pub needs: BTreeMap<String, Vec<String>>,
    #[serde(default)]
    pub locks: Vec<String>,
    #[serde(default)]
    pub needs_evidence: Vec<String>,
    #[serde(default)]
    pub takes_away: Vec<String>,
    pub hazard: Option<String>,
    pub hazard_why: Option<String>,
    #[serde(default)]
    pub repeatable: bool,
    #[serde(default)]
    pub cautions: Vec<String>,
    pub reference: Option<String>,
    pub limit: Option<String>,
    #[serde(default)]
    pub puts_back: Vec<String>,
    pub source: Option<String>,
    pub note: Option<String>,
}

/// An answer line.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Line {
    pub when: Option<OneOrMore<String>>,
    pub chance: Option<f64>,
    pub shares: Option<Vec<f64>>,
    pub otherwise: Option<OneOrMore<f64>>,
    pub source: Option<String>,
}
