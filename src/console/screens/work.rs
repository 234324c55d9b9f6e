//! The work: a safety question, a check, or where it stands at the end.

use ratatui::layout::Rect;
use ratatui::text::Line;

use crate::base::text::{pad, truncate, wrap};
use crate::console::keys::ANSWER_DIGITS;
use crate::console::state::State;
use crate::console::theme::Theme;
use crate::diagnosis::cause::Remedy;
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::next_check::Proposal;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::stop::Proof;
use crate::report::rank_text::{cause_row, why};
use crate::session::job::Stage;
use crate::session::safety::QUESTIONS;

/// Below this height only the question and the leading cause are shown.
const FULL_HEIGHT: u16 = 16;

/// The lines of the screen.
pub fn lines(state: &State, theme: &Theme, area: Rect) -> Vec<Line<'static>> {
    let mut page = Page {
        state,
        theme,
        columns: usize::from(area.width),
        height: usize::from(area.height),
        full: area.height >= FULL_HEIGHT,
        lines: Vec::new(),
    };
    match state.job.stage() {
        Stage::Safety(item) => page.safety(*item),
        Stage::Question(proposal) => page.question(proposal),
        Stage::RuleMet => page.end("The rule of this tree is met."),
        Stage::NothingLeft => page.end("Nothing is left to ask that would tell causes apart."),
        Stage::Contradiction(items) => {
            page.strong("These cannot all be true. Look at each of them again:");
            for item in items {
                page.plain(&format!("  {}", item_name(state.job.inference(), *item)));
            }
            page.plain("Press u to take back the last answer.");
        }
        Stage::Refused(reason) => page.strong(&format!("No ranking: {reason}.")),
    }
    page.lines
}

struct Page<'a> {
    state: &'a State,
    theme: &'a Theme,
    columns: usize,
    height: usize,
    full: bool,
    lines: Vec<Line<'static>>,
}

impl Page<'_> {
    fn plain(&mut self, text: &str) {
        for part in wrap(text, self.columns) {
            self.lines.push(Line::styled(part, self.theme.text));
        }
    }

    fn strong(&mut self, text: &str) {
        for part in wrap(text, self.columns) {
            self.lines.push(Line::styled(part, self.theme.strong));
        }
    }

    fn row(&mut self, text: &str) {
        self.lines
            .push(Line::styled(truncate(text, self.columns), self.theme.text));
    }

    fn gap(&mut self) {
        if self.full {
            self.lines.push(Line::default());
        }
    }

    fn options(&mut self) {
        for (place, option) in self.state.options().iter().enumerate() {
            let digit = ANSWER_DIGITS.get(place).copied().unwrap_or(' ');
            let marked = place == self.state.marked;
            let sign = if marked { '>' } else { ' ' };
            let text = pad(
                &format!(" {sign} {digit}  {}", option.replace('-', " ")),
                36,
            );
            let style = if marked {
                self.theme.marked
            } else {
                self.theme.text
            };
            self.lines
                .push(Line::styled(truncate(&text, self.columns), style));
        }
        self.row("   0  cannot check, or not known");
    }

    fn safety(&mut self, item: usize) {
        if self.full {
            let text = "WARNING  It can move. Nothing is touched before this is done.";
            self.lines.push(Line::styled(
                truncate(text, self.columns),
                self.theme.warning,
            ));
            self.gap();
        }
        let question = &QUESTIONS[item];
        self.strong(question.ask);
        self.options();
        if self.full {
            self.gap();
            self.plain(question.how);
            self.gap();
            for (at, earlier) in QUESTIONS.iter().enumerate().take(item) {
                let word = match self.state.job.safety()[at] {
                    Some(true) => "yes",
                    Some(false) => "NO",
                    None => "not known",
                };
                self.row(&format!("  {word:<9} {}", earlier.ask));
            }
            self.gap();
            self.plain("Looking and asking are free. What moves, pressurises, opens or goes into a wheel well waits for these four.");
        }
    }

    fn question(&mut self, proposal: &Proposal) {
        let model = std::sync::Arc::clone(self.state.job.model());
        let check = &model.checks[proposal.check];
        self.strong(&check.ask);
        self.options();
        if self.full {
            for text in [
                check.how.clone(),
                Some(format!("Why this one: {}.", why(&model, proposal))),
            ]
            .into_iter()
            .flatten()
            {
                self.plain(&text);
            }
            for word in &check.cautions {
                self.caution(word.text);
            }
        }
        self.rule();
        self.causes();
    }

    /// One line: the first sentence of a caution; the whole stands in the report.
    fn caution(&mut self, text: &str) {
        let first = text.split_once(". ").map_or(text, |(first, _)| first);
        let line = truncate(&format!("CAUTION  {first}."), self.columns);
        self.lines.push(Line::styled(line, self.theme.caution));
    }

    fn rule(&mut self) {
        let dashes = "-".repeat(self.columns);
        self.lines.push(Line::styled(dashes, self.theme.text));
    }

    /// As many causes as there is room for; in a small window the leading one.
    fn causes(&mut self) {
        let job = &self.state.job;
        let Some(belief) = job.belief() else {
            return;
        };
        let model = job.model();
        let causes = job.causes();
        if !self.full {
            if let Some(first) = causes.first() {
                let title = &model.causes[first.event].title;
                self.plain(&format!(
                    "Top: {title}, {} of 100",
                    of_100(first.probability)
                ));
            }
            return;
        }
        let unlisted = belief.unlisted;
        let status = self.status();
        let room = self.height.saturating_sub(self.lines.len() + 3);
        let head = pad("Likely causes", 46);
        self.row(&format!("  {head} of 100 jobs like this"));
        for row in causes.iter().take(room) {
            self.row(&cause_row(
                &model.causes[row.event].title,
                row.probability,
                self.columns,
            ));
        }
        self.row(&cause_row("Cause not in this list", unlisted, self.columns));
        self.row(&status);
    }

    /// Where the search stands against the rule, in one line.
    fn status(&self) -> String {
        let job = &self.state.job;
        let Some(standing) = job.standing() else {
            return String::new();
        };
        let share = of_100(standing.share);
        let Some(wanted) = standing.wanted.map(of_100) else {
            return format!("{share} of 100 for the first. This tree has no rule for stopping.");
        };
        let proof = match standing.proof {
            Proof::Stands(_) => "confirmed",
            Proof::Contradicted(_) => "the confirming check speaks against it",
            Proof::Impossible(_) => "not confirmed",
            _ => "and its confirming check",
        };
        format!("{share} of 100 for the first; the rule asks for {wanted}, {proof}.")
    }

    fn end(&mut self, verdict: &str) {
        let model = std::sync::Arc::clone(self.state.job.model());
        self.strong(verdict);
        let standing = self.state.job.standing().cloned();
        if let Some(first) = standing.as_ref().and_then(|s| s.group.first()) {
            let cause = &model.causes[*first];
            match (&cause.remedy, standing.as_ref().is_some_and(|s| s.met)) {
                (_, false) => self.plain(
                    "Not confirmed. Leave it chocked, keep the report open, remove nothing.",
                ),
                (Some(Remedy::Nothing), true) => {
                    self.plain(&format!(
                        "{}: nothing to replace. Record it and brief.",
                        cause.title
                    ));
                }
                (Some(Remedy::Work { instruction, .. }), true) => {
                    self.plain(&format!("{}: {instruction} By approved data.", cause.title));
                }
                (None, true) => self.plain(&cause.title),
            }
        }
        let locked = self.state.job.locked_checks().len();
        if locked > 0 {
            self.plain(&format!(
                "{locked} more checks wait for chocks, flight deck and pump state. Press u to go back to those questions."
            ));
        }
        self.plain("This program never releases an aircraft.");
        self.rule();
        self.causes();
    }
}
