//! Where a tree and the plant differ, each at its place in the text.

use super::document::Source;
use super::lower::located::{Located, section};
use crate::base::text::listed;
use crate::diagnosis::agreement::Finding;
use crate::diagnosis::model::Model;
use crate::source::codes::agreement as code;
use crate::source::place::Place;
use crate::source::problem::Problem;

/// The findings as problems with places; the texts are those the tree was read from.
pub fn problems(findings: &[Finding], model: &Model, sources: &[Source]) -> Vec<Problem> {
    let Some(main) = sources.first() else {
        return Vec::new();
    };
    let text = Text {
        model,
        main,
        events: section(sources, "events"),
        checks: section(sources, "checks"),
    };
    findings
        .iter()
        .map(|finding| text.problem(finding))
        .collect()
}

/// The texts of a tree, by entry.
struct Text<'a> {
    model: &'a Model,
    main: &'a Source,
    events: Vec<Located<'a>>,
    checks: Vec<Located<'a>>,
}

impl Text<'_> {
    fn problem(&self, finding: &Finding) -> Problem {
        match finding {
            Finding::DoesNotMove { cause, healthy } => self.does_not_move(*cause, *healthy),
            Finding::Contradicts {
                check,
                line,
                event,
                reading,
                shown,
                likeliest,
            } => self.contradicts((*check, *line), *event, reading, [*shown, *likeliest]),
            Finding::NoAnswer {
                check,
                event,
                reading,
            } => {
                let message = format!(
                    "{} reads {reading}, and no answer shows that",
                    self.with(*event)
                );
                let place = self.checks[*check].place_of("shows");
                Problem::new(code::NO_ANSWER, place, message)
                    .hint("add the reading to an answer under `shows`")
            }
            Finding::NotToldApart(causes) => self.not_told_apart(causes),
            Finding::MovesFluid(check) => {
                let id = &self.model.checks[*check].id;
                let message = format!("`{id}` is read by moving lever, pedals or pumps");
                let place = self.checks[*check].place();
                Problem::new(code::MOVES_FLUID, place, message)
                    .hint("write `takes-away: [pressure]`")
            }
            Finding::NotInTree {
                part,
                fault,
                title,
                hours,
            } => {
                let message = format!(
                    "`{part}/{fault}` ({title}) moves the aircraft {}, and no cause names it",
                    after(*hours)
                );
                let place = self.main.place_of("events");
                Problem::new(code::NOT_IN_TREE, place, message)
                    .hint(format!("add an event with `fault: {part}/{fault}`"))
            }
        }
    }

    /// Which fault is in, as the start of a sentence.
    fn with(&self, event: Option<usize>) -> String {
        match event {
            None => "a healthy aircraft".to_owned(),
            Some(event) => format!("`{}` alone", self.model.causes[event].id),
        }
    }

    fn does_not_move(&self, cause: usize, healthy: f64) -> Problem {
        let id = &self.model.causes[cause].id;
        let message = format!(
            "with `{id}` the plant stands as long as a healthy one at the worst in limits ({healthy:.1} h on 1 %)"
        );
        let place = self.events[cause].place_of("fault");
        Problem::new(code::DOES_NOT_MOVE, place, message)
            .hint("take it out of the top, or look at the figures of the fault in the aircraft")
    }

    fn contradicts(
        &self,
        (check, line): (usize, usize),
        event: Option<usize>,
        reading: &str,
        [shown, likeliest]: [usize; 2],
    ) -> Problem {
        let about = &self.model.checks[check];
        let message = format!(
            "{} reads {reading}, which is `{}`, and this line makes `{}` the likeliest",
            self.with(event),
            about.answers[shown],
            about.answers[likeliest]
        );
        let entry = &self.checks[check];
        let rows = ["yes", "lines"]
            .into_iter()
            .find_map(|key| entry.field(key));
        let row = rows.and_then(|rows| rows.node.items().get(line));
        let place = row.map_or_else(
            || entry.place(),
            |row| Place::new(entry.file, row.bytes.clone()),
        );
        Problem::new(code::CONTRADICTS, place, message)
            .hint("add or move a line for it, or mend `shows`")
    }

    fn not_told_apart(&self, causes: &[usize]) -> Problem {
        let names: Vec<String> = causes
            .iter()
            .map(|cause| format!("`{}`", self.model.causes[*cause].id))
            .collect();
        let message = format!("no check tells {} apart", listed(&names, "and"));
        let place = self.events[causes[0]].place();
        Problem::new(code::NOT_TOLD_APART, place, message)
            .hint("add a check that reads them differently, or make them one cause")
    }
}

/// `at once`, `after 16 min`, `after 4.7 h`.
fn after(hours: f64) -> String {
    let minutes = hours * 60.0;
    if minutes < 0.5 {
        "at once".to_owned()
    } else if hours < 1.0 {
        format!("after {minutes:.0} min")
    } else {
        format!("after {hours:.1} h")
    }
}
