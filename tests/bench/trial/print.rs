//! The report of a trial.

use std::collections::BTreeMap;

use stillwheel::diagnosis::model::Model;
use stillwheel::diagnosis::stop::Proof;

use super::chart::CHART;
use super::score::{Bin, Row, bins, ends, gap, leaders, middle, pairs, scores, share};
use super::work::{End, Outcome};

/// Goals that figures are printed beside.
const FIRST: f64 = 0.85;
const IN_THREE: f64 = 0.97;
const MINUTES: f64 = 0.5;
const GAP: f64 = 0.05;

fn met(met: bool) -> &'static str {
    if met { "met" } else { "MISSED" }
}

/// The report on jobs drawn in one way.
pub fn part(model: &Model, title: &str, rows: &[Row]) -> String {
    let all: Vec<&Row> = rows.iter().collect();
    let listed: Vec<&Row> = rows.iter().filter(|row| row.listed()).collect();
    let mut text = format!("## {title}\n\n");
    text.push_str(&drawn(&all, &listed));
    text.push_str(&goals(&all, &listed));
    text.push_str(&beside_chart(&all));
    text.push_str(&harm(&all));
    text.push_str(&calibration(model, &all));
    text.push_str(&misses(model, &listed));
    text.push_str(&costly(model, &listed));
    text.push_str(&by_temperature(&all));
    text
}

fn drawn(all: &[&Row], listed: &[&Row]) -> String {
    let again = all.iter().filter(|row| row.still > 0).count();
    let never = all.iter().filter(|row| !row.moved).count();
    let several = listed.iter().filter(|row| row.acts.len() > 1).count();
    format!(
        "{} jobs, {} of them with a cause that is in the tree, {several} of those with more than \
one.\nIn {again} jobs severity and weather were drawn again, since the aircraft would have stood \
as long as a healthy one;\nin {never} it did not move at all, and the job was kept.\n\n",
        all.len(),
        listed.len()
    )
}

fn goals(all: &[&Row], listed: &[&Row]) -> String {
    let console = |row: &Row| row.console.clone();
    let count = |within: usize| {
        let right = listed
            .iter()
            .filter(|row| row.within(&console(row), within));
        share(right.count(), listed.len())
    };
    let (first, three) = (count(1), count(3));
    let minutes =
        |of: fn(&Row) -> &Outcome| middle(all.iter().map(|row| of(row).minutes).collect());
    let (ours, theirs) = (minutes(|row| &row.console), minutes(|row| &row.chart));
    let ratio = ours.0 / theirs.0;
    let leader_gap = gap(&bins(leaders(all)));
    let loose = all
        .iter()
        .filter(|row| row.console.without_chocks > 0)
        .count();
    let mut text = String::from("| goal | wanted | found | |\n|---|---|---|---|\n");
    let mut row = |name: &str, wanted: String, found: String, ok: bool| {
        text.push_str(&format!("| {name} | {wanted} | {found} | {} |\n", met(ok)));
    };
    let percent = |share: f64| format!("{:.1} %", 100.0 * share);
    row(
        "right cause or its group first",
        percent(FIRST),
        percent(first),
        first >= FIRST,
    );
    row(
        "right cause within three, or in the group",
        percent(IN_THREE),
        percent(three),
        three >= IN_THREE,
    );
    row(
        "mean minutes, of those of the chart",
        percent(MINUTES),
        percent(ratio),
        ratio <= MINUTES,
    );
    row(
        "median minutes, of those of the chart",
        percent(MINUTES),
        percent(ours.1 / theirs.1),
        ours.1 / theirs.1 <= MINUTES,
    );
    row(
        "calibration gap of the leader",
        format!("{GAP}"),
        format!("{leader_gap:.3}"),
        leader_gap <= GAP,
    );
    row(
        "jobs with a release, opening or pressure before chocks",
        "0".into(),
        loose.to_string(),
        loose == 0,
    );
    text.push('\n');
    text
}

fn beside_chart(all: &[&Row]) -> String {
    let mut text = String::from("| | console | chart |\n|---|---|---|\n");
    let of = |figure: &dyn Fn(&Outcome) -> f64, which: &dyn Fn(&Row) -> &Outcome| {
        let (mean, median) = middle(all.iter().map(|row| figure(which(row))).collect());
        format!("{mean:.1} / {median:.1}")
    };
    let console: &dyn Fn(&Row) -> &Outcome = &|row| &row.console;
    let chart: &dyn Fn(&Row) -> &Outcome = &|row| &row.chart;
    let checks: &dyn Fn(&Outcome) -> f64 = &|outcome| outcome.checks as f64;
    let cannot: &dyn Fn(&Outcome) -> f64 = &|outcome| outcome.cannot as f64;
    let minutes: &dyn Fn(&Outcome) -> f64 = &|outcome| outcome.minutes;
    for (name, figure) in [
        ("checks answered, mean / median", checks),
        ("checks that could not be made", cannot),
        ("minutes with set-up and actions", minutes),
    ] {
        text.push_str(&format!(
            "| {name} | {} | {} |\n",
            of(figure, console),
            of(figure, chart)
        ));
    }
    let listed: Vec<&&Row> = all.iter().filter(|row| row.listed()).collect();
    for (name, within) in [("right first", 1), ("right within three", 3)] {
        let right = |which: &dyn Fn(&Row) -> &Outcome| {
            let right = listed.iter().filter(|row| row.within(which(row), within));
            format!("{:.1} %", 100.0 * share(right.count(), listed.len()))
        };
        text.push_str(&format!(
            "| {name} | {} | {} |\n",
            right(console),
            right(chart)
        ));
    }
    let both = [ends(all, |row| &row.console), ends(all, |row| &row.chart)];
    for (end, name) in [
        (End::Proved, "stopped with proof"),
        (End::NotConfirmed, "share reached, not confirmed"),
        (End::UsedUp, "checks used up"),
        (End::Contradiction, "answers contradict each other"),
    ] {
        let [ours, theirs] = both
            .each_ref()
            .map(|ends| ends.get(&end).copied().unwrap_or(0));
        text.push_str(&format!("| {name} | {ours} | {theirs} |\n"));
    }
    text.push('\n');
    text
}

fn harm(all: &[&Row]) -> String {
    let count = |of: &dyn Fn(&Row) -> bool| all.iter().filter(|row| of(row)).count();
    let proved: Vec<&&Row> = all
        .iter()
        .filter(|row| row.console.end == End::Proved)
        .collect();
    let right = proved.iter().filter(|row| row.first(&row.console)).count();
    let unlisted: Vec<&&Row> = all.iter().filter(|row| !row.listed()).collect();
    let fooled = unlisted
        .iter()
        .filter(|row| row.console.end == End::Proved)
        .count();
    let hopeless: Vec<&&Row> = all
        .iter()
        .filter(|row| row.console.without_hope.0 > 0)
        .collect();
    let wasted: f64 = hopeless.iter().map(|row| row.console.without_hope.1).sum();
    let whole: f64 = all.iter().map(|row| row.console.minutes).sum();
    let stuck = |of: &dyn Fn(&Proof) -> bool| {
        let ended = |row: &&&Row| row.console.end == End::NotConfirmed;
        let stuck = all
            .iter()
            .filter(ended)
            .filter_map(|row| row.console.proof.as_ref());
        stuck.filter(|proof| of(proof)).count()
    };
    let quick = proved.iter().map(|row| row.console.minutes).collect();
    let (mean, median) = middle(quick);
    format!(
        "- of {} jobs stopped with proof, {right} ({:.1} %) stopped on the right cause or group; they took {mean:.0} \
minutes in the mean and {median:.0} in the median\n\
- a serviceable part would have come off: {} jobs (chart {})\n\
- evidence spoiled that a check worth 0.05 bit still needed: {} jobs (chart {})\n\
- cause not in the tree: {} jobs, {fooled} of them stopped with proof of something else\n\
- share reached while the proof was not to be had, and gone on all the same: {} jobs, {:.0} % of all minutes\n\
- jobs that ended so: proof never offered {}, denied by an answer {}, could not be made {}\n\
- chocks came late in {} jobs\n\n",
        proved.len(),
        100.0 * share(right, proved.len()),
        count(&|row| row.console.wrong_removal),
        count(&|row| row.chart.wrong_removal),
        count(&|row| row.console.spoiled),
        count(&|row| row.chart.spoiled),
        unlisted.len(),
        hopeless.len(),
        100.0 * wasted / whole,
        stuck(&|proof| matches!(proof, Proof::Missing(_))),
        stuck(&|proof| matches!(proof, Proof::Contradicted { .. })),
        stuck(&|proof| matches!(proof, Proof::Impossible(_))),
        count(&|row| row.console.late_chocks),
    )
}

/// Right, proved and minutes at each temperature.
fn by_temperature(all: &[&Row]) -> String {
    let mut rows: BTreeMap<i64, Vec<&Row>> = BTreeMap::new();
    for row in all.iter().filter(|row| row.listed()) {
        rows.entry(row.celsius.round() as i64)
            .or_default()
            .push(row);
    }
    let mut text = String::from(
        "By air temperature:\n\n| C | jobs | right first | stopped with proof | minutes, mean |\n|---|---|---|---|---|\n",
    );
    for (celsius, rows) in rows {
        let part = |of: &dyn Fn(&Row) -> bool| {
            100.0 * share(rows.iter().filter(|row| of(row)).count(), rows.len())
        };
        let (minutes, _) = middle(rows.iter().map(|row| row.console.minutes).collect());
        text.push_str(&format!(
            "| {celsius} | {} | {:.1} % | {:.1} % | {minutes:.0} |\n",
            rows.len(),
            part(&|row| row.first(&row.console)),
            part(&|row| row.console.end == End::Proved),
        ));
    }
    text.push('\n');
    text
}

fn bin_rows(of_leader: &[Bin], of_all: &[Bin]) -> String {
    let side = |bin: &Bin| {
        if bin.count == 0 {
            return "0 | | ".to_owned();
        }
        format!("{} | {:.3} | {:.3}", bin.count, bin.believed, bin.seen)
    };
    let rows = of_leader.iter().zip(of_all).enumerate();
    rows.map(|(at, (leader, all))| {
        format!(
            "| {:.1} to {:.1} | {} | {} |\n",
            at as f64 / 10.0,
            (at + 1) as f64 / 10.0,
            side(leader),
            side(all)
        )
    })
    .collect()
}

fn calibration(model: &Model, all: &[&Row]) -> String {
    let of_leader = bins(leaders(all));
    let of_all = bins(pairs(model, all).map(|(_, believed, so)| (believed, so)));
    let listed = pairs(model, all).map(|(_, believed, so)| scores(believed, so));
    let sums = listed.fold((0.0, 0.0, 0.0), |sum, one| {
        (sum.0 + one.0, sum.1 + one.1, sum.2 + 1.0)
    });
    let jobs = all.len().max(1) as f64;
    let mut by_cause: BTreeMap<usize, (f64, usize)> = BTreeMap::new();
    for (cause, believed, so) in pairs(model, all) {
        let sum = by_cause.entry(cause).or_default();
        sum.0 += scores(believed, so).0;
        sum.1 += usize::from(so);
    }
    let mut worst: Vec<(usize, (f64, usize))> = by_cause.into_iter().collect();
    worst.sort_by(|a, b| b.1.0.total_cmp(&a.1.0));
    let mut text = format!(
        "Brier score {:.4} and log score {:.4} (natural) for each cause of each job; {:.3} and \
{:.3} a job over its causes.\nCalibration gap of all causes {:.4}, of the leader {:.3}.\n\n\
| believed | leader: jobs | believed | so | every cause: n | believed | so |\n|---|---|---|---|---|---|---|\n",
        sums.0 / sums.2,
        sums.1 / sums.2,
        sums.0 / jobs,
        sums.1 / jobs,
        gap(&of_all),
        gap(&of_leader),
    );
    text.push_str(&bin_rows(&of_leader, &of_all));
    text.push_str("\nCauses with the largest part of the Brier score:\n\n| cause | times hidden | Brier score a job |\n|---|---|---|\n");
    for (cause, (sum, hidden)) in worst.iter().take(10) {
        text.push_str(&format!(
            "| {} | {hidden} | {:.4} |\n",
            model.causes[*cause].id,
            sum / jobs
        ));
    }
    text.push('\n');
    text
}

/// What was hidden, what led instead, and how often.
fn misses(model: &Model, listed: &[&Row]) -> String {
    let mut pairs: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut hidden: BTreeMap<usize, (usize, usize, usize)> = BTreeMap::new();
    for row in listed {
        let sums = hidden.entry(row.acts[0]).or_default();
        sums.0 += 1;
        sums.2 += usize::from(!row.within(&row.console, 3));
        if row.first(&row.console) {
            continue;
        }
        sums.1 += 1;
        let leader = row.console.ranked.first().copied().unwrap_or(row.acts[0]);
        *pairs.entry((row.acts[0], leader)).or_default() += 1;
    }
    let mut text = String::from(
        "Where it went wrong:\n\n| hidden | jobs | not first | not in three | most often led instead |\n|---|---|---|---|---|\n",
    );
    let mut order: Vec<_> = hidden.into_iter().filter(|(_, sums)| sums.1 > 0).collect();
    order.sort_by_key(|(cause, sums)| (usize::MAX - sums.1, *cause));
    for (cause, (jobs, missed, far)) in order.iter().take(20) {
        let mut instead: Vec<_> = pairs.iter().filter(|((one, _), _)| one == cause).collect();
        instead.sort_by_key(|((_, leader), count)| (usize::MAX - **count, *leader));
        let words: Vec<String> = instead
            .iter()
            .take(3)
            .map(|((_, leader), count)| format!("{} {count}", model.causes[*leader].id))
            .collect();
        text.push_str(&format!(
            "| {} | {jobs} | {missed} | {far} | {} |\n",
            model.causes[*cause].id,
            words.join(", ")
        ));
    }
    text.push('\n');
    text
}

/// Where the minutes went.
fn costly(model: &Model, listed: &[&Row]) -> String {
    let mut minutes: BTreeMap<usize, (usize, f64, f64)> = BTreeMap::new();
    for row in listed {
        let sums = minutes.entry(row.acts[0]).or_default();
        sums.0 += 1;
        sums.1 += row.console.minutes;
        sums.2 += row.chart.minutes;
    }
    let mut order: Vec<_> = minutes.into_iter().collect();
    order.sort_by(|a, b| b.1.1.total_cmp(&a.1.1));
    let mut text = String::from(
        "Where the minutes went:\n\n| hidden | jobs | console, mean | chart, mean |\n|---|---|---|---|\n",
    );
    for (cause, (jobs, ours, theirs)) in order.iter().take(12) {
        text.push_str(&format!(
            "| {} | {jobs} | {:.0} | {:.0} |\n",
            model.causes[*cause].id,
            ours / *jobs as f64,
            theirs / *jobs as f64
        ));
    }
    text.push('\n');
    text
}

/// The order of the chart, in words.
pub fn chart() -> String {
    let mut text = String::from("## The chart\n\n");
    for (at, (step, checks)) in CHART.iter().enumerate() {
        text.push_str(&format!("{at}. {step}: {}\n", checks.join(", ")));
    }
    text
}

/// One job, step by step.
pub fn job(model: &Model, row: &Row) -> String {
    let names = |causes: &[usize]| {
        let names = causes.iter().map(|cause| model.causes[*cause].id.as_str());
        names.collect::<Vec<_>>().join(", ")
    };
    let true_events: Vec<usize> = (0..row.events.len()).filter(|at| row.events[*at]).collect();
    let mut text = format!("hidden: {}\n", names(&true_events));
    for (name, outcome) in [("console", &row.console), ("chart", &row.chart)] {
        text.push_str(&format!(
            "{name}: {:?}, {:?}, share {:.3}, group {}, {:.0} min\n",
            outcome.end,
            outcome.proof,
            outcome.share,
            names(&outcome.group),
            outcome.minutes
        ));
        for leader in outcome.ranked.iter().take(3) {
            let believed = outcome.believed[*leader];
            text.push_str(&format!("  {} {believed:.3}\n", model.causes[*leader].id));
        }
        let steps = outcome.steps.iter().map(|(check, answer)| {
            let check = &model.checks[*check];
            let answer = answer.map_or("cannot", |answer| check.answers[answer].as_str());
            format!("{}={answer}", check.id)
        });
        text.push_str(&format!("  {}\n", steps.collect::<Vec<_>>().join(" ")));
    }
    text
}
