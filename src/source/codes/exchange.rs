//! Problems of models in the exchange format.

use crate::source::code::codes;

codes! {
    NOT_XML "X001" Error "the text is not XML"
        "The reader could not follow the text past this place. The usual reasons: a tag that was never closed, closed under another name, or a bare `&` or `<` in a text.";
    ENTITY "X002" Error "a document type is not accepted"
        "Entities can stand for other texts, for files of the machine, or for each other until memory is full. A model needs none of them, so a document type is refused before it is read.";
    ELEMENT "X003" Error "an element cannot be taken in"
        "Gates take or, and, not, xor, atleast, nor and nand, within each other up to 64 deep, and every gate and event has a name of its own. Other elements of the exchange format have no counterpart in a tree of ours.";
    MISSING "X004" Error "an event or a gate is used and not defined"
        "Every gate and event that a formula names is defined in the same file, under `define-fault-tree` or `model-data`.";
    NUMBER "X005" Error "an event has no plain chance"
        "A basic event has a number from 0 to 1, a parameter that comes to one, or an exponential of a rate and a time; a house event is true or false. Spreads and other expressions are refused, since a tree of ours would carry them as if they were sure.";
    TOP "X006" Error "the model has no one top"
        "The format names no top event. The gate that no other gate uses is taken, so there must be exactly one.";
}
