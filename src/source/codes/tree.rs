//! Problems of fault trees: nodes, gates, events, conditions, scale.

use crate::source::code::codes;

codes! {
    UNKNOWN_NODE "T001" Error "a node is named that is not there"
        "Gates, answer lines, `given` and `top` name events, gates, yes/no conditions, or a value of a condition as `condition=value`. Every name must be defined in the tree or in a file it takes in.";
    CYCLE "T002" Error "a gate is its own input"
        "Following the inputs downwards leads back to the gate. The path is given. A fault tree has to end in basic events and conditions.";
    NO_USE "T003" Error "an event is neither cause nor bystander"
        "It does not lie below the top, so it cannot be the answer, and no answer line names it, so it colours no check. Put it into a gate, name it in a line, or take it out.";
    GATE_OPERATOR "T004" Error "a gate needs exactly one operator"
        "A gate says exactly one of `any`, `all`, `at-least` with `of`, `not`, `either`.";
    EVENT_CHANCE "T005" Error "an event needs exactly one chance"
        "An event says exactly one of `fault` (rate and title from the aircraft), `rate`, `chance` (per parking) or `seen` (share of counted reports).";
    GATE_INPUTS "T006" Error "the inputs do not fit the gate"
        "`any` and `all` need at least one input, `either` exactly two, and `at-least` a count from 1 to the number of inputs under `of`. No input may stand twice.";
    VALUE_NEEDED "T007" Error "a condition is named without, or with a wrong, value"
        "A value of a one-of or of a band is written `condition=value`. The bare name is for yes/no conditions only; their no is a `not` gate.";
    NAME_TAKEN "T008" Error "a name is used for two things"
        "Conditions, events, gates and checks of a tree and of the files it takes in share one set of names, so that a name in a report means one thing.";
    CONDITION_FORM "T009" Error "a condition needs exactly one form"
        "A condition says exactly one of `chance` (yes or no), `one-of` (named values) or `quantity` with `usual` and `bands`.";
    BIG_CHANCE "T010" Error "a chance is too big for a cause in a tree with counted shares"
        "In a tree with `seen`, a cause with a chance of 0.05 or more per parking would crowd out the counted shares. Big chances belong to conditions, which a small event then follows.";
    SHARES "T011" Error "the counted shares do not add up"
        "`of` must be above 0, `count` at most `of`, and the shares of one tree must sum to less than 1: the rest belongs to causes with rates.";
    PER_PARKING "T012" Error "the chance of a report per parking is missing, or typed for nothing"
        "It is worked out from the causes that have rates. It is typed as `per-parking` only where no part can cause the report at all.";
    UNLISTED "T013" Error "the unlisted share is out of range"
        "`unlisted` is at least 0 and less than 1.";
    UNKNOWN_FAULT "T014" Error "the aircraft does not know this fault"
        "`fault` names a role or a part and one of its faults: `park-valve/jammed-open`. Where the aircraft has no such part at all, the event is dropped and listed; a part without this fault is a mistake.";
    ROLE "T015" Error "a role does not fit"
        "`needs-parts` names roles with the kind of part each takes, and `bind` of the aircraft says which part plays a role. The kinds must agree.";
    NEVER_TRUE "T016" Error "the top can never be true"
        "With every chance as stated, the probability of the top is 0. Look for chances of 0, for dropped parts, and for gates that exclude each other.";
    SHARE_OFF "T017" Warning "a counted share comes out differently"
        "To first order the report alone gives a counted cause its share of the reports, less the unlisted share. The exact share is off by more than a fifth, because its node also takes other ways to be true.";
    LEADS_TOO_FAR "T018" Warning "a cause stands above 40 of 100 before any check"
        "A tree that has made up its mind before the first question teaches people to stop looking. Look at the chance again, or move part of it to a condition.";
    GIVEN "T019" Error "the node an event acts behind does not fit"
        "A counted event that acts behind a node has its chance divided by the chance of that node. The node must be possible, and the chance must stay below 0.05 per parking.";
    EXPOSURE "T020" Error "an exposure is missing"
        "An event with `fault` or `rate` needs to know how long the fault could have been there unseen. Give `exposure` in the event or for the whole tree.";
    BANDS "T021" Error "the bands of a quantity do not fit"
        "A band is written `up to 0.3 h`, `above 6 h` or `0.3 h to 6 h`, low end included. Bands may not overlap; what no band covers is called `between`.";
    USUAL "T022" Error "the usual range of a quantity does not fit"
        "`usual` holds two values with units of the quantity: one in twenty lies below the first, one in twenty above the second, so the first is smaller. Times and the like are above 0.";
    NO_CAUSE "T023" Error "the report can come true with no cause present"
        "Conditions alone make the top true, so there would be nothing to answer. Give that path a cause of its own, such as `set with nothing feeding it`, that the condition switches.";
    ONE_OF_SUM "T024" Error "the values of a condition do not add up to 1"
        "The chances under `one-of` share out all cases, so they add up to 1, and there are at least two.";
    USE "T025" Error "a file taken in cannot be used"
        "`use` names tree files, with paths relative to the tree that names them. A file may not take itself in, by whatever way round.";
    OVER_BUDGET "T026" Error "the tree is too large to be ranked exactly"
        "The product of the checks passed its budget of states. Look for gates that many checks name without need, and for events that everything shares.";
    MOVES "T027" Error "the time to movement does not fit"
        "`moves` is `at-once`, `as-designed` (when a healthy aircraft would), or a list of two times of which the first is smaller: `[0.1 h, 8 h]`.";
    AIRCRAFT "T028" Error "the aircraft that a file names cannot be used"
        "`aircraft` names the id of an embedded aircraft, or a path relative to the file that names it. The aircraft has to be free of errors.";
    FACT "T029" Error "a fact of the parking does not fit"
        "A condition with `in-plant` hands its number to the plant: time-to-movement, slope, wind, charge or temperature. Its unit measures that, it has no `usual` and no `bands`, and no fact is asked for twice.";
    NO_TIME "T030" Warning "a cause says nothing of when it moves the aircraft"
        "The tree asks when it moved. A cause that is a fault takes its times from the plant; any other says `moves`, or counts as one that moves it at any time.";
}
