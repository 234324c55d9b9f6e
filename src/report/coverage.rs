//! Which check tells which causes apart, as text and JSON.

use serde_json::{Value, json};

use crate::base::text::{pad, plural, wrap};
use crate::diagnosis::coverage::unread::Unread;
use crate::diagnosis::coverage::{Coverage, Missing};
use crate::diagnosis::model::Model;
use crate::tree::node::Node;

/// Lines are at most this wide.
const COLUMNS: usize = 78;
/// Pairs listed for people; programs get all.
const PAIRS: usize = 20;
/// Names listed of one side.
const NAMES: usize = 6;
/// Columns of a check.
const CHECK: usize = 26;

fn id(model: &Model, cause: usize) -> &str {
    &model.causes[cause].id
}

fn lines(text: &mut String, words: &str, indent: &str) {
    for line in wrap(words, COLUMNS - indent.len()) {
        text.push_str(&format!("{indent}{line}\n"));
    }
}

/// The whole for people.
pub fn coverage_text(model: &Model, coverage: &Coverage, unread: Option<&[Unread]>) -> String {
    let mut text = format!(
        "{}: {}, {}, {}\n",
        model.title,
        plural(coverage.causes.len(), "cause"),
        plural(coverage.pairs.len(), "pair"),
        plural(model.checks.len(), "check")
    );
    groups(&mut text, model, coverage);
    pairs(&mut text, model, coverage);
    checks(&mut text, model, coverage);
    missing(&mut text, model, coverage);
    match unread {
        Some(unread) => readings(&mut text, model, unread),
        None if model.aircraft.is_some() => {
            text.push_str("\nWith --plant, readings that no check takes are tried too.\n");
        }
        None => {}
    }
    text
}

fn groups(text: &mut String, model: &Model, coverage: &Coverage) {
    if coverage.groups.is_empty() {
        text.push_str("\nSome check tells every pair apart.\n");
    } else {
        text.push_str("\nTold apart by no check (under 0.01 bit):\n");
    }
    for group in &coverage.groups {
        let names: Vec<&str> = group.iter().map(|cause| id(model, *cause)).collect();
        lines(text, &names.join(", "), "  ");
    }
    if !coverage.never_alone.is_empty() {
        let never = coverage.never_alone.iter();
        let names: Vec<&str> = never.map(|cause| id(model, *cause)).collect();
        let words = format!("Never there alone, so not compared: {}.", names.join(", "));
        lines(text, &words, "");
    }
}

fn pairs(text: &mut String, model: &Model, coverage: &Coverage) {
    text.push_str(
        "\nWeak pairs, weakest first (bits of the best check, 1 is sure; jobs of 100\nthat are one of the two; checks that tell them apart):\n",
    );
    text.push_str(&format!(
        "  bits  of 100  checks  {} pair\n",
        pad("best check", CHECK)
    ));
    for pair in coverage.pairs.iter().take(PAIRS) {
        let best = pair
            .best
            .map_or("none", |(_, check)| &model.checks[check].id);
        text.push_str(&format!(
            " {:>5.3} {:>7.2} {:>7}  {} {} / {}\n",
            pair.bits(),
            100.0 * pair.share,
            pair.checks,
            pad(best, CHECK),
            id(model, pair.one),
            id(model, pair.other)
        ));
    }
    if coverage.pairs.len() > PAIRS {
        let more = coverage.pairs.len() - PAIRS;
        text.push_str(&format!("and {more} stronger ones; --json has all\n"));
    }
}

fn checks(text: &mut String, model: &Model, coverage: &Coverage) {
    text.push_str("\nChecks, by the pairs that only they tell apart:\n  only  pairs  check\n");
    for row in coverage.checks.iter().filter(|row| row.pairs > 0) {
        let name = &model.checks[row.check].id;
        text.push_str(&format!(" {:>5} {:>6}  {name}\n", row.only, row.pairs));
    }
    let idle = coverage.checks.iter().filter(|row| row.pairs == 0);
    let idle: Vec<&str> = idle
        .map(|row| model.checks[row.check].id.as_str())
        .collect();
    if !idle.is_empty() {
        let words = format!("Tell no two causes apart: {}.", idle.join(", "));
        lines(text, &words, "");
    }
}

fn side(model: &Model, causes: &[usize]) -> String {
    let names = causes.iter().take(NAMES).map(|cause| id(model, *cause));
    let names: Vec<&str> = names.collect();
    match causes.len().saturating_sub(NAMES) {
        0 => names.join(", "),
        more => format!("{} and {more} more", names.join(", ")),
    }
}

fn missing(text: &mut String, model: &Model, coverage: &Coverage) {
    if coverage.missing.is_empty() {
        text.push_str(
            "\nOf no pair does more than 1 job in 1000 end at the wrong one once every check is made.\n",
        );
        return;
    }
    text.push_str(
        "\nWhat a further check should see, by the jobs of 100 that may end at the wrong\none of two causes although every check was made (an upper bound):\n",
    );
    for row in &coverage.missing {
        let words = format!(
            "{:.2}  `{}`: tells {} from {}",
            100.0 * row.worth,
            model.tree.name(row.node),
            side(model, &row.one),
            side(model, &row.other)
        );
        lines(text, &words, "  ");
    }
}

fn readings(text: &mut String, model: &Model, unread: &[Unread]) {
    if unread.is_empty() {
        text.push_str("\nNo reading that is left would tell a weak pair apart.\n");
        return;
    }
    text.push_str("\nReadings of the aircraft that no check takes, by the same measure:\n");
    for row in unread {
        let words = format!("{:.2}  `{}`, {}", 100.0 * row.worth, row.name, row.title);
        lines(text, &words, "  ");
        for (one, other, reads, reads_other) in row.pairs.iter().take(3) {
            let words = format!(
                "{reads} with {}, {reads_other} with {}",
                id(model, *one),
                id(model, *other)
            );
            lines(text, &words, "        ");
        }
    }
}

/// Causes by the likeliest answer that a check gives with each alone.
pub fn check_text(model: &Model, coverage: &Coverage, check: usize) -> String {
    let about = &model.checks[check];
    let mut text = format!("{}: {}\n", about.id, about.ask);
    for (answer, word) in about.answers.iter().enumerate() {
        let mut rows: Vec<(f64, &str)> = coverage
            .causes
            .iter()
            .filter(|alone| likeliest(&alone.answers[check]) == answer)
            .map(|alone| (alone.answers[check][answer], id(model, alone.cause)))
            .collect();
        rows.sort_by(|a, b| b.0.total_cmp(&a.0));
        text.push_str(&format!("{word}, likeliest with:\n"));
        for (chance, name) in rows {
            text.push_str(&format!("  {chance:.3}  {name}\n"));
        }
    }
    text
}

fn likeliest(chances: &[f64]) -> usize {
    let mut best = 0;
    for (at, chance) in chances.iter().enumerate() {
        if *chance > chances[best] {
            best = at;
        }
    }
    best
}

/// The whole for other programs.
pub fn coverage_json(model: &Model, coverage: &Coverage, unread: Option<&[Unread]>) -> Value {
    let ids = |causes: &[usize]| -> Vec<&str> { causes.iter().map(|c| id(model, *c)).collect() };
    let pairs = coverage.pairs.iter().map(|pair| {
        json!({
            "one": id(model, pair.one),
            "other": id(model, pair.other),
            "bits": pair.bits(),
            "best": pair.best.map(|(_, check)| &model.checks[check].id),
            "checks": pair.checks,
            "share": pair.share,
            "mistaken": pair.mistaken,
        })
    });
    let checks = coverage.checks.iter().map(|row| {
        let about = &model.checks[row.check];
        let answers = about.answers.iter().enumerate().map(|(answer, word)| {
            let with = coverage
                .causes
                .iter()
                .filter(|alone| likeliest(&alone.answers[row.check]) == answer);
            let with: Vec<usize> = with.map(|alone| alone.cause).collect();
            json!({"answer": word, "likeliest_with": ids(&with)})
        });
        json!({
            "check": about.id,
            "pairs": row.pairs,
            "only": row.only,
            "answers": answers.collect::<Vec<_>>(),
        })
    });
    let missing = |row: &Missing| {
        let kind = if matches!(row.node, Node::Event(_)) {
            "event"
        } else {
            "gate"
        };
        json!({"kind": kind, "node": model.tree.name(row.node), "one": ids(&row.one), "other": ids(&row.other), "worth": row.worth})
    };
    let reading = |row: &Unread| {
        let pairs = row.pairs.iter().map(|(one, other, reads, reads_other)| {
            json!({"one": id(model, *one), "other": id(model, *other), "reads": reads, "reads_other": reads_other})
        });
        json!({"reading": row.name, "title": row.title, "state": row.state, "worth": row.worth, "pairs": pairs.collect::<Vec<_>>()})
    };
    json!({
        "tree": model.id,
        "causes": coverage.causes.len(),
        "never_alone": ids(&coverage.never_alone),
        "groups": coverage.groups.iter().map(|group| ids(group)).collect::<Vec<_>>(),
        "pairs": pairs.collect::<Vec<_>>(),
        "checks": checks.collect::<Vec<_>>(),
        "missing": coverage.missing.iter().map(missing).collect::<Vec<_>>(),
        "unread": unread.map(|rows| rows.iter().map(reading).collect::<Vec<_>>()),
    })
}
