//! What each answer would do, and what another answer would have done. Nothing is saved here.

use crate::console::page::Page;
use crate::console::state::State;
use crate::diagnosis::evidence::Item;
use crate::diagnosis::next_check::{Proposal, effects};
use crate::diagnosis::what_if::{Leader, Otherwise, otherwise};
use crate::report::predicted_text::{compared_words, predicted_words};
use crate::report::rank_text::{item_words, share_words};
use crate::session::job::Stage;
use crate::session::reading::{comparison, predictions, reading_of};

/// Writes the screen.
pub fn write(page: &mut Page, state: &State) {
    page.text("Nothing is saved here. The first cause, of 100 jobs like this, if:");
    if let Stage::Question(proposal) = state.stage() {
        let title = &state.job.model().checks[proposal.check].title;
        page.strong(&format!("Next, {title}"));
        next_answers(page, state, &proposal);
        would_read(page, state, proposal.check);
    }
    earlier_answers(page, state);
}

/// What other answers would have led to.
pub fn earlier_answers(page: &mut Page, state: &State) {
    let all = otherwise(state.job.inference(), state.job.evidence());
    if all.is_empty() {
        page.text("Nothing was answered yet that moves the causes.");
        return;
    }
    page.strong("What was answered, had it been otherwise");
    for one in &all {
        had_been(page, state, one);
    }
}

/// What a check would read, where it reads a number.
pub fn would_read(page: &mut Page, state: &State, check: usize) {
    let all = predictions(&state.job, check);
    if !all.is_empty() {
        let words = predicted_words(state.job.model(), &all);
        page.indented(2, &format!("it would read, by the plant: {words}"));
    }
}

/// One line for each answer of a check.
pub fn next_answers(page: &mut Page, state: &State, proposal: &Proposal) {
    let job = &state.job;
    let check = &job.model().checks[proposal.check];
    for effect in effects(job.inference(), job.evidence(), proposal) {
        let answer = check.answers[effect.answer].replace('-', " ");
        let chance = share_words(effect.chance);
        let then = leader_words(state, effect.leader);
        page.indented(2, &format!("{answer} ({chance} of 100): {then}"));
    }
}

fn had_been(page: &mut Page, state: &State, one: &Otherwise) {
    let job = &state.job;
    page.indented(2, &item_words(job.inference(), job.evidence(), one.item));
    let model = job.model();
    if let Item::Check(check) = one.item
        && let Some(read) = reading_of(job, check)
        && let Some((all, sum)) = comparison(job, check, &read)
    {
        page.indented(6, &compared_words(model, &all, &sum));
    }
    let words: Vec<&String> = match one.item {
        Item::Check(check) => model.checks[check].answers.iter().collect(),
        Item::Condition(condition) => {
            let values = model.tree.conditions[condition].values.iter();
            values.map(|(word, _)| word).collect()
        }
        Item::Report | Item::Fall => Vec::new(),
    };
    for (answer, leader) in &one.other {
        let word = words[*answer].replace('-', " ");
        page.indented(
            6,
            &format!("had it been {word}: {}", leader_words(state, *leader)),
        );
    }
    page.indented(
        6,
        &format!("not asked: {}", leader_words(state, one.without)),
    );
}

fn leader_words(state: &State, leader: Leader) -> String {
    leader.map_or("cannot be".to_owned(), |(event, chance)| {
        let title = &state.job.model().causes[event].title;
        format!("{title}, {}", share_words(chance))
    })
}
