//! Files of the bench: written, read back digit for digit, and damaged.

use std::path::Path;

use stillwheel::authoring::{desk::Desk, document};
use stillwheel::console::bench::state::State;

use crate::bench::after;
use crate::run::{Run, root, stillwheel_in};

/// A course with something of everything.
const COURSE: &str = "set temperature 35 C, 6 h -15 C, lag 1.5 h\nset precharge 1000 psi at 68 F\n\
    fault brake-l3/seal-leak 0.3\npark 2000 psi\nrun 12.3 s\nset second-pedals 100 60\n\
    fault left-cable/stretched\nrun 1 h\nset valve-breaker out\nset lever released\n\
    set lever set\nset wear 1.35\nrun 2 h";

fn in_folder(folder: &Path, script: &str) -> Run {
    stillwheel_in(folder, &["bench"], script)
}

#[test]
fn a_course_comes_back_digit_for_digit() {
    let folder = tempfile::tempdir().unwrap();
    let run = in_folder(
        folder.path(),
        &format!("{COURSE}\nsave course.yaml\nshow\n"),
    );
    assert!(run.out.contains("SAVED course.yaml."), "{}", run.out);
    let state = after(COURSE);
    let path = folder.path().join("course.yaml");
    let mut desk = Desk::default();
    let read = document::bench(&mut desk, path.to_str().unwrap());
    let read = read.unwrap_or_else(|| panic!("{:?}", desk.problems));
    assert_eq!(read.course, *state.play.course());
    let again = State::new(&read.aircraft, &read.course).unwrap();
    assert_eq!(
        again.play.plant().pressures(),
        state.play.plant().pressures()
    );
    assert_eq!(again.play.twin().pressures(), state.play.twin().pressures());
    assert_eq!(again.shown, state.shown);
    // Loaded on a bench where something else stands, and shown the same.
    let loaded = in_folder(folder.path(), "set slope 2 %\nload course.yaml\nshow\n");
    let shown = |run: &Run| run.out.split("  Park lever:").nth(1).unwrap().to_owned();
    assert_eq!(shown(&loaded), shown(&run));
    let text = std::fs::read_to_string(&path).unwrap();
    let saved_again = in_folder(folder.path(), "load course.yaml\nsave\n");
    assert!(
        saved_again.out.contains("SAVED course.yaml."),
        "{}",
        saved_again.out
    );
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
    let from = stillwheel_in(folder.path(), &["bench", "--from", "course.yaml"], "show\n");
    assert_eq!(shown(&from), shown(&run));
}

#[test]
fn a_damaged_file_is_told_at_its_line_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("course.yaml");
    let before = "set slope 2 %\nrun 1 h\n";
    for (damage, wanted) in [
        (
            "stillwheel: bench 1\naircraft: demo-twin\nbegin: {set: {slop: 2 %}}\n",
            "course.yaml:3:15",
        ),
        (
            "stillwheel: bench 1\naircraft: demo-twin\nthen: [{at: 1 h, set: {lever",
            "course.yaml:3",
        ),
        (
            "stillwheel: bench 1\naircraft: nowhere\n",
            "course.yaml:2:11",
        ),
        ("half a file", "course.yaml:1"),
        ("", "course.yaml:1"),
        ("\u{0}\u{1}", "course.yaml:1"),
    ] {
        std::fs::write(&path, damage).unwrap();
        let run = in_folder(
            folder.path(),
            &format!("{before}load course.yaml\nsave course.yaml\naccount\n"),
        );
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(run.out.contains("nothing changed here"), "{}", run.out);
        assert!(run.out.contains(wanted), "{damage}: {}", run.out);
        // It goes on where it stood, and does not write over what somebody may mend.
        assert!(
            run.out.contains("NOT SAVED: course.yaml is there"),
            "{}",
            run.out
        );
        assert_eq!(std::fs::read_to_string(&path).unwrap(), damage);
        assert!(run.out.contains("23.1 kN push it"), "{}", run.out);
        let readings = stillwheel_in(folder.path(), &["readings", "--bench", "course.yaml"], "");
        assert_eq!((readings.code, readings.out.as_str()), (1, ""));
        assert!(readings.err.contains("course.yaml:"), "{}", readings.err);
    }
    let missing = in_folder(folder.path(), "load nothing.yaml\n");
    assert!(missing.out.contains("it is not there"), "{}", missing.out);
    let left: Vec<_> = std::fs::read_dir(folder.path()).unwrap().collect();
    assert_eq!(left.len(), 1, "no halves are left behind: {left:?}");
}

#[test]
fn a_document_of_another_kind_is_not_written_over() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("twin.yaml");
    let text = std::fs::read_to_string(root().join("demo-data/demo-twin.yaml")).unwrap();
    std::fs::write(&path, &text).unwrap();
    let run = stillwheel_in(
        folder.path(),
        &["bench", "twin.yaml"],
        "run 1 h\nsave twin.yaml\nsave course.yaml\n",
    );
    assert!(run.out.contains("NOT SAVED"), "{}", run.out);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
    // A course on an aircraft of one's own names it so that it is found from elsewhere.
    let elsewhere = tempfile::tempdir().unwrap();
    let course = folder.path().join("course.yaml");
    let read = stillwheel_in(
        elsewhere.path(),
        &["readings", "--bench", course.to_str().unwrap()],
        "",
    );
    assert_eq!((read.code, read.err.as_str()), (0, ""));
    let folder = std::fs::metadata(folder.path().join("nowhere"));
    assert!(folder.is_err());
    let run = in_folder(elsewhere.path(), "save nowhere/course.yaml\n");
    assert!(
        run.out
            .contains("NOT SAVED: nowhere/course.yaml cannot be written"),
        "{}",
        run.out
    );
}

/// A course in which nothing was set since is a parking: `readings` says the same of both.
#[test]
fn readings_of_a_file_are_those_of_the_same_parking() {
    let folder = tempfile::tempdir().unwrap();
    for (lines, arguments) in [
        (
            "fault brake-l3/seal-leak\npark\nrun 8 h",
            &["--fault", "brake-l3/seal-leak"][..],
        ),
        (
            "set temperature -15 C\npark\nrun 8 h",
            &["--temperature", "-15 C"][..],
        ),
        (
            "set power external\nset battery connected-on\nset pumps on\npark\nrun 8 h",
            &["--state", "C1"][..],
        ),
    ] {
        in_folder(folder.path(), &format!("{lines}\nsave a.yaml\n"));
        let json = |more: &[&str]| -> serde_json::Value {
            let mut all = vec!["readings", "--json"];
            all.extend(more);
            let run = stillwheel_in(folder.path(), &all, "");
            assert_eq!(run.code, 0, "{}", run.err);
            serde_json::from_str(&run.out).unwrap()
        };
        let of_file = json(&["--bench", "a.yaml"]);
        let mut played = arguments.to_vec();
        played.extend(["--hours", "8 h"]);
        let of_parking = json(&played);
        assert_eq!(of_file["state"], of_parking["state"]);
        assert_eq!(of_file["faults"], of_parking["faults"]);
        let (one, other) = (&of_file["observables"], &of_parking["observables"]);
        let names = other.as_object().unwrap();
        assert!(names.len() > 40);
        for (name, value) in names {
            let found = &one[name];
            match (found.as_f64(), value.as_f64()) {
                (Some(found), Some(value)) => {
                    let close = (found - value).abs() <= 0.05 + 0.005 * value.abs();
                    assert!(close, "{lines} {name}: {found} and {value}");
                }
                _ => assert_eq!(found, value, "{lines} {name}"),
            }
        }
    }
}
