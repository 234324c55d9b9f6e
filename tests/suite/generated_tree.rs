//! A clean tree of any size, for tests and benches: figures are invented.

/// A tree of about so many nodes: half events, a sixth gates, the rest checks and conditions.
///
/// Every event is a cause with a confirming check, a remedy and a reference; every check has a line
/// for each of its causes. Nothing in it is to be complained of.
pub fn clean_tree(nodes: usize) -> String {
    let (events, gates, conditions) = (nodes / 2, nodes / 6, nodes / 15);
    let checks = nodes - events - gates - conditions;
    let mut text = String::from(
        "stillwheel: tree 1\nid: generated\ntitle: Generated tree\nreport: It moved although the park brake was set.\nsource: invented\nexposure: 100 h\nunlisted: 0.05\nconditions:\n",
    );
    for at in 0..conditions {
        text.push_str(&format!(
            "  c{at}: {{ask: \"Is fact {at} so?\", chance: 0.1}}\n"
        ));
    }
    text.push_str("events:\n");
    for at in 0..events {
        text.push_str(&format!(
            "  e{at}: {{title: Fault of part {at}, chance: 1e-5, confirm: {{check: k{}, answer: \"yes\"}}, remedy: {{do: Replace part {at}., minutes: 30, puts-back: [leak-check]}}, reference: approved-data}}\n",
            at % checks
        ));
    }
    text.push_str("gates:\n");
    let groups = gates - 1;
    for at in 0..groups {
        let (from, to) = (at * events / groups, (at + 1) * events / groups);
        let inputs: Vec<String> = (from..to).map(|e| format!("e{e}")).collect();
        text.push_str(&format!("  g{at}: {{any: [{}]}}\n", inputs.join(", ")));
    }
    let all: Vec<String> = (0..groups).map(|at| format!("g{at}")).collect();
    text.push_str(&format!(
        "  moved: {{any: [{}]}}\ntop: moved\nchecks:\n",
        all.join(", ")
    ));
    for at in 0..checks {
        text.push_str(&format!("  k{at}:\n    ask: Does part {at} look damaged?\n    how: Look from the side.\n    yes:\n"));
        for event in (at..events).step_by(checks) {
            text.push_str(&format!("      - {{when: e{event}, chance: 0.9}}\n"));
        }
        if at < conditions {
            text.push_str(&format!("      - {{when: c{at}, chance: 0.3}}\n"));
        }
        text.push_str("      - {otherwise: 0.02}\n    minutes: 2\n    cautions: [roll]\n");
    }
    text
}
