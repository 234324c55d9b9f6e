//! Where a tree and the plant of its aircraft do not say the same.

use crate::source::code::codes;

codes! {
    DOES_NOT_MOVE "G001" Warning "a cause does not move the aircraft in the plant"
        "The fault of this cause was put into the plant, and on 1 % and on 2 % the aircraft stood as long as a healthy one at the worst in its limits. Either it is a bystander, or the figures of the fault are too mild, or the plant lacks what would make it move.";
    CONTRADICTS "G002" Warning "an answer line contradicts the plant"
        "With this fault alone in the plant the check reads what gives one answer, and the line that decides for it makes another answer the likeliest. One of the two is wrong.";
    NO_ANSWER "G003" Warning "a reading of the plant gives no answer"
        "With this fault alone the check reads something that no answer under `shows` covers.";
    NOT_TOLD_APART "G004" Warning "no check tells these causes apart"
        "Each alone, they give every check the same chances of its answers, within a hundredth of a bit. A job that comes to one of them can only stop at all of them together.";
    MOVES_FLUID "G005" Warning "a check that moves fluid takes nothing away"
        "The reading is taken by moving lever, pedals or pumps, which costs stored pressure. Say so under `takes-away`, or the evidence is gone before anybody was asked.";
    NOT_IN_TREE "G006" Warning "a fault that moves the aircraft stands in no tree"
        "With this fault in the plant the aircraft moves sooner than a healthy one at the worst in its limits, and no cause of the tree names it. A job with this fault ends at a wrong part, or at none.";
}
