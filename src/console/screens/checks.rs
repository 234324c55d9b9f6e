//! Every check: what can be made now, what was answered, what waits and why.

use crate::console::page::Page;
use crate::console::state::State;
use crate::diagnosis::evidence::Reply;
use crate::report::rank_text::why;

/// Writes the screen. Enter puts a check on the work screen.
pub fn write(page: &mut Page, state: &State) {
    let job = &state.job;
    let model = job.model();
    let open = job.open_checks();
    if !open.is_empty() {
        page.strong("Can be made now, best first");
    }
    for proposal in open {
        let title = &model.checks[proposal.check].title;
        page.item(proposal.check, title);
        page.indented(6, &why(model, proposal));
    }
    let proposed = |check: usize| open.iter().any(|proposal| proposal.check == check);
    let (mut other, mut answered, mut waiting) = (Vec::new(), Vec::new(), Vec::new());
    for (check, about) in model.checks.iter().enumerate() {
        let reply = &job.evidence().replies[check];
        match (reply, job.choose(check)) {
            (Reply::Answered(answers), _) => {
                let last = answers.last().map_or("", |a| about.answers[*a].as_str());
                let line = format!("{}: {}", about.title, last.replace('-', " "));
                answered.push((check, line));
            }
            (Reply::Cannot, _) => answered.push((check, format!("{}: cannot check", about.title))),
            (Reply::Open, _) if proposed(check) => {}
            (Reply::Open, Ok(_)) => other.push((check, about.title.clone())),
            (Reply::Open, Err(reason)) => waiting.push((check, reason)),
        }
    }
    for (heading, lines) in [
        (
            "Can be made, and would tell nothing about the causes now",
            other,
        ),
        ("Answered", answered),
        ("Cannot be made now", waiting),
    ] {
        if lines.is_empty() {
            continue;
        }
        page.strong(heading);
        for (check, line) in lines {
            page.item(check, &line);
        }
    }
}
