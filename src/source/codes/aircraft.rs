//! Problems of aircraft: parts, links, states.

use crate::source::code::codes;

codes! {
    UNKNOWN_KIND "A001" Error "the kind of part is not known"
        "Kinds are a fixed list, because each has its ports, parameters and physics written for it.";
    UNKNOWN_PARAMETER "A002" Error "the kind of part has no such parameter"
        "A part takes the parameters of its kind; a fault overrides parameters of its part's kind.";
    MISSING_PARAMETER "A003" Error "a parameter is missing"
        "The kind of part cannot do without it. The usual value stands in the maintenance data; a demo figure says that it is invented.";
    UNKNOWN_FAULT_NAME "A004" Error "the kind of part has no such fault"
        "Faults are named from the list of the part's kind, so that trees of different aircraft mean the same by a name.";
    LINK_FORM "A005" Error "a link is not complete"
        "A link is a mapping of one kind to a list of at least two ports: `{hydraulic: [accumulator.fluid, isolation-valve.accumulator]}`.";
    UNKNOWN_PORT "A006" Error "there is no such part or port"
        "A port is written `part.port`, with a part of this aircraft and a port of its kind.";
    PORT_TYPE "A007" Error "a port does not fit the link"
        "A hydraulic port cannot be joined to an electrical one.";
    PORT_TWICE "A008" Error "a port is joined twice"
        "Each port belongs to one net. Put all ports of a net into one link.";
    OPEN_PORT "A009" Error "a port is left open"
        "Join it, or look for a link with a misspelt port.";
    SAME_PLACE "A010" Error "two parts stand in one place of the schematic"
        "`at` is column and row on the grid; each place holds one part.";
    BIND "A011" Error "a role is bound to a part that is not there"
        "`bind` names roles of trees, each with a part of this aircraft.";
    SETTING "A012" Error "there is no such switch or position"
        "Actions, `as-found` and `needs` name switches under `states` and positions listed there.";
    POSITIONS "A013" Error "a switch needs at least two different positions"
        "A switch with one position cannot be switched.";
    TWO_POINTS "A014" Error "the viscosity needs two points at different temperatures"
        "Each point is written `11 mm2/s at 38 C`.";
    TWO_SUPPLIES "A015" Error "two parts hold one hydraulic net at a pressure of their own"
        "A pump or a reservoir decides the pressure of its net; with two of them on one net there is no answer. Put a valve between them.";
    PRECHARGE "A016" Error "the gas charge is above what the pumps give"
        "A charge that no pump can push back leaves no room for fluid, so nothing would be stored. A slip between bar and psi often shows so; an overcharged accumulator is a fault of it.";
}
