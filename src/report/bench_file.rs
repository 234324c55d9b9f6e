//! A course of the bench as the file that is read back.

use crate::plant::aircraft::Aircraft;
use crate::plant::course::{Course, Done, HOUR};
use crate::plant::handle::Change;

/// The text of a file; `name` is how the aircraft is opened.
pub fn bench_file(name: &str, aircraft: &Aircraft, course: &Course) -> String {
    let mut text = format!(
        "stillwheel: bench 1\n# {}. {}\naircraft: {}\n",
        aircraft.title,
        aircraft.note,
        quoted(name)
    );
    if course.charge.is_some() || !course.begin.is_empty() {
        text.push_str("begin:\n");
        if let Some(charge) = &course.charge {
            text.push_str(&format!("  charge: {}\n", quoted(&charge.text)));
        }
        let (faults, set): (Vec<&Done>, Vec<&Done>) = course.begin.iter().partition(|d| fault(d));
        if !set.is_empty() {
            text.push_str("  set:\n");
            for done in set {
                text.push_str(&format!("    {}: {}\n", done.name, quoted(&done.value)));
            }
        }
        text.push_str(&faults_of(&faults));
    }
    if !course.then.is_empty() {
        text.push_str("then:\n");
    }
    for done in &course.then {
        let at = time(done.at);
        let (name, value) = (&done.name, quoted(&done.value));
        let what = match name.split_once('/').filter(|_| fault(done)) {
            Some((part, id)) => format!("faults: {{{part}: {{{id}: {value}}}}}"),
            None => format!("set: {{{name}: {value}}}"),
        };
        text.push_str(&format!("  - {{at: {at}, {what}}}\n"));
    }
    text.push_str(&format!("until: {}\n", time(course.until)));
    text
}

fn fault(done: &Done) -> bool {
    matches!(done.change, Change::Fault(..))
}

/// The faults of the beginning, part by part: a part stands once.
fn faults_of(faults: &[&Done]) -> String {
    let mut parts: Vec<(&str, String)> = Vec::new();
    for done in faults {
        let Some((part, id)) = done.name.split_once('/') else {
            continue;
        };
        let line = format!("{id}: {}", quoted(&done.value));
        match parts.iter_mut().find(|(known, _)| *known == part) {
            Some((_, lines)) => lines.push_str(&format!(", {line}")),
            None => parts.push((part, line)),
        }
    }
    if parts.is_empty() {
        return String::new();
    }
    let lines = parts
        .iter()
        .map(|(part, lines)| format!("    {part}: {{{lines}}}\n"));
    "  faults:\n".to_owned() + &lines.collect::<String>()
}

/// Tenths of a second in hours where they are whole, else in seconds.
fn time(tenths: u64) -> String {
    if tenths > 0 && tenths.is_multiple_of(HOUR) {
        return format!("{} h", tenths / HOUR);
    }
    match (tenths / 10, tenths % 10) {
        (seconds, 0) => format!("{seconds} s"),
        (seconds, tenth) => format!("{seconds}.{tenth} s"),
    }
}

/// A text as a value: plain words and figures as they are, everything else in quotes.
fn quoted(text: &str) -> String {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, ' ' | '.' | '%' | '/' | '-');
    let begins = text.starts_with(|c: char| c.is_ascii_alphanumeric());
    if begins && !text.ends_with(' ') && text.chars().all(plain) {
        return text.to_owned();
    }
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
