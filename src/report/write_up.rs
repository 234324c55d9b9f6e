//! The write-up of a job, as blocks that text, Markdown and JSON are made from.
//!
//! The record part holds facts alone: no odds, no word of release. Odds stand in the annex and in
//! the hand-over. What is missing is named.

use crate::base::stamp::Stamp;
use crate::diagnosis::evidence::Reply;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::stop::Proof;
use crate::session::end_state::END_STATES;
use crate::session::entry::What;
use crate::session::field::Section;
use crate::session::fields::{FIELDS, of};
use crate::session::header::Header;
use crate::session::job::Job;
use crate::session::standing::standing;

use super::log_text::words;
use super::pause_card::pressure;

/// A heading with its lines.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Block {
    /// The heading.
    pub title: String,
    /// The lines, each a fact.
    pub lines: Vec<String>,
}

/// The whole write-up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WriteUp {
    /// What it is about, in one line.
    pub title: String,
    /// Facts, for the record.
    pub record: Vec<Block>,
    /// What is missing in the record.
    pub missing: Vec<String>,
    /// Odds and where they come from.
    pub annex: Vec<Block>,
    /// For the next person.
    pub hand_over: Vec<Block>,
}

fn block(title: &str, lines: Vec<String>) -> Block {
    Block {
        title: title.to_owned(),
        lines,
    }
}

/// Puts the write-up together.
pub fn write_up(job: &Job, header: &Header, now: Stamp) -> WriteUp {
    let model = job.model();
    let aircraft = job.field("aircraft").unwrap_or("aircraft not written down");
    let mut record = vec![head(job, header), defect(job)];
    for section in [Section::Safety, Section::Frozen, Section::Evidence] {
        record.push(block(section.title(), field_lines(job, section)));
    }
    let mut parked = condition_lines(job);
    parked.extend(field_lines(job, Section::Details));
    record.push(block(Section::Details.title(), parked));
    record.push(block("Checks", check_lines(job)));
    record.push(block("Notes, as typed", notes(job)));
    record.push(block("Found", found(job)));
    for section in [
        Section::Work,
        Section::Proof,
        Section::Deferral,
        Section::TidyUp,
    ] {
        record.push(block(section.title(), field_lines(job, section)));
    }
    record.push(block("Cautions that applied", cautions(job)));
    record.push(block(
        "Not in here",
        vec![
            "Release statement, licence and signature: they belong in the company record."
                .to_owned(),
            "The approved maintenance data of the aircraft in hand govern.".to_owned(),
        ],
    ));
    record.retain(|block| !block.lines.is_empty());
    WriteUp {
        title: format!("{}: {}", aircraft, model.title),
        record,
        missing: missing(job),
        annex: annex(job),
        hand_over: hand_over(job, now),
    }
}

fn head(job: &Job, header: &Header) -> Block {
    let known = |id: &str| job.field(id).unwrap_or("not written down").to_owned();
    let version = header.tree_version.as_deref().unwrap_or("none");
    block(
        "Job",
        vec![
            format!("Job: {}", header.job),
            format!("Opened: {} (all times UTC)", header.opened),
            format!("Aircraft as typed: {}", known("aircraft")),
            format!("Place: {}", known("stand")),
            format!(
                "Tree: {}, number {version}, checksum {}",
                header.tree, header.checksum
            ),
            format!("Program: stillwheel {}", header.program),
        ],
    )
}

fn defect(job: &Job) -> Block {
    let mut lines = vec![format!("Report: {}", job.model().report)];
    if let Some(reporter) = job.field("reporter") {
        lines.push(format!("Reported: {reporter}"));
    }
    block("Defect", lines)
}

/// When the standing value of something was entered, and whether it was changed since.
fn time_of(job: &Job, wanted: impl Fn(&What) -> bool) -> (String, &'static str) {
    let stands = standing(job.entries()).entries;
    let Some((place, what)) = stands.iter().rev().find(|(_, what)| wanted(what)) else {
        return (String::new(), "");
    };
    let entry = &job.entries()[*place];
    let changed = if entry.what == *what {
        ""
    } else {
        " [changed later, see the log]"
    };
    (entry.at.clock(), changed)
}

fn notes(job: &Job) -> Vec<String> {
    let stands = standing(job.entries()).entries;
    let notes = stands.iter().filter_map(|(place, what)| match what {
        What::Note(text) => Some(format!("{} {text}", job.entries()[*place].at.clock())),
        _ => None,
    });
    notes.collect()
}

fn field_lines(job: &Job, section: Section) -> Vec<String> {
    let asked = of(section).filter(|field| job.was_asked(*field));
    asked
        .map(|place| {
            let field = &FIELDS[place];
            let value = job.field(field.id).unwrap_or("not known");
            let (at, changed) = time_of(
                job,
                |what| matches!(what, What::Field { field, .. } if *field == place),
            );
            format!("{at} {} {value}{changed}", field.ask)
        })
        .collect()
}

fn condition_lines(job: &Job) -> Vec<String> {
    let questions = job.model().questions.iter().enumerate();
    let known = questions.filter_map(|(place, question)| {
        let word = job.condition(place)?;
        let (at, changed) = time_of(
            job,
            |what| matches!(what, What::Condition { condition, .. } if *condition == place),
        );
        Some(format!("{at} {} {word}{changed}", question.ask))
    });
    known.collect()
}

fn check_lines(job: &Job) -> Vec<String> {
    let stands = standing(job.entries()).entries;
    let mut lines = Vec::new();
    for (place, what) in stands {
        let (What::Answer { check, .. } | What::Cannot { check, .. }) = &what else {
            continue;
        };
        let about = &job.model().checks[*check];
        let entry = &job.entries()[place];
        let changed = if entry.what == what {
            ""
        } else {
            " [changed later, see the log]"
        };
        let (at, said) = (entry.at.clock(), answer(job, &what));
        let mut line = format!("{at} {} {said}{changed}", about.ask);
        if let Some(reference) = &about.reference {
            line.push_str(&reference_words(reference));
        }
        if !about.takes_away.is_empty() && matches!(what, What::Answer { .. }) {
            let gone: Vec<&str> = about.takes_away.iter().map(|word| word.name).collect();
            line.push_str(&format!(" [took away: {}]", gone.join(", ")));
        }
        lines.push(line);
    }
    lines
}

/// A reference that only points to the approved data is left for the person to fill in: this
/// program has not looked anything up there.
fn reference_words(reference: &str) -> String {
    match reference {
        "approved-data" => " [approved data, ref ____]".to_owned(),
        known => format!(" [reference: {known}]"),
    }
}

/// The answer alone, without the title of its check.
fn answer(job: &Job, what: &What) -> String {
    let words = words(job, what);
    words
        .split_once(": ")
        .map_or(words.clone(), |(_, answer)| answer.to_owned())
}

/// Cause and end state, without odds.
fn found(job: &Job) -> Vec<String> {
    let model = job.model();
    let mut lines = Vec::new();
    if let Some(rule) = job.standing()
        && let (Proof::Stands(check), Some(first)) = (rule.proof, rule.group.first())
    {
        let (cause, check) = (&model.causes[*first], &model.checks[check]);
        lines.push(format!(
            "Cause named: {}, confirming check: {}",
            cause.title, check.title
        ));
    }
    match job.end() {
        Some(end) => {
            let end = &END_STATES[end];
            lines.push(format!("End: {}. {}", end.title, end.text));
        }
        None => lines.push("End: none chosen yet; the job is open.".to_owned()),
    }
    lines
}

fn cautions(job: &Job) -> Vec<String> {
    let mut texts: Vec<&str> = Vec::new();
    for (check, reply) in job.model().checks.iter().zip(&job.evidence().replies) {
        if matches!(reply, Reply::Answered(_)) {
            for caution in &check.cautions {
                if !texts.contains(&caution.text) {
                    texts.push(caution.text);
                }
            }
        }
    }
    texts.into_iter().map(str::to_owned).collect()
}

/// Fields of the record that nobody filled in, and what an end would need.
fn missing(job: &Job) -> Vec<String> {
    let mut sections = vec![
        Section::Safety,
        Section::Aircraft,
        Section::Evidence,
        Section::Details,
    ];
    if let Some(end) = job.end() {
        sections.extend(END_STATES[end].sections);
    }
    let unknown = |field: &usize| job.field(FIELDS[*field].id).is_none();
    let fields = sections.into_iter().flat_map(of).filter(unknown);
    let mut missing: Vec<String> = fields.map(|field| FIELDS[field].ask.to_owned()).collect();
    let questions = job.model().questions.iter().enumerate();
    let open = questions.filter(|(place, _)| job.condition(*place).is_none());
    missing.extend(open.map(|(_, question)| question.ask.clone()));
    if job.end().is_none() {
        missing.push("How does the job end?".to_owned());
    }
    missing
}

/// How many of 100, as running text has it.
fn in_words(chance: f64) -> String {
    match of_100(chance) {
        0 if chance > 0.0 => "below 1".to_owned(),
        count => count.to_string(),
    }
}

fn annex(job: &Job) -> Vec<Block> {
    let model = job.model();
    let causes = job.causes();
    let rows = causes.iter().map(|row| {
        let cause = &model.causes[row.event];
        let count = in_words(row.probability);
        let source = cause.source.as_deref().unwrap_or("no source");
        format!("{}: {count} of 100 jobs like this ({source})", cause.title)
    });
    let mut ranking: Vec<String> = rows.collect();
    if let Some(belief) = job.belief() {
        ranking.push(format!(
            "Cause not in this list: {} of 100",
            in_words(belief.unlisted)
        ));
    }
    let mut blocks = vec![block("Ranking, exact", ranking)];
    let cannot: Vec<String> = job
        .cannot_checks()
        .iter()
        .map(|check| model.checks[*check].title.clone())
        .collect();
    blocks.push(block("Not checked", cannot));
    let not_excluded: Vec<String> = causes
        .iter()
        .filter(|row| row.probability >= 0.01)
        .map(|row| model.causes[row.event].title.clone())
        .collect();
    blocks.push(block("Not excluded", not_excluded));
    blocks.retain(|block| !block.lines.is_empty());
    blocks
}

/// What the next person has to know, most urgent first.
pub fn hand_over(job: &Job, now: Stamp) -> Vec<Block> {
    let model = job.model();
    let chocks = if job.chocked() {
        let by = job.field("chocks-by").unwrap_or("not written down");
        format!("Chocks IN, nose and mains, seen by: {by}")
    } else {
        "NOT CHOCKED. Chock the nose, then the mains, before anything else.".to_owned()
    };
    let brake = "Treat it as having NO brake until the fix is proved.".to_owned();
    let mut now_lines = vec![chocks, brake, format!("Pressure: {}", pressure(job, now))];
    now_lines.extend(job.timers().iter().map(|timer| timer.line(now)));
    let value = |id: &str| job.field(id).unwrap_or("not written down").to_owned();
    let mut think = Vec::new();
    for row in job.causes().iter().take(3) {
        let title = &model.causes[row.event].title;
        think.push(format!("{title}: {} of 100", of_100(row.probability)));
    }
    let done: Vec<String> = check_lines(job).into_iter().rev().take(5).collect();
    vec![
        block("Can it roll?", now_lines),
        block(
            "Open, blanked, tagged, not to be energised",
            vec![value("open-now")],
        ),
        block("Next step and its lock", vec![value("next-step")]),
        block("Last checks", done),
        block("Likely causes, exact", think),
        block("Ring, parts and tools out", vec![value("ring")]),
        block(
            "Read-back",
            vec![
                format!("Takes over: {}", value("takes-over")),
                format!("It cannot roll because: {}", value("read-back-safe")),
                format!("First I will: {}", value("read-back-first")),
                format!("I must not: {}", value("read-back-not")),
                format!("Accepted: {}", value("accepted")),
            ],
        ),
    ]
}
