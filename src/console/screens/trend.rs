//! A watched gauge: its readings against what a healthy aircraft and the leading causes would
//! show, and what that rules out.

use crate::base::text::{pad, truncate};
use crate::base::unit::BAR;
use crate::base::unit::PSI;
use crate::console::page::{Page, Role};
use crate::console::plot::{Band, Line, Marked, Plot};
use crate::console::schematic::Zoom;
use crate::console::state::State;
use crate::diagnosis::cause::Part;
use crate::diagnosis::evidence::Item;
use crate::diagnosis::falls::{Against, Drained};
use crate::diagnosis::fell::Fell;
use crate::diagnosis::gauge_reading::{name_of, side_of, title_of};
use crate::diagnosis::inference::Belief;
use crate::diagnosis::ranking::{of_100, ranking};
use crate::report::trend_text::{trend_lines, verdict};
use crate::session::watch::{Point, Watch};

/// How many causes are drawn beside a healthy aircraft, in a narrow window and in a wide one.
const DRAWN: (usize, usize) = (2, 3);
/// Columns from which on a window is wide.
const WIDE: usize = 60;
/// Letters of the causes that are drawn.
const LETTERS: [char; 3] = ['a', 'b', 'c'];
/// Fewest rows of a plot; words below it have a third of the window, and no more rows than this.
const PLOT: (usize, usize) = (5, 20);
/// Curves closer than this everywhere are drawn once, Pa.
const ALIKE: f64 = 1e5;
/// Readings that are listed: those of the beginning and the newest.
const LISTED: (usize, usize) = (20, 60);
const HOUR: f64 = 3600.0;

/// Writes the screen. What is typed on it is a reading.
pub fn write(page: &mut Page, state: &State, rows: usize) {
    let job = &state.job;
    let watch = job.watch();
    heading(page, state, watch);
    let fell = job.evidence().fell.clone();
    let shown = fell.clone().map(|fell| (*fell).clone());
    let shown = shown.or_else(|| watch.clearest(job.air()));
    let without = job.evidence().without(Item::Fall);
    let before = job.inference().believe(&without).ok();
    if let (Some(fell), Some(before)) = (&shown, &before) {
        let now = job.belief().unwrap_or(before);
        let drawn = drawn(state, fell, before, now, page.columns);
        let drained = job.inference().drained(fell);
        picture(page, state, fell, &drawn, drained.as_ref(), rows);
        verdicts(page, state, &drawn, now);
        for line in trend_lines(job.inference(), fell, before, now) {
            page.text(&line);
        }
        counted(page, watch);
    } else {
        counted(page, watch);
        how(page);
    }
    for timer in job.timers() {
        page.row(&timer.line(state.now));
    }
    table(page, watch);
}

/// Which gauge, since when, from which file; and what is being typed.
fn heading(page: &mut Page, state: &State, watch: &Watch) {
    let gauge = watch.points.last().map_or(0, |point| point.taken.gauge);
    let since = watch.begun().map_or("no reading yet".to_owned(), |begun| {
        format!("since {}", begun.clock())
    });
    let follow = state.follow.as_ref();
    let follow = follow.map_or(String::new(), |follow| {
        format!(", following {}", follow.name())
    });
    let (title, side) = (title_of(gauge), side_of(gauge));
    page.strong(&format!("{title}, {side}: {since}{follow}"));
    if state.input.is_empty() {
        page.row("Type a reading: 184.5 bar, or 02:31 184.5 bar indicator");
    } else {
        page.input(&state.input);
    }
}

/// Why no reading counts, where none does.
fn counted(page: &mut Page, watch: &Watch) {
    match &watch.not_counted {
        Some(reason) => page.text(&format!("Not counted in the ranking: {reason}.")),
        None if watch.points.is_empty() => {}
        None => page.text("Counted in the ranking as one answer."),
    }
}

fn how(page: &mut Page) {
    page.text(
        "Lever up, pumps off. Take the first reading as the watch begins, then one a minute.",
    );
    page.text("In front of it the time, 02:31 or +5 min, else it is now. Behind it the gauge: gas-gauge, indicator, store-fluid or brake.");
    page.text(":follow FILE takes readings another program writes, :watch new begins anew, :timer 10 leak-down sets an alarm.");
}

/// A healthy aircraft, and the causes that led without the readings and lead with them, as far as
/// the gauge tells them from a healthy one.
fn drawn(
    state: &State,
    fell: &Fell,
    before: &Belief,
    now: &Belief,
    columns: usize,
) -> Vec<Against> {
    let inference = state.job.inference();
    let model = inference.model();
    let events: Vec<usize> = (0..model.causes.len()).collect();
    let all = inference.curves(fell, &events);
    let differs = |event: usize| all.iter().any(|a| a.event == Some(event) && a.differs);
    let leading = |belief: &Belief, count: usize| -> Vec<usize> {
        let ranked = ranking(model, belief, Part::Cause).into_iter();
        let told = ranked.map(|row| row.event).filter(|event| differs(*event));
        told.take(count).collect()
    };
    let count = if columns < WIDE { DRAWN.0 } else { DRAWN.1 };
    let of = |event: Option<usize>| all.iter().find(|a| a.event == event).cloned();
    let mut wanted: Vec<Against> = of(None).into_iter().collect();
    let mut leading_both = leading(now, 1);
    leading_both.extend(leading(before, usize::MAX));
    for against in leading_both.into_iter().filter_map(|event| of(Some(event))) {
        let drawn = wanted.iter().skip(1).any(|other| alike(&against, other));
        if !drawn && wanted.len() <= count {
            wanted.push(against);
        }
    }
    wanted
}

/// Whether two curves could not be told apart in a plot, such as those of the left and the right.
fn alike(one: &Against, other: &Against) -> bool {
    let pairs = one.curves.0.iter().zip(&other.curves.0);
    let mut apart = pairs.flat_map(|(one, other)| one.iter().zip(other));
    one.event == other.event || apart.all(|(one, other)| (one - other).abs() < ALIKE)
}

/// The plot, where there is room for it.
fn picture(
    page: &mut Page,
    state: &State,
    fell: &Fell,
    drawn: &[Against],
    drained: Option<&Drained>,
    rows: usize,
) {
    if rows == usize::MAX {
        return;
    }
    let below = PLOT.1.min(rows / 3);
    let high = rows.saturating_sub(page.rows.len() + below).max(PLOT.0);
    let plot = plot(state, fell, drawn, drained);
    page.drawn(plot.draw((page.columns, high), state.preferences.lines));
}

/// What is plotted, in the unit of the first reading.
fn plot(state: &State, fell: &Fell, drawn: &[Against], drained: Option<&Drained>) -> Plot {
    let watch = state.job.watch();
    let psi = watch
        .points
        .first()
        .is_some_and(|p| p.taken.typed.contains("psi"));
    let (unit, pressure) = if psi { ("psi", PSI) } else { ("bar", BAR) };
    let hours = fell.begin.horizon > 2.0 * HOUR;
    let (time_unit, second) = if hours { ("h", HOUR) } else { ("min", 60.0) };
    let band = |(nth, against): (usize, &Against)| {
        let values = against.band(fell).into_iter().enumerate();
        Band {
            mark: nth.checked_sub(1).map_or('.', letter),
            points: values
                .map(|(at, (low, high))| {
                    (
                        fell.begin.time(at) / second,
                        low / pressure,
                        high / pressure,
                    )
                })
                .collect(),
            filled: nth == 0,
        }
    };
    let readings = watch.of(fell.begin.gauge);
    let readings = readings
        .iter()
        .map(|(time, pascals)| (time / second, pascals / pressure));
    let line = Line {
        mark: 'o',
        role: Role::Strong,
        points: readings.collect(),
        joined: false,
    };
    let marked = drained.map(|drained| Marked {
        value: drained.empty / pressure,
        label: format!("empty {:.0}", drained.empty / pressure),
    });
    let mut plot = Plot {
        heading: heading_of(state, drawn),
        unit: unit.to_owned(),
        time_unit: time_unit.to_owned(),
        times: Some((0.0, fell.begin.horizon / second)),
        values: None,
        bands: drawn.iter().enumerate().map(band).collect(),
        lines: vec![line],
        marked,
    };
    if state.zoom == Zoom::Near {
        plot.values = near(&plot);
    }
    plot
}

/// Readings and bands about them, without the empty value.
fn near(plot: &Plot) -> Option<(f64, f64)> {
    let alone = Plot {
        marked: None,
        ..plot.clone()
    };
    alone.value_range()
}

fn heading_of(state: &State, drawn: &[Against]) -> String {
    let fill = state.preferences.lines.glyphs().fill;
    let marks: Vec<String> = (1..drawn.len())
        .map(|nth| letter(nth - 1).to_string())
        .collect();
    format!("o read  {fill} healthy  {} below", marks.join(" "))
}

fn letter(nth: usize) -> char {
    LETTERS.get(nth).copied().unwrap_or('+')
}

/// What each that is drawn is, and whether it fits.
fn verdicts(page: &mut Page, state: &State, drawn: &[Against], now: &Belief) {
    let fill = state.preferences.lines.glyphs().fill;
    for (nth, against) in drawn.iter().enumerate() {
        let (mark, title) = match against.event {
            None => (fill, "healthy".to_owned()),
            Some(event) => {
                let title = &state.job.model().causes[event].title;
                let share = of_100(now.events[event]);
                (letter(nth.saturating_sub(1)), format!("{share:>2} {title}"))
            }
        };
        let role = if against.is_ruled_out() {
            Role::Caution
        } else {
            Role::Text
        };
        let word = against.word();
        let line = format!("{mark} {word}: {title}");
        let rest = verdict(against);
        let rest = rest.split_once("; ").map_or("", |(_, rest)| rest);
        let long = format!("{line}; {rest}");
        let fits = crate::base::text::width(&long) <= page.columns;
        page.row_of(role, if fits { &long } else { &line });
    }
}

/// The readings as they were taken, with what each fell since the first.
fn table(page: &mut Page, watch: &Watch) {
    let points = &watch.points;
    if points.is_empty() {
        return;
    }
    let head = "time       read                   gauge         fell, bar";
    page.row_of(Role::Strong, head);
    let left_out = points.len().saturating_sub(LISTED.0 + LISTED.1);
    for (nth, point) in points.iter().enumerate() {
        if left_out > 0 && nth == LISTED.0 {
            page.row(&format!("... {left_out} readings more in the job file ..."));
        }
        if left_out == 0 || nth < LISTED.0 || nth >= LISTED.0 + left_out {
            page.row(&row(watch, point));
        }
    }
}

fn row(watch: &Watch, point: &Point) -> String {
    let taken = &point.taken;
    let first = watch.points.iter().find(|p| p.taken.gauge == taken.gauge);
    let fell = first.map_or(0.0, |first| first.pascals - point.pascals) / BAR;
    let text = taken.at.to_string();
    let clock = text.get(11..20).unwrap_or_default();
    let gauge = name_of(taken.gauge);
    // Zero has no sign, whatever rounding made of it.
    let fell = if fell.abs() < 0.05 { 0.0 } else { fell };
    format!(
        "{}  {} {} {fell:>9.1}",
        pad(clock, 9),
        pad(&truncate(&taken.typed, 22), 22),
        pad(gauge, 12)
    )
}
