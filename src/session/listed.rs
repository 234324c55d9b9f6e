//! A job in a list: what can be told of it without its tree.

use serde_json::Value;

use super::header::Header;
use crate::base::stamp::Stamp;

/// One job in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct Listed {
    /// Name of the job.
    pub name: String,
    /// Its header, or why it cannot be opened.
    pub header: Result<Header, String>,
    /// The lines after the header that are whole.
    pub lines: Vec<String>,
}

impl Listed {
    fn entries(&self) -> impl Iterator<Item = Value> {
        let read = |line: &String| serde_json::from_str::<Value>(line).unwrap_or_default();
        self.lines.iter().map(read)
    }

    /// The name of the end that was chosen, if one was and was not taken back at once.
    pub fn ended(&self) -> Option<String> {
        let mut end = None;
        for value in self.entries() {
            match value["entry"].as_str() {
                Some("end") => end = value["state"].as_str().map(str::to_owned),
                // Undone later than this, an end shows when the job is opened.
                Some("undo") if end.is_some() => end = None,
                _ => {}
            }
        }
        end
    }

    /// The aircraft as it was typed last.
    pub fn aircraft(&self) -> Option<String> {
        let typed = |value: Value| {
            let here = value["entry"] == "field" && value["field"] == "aircraft";
            here.then(|| value["value"].as_str().map(str::to_owned))
                .flatten()
        };
        self.entries().filter_map(typed).last()
    }

    /// When the last entry was made.
    pub fn last(&self) -> Option<Stamp> {
        let last = self.entries().last()?;
        last["at"].as_str().and_then(Stamp::parse)
    }
}
