//! `tree draw TREE`: the tree with its gate symbols.

use super::rank::complain_of;
use crate::authoring::desk::Desk;
use crate::authoring::document;
use crate::cli::args::{DrawArguments, DrawFormat};
use crate::cli::{exit, output};
use crate::report::drawing::{graphviz, layout_json, svg};

/// Draws everything below the top.
pub fn run(arguments: &DrawArguments) -> anyhow::Result<u8> {
    let mut desk = Desk::default();
    let aircraft = arguments.of.aircraft.as_deref();
    let Some(model) = document::tree(&mut desk, &arguments.of.tree, aircraft) else {
        return Ok(complain_of(&mut desk));
    };
    if arguments.of.json {
        output::print_json(&layout_json(&model))?;
        return Ok(exit::FINE);
    }
    output::print(&match arguments.format {
        DrawFormat::Svg => svg(&model),
        DrawFormat::Graphviz => graphviz(&model),
    })?;
    Ok(exit::FINE)
}
