//! Shapes of actions, accesses and fluids. Parts and faults are read key by key, by their kind.

use std::collections::BTreeMap;

use serde::Deserialize;

/// An action.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Action {
    pub sets: BTreeMap<String, String>,
    #[serde(rename = "do")]
    pub instruction: String,
    #[serde(default)]
    pub needs: BTreeMap<String, Vec<String>>,
    pub minutes: f64,
    pub people: Option<u32>,
    #[serde(default)]
    pub locks: Vec<String>,
    #[serde(default)]
    pub takes_away: Vec<String>,
    #[serde(default)]
    pub cautions: Vec<String>,
    pub reference: Option<String>,
}

/// An access.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
#[expect(
    missing_docs,
    reason = "the keys are explained in the table of the entry"
)]
pub struct Access {
    #[serde(rename = "do")]
    pub instruction: String,
    pub minutes: f64,
    pub people: Option<u32>,
    #[serde(default)]
    pub locks: Vec<String>,
    #[serde(default)]
    pub cautions: Vec<String>,
    pub reference: Option<String>,
}
