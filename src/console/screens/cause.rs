//! One cause: reasons, what would show more, proof before removal, remedy, where its share is from.

use super::why::{WORTH_A_WORD, reasons};
use crate::base::text::width;
use crate::console::page::Page;
use crate::console::state::State;
use crate::diagnosis::cause::{Cause, Confirm, Remedy};
use crate::diagnosis::evidence::{Evidence, Reply};
use crate::diagnosis::explain::beliefs_without;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::time_to_movement::Moves;
use crate::diagnosis::what_if::{Split, splits};
use crate::report::mechanism_text::{healthy_lines, mechanism_lines};
use crate::report::rank_text::{minutes, people, share_words};

/// How many checks that would move it are shown.
const WORTH_ASKING: usize = 5;

/// Writes the screen. The checks on it can be made from here.
pub fn write(page: &mut Page, state: &State, event: usize) {
    let job = &state.job;
    let (Some(cause), Some(belief)) = (job.model().causes.get(event), job.belief()) else {
        page.text("The answers contradict each other.");
        return;
    };
    let now = of_100(belief.events[event]);
    page.strong(&format!("{}: {now} of 100 jobs like this", cause.title));
    if let Some(looks) = &cause.looks_like {
        page.text(looks);
    }
    let without = beliefs_without(job.inference(), job.evidence()).unwrap_or_default();
    let found = reasons(state, event, belief, &without);
    if found.is_empty() {
        page.text("No answer moved it yet.");
    }
    for reason in found {
        page.indented(2, &reason);
    }
    if let Some(confirm) = cause.confirm {
        proof(page, state, confirm);
    }
    inside(page, state, event);
    not_asked(page, state, event);
    remedy(page, cause);
    for caution in &cause.cautions {
        page.caution(caution.text);
    }
    let reference = cause.reference.as_deref().unwrap_or("none named");
    let reference = match reference {
        "approved-data" => "look it up; this program replaces none of it",
        named => named,
    };
    page.text(&format!("Approved data: {reference}."));
    let before = job.inference().believe(&Evidence::report_only(job.model()));
    if let Ok(before) = before {
        let share = of_100(before.events[event]);
        let source = cause.source.as_deref().unwrap_or("no source");
        page.text(&format!(
            "Before any answer: {share} of 100. Share from: {source}."
        ));
    }
}

/// The one check whose answer must stand before anything comes off.
fn proof(page: &mut Page, state: &State, confirm: Confirm) {
    let job = &state.job;
    let check = &job.model().checks[confirm.check];
    let wanted = check.answers[confirm.answer].replace('-', " ");
    let stands = match &job.evidence().replies[confirm.check] {
        Reply::Answered(answers) if answers.last() == Some(&confirm.answer) => "STANDS",
        Reply::Answered(_) => "SPEAKS AGAINST IT",
        Reply::Cannot => "cannot be made: not confirmed",
        Reply::Open => "not made yet",
    };
    page.strong("Confirm before anything comes off");
    page.item(confirm.check, &format!("{}: {stands}", check.title));
    page.indented(
        4,
        &format!(
            "{} It is confirmed by: {wanted}. {}, {}.",
            check.ask,
            minutes(check.minutes),
            people(check.people)
        ),
    );
}

/// What it does inside the aircraft, and why a healthy one holds as long as it does, by the plant.
fn inside(page: &mut Page, state: &State, event: usize) {
    let (inference, evidence) = (state.job.inference(), state.job.evidence());
    let model = state.job.model();
    let designed = model.causes[event].moves == Some(Moves::AsDesigned);
    let with = inference.mechanism(evidence, Some(event));
    let Some(aircraft) = model
        .aircraft
        .as_deref()
        .filter(|_| designed || with.is_some())
    else {
        return;
    };
    let mut lines = Vec::new();
    if let Some(with) = &with {
        lines.extend(mechanism_lines(aircraft, with, model.moves));
    }
    let healthy = with.or_else(|| inference.mechanism(evidence, None));
    if let Some(healthy) = &healthy {
        lines.extend(healthy_lines(aircraft, healthy, model.moves));
    }
    page.strong("What happens inside, by the plant of this aircraft document");
    for line in lines {
        page.indented(2, &line);
    }
}

/// Open checks by how far their answers would move this cause.
fn not_asked(page: &mut Page, state: &State, event: usize) {
    let job = &state.job;
    let open: Vec<usize> = job.open_checks().iter().map(|p| p.check).collect();
    let all = splits(job.inference(), job.evidence(), event, &open);
    let worth = all.iter().filter(|split| split.spread() >= WORTH_A_WORD);
    let worth: Vec<&Split> = worth.take(WORTH_ASKING).collect();
    if worth.is_empty() {
        return;
    }
    page.strong("Not asked yet, and what each answer would make of it");
    for split in worth {
        let check = &job.model().checks[split.check];
        let after = check.answers.iter().zip(&split.after);
        let words: Vec<String> = after
            .map(|(answer, chance)| {
                let count = chance.map_or("cannot be".to_owned(), share_words);
                format!("{} {count}", answer.replace('-', " "))
            })
            .collect();
        let (title, words) = (&check.title, words.join(", "));
        let line = format!("{title}: {words}");
        if width(&line) + 2 <= page.columns {
            page.item(split.check, &line);
        } else {
            page.item(split.check, title);
            page.indented(4, &words);
        }
    }
}

fn remedy(page: &mut Page, cause: &Cause) {
    match &cause.remedy {
        Some(Remedy::Nothing) => page.strong("Remedy: nothing to replace."),
        Some(Remedy::Work {
            instruction,
            minutes: time,
            people: crew,
            puts_back,
        }) => {
            let mut words = vec![instruction.trim_end_matches('.').to_owned()];
            words.extend(time.map(minutes));
            words.extend(crew.map(people));
            page.strong(&format!("Remedy: {}.", words.join(", ")));
            for word in puts_back {
                page.indented(2, &format!("Afterwards: {}.", word.text));
            }
        }
        None => page.text("Remedy: none named."),
    }
}
