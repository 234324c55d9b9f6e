//! The types that documents are read into, entry by entry, through `serde_yaml`'s interface.
//!
//! Shapes carry no places; whoever lowers an entry holds the value tree of the survey beside it.

pub mod aircraft;
pub mod check;
pub mod tree;

use serde::de::DeserializeOwned;
use serde_yaml::{Mapping, Value};

use super::yaml::{Content, Node};
use crate::base::quantity::plain_decimal;

/// Reads one entry into its shape.
pub fn read<T: DeserializeOwned>(node: &Node) -> Result<T, serde_yaml::Error> {
    serde_yaml::from_value(value(node))
}

/// The survey's value as a `serde_yaml` value, so that the text is parsed once and places agree.
fn value(node: &Node) -> Value {
    match &node.content {
        Content::Scalar { text, plain } => scalar(text, *plain),
        Content::List(items) => Value::Sequence(items.iter().map(value).collect()),
        Content::Map(entries) => {
            let pairs = entries
                .iter()
                .map(|entry| (Value::String(entry.key.clone()), value(&entry.value)));
            Value::Mapping(pairs.collect::<Mapping>())
        }
    }
}

/// Plain decimals are numbers and `true` and `false` are flags; everything else is a text.
fn scalar(text: &str, plain: bool) -> Value {
    if !plain {
        return Value::String(text.to_owned());
    }
    match text {
        "" | "~" | "null" => Value::Null,
        "true" => Value::Bool(true),
        "false" => Value::Bool(false),
        _ => match (text.parse::<u64>(), plain_decimal(text)) {
            (Ok(whole), _) => Value::Number(whole.into()),
            (_, Some(number)) => Value::Number(number.into()),
            _ => Value::String(text.to_owned()),
        },
    }
}

/// One value or a list of them.
#[derive(Debug, Clone)]
pub struct OneOrMore<T>(pub Vec<T>);

impl<T> Default for OneOrMore<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

// A visitor instead of `untagged`, which would lose the reason when neither form fits.
impl<'de, T: DeserializeOwned> serde::Deserialize<'de> for OneOrMore<T> {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let value = Value::deserialize(deserializer)?;
        let items = match value {
            Value::Sequence(items) => items,
            one => vec![one],
        };
        let read = |item| serde_yaml::from_value(item).map_err(serde::de::Error::custom);
        items
            .into_iter()
            .map(read)
            .collect::<Result<_, _>>()
            .map(Self)
    }
}
