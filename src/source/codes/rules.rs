//! What a tree may say and had better not: the rules of `authoring/rules`.

use crate::source::code::codes;

codes! {
    NEVER_TRUE "L001" Warning "a gate can never be true"
        "Its inputs exclude each other, whatever happens: two values of one condition under `all`, or a node beside its contrary. Everything that rests on it is dead.";
    ALWAYS_TRUE "L002" Warning "a gate is true whatever happens"
        "A node and its contrary stand under `any`, or all values of a condition do. Such a gate says nothing, and what stands above it may say less than it seems to.";
    IDLE_GATE "L003" Warning "a gate leads nowhere"
        "It is not below the top, no answer line names it and no event acts behind it. Often a line or a gate that should name it was changed.";
    IDLE_CONDITION "L004" Warning "a condition changes nothing"
        "People are asked for it, and no gate and no line names it. Asking costs time and trust.";
    SAYS_NOTHING "L005" Warning "a check answers alike whatever happened"
        "All its lines give the same chances, so no answer moves any cause, and it is never proposed.";
    HIDDEN_LINE "L006" Warning "an answer line never decides"
        "The first line whose nodes hold decides. Every case in which this one holds is taken by a line above it, or its nodes exclude each other. The usual reason is a gate above one of its inputs: put the special before the general.";
    NEVER_LOST "L007" Warning "a check needs evidence that nothing takes away"
        "`needs-evidence` makes a check come too late once the evidence is gone. No check, action or access of the aircraft says that it takes this evidence away, so either that is missing there or it is not needed here.";
    CONFIRM_AGAINST "L008" Warning "a cause makes its own confirming answer unlikely"
        "With this cause alone, and conditions at their chances, the confirming answer comes less than every second time. Either the answer is the wrong one, or a line of the check decides before the one that is meant.";
    SURE_CHANCE "L009" Warning "a chance is 0 or 1"
        "What is never or always so needs no event and no value. A chance of 0 is often a figure that was to be filled in later; an answer that speaks for it cannot raise it.";
    LONG_QUESTION "L010" Warning "a question has more than 20 words"
        "It is read at night, with gloves on, at 40 columns. One thing is asked in at most 20 words; how it is done stands under `how`.";
    LONG_ANSWER "L011" Warning "an answer has more than eight words"
        "An answer stands behind its key on one line of a small screen.";
    INSTRUCTIONS "L012" Warning "a sentence holds more than one instruction"
        "Under `how` and `do` one sentence holds one instruction, in at most 20 words, so that nobody loses his place when he is called away.";
    RELEASE_WORDS "L013" Warning "a text speaks of a release"
        "A tree finds causes. Whether an aircraft may fly is said by licensed staff on approved data, never in a text that people see while they look for a cause.";
    NO_LOCK "L014" Warning "a check can move the aircraft and asks for no chocks"
        "Checks that pressurise, release or open are locked until chocks are seen in. The lock stands in the check, in its access, or in an action on the way to the state it needs.";
    NO_CAUTION "L015" Warning "a check can hurt and carries no caution"
        "Checks that pressurise, release or open say under `cautions` what can hurt; they are shown beside the question.";
    HAZARD_ORDER "L016" Warning "a cause is confirmed by the more dangerous of two checks"
        "Another check with less hazard has a line of its own for this cause, with an answer that hardly anything else gives. Where the dangerous one is wanted all the same, the check says so under `hazard-why`.";
    NO_PUT_BACK "L017" Warning "a remedy puts nothing back"
        "Work on brakes is followed by bleeding, a leak check, a leak-down, an independent inspection or the like. `puts-back` lists what the job asks for before it can end as fixed.";
}
