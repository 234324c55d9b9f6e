//! What every check reads for every fault in every state, beside the table of the reference
//! model. Every parameter and edge is invented or judged; what is compared is the pattern.
//!
//! Both ways: what the table lists must read so, and what it does not list must read as healthy.

use std::collections::BTreeMap;
use std::sync::Arc;

use stillwheel::plant::aircraft::Aircraft;
use stillwheel::plant::observe::{Observed, Reading};

use crate::demo_plant::{aircraft, number, readings, word};

/// Observables that need volts on the battery bus; in C4 they show nothing, with or without fault.
const ON_THE_BATTERY_BUS: [&str; 7] = [
    "park-light",
    "held-caption",
    "park-relay",
    "pressure-indicator-bar",
    "indicator-minus-gauge-bar",
    "indicator-at-1386-ohm-bar",
    "light-after-release",
];

/// Another look at what stands in the table under another name: the same gauges at another hour,
/// the difference without its sign, the same indicator in the morning.
const SEEN_UNDER_ANOTHER_NAME: [&str; 4] = [
    "gas-at-30-min-bar",
    "indicator-at-8-h-bar",
    "gauges-apart-bar",
    "position-at-8-h",
];

type Listed<'a> = BTreeMap<&'a str, &'a str>;

struct Row<'a> {
    faults: &'a str,
    running: Listed<'a>,
    stopped: Listed<'a>,
}

fn listed(text: &str) -> Listed<'_> {
    text.split(';')
        .map(str::trim)
        .filter(|entry| !entry.is_empty())
        .map(|entry| entry.split_once('=').expect("NAME=CLASS"))
        .collect()
}

fn rows() -> Vec<Row<'static>> {
    include_str!("../plant/classes.txt")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| {
            let [faults, running, stopped] = line
                .split('|')
                .collect::<Vec<_>>()
                .try_into()
                .expect("three fields");
            Row {
                faults: faults.trim(),
                running: listed(running),
                stopped: listed(stopped),
            }
        })
        .collect()
}

/// The class of a reading against the healthy one in the same state; `None` where they are alike.
fn class(found: &Observed, healthy: &Observed) -> Option<String> {
    let text = match (&found.reading, &healthy.reading) {
        (Reading::Number(found_at), Reading::Number(healthy_at)) => {
            let over = found_at - healthy_at;
            let much = over.abs() > 4.0 * found.edge;
            match (over.abs() > found.edge, over > 0.0) {
                (false, _) => return None,
                (true, true) => {
                    if much {
                        "HH"
                    } else {
                        "H"
                    }
                }
                (true, false) => {
                    if much {
                        "LL"
                    } else {
                        "L"
                    }
                }
            }
            .to_owned()
        }
        (same, other) if same == other => return None,
        (Reading::Dead, _) => "none".to_owned(),
        (Reading::Word(word), _) => word.clone(),
        (Reading::Number(number), _) => format!("{number}"),
    };
    Some(text)
}

/// Whether a reading is what the table says of it: a class, a word, or a number within 1 unit.
fn is(wanted: &str, found: &Observed, healthy: &Observed) -> bool {
    if let (Ok(wanted), Reading::Number(number)) = (wanted.parse::<f64>(), &found.reading) {
        return (number - wanted).abs() <= 1.0;
    }
    class(found, healthy).as_deref() == Some(wanted)
}

fn in_the_table(observed: &Observed) -> bool {
    !SEEN_UNDER_ANOTHER_NAME.contains(&observed.name.as_str())
}

fn compare(
    demo: &Arc<Aircraft>,
    row: &Row<'_>,
    state: &str,
    wanted: &Listed<'_>,
    healthy: &[Observed],
    amiss: &mut Vec<String>,
) {
    let found = readings(demo, row.faults, state);
    assert_eq!(found.len(), healthy.len());
    for name in wanted.keys() {
        assert!(
            found.iter().any(|observed| observed.name == *name),
            "{name}"
        );
    }
    let both = found.iter().zip(healthy);
    for (found, healthy) in both.filter(|(found, _)| in_the_table(found)) {
        let so = match wanted.get(found.name.as_str()) {
            Some(wanted) => is(wanted, found, healthy),
            None => class(found, healthy).is_none(),
        };
        if !so {
            amiss.push(format!(
                "{} in {state}: {} reads {:?} ({:?}), healthy {:?}, table {:?}",
                row.faults,
                found.name,
                found.reading,
                class(found, healthy),
                healthy.reading,
                wanted.get(found.name.as_str()),
            ));
        }
    }
}

fn every_fault_in(state: &str, wanted: impl for<'a> Fn(&'a Row<'static>) -> Listed<'static>) {
    let demo = aircraft();
    let rows = rows();
    assert_eq!(rows.len(), 40, "forty faults");
    let healthy = readings(&demo, "none", state);
    let mut amiss = Vec::new();
    for row in &rows {
        compare(&demo, row, state, &wanted(row), &healthy, &mut amiss);
    }
    assert!(amiss.is_empty(), "{}\n", amiss.join("\n"));
}

#[test]
fn with_external_power_and_pumps_running_every_fault_reads_as_in_the_table() {
    every_fault_in("C1", |row| row.running.clone());
}

#[test]
fn with_external_power_and_pumps_stopped_every_fault_reads_as_in_the_table() {
    every_fault_in("C2", |row| row.stopped.clone());
}

#[test]
fn on_battery_every_fault_reads_as_with_external_power() {
    every_fault_in("C3", |row| row.stopped.clone());
}

#[test]
fn with_the_battery_off_every_fault_reads_the_same_less_what_its_bus_feeds() {
    every_fault_in("C4", |row| {
        let mut left = row.stopped.clone();
        left.retain(|name, _| !ON_THE_BATTERY_BUS.contains(name));
        left
    });
}

/// Without a battery the motor has no volts: the valve stays where the begin of the parking finds
/// it, open unless it is jammed shut, and no fault changes that.
#[test]
fn with_the_battery_disconnected_the_park_valve_does_not_move_for_any_fault() {
    let demo = aircraft();
    for row in rows() {
        let found = readings(&demo, row.faults, "C5");
        let position = if row.faults == "park-shut-off-valve/jammed-closed" {
            "shut"
        } else {
            "open"
        };
        assert_eq!(
            word(&found, "position-indicator"),
            position,
            "{}",
            row.faults
        );
        for motor in ["valve-motor-on-set", "valve-motor-on-release"] {
            assert_eq!(word(&found, motor), "silent", "{}", row.faults);
        }
        let volts = number(&found, "close-volts");
        assert!(volts.abs() < 1e-9, "{}: {volts} V", row.faults);
    }
}
