//! JSON Schema for editors, made from the same tables that drive the loader.

use serde_json::{Map, Value, json};

use super::document::DocumentKind;
use super::form::{Form, Need, Table};
use super::tables::aircraft::AIRCRAFT;
use super::tables::bench::BENCH;
use super::tables::tree::{SHARED, TREE};
use crate::base::unit::Unit;

/// A name, as JSON Schema writes it.
const NAME: &str = "^[a-z][a-z0-9]*(-[a-z0-9]+)*$";
/// A plain decimal number.
const NUMBER: &str = "[-+]?[0-9]*\\.?[0-9]+([eE][-+]?[0-9]+)?";

/// The schema of one kind of document.
///
/// A tree that others take in has the same first line as a whole one; it is known by having neither
/// name nor report nor top.
pub fn schema(kind: DocumentKind) -> Value {
    let head: Vec<Value> = ["id", "title", "report", "top"]
        .iter()
        .map(|key| json!({"required": [key]}))
        .collect();
    let mut made = match kind {
        DocumentKind::Tree => json!({
            "if": {"anyOf": head},
            "then": entry(&TREE),
            "else": entry(&SHARED),
        }),
        DocumentKind::Aircraft => entry(&AIRCRAFT),
        DocumentKind::Bench => entry(&BENCH),
    };
    let title = format!("Stillwheel: {} {}", kind.word(), kind.version());
    if let Some(made) = made.as_object_mut() {
        let mut head = Map::new();
        head.insert(
            "$schema".to_owned(),
            json!("https://json-schema.org/draft/2020-12/schema"),
        );
        head.insert("title".to_owned(), json!(title));
        head.append(made);
        *made = head;
    }
    made
}

/// The text of a schema, as it is kept.
pub fn schema_text(kind: DocumentKind) -> String {
    format!("{:#}\n", schema(kind))
}

fn entry(table: &Table) -> Value {
    let mut properties = Map::new();
    for field in table.fields {
        let mut value = form(&field.form);
        if let Some(value) = value.as_object_mut() {
            value.insert("description".to_owned(), json!(field.doc));
        }
        properties.insert(field.key.to_owned(), value);
    }
    let needed: Vec<&str> = table
        .fields
        .iter()
        .filter(|field| field.need == Need::Must)
        .map(|field| field.key)
        .collect();
    json!({
        "type": "object",
        "properties": properties,
        "required": needed,
        "additionalProperties": table.open,
    })
}

fn form(form: &Form) -> Value {
    match form {
        Form::Text => json!({"type": "string", "minLength": 1}),
        Form::Name => json!({"type": "string", "pattern": NAME}),
        Form::Word(words) => json!({"enum": words()}),
        Form::Flag => json!({"type": "boolean"}),
        Form::Number => json!({"type": "number", "minimum": 0}),
        Form::Count => json!({"type": "integer", "minimum": 0}),
        Form::Probability => json!({"type": "number", "minimum": 0, "maximum": 1}),
        Form::Quantity(dimension) => {
            let units: Vec<String> = Unit::symbols_of(*dimension)
                .iter()
                .map(|symbol| literal(symbol))
                .collect();
            let pattern = format!("^{NUMBER} *({})$", units.join("|"));
            json!({"type": "string", "pattern": pattern})
        }
        Form::List(inner) => json!({"type": "array", "items": self::form(inner)}),
        Form::OneOrMore(inner) => {
            let one = self::form(inner);
            json!({"anyOf": [one, {"type": "array", "items": one, "minItems": 1}]})
        }
        Form::Map(inner) => json!({
            "type": "object",
            "propertyNames": {"pattern": NAME},
            "additionalProperties": self::form(inner),
        }),
        Form::WordOr(word, inner) => json!({"anyOf": [{"const": word}, self::form(inner)]}),
        Form::Entry(table) => entry(table),
        Form::Any => json!({}),
    }
}

/// A text as a pattern that means itself.
fn literal(text: &str) -> String {
    let mut pattern = String::new();
    for letter in text.chars() {
        if "\\^$.|?*+()[]{}/".contains(letter) {
            pattern.push('\\');
        }
        pattern.push(letter);
    }
    pattern
}
