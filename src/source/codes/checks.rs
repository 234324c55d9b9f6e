//! Problems of checks.

use crate::source::code::codes;

codes! {
    UNKNOWN_KIND "C001" Error "the kind of part is not known"
        "Kinds are a fixed list, because each has its physics written for it.";
}
