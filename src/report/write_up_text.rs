//! A write-up as plain text, Markdown or JSON.

use serde_json::{Map, Value, json};

use super::write_up::{Block, WriteUp};
use crate::base::text::wrap;
use crate::diagnosis::certificate::Certificate;
use crate::diagnosis::evidence::Reply;
use crate::session::header::Header;
use crate::session::job::Job;

const COLUMNS: usize = 78;

/// Plain text, in lines of at most 78 columns.
pub fn text(write_up: &WriteUp) -> String {
    let mut out = String::new();
    let mut line = |text: &str| {
        out.push_str(text.trim_end());
        out.push('\n');
    };
    for part in wrap(&write_up.title, COLUMNS) {
        line(&part);
    }
    for (name, blocks) in parts(write_up) {
        line("");
        line(&format!("=== {name}"));
        for block in blocks {
            line("");
            line(&block.title);
            for fact in &block.lines {
                for (at, part) in wrap(fact, COLUMNS - 4).iter().enumerate() {
                    line(&format!("{}{part}", if at == 0 { "  - " } else { "    " }));
                }
            }
        }
    }
    out
}

/// Markdown.
pub fn markdown(write_up: &WriteUp) -> String {
    let mut out = format!("# {}\n", escape(&write_up.title));
    for (name, blocks) in parts(write_up) {
        out.push_str(&format!("\n## {name}\n"));
        for block in blocks {
            out.push_str(&format!("\n### {}\n\n", escape(&block.title)));
            for fact in &block.lines {
                out.push_str(&format!("- {}\n", escape(fact)));
            }
        }
    }
    out
}

/// The parts in their order, the missing fields among the record.
fn parts(write_up: &WriteUp) -> Vec<(&'static str, Vec<Block>)> {
    let mut record = write_up.record.clone();
    if !write_up.missing.is_empty() {
        record.push(Block {
            title: "Missing".to_owned(),
            lines: write_up.missing.clone(),
        });
    }
    vec![
        ("Hand-over", write_up.hand_over.clone()),
        ("Record", record),
        ("Annex", write_up.annex.clone()),
    ]
}

/// Marks that Markdown would act on are taken literally.
fn escape(text: &str) -> String {
    let mut safe = String::new();
    for c in text.chars() {
        if matches!(
            c,
            '\\' | '`' | '*' | '_' | '[' | ']' | '<' | '>' | '#' | '|'
        ) {
            safe.push('\\');
        }
        safe.push(c);
    }
    safe
}

/// JSON. Read back through `rank`, the annex gives the same ranking.
pub fn json(write_up: &WriteUp, job: &Job, header: &Header) -> Value {
    let blocks = |blocks: &[Block]| -> Value {
        let pairs = blocks
            .iter()
            .map(|block| (block.title.clone(), json!(block.lines)));
        Value::Object(pairs.collect::<Map<String, Value>>())
    };
    let model = job.model();
    let given: Map<String, Value> = model
        .tree
        .conditions
        .iter()
        .enumerate()
        .filter_map(|(place, condition)| Some((condition.id.clone(), json!(job.condition(place)?))))
        .collect();
    let mut answers = Map::new();
    for (check, reply) in model.checks.iter().zip(&job.evidence().replies) {
        let words: Vec<&str> = match reply {
            Reply::Open => continue,
            Reply::Cannot => vec!["cannot"],
            Reply::Answered(all) => all.iter().map(|a| check.answers[*a].as_str()).collect(),
        };
        answers.insert(check.id.clone(), json!(words));
    }
    let ranking = job.causes();
    let ranking = ranking
        .iter()
        .map(|row| json!({"id": model.causes[row.event].id, "probability": row.probability}));
    let certificate = match job.belief() {
        Some(_) => Certificate::Exact,
        None => Certificate::Refused("the answers contradict each other".to_owned()),
    };
    json!({
        "job": header.job,
        "tree": header.tree,
        "tree-version": header.tree_version,
        "checksum": header.checksum,
        "aircraft": header.aircraft,
        "title": write_up.title,
        "hand-over": blocks(&write_up.hand_over),
        "record": blocks(&write_up.record),
        "missing": write_up.missing,
        "annex": {
            "given": given,
            "answers": answers,
            "certificate": {"kind": certificate.kind(), "reason": certificate.reason()},
            "ranking": ranking.collect::<Vec<_>>(),
            "blocks": blocks(&write_up.annex),
        },
    })
}
