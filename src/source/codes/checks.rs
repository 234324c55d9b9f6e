//! Problems of checks, answer lines, confirming checks and cases, and what a release needs.

use crate::source::code::codes;

codes! {
    LINE_SUM "C001" Error "the shares of a line do not add up to 1"
        "Each line shares out all answers, so its shares add up to 1, within one part in a million.";
    LINE_SHARES "C002" Error "a line has too few or too many shares"
        "Each line has one share for each entry of `answers`, in that order.";
    LINE_FORM "C003" Error "an answer line is not complete"
        "A line is `{when: NODE, chance: P}` under `yes`, or `{when: NODE, shares: [..]}` under `lines`. The last line, and only the last, is `{otherwise: ..}`.";
    ANSWERS "C004" Error "the answers of a check do not fit"
        "A check has two to four answers, all different. `yes`, `no` and `cannot` are reserved: a check answered yes or no uses `yes:` instead.";
    YES_OR_LINES "C005" Error "a check needs either yes lines or answers with lines"
        "Yes/no is the usual form: `yes:`. Three or four answers need both `answers` and `lines`.";
    UNKNOWN_STATE "C006" Error "the aircraft has no such switch or position"
        "`needs` names switches of the aircraft under `states`, each with the positions that will do.";
    UNKNOWN_ACCESS "C007" Error "the aircraft has no such access"
        "`access` names an entry under `access` of the aircraft, or `none`.";
    CONFIRM "C008" Error "a confirming check does not fit"
        "`confirm` names a check of the tree and one of its answers.";
    CASE "C009" Error "a case names something that is not there"
        "A case names conditions with their values, checks with their answers (or `cannot`), and causes.";
    READS_ALONE "C010" Error "a check that takes a reading has no lines"
        "A reading alone gives no answer. Add `shows`, which says what readings give which answer: then the lines are worked out from the plant of the aircraft. Or write `lines` or `yes` by hand.";
    SHOWS "C011" Error "what a reading shows does not fit"
        "`shows` gives for each answer the readings of `reads` that lead to it: words as `readings` prints them, or stretches such as `up to 70 bar` of a number.";
    NOT_DERIVED "C012" Error "the lines of a check cannot be worked out"
        "A check with `reads` and `shows` and neither `yes` nor `lines` takes its lines from the plant of the aircraft: every fault is played when the tree is loaded, unless `tree derive --keep` has kept the result. That needs an aircraft that has the reading, in the state that the check needs.";
    NO_SOURCE "M001" Warning "a figure has no source"
        "Say where it comes from, or say `judgement` or `invented`. A source of the whole tree counts for every entry without one.";
    NO_CONFIRM "M002" Warning "a cause has no confirming check"
        "Without one nothing stands between a ranking and a serviceable part taken off.";
    NO_REMEDY "M003" Warning "a cause has no remedy"
        "Say what is done about it, or `remedy: none` where there is nothing to replace.";
    NO_REFERENCE "M004" Warning "no reference to approved data"
        "Say where the approved data stand, or `approved-data` where the user must look them up. Checks that pressurise, release or open need it, and so do causes with a remedy.";
}
