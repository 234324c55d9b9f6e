//! Problems of numbers and units.

use crate::source::code::codes;

codes! {
    NO_UNIT "U001" Error "the number has no unit"
        "Every physical number carries its unit: `76 bar`, `1.3 mL/min`, `10 h`. Bare numbers are only counts, minutes of work and probabilities.";
    UNKNOWN_UNIT "U002" Error "the unit is not known"
        "Units are written as their symbols, and the case counts. Pressure is gauge unless it says `abs`.";
    WRONG_KIND "U003" Error "the unit measures something else"
        "A pressure does not fit where a flow is wanted. Look at the number as well as at the unit: a slip between two columns of a table often shows so.";
    OUT_OF_RANGE "U004" Error "the value is out of range"
        "The number is below or above what can be: a negative volume, a temperature below absolute zero, a time of nothing.";
    NOT_A_NUMBER "U005" Error "a number is wanted here"
        "The text does not start with a decimal number.";
    NOT_A_PROBABILITY "U006" Error "this is not a probability"
        "Probabilities are plain numbers from 0 to 1, both included. 13 of 100 is written 0.13.";
}
