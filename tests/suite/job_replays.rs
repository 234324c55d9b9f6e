//! Public occurrences in which no brake part had failed, worked as a job: intake with chocks in,
//! the answers of the replay, everything else "cannot". The established cause must come first.

use std::collections::BTreeMap;

use crate::console_keys::{console, intake, tell};
use crate::run::root;
use stillwheel::base::stamp::Stamp;
use stillwheel::console::commit::commit;
use stillwheel::diagnosis::cause::Remedy;
use stillwheel::session::entry::What;
use stillwheel::session::job::Stage;

#[derive(serde::Deserialize)]
struct Replay {
    given: BTreeMap<String, String>,
    answers: BTreeMap<String, Answer>,
    established: Vec<String>,
}

#[derive(serde::Deserialize)]
struct Answer {
    answer: String,
}

/// Not set, let go, not fed, slid, chocks, and two more.
const NO_PART: [&str; 7] = [
    "handle-found-retracted",
    "released-before-chocks",
    "chocks-pulled-on-low-store",
    "slid-on-ice",
    "chock-not-against-tyre",
    "overnight-on-trapped-pressure",
    "thrust-in-the-pen",
];

#[test]
fn no_part_had_failed_and_the_job_says_so() {
    for name in NO_PART {
        let path = root().join(format!("tests/replays/{name}.yaml"));
        let text = std::fs::read_to_string(path).unwrap();
        let replay: Replay = serde_yaml::from_str(&text).unwrap();
        let mut state = console();
        let mut minute = 0;
        intake(&mut state, true);
        let model = std::sync::Arc::clone(state.job.model());
        let mut enter = |state: &mut _, what| {
            minute += 1;
            commit(
                state,
                what,
                Stamp::from_seconds(1000 + minute * 60),
                &mut |_| Ok(()),
            );
        };
        for (id, word) in &replay.given {
            tell(&mut state, id, word);
        }
        for _ in 0..60 {
            let Stage::Question(proposal) = state.job.stage().clone() else {
                break;
            };
            let check = proposal.check;
            let known = replay.answers.get(&model.checks[check].id);
            let what = match known {
                Some(known) => What::Answer {
                    check,
                    answer: model.checks[check].answer(&known.answer).unwrap(),
                    read: None,
                },
                None => What::Cannot {
                    check,
                    reason: None,
                },
            };
            enter(&mut state, what);
        }
        let first = state.job.causes()[0];
        let cause = &model.causes[first.event];
        assert!(
            replay.established.contains(&cause.id),
            "{name}: {} is first",
            cause.id
        );
        assert_eq!(
            cause.remedy,
            Some(Remedy::Nothing),
            "{name}: nothing to replace"
        );
    }
}
