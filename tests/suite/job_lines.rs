//! A whole job through a pipe, and everything that can happen to its file.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::run::{Run, root, stillwheel_in};
use stillwheel::authoring::embedded;
use stillwheel::session::end_state::END_STATES;
use stillwheel::session::field::{Form, Section};
use stillwheel::session::fields::{FIELDS, of};

fn run(jobs: &Path, arguments: &[&str], input: &str) -> Run {
    let jobs = jobs.to_str().unwrap();
    stillwheel_in(&root(), &[&["--jobs", jobs], arguments].concat(), input)
}

/// The intake by lines: everything known is typed, the rest is 0.
fn intake() -> String {
    let mut lines = String::new();
    let sections = [Section::Safety, Section::Aircraft, Section::Evidence];
    for field in sections.into_iter().flat_map(of) {
        lines.push_str(match FIELDS[field].id {
            "hurt" => "3\n",
            "aircraft" => "DEMO-7\n",
            "pressure-as-found" => "1100 psi\n",
            "temperature-as-found" => "4 C\n",
            _ if FIELDS[field].form == Form::YesNo => "1\n",
            _ => "as found\n",
        });
    }
    // The conditions of the shipped tree, then details and idea.
    lines.push_str(&"0\n".repeat(8));
    for field in [Section::Details, Section::Idea].into_iter().flat_map(of) {
        lines.push_str(match FIELDS[field].form {
            Form::OutOfTen => "4\n",
            _ => "0\n",
        });
    }
    lines
}

fn only_job(folder: &Path) -> PathBuf {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    assert_eq!(files.len(), 1, "{files:?}");
    files.remove(0)
}

fn saved(text: &str) -> usize {
    text.lines()
        .filter(|line| line.starts_with("SAVED "))
        .count()
}

fn entries(path: &Path) -> usize {
    std::fs::read_to_string(path).unwrap().lines().count() - 1
}

/// Lever down, set wrong, confirmed, ended as "not set", handed over and accepted.
pub fn whole_job() -> String {
    let mut lines = intake();
    lines.push_str("3\n"); // lever down
    lines.push_str(":end 5\n");
    for section in END_STATES[4]
        .sections
        .iter()
        .copied()
        .chain([Section::HandOver])
    {
        for field in of(section) {
            lines.push_str(match FIELDS[field].form {
                Form::YesNo => "1\n",
                Form::Pressure => "200 bar\n",
                Form::Time => "30 min\n",
                _ => "typed\n",
            });
        }
    }
    lines
}

#[test]
fn a_whole_job_goes_through_a_pipe() {
    let folder = tempfile::tempdir().unwrap();
    let done = run(folder.path(), &["job"], &whole_job());
    assert_eq!((done.code, done.err.as_str()), (0, ""));
    assert!(
        done.out.contains("CLOSED: Never set, part set"),
        "{}",
        done.out
    );
    assert!(!done.out.contains('\u{1b}'));
    assert!(done.out.lines().all(|line| line.chars().count() <= 78));
    assert!(!done.out.contains("Not kept"), "{}", done.out);
    assert_eq!(saved(&done.out), entries(&only_job(folder.path())));
    assert!(
        done.out.contains("1100 psi = 75.8 bar"),
        "typed quantities are read back"
    );
}

#[test]
fn the_write_up_keeps_odds_and_release_out_of_the_record() {
    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], &whole_job());
    for format in ["text", "markdown"] {
        let report = run(folder.path(), &["report", "--format", format], "");
        assert_eq!(report.code, 0, "{}", report.err);
        let text = report.out;
        let (before, rest) = text.split_once("Record").unwrap();
        let (record, annex) = rest.split_once("Annex").unwrap();
        assert!(before.contains("Can it roll?"));
        for word in [
            "of 100",
            "probabl",
            "likely",
            "airworthy",
            "returned to service",
            "released",
        ] {
            assert!(
                !record.to_lowercase().contains(word),
                "{word} in the record:\n{record}"
            );
        }
        for word in [
            "DEMO-7",
            "1100 psi",
            "approved maintenance data",
            "Never set, part set",
        ] {
            assert!(
                record.contains(word),
                "{word} is not in the record:\n{record}"
            );
        }
        assert!(annex.contains("of 100"));
        if format == "text" {
            assert!(text.lines().all(|line| line.chars().count() <= 78));
        }
    }
}

#[test]
fn the_json_read_back_gives_the_same_ranking() {
    let folder = tempfile::tempdir().unwrap();
    let mut lines = intake();
    lines.push_str("3\n1\n3\n0\n");
    run(folder.path(), &["job"], &lines);
    let report = run(folder.path(), &["report", "--json"], "");
    let json: serde_json::Value = serde_json::from_str(&report.out).unwrap();
    let mut arguments = vec![
        "rank".to_owned(),
        json["tree"].as_str().unwrap().to_owned(),
        "--json".into(),
    ];
    for (name, word) in json["annex"]["given"].as_object().unwrap() {
        arguments.extend([
            "--given".into(),
            format!("{name}={}", word.as_str().unwrap()),
        ]);
    }
    for (check, words) in json["annex"]["answers"].as_object().unwrap() {
        for word in words.as_array().unwrap() {
            arguments.extend([
                "--answer".into(),
                format!("{check}={}", word.as_str().unwrap()),
            ]);
        }
    }
    let arguments: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let rank = stillwheel_in(&root(), &arguments, "");
    let rank: serde_json::Value = serde_json::from_str(&rank.out).unwrap();
    for (ours, theirs) in json["annex"]["ranking"]
        .as_array()
        .unwrap()
        .iter()
        .zip(rank["causes"].as_array().unwrap())
    {
        assert_eq!(ours["id"], theirs["id"]);
        assert_eq!(ours["probability"], theirs["probability"]);
    }
    assert!(
        !json["missing"].as_array().unwrap().is_empty(),
        "missing fields are named"
    );
}

#[test]
fn looking_leaves_nothing_behind() {
    let folder = tempfile::tempdir().unwrap();
    let looked = run(&folder.path().join("jobs"), &[], "q\n");
    assert_eq!(looked.code, 0);
    assert!(!folder.path().join("jobs").exists());
}

/// Where nothing was begun yet, the reports are what there is to choose from.
#[test]
fn the_first_start_offers_every_report() {
    let folder = tempfile::tempdir().unwrap();
    let started = run(folder.path(), &[], "5\n3\nq\n");
    assert_eq!(started.code, 0, "{}", started.err);
    assert!(!started.out.contains("1 = go on"), "{}", started.out);
    // Long lines are broken between words.
    let said = started.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for (key, (_, words)) in ["3", "5"].iter().zip(embedded::reports()) {
        assert!(
            said.contains(&format!("{key} = new job: {words}")),
            "{said}"
        );
    }
    let text = std::fs::read_to_string(only_job(folder.path())).unwrap();
    assert!(text.contains("pressure-found-gone"), "{text}");
}

#[test]
fn a_job_goes_on_in_two_keys() {
    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], "3\n1\n1\n");
    let again = run(folder.path(), &[], "1\n1\n");
    assert!(
        again.out.contains("goes on where it was left"),
        "{}",
        again.out
    );
    assert_eq!(entries(&only_job(folder.path())), 4);
    let named = run(folder.path(), &["resume"], "1\n");
    assert_eq!(saved(&named.out), 1, "{}", named.out);
}

/// Starts a job in the background and feeds it, line by line, waiting for each SAVED.
fn start(folder: &Path) -> (std::process::Child, impl Iterator<Item = String>) {
    let mut child = Command::new(env!("CARGO_BIN_EXE_stillwheel"))
        .args(["--jobs", folder.to_str().unwrap(), "--plain", "job"])
        .current_dir(root())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let out = BufReader::new(child.stdout.take().unwrap());
    (child, out.lines().map_while(Result::ok))
}

/// A small generator, so that the moments are the same in every run.
fn next(seed: &mut u64) -> u64 {
    *seed = seed
        .wrapping_mul(6_364_136_223_846_793_005)
        .wrapping_add(1_442_695_040_888_963_407);
    *seed >> 33
}

#[test]
fn killed_at_200_moments_nothing_that_was_shown_as_saved_is_lost() {
    let mut seed = 7;
    for _ in 0..200 {
        let folder = tempfile::tempdir().unwrap();
        let (mut child, out) = start(folder.path());
        let mut input = child.stdin.take().unwrap();
        // Everything is typed ahead; the kill falls wherever it falls.
        let _ = input.write_all(whole_job().as_bytes());
        drop(input);
        let lines = 40 + next(&mut seed) % 400;
        let mut shown = 0;
        for line in out.take(usize::try_from(lines).unwrap()) {
            shown += usize::from(line.starts_with("SAVED "));
        }
        let _ = child.kill();
        child.wait().unwrap();
        if shown == 0 {
            continue;
        }
        assert!(
            entries(&only_job(folder.path())) >= shown,
            "{shown} were shown as saved"
        );
        let again = run(folder.path(), &["resume"], "l\nq\n");
        assert_eq!(again.code, 0, "{}{}", again.out, again.err);
        assert!(again.out.contains("goes on where it was left"));
    }
}

#[test]
fn cut_at_every_byte_only_the_torn_line_is_lost() {
    use std::sync::Arc;
    use stillwheel::authoring::{desk::Desk, document};
    use stillwheel::session::journal;
    use stillwheel::session::store::Store;

    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], &intake());
    let path = only_job(folder.path());
    let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
    let whole = std::fs::read(&path).unwrap();
    let mut desk = Desk::default();
    let model = Arc::new(document::tree(&mut desk, "crept-while-parked", None).unwrap());
    let store = Store::new(folder.path().to_owned());
    let header_end = whole.iter().position(|byte| *byte == b'\n').unwrap();
    for cut in 0..=whole.len() {
        std::fs::write(&path, &whole[..cut]).unwrap();
        let opened = store.open(&name);
        if cut < header_end {
            assert!(opened.is_err(), "cut at {cut}: the header is torn");
            continue;
        }
        let mut opened = opened.unwrap();
        let wanted = whole[..cut].split(|byte| *byte == b'\n').count() - 1;
        let (found, problems) = journal::entries(opened.lines.iter().map(String::as_str), &model);
        assert!(problems.is_empty(), "cut at {cut}: {problems:?}");
        // A line that lacks only its end is whole.
        assert!(
            found.len() + 1 == wanted || found.len() == wanted,
            "cut at {cut}"
        );
        if cut % 97 == 0 {
            let file = opened.file.as_mut().unwrap();
            file.append(&journal::entry_line(
                &found.last().cloned().unwrap_or_else(note),
                &model,
            ))
            .unwrap();
            drop(opened);
            let after = store.open(&name).unwrap();
            assert_eq!(after.lines.len(), found.len() + 1, "cut at {cut}");
            assert!(
                after.problems.is_empty(),
                "cut at {cut}: {:?}",
                after.problems
            );
        }
    }
}

fn note() -> stillwheel::session::entry::Entry {
    stillwheel::session::entry::Entry {
        at: stillwheel::base::stamp::Stamp::from_seconds(0),
        what: stillwheel::session::entry::What::Note("first".into()),
    }
}

#[test]
fn a_damaged_line_costs_itself_alone() {
    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], &intake());
    let path = only_job(folder.path());
    let text = std::fs::read_to_string(&path).unwrap();
    let mut lines: Vec<&str> = text.lines().collect();
    lines[8] = "{\"entry\": \"fie";
    std::fs::write(&path, lines.join("\n") + "\n").unwrap();
    let again = run(folder.path(), &["resume"], "l\nq\n");
    assert!(
        again.out.contains("line 9 is kept and not used"),
        "{}",
        again.out
    );
    assert!(
        again.out.contains("pressure as found: 1100 psi"),
        "{}",
        again.out
    );
}

#[test]
fn a_newer_job_and_a_strange_file_are_refused_with_words() {
    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], "3\n");
    let path = only_job(folder.path());
    let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
    let text = std::fs::read_to_string(&path).unwrap();
    let newest = format!("job {}", stillwheel::session::header::VERSION);
    assert!(text.contains(&newest), "{text}");
    std::fs::write(&path, text.replace(&newest, "job 99")).unwrap();
    let refused = run(folder.path(), &["resume", &name], "");
    assert_eq!(refused.code, 3);
    assert!(
        refused.err.contains("written by a newer program"),
        "{}",
        refused.err
    );
    std::fs::write(&path, "something else\n").unwrap();
    let refused = run(folder.path(), &["resume", &name], "");
    assert!(
        refused.err.contains("first line is damaged"),
        "{}",
        refused.err
    );
    let refused = run(folder.path(), &["resume", "nothing"], "");
    assert_eq!(refused.code, 3);
}

#[test]
fn a_second_console_reads_only() {
    let folder = tempfile::tempdir().unwrap();
    let (mut child, mut out) = start(folder.path());
    let mut input = child.stdin.take().unwrap();
    input.write_all(b"3\n").unwrap();
    assert!(out.any(|line| line.starts_with("SAVED ")));
    let second = run(folder.path(), &["resume"], "1\nq\n");
    assert!(
        second.out.contains("another console holds this job"),
        "{}",
        second.out
    );
    assert!(second.out.contains("NOT SAVED"), "{}", second.out);
    assert_eq!(entries(&only_job(folder.path())), 1);
    drop(input);
    child.wait().unwrap();
    let third = run(folder.path(), &["resume"], "1\nq\n");
    assert_eq!(saved(&third.out), 1, "{}", third.out);
}

#[test]
fn a_folder_that_goes_away_is_said_and_nothing_is_taken() {
    let folder = tempfile::tempdir().unwrap();
    let jobs = folder.path().join("jobs");
    let (mut child, mut out) = start(&jobs);
    let mut input = child.stdin.take().unwrap();
    input.write_all(b"3\n").unwrap();
    assert!(out.any(|line| line.starts_with("SAVED ")));
    std::fs::remove_dir_all(&jobs).unwrap();
    input.write_all(b"1\n").unwrap();
    let answer = out.find(|line| line.contains("SAVED")).unwrap();
    assert!(
        answer.starts_with("NOT SAVED: the job file is gone"),
        "{answer}"
    );
    drop(input);
    child.wait().unwrap();
}

#[test]
fn a_folder_that_cannot_be_made_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let blocked = folder.path().join("blocked");
    std::fs::write(&blocked, "a file").unwrap();
    let done = run(&blocked.join("jobs"), &["job"], "3\nq\n");
    assert!(done.out.contains("NOT SAVED"), "{}", done.out);
    let missing = run(&folder.path().join("none"), &["resume"], "");
    assert_eq!(missing.code, 3);
    assert!(missing.err.contains("there is no job"), "{}", missing.err);
}

#[test]
fn a_timer_runs_on_through_a_restart() {
    let folder = tempfile::tempdir().unwrap();
    run(folder.path(), &["job"], "3\n:timer 30 leak-down\n");
    let again = run(folder.path(), &["resume"], "q\n");
    let line = |text: &str| {
        text.lines()
            .find(|l| l.starts_with("TIMER leak-down: runs until"))
            .map(str::to_owned)
    };
    let end = line(&again.out);
    assert!(
        end.as_ref().is_some_and(|l| l.ends_with("30 min in all")),
        "{}",
        again.out
    );
    let later = run(folder.path(), &["resume"], "q\n");
    assert_eq!(line(&later.out), end, "its end does not move");
}

#[test]
fn a_wrong_aircraft_ends_the_job_as_a_wrong_report() {
    let folder = tempfile::tempdir().unwrap();
    let done = run(folder.path(), &["job"], "3\n1\n1\n1\n1\n0\nDEMO-8\n3\n0\n");
    assert!(
        done.out.contains("CLOSED: Wrong or duplicate report"),
        "{}",
        done.out
    );
}
