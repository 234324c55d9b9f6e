//! The ten things of `demo-data/bench.md`: what is typed and what is shown are read out of the page
//! itself, so that page and bench cannot say different things; the figures are held against those
//! of the reference model of the invented aircraft.

use stillwheel::base::pressure::ATMOSPHERE;
use stillwheel::plant::physics::gas_charge::GasCharge;

use crate::bench::plain_text;
use crate::run::root;

/// What one part of the page types, and what it says is shown.
struct Part {
    title: String,
    typed: Vec<String>,
    shows: Vec<String>,
}

fn parts() -> Vec<Part> {
    let page = std::fs::read_to_string(root().join("demo-data/bench.md")).unwrap();
    let block = |text: &str, word: &str| -> Vec<String> {
        let blocks: Vec<&str> = text.split(&format!("```{word}\n")).skip(1).collect();
        assert_eq!(blocks.len(), 1, "one block `{word}` in {text}");
        let inside = blocks[0].split("```").next().unwrap();
        inside.lines().map(str::to_owned).collect()
    };
    page.split("\n## ")
        .skip(1)
        .map(|text| Part {
            title: text.lines().next().unwrap().to_owned(),
            typed: block(text, "bench"),
            shows: block(text, "shows"),
        })
        .collect()
}

/// What the bench prints for one part, with its lines put together and blanks made one.
fn shown(part: &Part) -> String {
    let text = plain_text(&(part.typed.join("\n") + "\n"));
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn part(number: usize) -> (Part, String) {
    let part = parts().into_iter().nth(number - 1).unwrap();
    assert!(
        part.title.starts_with(&format!("{number}. ")),
        "{}",
        part.title
    );
    let text = shown(&part);
    (part, text)
}

/// The numbers that stand between two words, in the order they come.
fn numbers(text: &str, before: &str, behind: &str) -> Vec<f64> {
    text.split(before)
        .skip(1)
        .filter_map(|rest| rest.split(behind).next()?.trim().parse().ok())
        .collect()
}

/// Hours at which it moves.
fn moves(text: &str) -> Vec<f64> {
    hours(text, "It moves at ")
}

/// Hours in brackets behind some words.
fn hours(text: &str, words: &str) -> Vec<f64> {
    let said = text.split(words).skip(1);
    let hours = said.filter_map(|rest| {
        let inside = rest.split('(').nth(1)?;
        inside
            .strip_suffix(')')
            .unwrap_or(inside)
            .split(" h)")
            .next()?
            .parse()
            .ok()
    });
    hours.collect()
}

/// Gas side, bar, of every line that says where the aircraft stands.
fn gauge(text: &str) -> Vec<f64> {
    text.split(" At ")
        .skip(1)
        .filter_map(|rest| {
            let line = rest.split(": gas side ").nth(1)?;
            line.split(" bar").next()?.parse().ok()
        })
        .collect()
}

/// Within 3 % or 0.02 h, whichever is larger, as everywhere beside the reference.
fn near(found: &[f64], wanted: &[f64]) {
    assert_eq!(found.len(), wanted.len(), "{found:?}, not {wanted:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        let within = (0.03 * wanted).max(0.02);
        assert!((found - wanted).abs() <= within, "{found}, not {wanted}");
    }
}

/// The same word, or numbers within half a percent of each other or one in their last digit.
fn alike(found: &str, wanted: &str) -> bool {
    let number = |word: &str| -> Option<f64> {
        let inside = word.trim_matches(|c: char| !c.is_ascii_digit() && c != '-');
        inside.parse().ok()
    };
    let around = |word: &str| word.replace(|c: char| c.is_ascii_digit() || c == '.', "");
    match (number(found), number(wanted)) {
        (Some(a), Some(b)) if around(found) == around(wanted) => {
            let tenths = wanted.contains('.') && !wanted.ends_with('.');
            let last: f64 = if tenths { 0.1 } else { 1.0 };
            let counted = b.fract() == 0.0 && b.abs() < 40.0;
            (a - b).abs()
                <= if counted {
                    0.0
                } else {
                    last.max(0.005 * b.abs())
                }
        }
        _ => found == wanted,
    }
}

#[test]
fn a_figure_that_is_another_one_is_not_alike() {
    assert!(alike("81.4", "81.5") && alike("(healthy:", "(healthy:") && alike("1181", "1180"));
    assert!(!alike("81.4", "82.5") && !alike("7", "8") && !alike("8", "(8") && !alike("9.", "10."));
}

#[test]
fn every_part_of_the_page_shows_what_it_says() {
    let parts = parts();
    assert_eq!(parts.len(), 10);
    for part in &parts {
        let text = shown(part);
        let words: Vec<&str> = text.split(' ').collect();
        let mut from = 0;
        // Two points stand for whatever comes between.
        for line in part.shows.iter().flat_map(|line| line.split(" .. ")) {
            let wanted: Vec<&str> = line.split(' ').collect();
            let all = words[from..].windows(wanted.len());
            let found = all.enumerate().find(|(_, window)| {
                let mut pairs = window.iter().zip(&wanted);
                pairs.all(|(found, wanted)| alike(found, wanted))
            });
            let Some((at, _)) = found else {
                panic!(
                    "{}: `{line}` is not in {}",
                    part.title,
                    words[from..].join(" ")
                );
            };
            from += at + wanted.len();
        }
        for refused in ["There is no", "Not set", "Not parked", "Write "] {
            assert!(!text.contains(refused), "{}: {text}", part.title);
        }
        // Two minutes are enough for this many lines at a line in five seconds.
        assert!(part.typed.len() <= 24, "{}", part.title);
    }
}

#[test]
fn it_holds_and_then_it_goes() {
    let (_, text) = part(1);
    near(&moves(&text), &[15.51, 15.27]);
    let empty = hours(&text, "The store is empty at ");
    let apart = moves(&text)[0] - empty[0];
    assert!(
        (0.8..=1.0).contains(&apart),
        "{apart} h from empty to moving"
    );
    assert!(text.contains("0 of 8 clamped, stands. Wind from behind: 20 m/s"));
}

#[test]
fn a_steady_gauge_is_an_empty_store() {
    let (_, text) = part(2);
    let gauge = gauge(&text);
    let [.., first, last] = gauge[..] else {
        panic!("{gauge:?}");
    };
    assert!(
        (first - 74.4).abs() < 0.3 && (last - first).abs() < 0.1,
        "{first} and {last}"
    );
    assert!(moves(&text).is_empty() && text.contains("It moves at 0.28 h"));
}

#[test]
fn little_gas_holds_longer_and_much_gas_shorter() {
    let (_, text) = part(3);
    near(&moves(&text), &[15.51, 36.6, 6.0, 6.8]);
    let counted = numbers(&text, "that bring 70 bar to a brake: ", ".");
    assert_eq!(counted, [10.0, 4.0]);
}

#[test]
fn cold_lowers_the_gauge_and_lengthens_the_hold() {
    let (_, text) = part(4);
    let [hot, freezing, cold, soak, nearly_empty] = moves(&text)[..] else {
        panic!("{text}");
    };
    near(
        &[hot, freezing, cold, nearly_empty],
        &[8.0, 27.9, 56.0, 2.4],
    );
    // The reference lets its equipment follow in a way it does not tell; see plant_reference.
    assert!((soak - 25.7).abs() < 0.04 * 25.7, "{soak}");
    let shrunk = gauge(&text).into_iter().find(|bar| *bar < 180.0).unwrap();
    // The gas alone, at the volume it had, by the equation that the published checks hold. The
    // fluid of the lines (7.25 L in the document) shrinks by its own figure, 8.5e-4 /K; brakes and
    // fluid that are less pressed give some of it back, less than half.
    let full = crate::bench::after("set wear 0\nset temperature 20 C\npark");
    let warm = full.play.plant().gas("brake-accumulator").unwrap();
    let alone = GasCharge {
        temperature: 258.15,
        ..warm
    };
    let bar = |gas: GasCharge| (gas.pressure() - ATMOSPHERE) / 1e5;
    assert!((bar(alone) - 171.0).abs() < 1.0, "{}", bar(alone));
    let with_lines = bar(GasCharge {
        volume: warm.volume + 8.5e-4 * 35.0 * 7.25e-3,
        ..alone
    });
    let half_given_back = 0.5 * (bar(alone) + with_lines);
    assert!(
        (with_lines..half_given_back).contains(&shrunk),
        "{shrunk} from {with_lines}"
    );
}

#[test]
fn an_anti_skid_leak_costs_no_minute() {
    let (_, text) = part(5);
    near(&moves(&text), &[15.51]);
    let healthy = moves(&part(1).1)[0];
    assert!((moves(&text)[0] - healthy).abs() < 0.02);
    let falls = numbers(&text, "lever down: ", " bar");
    assert!(falls[0] > 65.0, "{falls:?}");
}

#[test]
fn one_side_less_commanded_drains_the_store() {
    let (_, text) = part(6);
    near(&moves(&text), &[0.69, 2.0]);
    assert!(
        !text.contains("cross-rod: ") && text.contains("Right metering valve (healthy: nothing)")
    );
}

#[test]
fn a_dumped_brake_comes_back_when_parked() {
    let (_, text) = part(7);
    let parked = text.find("clamped: 8 of 8.").unwrap();
    let pressed = text.find("clamped: 7 of 8 (healthy: 8 of 8)").unwrap();
    assert!(parked < pressed);
}

/// With pumps on, a look tells the healthy aircraft and at least fifteen faults by nothing apart;
/// the reference counts sixteen states with one signature.
#[test]
fn pumps_hide_leaks_and_a_battery_that_is_off_hides_indication() {
    part(8);
    let hidden = |state: &str| -> Vec<String> {
        let csv = include_str!("../plant/reference.csv").lines().skip(3);
        let faults = csv.map(|line| line.split(',').next().unwrap().to_owned());
        let faults: Vec<String> = faults.filter(|fault| !fault.contains('+')).collect();
        assert!(faults.len() > 30);
        faults
            .into_iter()
            .filter(|fault| {
                let (fault, severity) = fault.split_once('=').unwrap_or((fault, "1"));
                let script = format!("{state}\nfault {fault} {severity}\npark\nrun 30 min\n");
                crate::bench::after(&script).differences() == 0
            })
            .collect()
    };
    let on = "set power external\nset battery connected-on\nset pumps on";
    let dark = "set battery connected-off";
    let lit = "set battery connected-on";
    let (pumps_on, dark, lit) = (hidden(on), hidden(dark), hidden(lit));
    assert!(pumps_on.len() >= 15, "{pumps_on:?}");
    assert!(dark.len() > lit.len(), "{dark:?} and {lit:?}");
    assert!(pumps_on.len() > lit.len());
}

#[test]
fn bar_are_not_millilitres() {
    let (_, text) = part(9);
    let gauge = gauge(&text);
    // At once, 30 min, 1 h with the usual gas; parked anew, 30 min, 1 h with little.
    let [_, early, late, _, early_low, late_low] = gauge[..] else {
        panic!("{gauge:?}");
    };
    let (healthy, low) = (early - late, early_low - late_low);
    assert!(
        (healthy - 15.5).abs() < 0.5 && (low - 22.0).abs() < 0.7,
        "{healthy} and {low}"
    );
    let stored = numbers(&text, "Stored, change ", " ");
    let (usual, little) = (stored[0] - stored[1], stored[2] - stored[3]);
    assert!(
        little < usual && little > 0.8 * usual,
        "{little} and {usual} cm3"
    );
}

#[test]
fn after_a_fast_charge_the_gauge_falls() {
    let (_, text) = part(10);
    let gauge = gauge(&text);
    let falls: Vec<f64> = gauge
        .windows(2)
        .map(|pair| pair[0] - pair[1])
        .filter(|fall| *fall > 1.0)
        .collect();
    let [_, at_once, _, later] = falls[..] else {
        panic!("{gauge:?}");
    };
    // 65 bar from a store that is full at the very moment; it was left full for two seconds here.
    assert!((0.9 * 65.0..=65.5).contains(&at_once), "{falls:?}");
    assert!((4.0..=5.2).contains(&later), "{falls:?}");
}
