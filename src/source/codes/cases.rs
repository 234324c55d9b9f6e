//! Worked cases that come out otherwise than they say.

use crate::source::code::codes;

codes! {
    CASE_DIFFERS "V001" Warning "a case ends at another cause than expected"
        "With the report, the conditions and the answers of the case in the order written, none of the causes under `expect` leads. The place is the first step from which on none of them leads; where none ever led, the step that set them back the most. Either the case is wrong, or a line, a chance or a gate is.";
    CASE_CONTRADICTS "V002" Warning "the answers of a case contradict each other"
        "At this step nothing that the tree knows can be true any more, so there is no ranking. Look for an answer line with a chance of 0 or 1, or for a condition that excludes the answer.";
}
