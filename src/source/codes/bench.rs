//! Problems of courses of the bench.

use crate::source::code::codes;

codes! {
    UNKNOWN_CONTROL "B001" Error "the bench has no such control"
        "`set` names what can be set on this aircraft: its switches, the parts that hands and feet reach, and temperature, slope, wind, thrust, wear, break-away and precharge. `controls` on the bench lists them.";
    UNKNOWN_FAULT "B002" Error "the aircraft has no such fault"
        "`faults` names parts of this aircraft, and under each part faults that its document lists for it.";
    VALUE "B003" Error "a control does not take this value"
        "A switch takes one of its positions, pedals take free, down, hard or percent, figures take a number with its unit. A pressure that would be usual in the other unit is asked back.";
    ORDER "B004" Error "the times of a course do not follow each other"
        "What was set stands in the order of its times, none after `until`, and a course ends after ten days: it is played from its beginning, and time only goes on.";
    NOT_PLAYED "B005" Error "the course cannot be played"
        "The plant refused what is set here, such as a severity beyond 100 or a charge the pumps cannot give, or found no pressure for a net. What stands before it could be played.";
}
