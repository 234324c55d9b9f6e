//! `tree export TREE` and `tree import FILE`: the open exchange format, out and in.

use serde_json::json;

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::authoring::exchange::Exchanged;
use crate::authoring::exchange::export::export as exported;
use crate::authoring::exchange::import::import as imported;
use crate::cli::args::{ExportArguments, ImportArguments};
use crate::cli::{exit, output};

/// Writes a tree in the exchange format.
pub fn export(arguments: &ExportArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.of.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    hand_over(&exported(&model), arguments.of.json)
}

/// Takes a model in the exchange format over.
pub fn import(arguments: &ImportArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    match imported(&mut desk, &arguments.file) {
        Some(found) => hand_over(&found, arguments.json),
        None => Ok(complain_of(&mut desk)),
    }
}

fn hand_over(found: &Exchanged, as_json: bool) -> anyhow::Result<u8> {
    if as_json {
        output::print_json(&json!({"text": found.text, "not_carried": found.lost}))?;
        return Ok(exit::FINE);
    }
    output::print(&found.text)?;
    for words in &found.lost {
        output::complain(&format!("not carried: {words}\n"));
    }
    Ok(exit::FINE)
}
