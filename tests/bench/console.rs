//! The console: first frame, key to frame, bytes of a frame.

use std::sync::Arc;
use std::time::{Duration, Instant};

use ratatui::Terminal;
use ratatui::backend::{CrosstermBackend, TestBackend};
use stillwheel::authoring::{desk::Desk, document};
use stillwheel::base::stamp::Stamp;
use stillwheel::console::bench::state::State as BenchState;
use stillwheel::console::bench::update::{Event, typed, update};
use stillwheel::console::bench::view::view as bench_view;
use stillwheel::console::commit::commit;
use stillwheel::console::state::{Screen, State};
use stillwheel::console::theme::MONO;
use stillwheel::console::view::view;
use stillwheel::diagnosis::inference::Inference;
use stillwheel::plant::course::{Course, HOUR};
use stillwheel::session::entry::What;
use stillwheel::session::fields::FIELDS;
use stillwheel::session::job::{Job, Stage};
use stillwheel::session::watch::Taken;

use crate::measure::time;

/// A job with its intake answered, so that a check is on the screen.
fn questions() -> State {
    let mut desk = Desk::default();
    let model = document::tree(&mut desk, "crept-while-parked", None).expect("the shipped tree");
    let job = Job::new(Arc::new(Inference::new(Arc::new(model))), Vec::new());
    let mut state = State::new(job, "bench", Stamp::from_seconds(0));
    loop {
        let what = match *state.job.stage() {
            Stage::Field(field) => {
                let value = match FIELDS[field].id {
                    "hurt" => Some("no"),
                    _ if FIELDS[field].must || FIELDS[field].lock.is_some() => Some("yes"),
                    _ => None,
                };
                let value = value.map(str::to_owned);
                What::Field { field, value }
            }
            Stage::Condition(condition) => What::Condition {
                condition,
                word: None,
            },
            _ => return state,
        };
        commit(&mut state, what, Stamp::from_seconds(1), &mut |_| Ok(()));
    }
}

/// The bench at a thousand times real time: the frame, and what it takes of a core.
fn on_the_bench() {
    let mut desk = Desk::default();
    let aircraft = Arc::new(document::aircraft(&mut desk, "demo-twin").expect("the demo aircraft"));
    let ready = |lines: &str| {
        let mut state = BenchState::new(&aircraft, &Course::default()).expect("it begins");
        for line in lines.lines() {
            typed(&mut state, line);
        }
        update(&mut state, &Event::Resize(200, 60));
        state
    };
    let mut terminal = Terminal::new(TestBackend::new(200, 60)).expect("a test terminal");
    let mut draw = |state: &BenchState| {
        terminal
            .draw(|frame| bench_view(frame, state, &MONO))
            .expect("drawn");
    };
    let stands = ready("fault right-cross-rod/detached\npark\nrun 8 h");
    time("bench frame at 200x60 with plot and schematic", || {
        draw(&stands);
    });
    time("everything tried on the bench and on its twin", || {
        let mut state = ready("fault brake-l3/seal-leak\npark\nrun 8 h");
        state.try_all().expect("tried");
    });
    // Frames of a tenth of a second until eight hours are over, as the loop gives them; worked off
    // at once, so that the time this takes beside the time it stands for is the share of a core.
    for fault in ["none", "brake-l3/seal-leak", "right-cross-rod/detached"] {
        let mut state = match fault {
            "none" => ready("speed 1000"),
            fault => ready(&format!("fault {fault}\npark\nspeed 1000")),
        };
        let (begin, mut frames, steps) = (Instant::now(), 0_u32, state.play.plant().steps());
        while state.play.now() < 8 * HOUR {
            // It stops by itself as the aircraft moves; here it goes on.
            state.running = true;
            update(&mut state, &Event::Passed(Duration::from_millis(100)));
            draw(&state);
            frames += 1;
        }
        let busy = begin.elapsed().as_secs_f64();
        let stood_for = f64::from(frames) * 0.1;
        println!(
            "  8 h at 1000 times real time, {fault}: {frames} frames, {:.2} ms each, {} steps, {:.1} % of a core (goal 30)",
            busy / f64::from(frames) * 1e3,
            state.play.plant().steps() - steps,
            busy / stood_for * 100.0
        );
    }
}

/// Frames at 200x60 with what costs most to draw, and the first look at a fall.
fn wide_frames() {
    let mut terminal = Terminal::new(TestBackend::new(200, 60)).expect("a test terminal");
    let mut state = questions();
    state.size = (200, 60);
    state.now = Stamp::from_seconds(7200);
    let hour = |bar: f64| -> Vec<Taken> {
        let one = |nth: i64| Taken {
            at: Stamp::from_seconds(60 + 60 * nth),
            gauge: 0,
            typed: format!(
                "{:.1} bar",
                186.0 - bar * f64::from(i32::try_from(nth).unwrap_or(0)) / 10.0
            ),
        };
        (0..=10).map(one).collect()
    };
    let watch = |bar: f64| What::Readings {
        values: hour(bar),
        from: None,
    };
    let inference = Arc::new(Inference::new(Arc::clone(state.job.model())));
    let entries = state.job.entries().to_vec();
    let mut nth = 0;
    time(
        "a new watch: every fault played, ranked, plot at 200x60",
        || {
            // Another charge each time, so that nothing is known from the last round.
            nth += 1;
            let job = Job::new(Arc::clone(&inference), entries.clone());
            let mut state = State::new(job, "bench", Stamp::from_seconds(7200));
            state.size = (200, 60);
            let fell = watch(9.0 + f64::from(nth) * 1e-3);
            let What::Readings { mut values, from } = fell else {
                return;
            };
            values[0].typed = format!("{:.3} bar", 186.0 + f64::from(nth) * 1e-3);
            let what = What::Readings { values, from };
            commit(&mut state, what, Stamp::from_seconds(7200), &mut |_| Ok(()));
            terminal
                .draw(|frame| view(frame, &state, &MONO))
                .expect("drawn");
        },
    );
    commit(
        &mut state,
        watch(9.0),
        Stamp::from_seconds(7200),
        &mut |_| Ok(()),
    );
    for (name, screen) in [
        ("a frame with the plot at 200x60", Screen::Trend),
        ("a frame with the schematic at 200x60", Screen::Schematic),
    ] {
        state.screen = screen;
        time(name, || {
            terminal
                .draw(|frame| view(frame, &state, &MONO))
                .expect("drawn");
        });
    }
    let leader = state.job.causes().into_iter().map(|row| row.event);
    let fault = leader
        .into_iter()
        .find(|event| state.job.model().causes[*event].fault.is_some());
    state.screen = Screen::Cause(fault.expect("a fault among the causes"));
    time("a frame with a cause explained at 200x60", || {
        terminal
            .draw(|frame| view(frame, &state, &MONO))
            .expect("drawn");
    });
}

/// Prints the figures.
pub fn run() {
    on_the_bench();
    println!("Console without a terminal (goal: key to frame 16 ms at 200x60)");
    time("load, compile, first frame at 80x24", || {
        let mut desk = Desk::default();
        let model = document::tree(&mut desk, "crept-while-parked", None).expect("the tree");
        let job = Job::new(Arc::new(Inference::new(Arc::new(model))), Vec::new());
        let state = State::new(job, "bench", Stamp::from_seconds(0));
        let mut terminal = Terminal::new(TestBackend::new(80, 24)).expect("a test terminal");
        terminal
            .draw(|frame| view(frame, &state, &MONO))
            .expect("drawn");
    });
    let state = questions();
    let entries = state.job.entries().to_vec();
    let inference = Arc::new(Inference::new(Arc::clone(state.job.model())));
    let mut terminal = Terminal::new(TestBackend::new(200, 60)).expect("a test terminal");
    let answer = What::Answer {
        check: 0,
        answer: 1,
        read: None,
    };
    time("an answer, its ranking and the frame at 200x60", || {
        let job = Job::new(Arc::clone(&inference), entries.clone());
        let mut state = State::new(job, "bench", Stamp::from_seconds(0));
        commit(
            &mut state,
            answer.clone(),
            Stamp::from_seconds(2),
            &mut |_| Ok(()),
        );
        terminal
            .draw(|frame| view(frame, &state, &MONO))
            .expect("drawn");
    });

    wide_frames();

    let mut bytes = Vec::new();
    let mut terminal = Terminal::with_options(
        CrosstermBackend::new(&mut bytes),
        ratatui::TerminalOptions {
            viewport: ratatui::Viewport::Fixed(ratatui::layout::Rect::new(0, 0, 80, 24)),
        },
    )
    .expect("a terminal of bytes");
    terminal
        .draw(|frame| view(frame, &state, &MONO))
        .expect("drawn");
    drop(terminal);
    println!("bytes of a whole frame at 80x24: {}", bytes.len());
}
