//! A watched gauge: readings, plot and ranking.

use std::io::Write as _;

use crate::console_keys::{draw, press};
use crate::console_screens::at_questions;
use stillwheel::base::stamp::Stamp;
use stillwheel::console::commit::commit;
use stillwheel::console::follow::look;
use stillwheel::console::layout::Room;
use stillwheel::console::screens;
use stillwheel::console::state::{Screen, State};
use stillwheel::diagnosis::evidence::Item;
use stillwheel::diagnosis::falls::Against;
use stillwheel::session::entry::{Entry, What};
use stillwheel::session::job::Job;
use stillwheel::session::journal::{entries, entry_line};

/// A job at its questions, an hour into the future, so that readings can lie behind it.
pub fn watching(keys: &str) -> State {
    let mut state = at_questions();
    pass(&mut state, 3600);
    press(&mut state, keys);
    state
}

fn pass(state: &mut State, seconds: i64) {
    state.now = Stamp::from_seconds(state.now.seconds() + seconds);
}

/// Three readings, of a fall of so many bar in ten minutes.
pub fn three(bar: f64) -> String {
    let (middle, last) = (186.0 - bar / 2.0, 186.0 - bar);
    format!("t01:00 186 bar\n01:05 {middle:.1} bar\n01:10 {last:.1} bar\n")
}

fn all(state: &State) -> Vec<Against> {
    let events: Vec<usize> = (0..state.job.model().causes.len()).collect();
    let fell = state.job.evidence().fell.clone().expect("a fall");
    state.job.inference().curves(&fell, &events)
}

fn page(state: &State, columns: usize, rows: usize) -> String {
    let page = screens::page(state, Room::One, columns, rows);
    let rows = page.rows.iter().map(|row| row.text.as_str());
    rows.collect::<Vec<_>>().join("\n")
}

/// From a job: three readings typed, what they rule out is seen in the plot and in the ranking, and
/// both say the same.
#[test]
fn three_typed_readings_rule_out_the_same_in_plot_and_ranking() {
    let state = watching(&three(9.0));
    assert_eq!(state.screen, Screen::Trend);
    let fell = state.job.evidence().fell.clone().unwrap();
    let without = state.job.evidence().without(Item::Fall);
    let before = state.job.inference().believe(&without).unwrap();
    let now = state.job.belief().unwrap();
    let (mut out, mut left) = (0, 0);
    for against in all(&state) {
        let Some(event) = against.event else {
            continue;
        };
        // The last reading against the band that is drawn.
        let place = |seconds: f64| (seconds / fell.begin.horizon * 32.0).round();
        let band = against.band(&fell)[place(600.0) as usize];
        let last = 177.0 * 1e5;
        let title = &state.job.model().causes[event].title;
        let said = format!("{title}: {band:?}, odds {}", against.odds);
        if (band.0..=band.1).contains(&last) {
            assert!(!against.is_ruled_out(), "{said}");
        }
        // Another deviation beyond its edge leaves no doubt either way.
        if last < band.0 - fell.doubt || last > band.1 + fell.doubt {
            assert!(against.is_ruled_out(), "{said}");
        }
        let (was, is) = (before.events[event], now.events[event]);
        if against.is_ruled_out() {
            out += 1;
            assert!(is < was / 5.0, "{was} -> {is}");
        } else if against.differs && against.odds < 1.5 {
            left += 1;
            assert!(is > was, "{was} -> {is}");
        }
    }
    assert!(out > 10 && left > 3, "{out} ruled out, {left} left");
    let text = page(&state, 78, 24);
    assert!(text.contains("RULED OUT"), "{text}");
    assert!(
        text.contains("Ruled out, of 100 before and now: "),
        "{text}"
    );
}

/// What lets nothing out keeps its place beside a healthy aircraft; what lets much out loses it.
#[test]
fn a_slow_fall_speaks_for_what_leaks_little_and_a_fast_one_for_what_leaks_much() {
    let share = |state: &State, id: &str| {
        let event = state.job.model().cause(id).unwrap();
        state.job.belief().unwrap().events[event]
    };
    let (slow, fast) = (watching(&three(6.0)), watching(&three(34.0)));
    let leak = "accumulator-fitting-leaks";
    assert!(share(&slow, leak) < 0.01, "{}", share(&slow, leak));
    assert!(share(&fast, leak) > 0.05, "{}", share(&fast, leak));
    let people = |state: &State| share(state, "let-go-by-a-person");
    assert!(people(&slow) > 4.0 * people(&fast));
}

#[test]
fn a_reading_that_cannot_be_is_not_kept_and_says_why() {
    let mut state = watching("t");
    let before = state.job.entries().len();
    for (typed, why) in [
        ("186", "has no unit"),
        ("186 psi", "may be in the wrong unit"),
        ("1860 bar", "is out of range"),
        ("+5 min 186 bar", "no first reading"),
        ("01:90 186 bar", "not a unit known here"),
        ("186 C", "is a temperature"),
        ("1,480 psi", "can be two numbers"),
        ("186 bar at 400 C", "out of range"),
        ("186 bar at 4 bar", "is a pressure"),
        ("1970-01-01T00:00:10Z 186 bar", "before this job began"),
        ("1969-12-31T00:00:00Z 186 bar", "before this job began"),
        ("2199-01-01T00:00:00Z 186 bar", "still to come"),
        ("+99999999 h 186 bar", ""),
        ("1e400 bar", ""),
        ("0x10 bar", ""),
    ] {
        press(&mut state, &format!("{typed}\n"));
        let said = &state.message;
        assert!(said.starts_with("Not kept: "), "{typed}: {said}");
        assert!(said.contains(why), "{typed}: {said}");
        assert_eq!(state.job.entries().len(), before, "{typed}");
        // What was typed stays, for the person to mend it.
        assert_eq!(state.input, typed);
        press(&mut state, &"<".repeat(typed.len()));
    }
    press(&mut state, ":watch -5 bar\n");
    assert!(state.message.contains("out of range"), "{}", state.message);
    press(&mut state, "t01:00 186 bar\n01:00 185 bar\n");
    assert!(state.message.contains("already"), "{}", state.message);
}

#[test]
fn a_reading_is_changed_taken_back_and_put_back_like_any_entry() {
    let mut state = watching(&three(9.0));
    let fall = |state: &State| {
        state
            .job
            .evidence()
            .fell
            .as_ref()
            .map(|fell| fell.fall / 1e5)
    };
    let number = state.job.entries().len();
    assert!((fall(&state).unwrap() - 9.0).abs() < 1e-9);
    press(&mut state, "u");
    assert_eq!(state.screen, Screen::Trend);
    assert!((fall(&state).unwrap() - 4.5).abs() < 1e-9);
    press(&mut state, &format!("r:change {number} 168 bar\n"));
    assert!(
        (fall(&state).unwrap() - 18.0).abs() < 1e-9,
        "{}",
        state.message
    );
    press(&mut state, ":watch new\n");
    assert_eq!(fall(&state), None);
    assert!(state.job.watch().points.is_empty());
}

/// One fall counts once: as readings, or as the answer of the check that was judged by it.
#[test]
fn readings_do_not_count_beside_the_answer_they_gave() {
    let mut state = watching(&three(9.0));
    let check = state.job.model().check("leak-down").unwrap();
    let what = What::Answer {
        check,
        answer: 0,
        read: None,
    };
    let now = state.now;
    commit(&mut state, what, now, &mut |_| Ok(()));
    assert!(state.job.evidence().fell.is_none());
    let reason = state.job.watch().not_counted.clone().unwrap();
    assert!(reason.contains("one fall counts once"), "{reason}");
    press(&mut state, "t");
    let text = page(&state, 78, usize::MAX);
    assert!(text.contains("Not counted in the ranking: "), "{text}");
    assert!(text.contains("fell 9.0 bar"), "the plot stays: {text}");
}

#[test]
fn readings_and_heard_timers_outlive_the_console() {
    let mut state = watching(&three(9.0));
    press(
        &mut state,
        ":watch 01:12 175 bar at 8 C indicator\n:timer 1 leak-down\n",
    );
    pass(&mut state, 3600);
    press(&mut state, "k");
    let model = state.job.model().clone();
    let lines: Vec<String> = state
        .job
        .entries()
        .iter()
        .map(|e| entry_line(e, &model))
        .collect();
    let (read, problems) = entries(lines.iter().map(String::as_str), &model);
    assert!(problems.is_empty(), "{problems:?}");
    assert_eq!(read, state.job.entries());
    assert!(
        lines
            .iter()
            .any(|line| line.contains("\"gauge\":\"indicator\""))
    );
    let damaged = [
        r#"{"entry":"readings","values":[{"at":"x","gauge":"gas-gauge","read":"1 bar"}],"at":"2026-01-01T00:00:00Z"}"#,
        r#"{"entry":"readings","values":[{"at":"2026-01-01T00:00:00Z","gauge":"oil","read":"1 bar"}],"at":"2026-01-01T00:00:00Z"}"#,
        r#"{"entry":"readings","at":"2026-01-01T00:00:00Z"}"#,
    ];
    let (kept, problems) = entries(damaged.into_iter(), &model);
    assert_eq!((kept.len(), problems.len()), (3, 3), "{problems:?}");
}

/// A timer that is over stands in the top line of every screen until somebody says that he heard
/// it, also where the console was closed meanwhile.
#[test]
fn an_alarm_stays_until_it_is_heard() {
    let mut state = watching(":timer 10 leak-down\n");
    let top = |state: &State| draw(state, 80, 24).lines().next().unwrap().to_owned();
    assert!(!top(&state).contains("ALARM"));
    press(&mut state, "k");
    assert_eq!(state.message, "Key k does nothing here.");
    let entries: Vec<Entry> = state.job.entries().to_vec();
    let inference = std::sync::Arc::new(stillwheel::diagnosis::inference::Inference::new(
        state.job.model().clone(),
    ));
    let later = Stamp::from_seconds(state.now.seconds() + 700);
    let mut state = State::new(Job::new(inference, entries), "test", later);
    for key in ["", "w", "<l", "<t", "<p"] {
        press(&mut state, key);
        assert!(
            top(&state).contains("ALARM leak-down over "),
            "{}",
            top(&state)
        );
    }
    press(&mut state, "<k");
    assert!(!top(&state).contains("ALARM"), "{}", top(&state));
    assert!(state.job.timers().is_empty());
    press(&mut state, ":timer heard\n");
    assert_eq!(state.message, "No timer runs or is over.");
}

#[test]
fn ten_thousand_readings_of_a_file_are_one_entry_and_soon_drawn() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("gauge log.txt");
    let mut state = watching("");
    pass(&mut state, 20_000);
    let mut file = std::fs::File::create(&path).unwrap();
    for second in 0..10_000 {
        let (hours, rest) = (1 + second / 3600, second % 3600);
        let bar = 186.0 - f64::from(second) / 400.0;
        writeln!(
            file,
            "{hours:02}:{:02}:{:02} {bar:.2} bar",
            rest / 60,
            rest % 60
        )
        .unwrap();
    }
    let before = state.job.entries().len();
    press(&mut state, &format!(":follow {}\n", path.display()));
    let begun = std::time::Instant::now();
    let now = state.now;
    look(&mut state, now, &mut |_| Ok(()));
    assert_eq!(state.job.watch().points.len(), 10_000);
    assert_eq!(state.job.entries().len(), before + 1);
    for (columns, rows) in [
        (0, 0),
        (1, 1),
        (20, 5),
        (39, 12),
        (40, 12),
        (80, 24),
        (200, 60),
    ] {
        state.size = (columns, rows);
        draw(&state, columns, rows);
        page(&state, usize::from(columns).max(1), usize::from(rows));
    }
    // A bound that only a mistake in the order of the work breaks, on a slow machine too.
    assert!(begun.elapsed().as_secs() < 60, "{:?}", begun.elapsed());
    let now = state.now;
    look(&mut state, now, &mut |_| Ok(()));
    assert_eq!(
        state.job.entries().len(),
        before + 1,
        "nothing is read twice"
    );
}

#[test]
fn lines_that_cannot_be_read_are_named_and_the_file_may_come_and_go() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("log.txt");
    let mut state = watching("");
    let again = |state: &mut State| {
        pass(state, 2);
        let (from, now) = (state.messages.len(), state.now);
        look(state, now, &mut |_| Ok(()));
        state.messages[from..].join("\n")
    };
    press(
        &mut state,
        &format!(":follow {} indicator\n", path.display()),
    );
    let said = again(&mut state);
    assert!(
        said.contains("log.txt cannot be read yet (it is not there)"),
        "{said}"
    );
    assert_eq!(again(&mut state), "", "said once");
    std::fs::write(
        &path,
        "# a remark\n01:00:00 186 bar\n\n01:01 x bar\nnoise\n01:02:00 18",
    )
    .unwrap();
    let said = again(&mut state);
    assert!(said.contains("log.txt, line 4: "), "{said}");
    assert!(
        said.contains("log.txt, line 5: `noise` is no time"),
        "{said}"
    );
    assert_eq!(
        state.job.watch().points.len(),
        1,
        "a line without its end is not whole"
    );
    let mut file = std::fs::OpenOptions::new()
        .append(true)
        .open(&path)
        .unwrap();
    file.write_all(b"5 bar gas-gauge\n\xff\xfe\x00\n").unwrap();
    let said = again(&mut state);
    assert!(said.contains("line 7: "), "{said}");
    let points = &state.job.watch().points;
    assert_eq!(points.len(), 2);
    assert_eq!((points[0].taken.gauge, points[1].taken.gauge), (1, 0));
    std::fs::remove_file(&path).unwrap();
    assert!(again(&mut state).contains("log.txt is gone"));
    assert_eq!(again(&mut state), "");
    // Another file of the name is read from its start; what was read before is not read twice.
    std::fs::write(&path, "01:00:00 186 bar\n01:04:00 183 bar\n").unwrap();
    again(&mut state);
    assert_eq!(state.job.watch().points.len(), 3);
    std::fs::write(&path, vec![b'x'; 3_000_000]).unwrap();
    again(&mut state);
    std::fs::remove_file(&path).unwrap();
    std::fs::create_dir(&path).unwrap();
    assert!(again(&mut state).contains("not a plain file"));
    press(&mut state, ":follow off\n");
    assert_eq!(state.follow, None);
    assert_eq!(state.job.watch().points.len(), 3);
}

/// What is followed is looked at at its moment, and no moment lies behind.
#[test]
fn a_followed_file_has_its_moments() {
    use stillwheel::console::effect::Effect;
    use stillwheel::console::event::Event;
    let mut state = watching("");
    press(&mut state, ":follow no-such-file\n");
    pass(&mut state, 100);
    let next = state.next_moment().unwrap();
    assert!(next > state.now);
    let effect = stillwheel::console::update::update(&mut state, &Event::Moment(next));
    assert_eq!(effect, Some(Effect::Look));
}

/// The same line by line, with a clock that goes on by a minute at every look at it.
#[test]
fn plain_mode_takes_readings_and_says_what_they_rule_out() {
    use std::cell::Cell;
    use stillwheel::console::plain::{Lines, run};
    let mut state = at_questions();
    let now = Cell::new(state.now.seconds());
    let clock = || {
        now.set(now.get() + 60);
        Stamp::from_seconds(now.get())
    };
    let keys = ":watch 186 bar\n:watch +3 min 183.2 bar\n:watch x bar\n:watch 175 bar\nt\nq\n";
    let (mut input, mut out) = (keys.as_bytes(), Vec::new());
    let mut lines = Lines {
        input: &mut input,
        out: &mut out,
        clock: &clock,
    };
    run(&mut state, &mut lines, &mut |_| Ok(())).unwrap();
    let out = String::from_utf8(out).unwrap();
    for wanted in [
        "SAVED ",
        "Not kept: `x bar` does not start with a number.",
        "Direct gauge at the gas valve, gas side: since ",
        "bar/min",
        "mL/min out of the store",
        "RULED OUT: ",
        "Ruled out, of 100 before and now: ",
        "Empty it reads 74.4 bar, the precharge",
        "183.2 bar",
    ] {
        assert!(out.contains(wanted), "no {wanted} in {out}");
    }
    assert!(out.lines().all(|line| line.len() <= 78 && line.is_ascii()));
}
