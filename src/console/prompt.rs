//! What is asked now, in a form that screen and plain mode share.

use super::keys::ANSWER_DIGITS;
use crate::base::text::listed;
use crate::diagnosis::check::Check;
use crate::diagnosis::given;
use crate::diagnosis::next_check::Proposal;
use crate::diagnosis::reading::takes_readings;
use crate::report::rank_text::why;
use crate::session::end_state::END_STATES;
use crate::session::entry::What;
use crate::session::field::{Form, Section};
use crate::session::fields::FIELDS;
use crate::session::job::{Job, Stage};
use crate::session::reading::pressure_as_found;

/// One answer that a key gives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Choice {
    /// The digit.
    pub digit: char,
    /// The words.
    pub label: String,
}

/// A question with everything that stands around it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Prompt {
    /// Where in the job: `Safety first`, `Question`.
    pub place: String,
    /// A short name for messages and lists.
    pub title: String,
    /// The question.
    pub ask: String,
    /// How it is done.
    pub how: String,
    /// Cautions.
    pub cautions: Vec<String>,
    /// Why this one, for a check.
    pub why: Option<String>,
    /// Answers by key; none where something is typed.
    pub choices: Vec<Choice>,
    /// What is to be typed, where something is.
    pub typed: Option<&'static str>,
    /// What 0 means; `None` where it is not accepted.
    pub zero: Option<&'static str>,
}

/// What the person asked for beside what the job proposes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Wish {
    /// A check that takes evidence away and was agreed to.
    pub agreed: Option<usize>,
    /// A check chosen in place of the proposed one.
    pub chosen: Option<usize>,
    /// The open field of a hand-over that was begun.
    pub handing: Option<usize>,
}

/// What is asked now: what the person chose, else what the job asks.
pub fn stage(job: &Job, wish: Wish) -> Stage {
    if let Some(field) = wish.handing {
        return Stage::Field(field);
    }
    let chosen = wish.chosen.and_then(|check| job.choose(check).ok());
    chosen.map_or_else(
        || job.stage().clone(),
        |proposal| Stage::Question(Box::new(proposal)),
    )
}

/// What is asked now, with all that stands around it; `None` where nothing is.
pub fn prompt(job: &Job, wish: Wish) -> Option<Prompt> {
    match stage(job, wish) {
        Stage::Field(field) => Some(field_prompt(field)),
        Stage::Condition(condition) => Some(condition_prompt(job, condition)),
        Stage::Question(proposal) if needs_word(&proposal, wish) => {
            Some(evidence_prompt(job, &proposal))
        }
        Stage::Question(proposal) => Some(check_prompt(job, &proposal, wish)),
        Stage::RuleMet => Some(Prompt {
            // A 0 by habit must not end a job whose cause is proved.
            zero: None,
            ..end_prompt("The rule of this tree is met. How does the job end?", job)
        }),
        Stage::NothingLeft => Some(end_prompt(
            "Nothing is left to ask that tells causes apart. How does the job end?",
            job,
        )),
        Stage::Contradiction(_) | Stage::Refused(_) | Stage::Closed(_) => None,
    }
}

/// Whether a check must not start before somebody said that all first readings are taken.
pub fn needs_word(proposal: &Proposal, wish: Wish) -> bool {
    !proposal.cost.takes_away.is_empty() && wish.agreed != Some(proposal.check)
}

fn choices<S: AsRef<str>>(labels: &[S]) -> Vec<Choice> {
    let pairs = ANSWER_DIGITS.iter().zip(labels);
    pairs
        .map(|(digit, label)| Choice {
            digit: *digit,
            label: label.as_ref().replace('-', " "),
        })
        .collect()
}

fn field_prompt(place: usize) -> Prompt {
    let field = &FIELDS[place];
    let yes_no = field.form == Form::YesNo;
    Prompt {
        place: field.section.title().to_owned(),
        title: field.id.replace('-', " "),
        ask: field.ask.to_owned(),
        how: field.how.to_owned(),
        cautions: if field.section == Section::Safety {
            vec!["It can move. Nothing is touched before this is done.".to_owned()]
        } else {
            Vec::new()
        },
        why: None,
        choices: if yes_no {
            choices(&["yes", "no"])
        } else {
            Vec::new()
        },
        typed: match field.form {
            Form::YesNo => None,
            Form::Text => Some("words"),
            Form::Pressure => Some("a pressure with its unit, such as 76 bar or 1100 psi"),
            Form::Temperature => Some("a temperature with its unit, such as 4 C or 39 F"),
            Form::Time => Some("a time with its unit, such as 30 min"),
            Form::OutOfTen => Some("a number from 0 to 10; Enter alone for none"),
        },
        zero: match (field.must, field.form) {
            (true, _) | (_, Form::OutOfTen) => None,
            (false, _) => Some("not known"),
        },
    }
}

/// What is typed for a quantity with bands.
const BANDED: &str = "a value with its unit, or `2 h to 5 h` where you are not sure";

fn condition_prompt(job: &Job, place: usize) -> Prompt {
    let model = job.model();
    let question = &model.questions[place];
    let condition = &model.tree.conditions[place];
    let words: Vec<&str> = condition
        .values
        .iter()
        .map(|(word, _)| word.as_str())
        .collect();
    let by_key = question.quantity.is_none() && words.len() <= ANSWER_DIGITS.len();
    Prompt {
        place: Section::Details.title().to_owned(),
        title: condition.id.replace('-', " "),
        ask: question.ask.clone(),
        how: String::new(),
        choices: if by_key { choices(&words) } else { Vec::new() },
        typed: match (&question.quantity, by_key) {
            (Some(_), _) => Some(question.fact.map_or(BANDED, |fact| fact.row().typed)),
            (None, false) => Some("one of its words"),
            (None, true) => None,
        },
        zero: Some("not known"),
        ..Prompt::default()
    }
}

fn check_prompt(job: &Job, proposal: &Proposal, wish: Wish) -> Prompt {
    let model = job.model();
    let check = &model.checks[proposal.check];
    let place = if wish.chosen.is_some() {
        "Your own choice"
    } else {
        "Question"
    };
    Prompt {
        place: place.to_owned(),
        title: check.title.clone(),
        ask: check.ask.clone(),
        how: how(job, check),
        cautions: check
            .cautions
            .iter()
            .map(|word| word.text.to_owned())
            .collect(),
        why: Some(why(model, proposal)),
        choices: choices(&check.answers),
        typed: None,
        zero: Some("cannot check"),
    }
}

/// How a check is done, with what was written down of the pressure where the check judges it.
fn how(job: &Job, check: &Check) -> String {
    let mut how = check.how.clone().unwrap_or_default();
    if takes_readings(check) {
        how.push_str(" :read and the reading with its unit judges it.");
    }
    let judges = check
        .needs_evidence
        .iter()
        .any(|word| word.name == "pressure");
    let Some(reading) = pressure_as_found(job).filter(|_| judges) else {
        return how;
    };
    let warmth = job.field("temperature-as-found");
    let warmth = warmth.map_or(String::new(), |kept| format!(" at {kept}"));
    let (value, at) = (reading.value, reading.at.clock());
    format!("{how} Written down at {at}: {value}{warmth}.")
}

fn evidence_prompt(job: &Job, proposal: &Proposal) -> Prompt {
    let check = &job.model().checks[proposal.check];
    let gone: Vec<&str> = proposal
        .cost
        .takes_away
        .iter()
        .map(|word| word.name)
        .collect();
    let choice = |digit, label: &str| Choice {
        digit,
        label: label.to_owned(),
    };
    Prompt {
        place: "Question".to_owned(),
        title: check.title.clone(),
        ask: format!("Next is: {}. All first readings taken?", check.title),
        how: String::new(),
        cautions: std::iter::once(format!("It takes away {}.", listed(&gone, "and")))
            .chain(check.cautions.iter().map(|word| word.text.to_owned()))
            .collect(),
        why: Some(why(job.model(), proposal)),
        // The step that loses something has a key of its own, far from the safe one.
        choices: vec![choice('1', "no, not yet"), choice('7', "yes, go on")],
        typed: None,
        zero: Some("cannot check"),
    }
}

fn end_prompt(ask: &str, job: &Job) -> Prompt {
    let locked = job.locked_checks().len();
    let wait = if locked == 0 {
        String::new()
    } else {
        format!(
            "{locked} checks wait for chocks, flight deck and pump state: :change their answers once they are so. "
        )
    };
    Prompt {
        place: "End of job".to_owned(),
        title: "end of job".to_owned(),
        ask: ask.to_owned(),
        how: format!("{wait}This program never releases an aircraft."),
        typed: Some("the number of the end from the list"),
        zero: Some("not reproduced"),
        ..Prompt::default()
    }
}

/// What a digit does.
#[derive(Debug, Clone, PartialEq)]
pub enum Pressed {
    /// It makes this entry.
    Entry(What),
    /// It agrees to a check that takes evidence away.
    Agree(usize),
    /// It puts the check off.
    NotYet,
    /// It means nothing here.
    Nothing,
}

/// What a digit means now. 0 means "not known" or "cannot check", with an optional reason.
pub fn digit(job: &Job, wish: Wish, digit: char, reason: Option<&str>) -> Pressed {
    let Some(prompt) = prompt(job, wish) else {
        return Pressed::Nothing;
    };
    let stage = stage(job, wish);
    if digit == '0' {
        return zero(&stage, reason).map_or(Pressed::Nothing, Pressed::Entry);
    }
    let Some(place) = prompt
        .choices
        .iter()
        .position(|choice| choice.digit == digit)
    else {
        return Pressed::Nothing;
    };
    match stage {
        Stage::Question(proposal) if needs_word(&proposal, wish) => match place {
            0 => Pressed::NotYet,
            _ => Pressed::Agree(proposal.check),
        },
        Stage::Question(proposal) => Pressed::Entry(What::Answer {
            check: proposal.check,
            answer: place,
            read: None,
        }),
        Stage::Field(field) => Pressed::Entry(What::Field {
            field,
            value: Some(if place == 0 { "yes" } else { "no" }.to_owned()),
        }),
        Stage::Condition(condition) => {
            let values = &job.model().tree.conditions[condition].values;
            Pressed::Entry(What::Condition {
                condition,
                word: Some(values[place].0.clone()),
            })
        }
        _ => Pressed::Nothing,
    }
}

fn zero(stage: &Stage, reason: Option<&str>) -> Option<What> {
    match stage {
        Stage::Field(field) => Some(What::Field {
            field: *field,
            value: None,
        }),
        Stage::Condition(condition) => Some(What::Condition {
            condition: *condition,
            word: None,
        }),
        Stage::Question(proposal) => Some(What::Cannot {
            check: proposal.check,
            reason: reason.map(str::to_owned),
        }),
        Stage::NothingLeft => crate::session::end_state::place("not-reproduced").map(What::End),
        _ => None,
    }
}

/// The entry that typed words make now; the error says what would do.
pub fn typed(job: &Job, wish: Wish, words: &str) -> Result<What, String> {
    let words = clean(words);
    match stage(job, wish) {
        Stage::Field(field) => {
            let about = &FIELDS[field];
            if about.form == Form::OutOfTen && words.is_empty() {
                return Ok(What::Field { field, value: None });
            }
            let value = Some(about.accept(&words)?);
            Ok(What::Field { field, value })
        }
        Stage::Condition(condition) => condition_typed(job, condition, &words),
        Stage::RuleMet | Stage::NothingLeft => end_typed(&words),
        _ => Err("Nothing is to be typed here.".to_owned()),
    }
}

fn condition_typed(job: &Job, condition: usize, words: &str) -> Result<What, String> {
    let model = job.model();
    let id = &model.tree.conditions[condition].id;
    given::condition(model, id, words).map_err(|error| format!("Not kept: {error}."))?;
    Ok(What::Condition {
        condition,
        word: Some(words.to_owned()),
    })
}

/// The end that a number or a name means.
pub fn end_typed(words: &str) -> Result<What, String> {
    let by_number = words
        .parse::<usize>()
        .ok()
        .and_then(|number| number.checked_sub(1));
    let by_name = crate::session::end_state::place(words);
    by_number
        .filter(|place| *place < END_STATES.len())
        .or(by_name)
        .map(What::End)
        .ok_or_else(|| format!("Type a number from 1 to {}.", END_STATES.len()))
}

/// Typed words without control characters, which a terminal would act on when they are shown.
pub fn clean(words: &str) -> String {
    let visible = words.chars().filter(|c| !c.is_control());
    visible.collect::<String>().trim().to_owned()
}
