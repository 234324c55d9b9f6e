//! The work: what is asked now, with the likely causes below it.

use ratatui::layout::Rect;
use ratatui::text::Line;

use crate::base::text::{pad, truncate, wrap};
use crate::console::prompt::Prompt;
use crate::console::state::State;
use crate::console::theme::Theme;
use crate::diagnosis::contradiction::item_name;
use crate::diagnosis::ranking::of_100;
use crate::diagnosis::stop::Proof;
use crate::report::rank_text::cause_row;
use crate::session::end_state::END_STATES;
use crate::session::job::Stage;

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
    match state.prompt() {
        Some(prompt) => page.prompt(&prompt),
        None => page.stopped(),
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

    fn rule(&mut self) {
        let dashes = "-".repeat(self.columns);
        self.lines.push(Line::styled(dashes, self.theme.text));
    }

    fn prompt(&mut self, prompt: &Prompt) {
        let job = &self.state.job;
        self.strong(&prompt.ask);
        self.answers(prompt);
        if self.full {
            if !prompt.how.is_empty() {
                self.plain(&prompt.how);
            }
            if let Some(why) = &prompt.why {
                self.plain(&format!("Why this one: {why}."));
            }
            for caution in &prompt.cautions {
                self.caution(caution);
            }
        } else if !matches!(job.stage(), Stage::Question(_)) {
            // A small window has room for these where no causes are shown.
            for caution in &prompt.cautions {
                self.caution(caution);
            }
            self.plain(&prompt.how);
        }
        if matches!(job.stage(), Stage::RuleMet | Stage::NothingLeft) {
            self.ends();
        } else if matches!(job.stage(), Stage::Question(_)) {
            self.rule();
            self.causes();
        }
    }

    fn answers(&mut self, prompt: &Prompt) {
        for (place, choice) in prompt.choices.iter().enumerate() {
            let marked = self.state.marked == Some(place);
            let sign = if marked { '>' } else { ' ' };
            let text = pad(&format!(" {sign} {}  {}", choice.digit, choice.label), 36);
            let style = if marked {
                self.theme.marked
            } else {
                self.theme.text
            };
            self.lines
                .push(Line::styled(truncate(&text, self.columns), style));
        }
        if let Some(what) = prompt.typed {
            if self.full {
                self.plain(&format!("Type {what}."));
            }
            self.strong(&format!("> {}_", self.state.input));
        } else if self.state.input.starts_with(':') {
            self.strong(&format!("> {}_", self.state.input));
        }
        if let Some(zero) = prompt.zero {
            self.row(&format!("   0  {zero}"));
        }
    }

    fn ends(&mut self) {
        self.rule();
        let room = self.height.saturating_sub(self.lines.len());
        for (place, end) in END_STATES.iter().enumerate().take(room) {
            self.row(&format!("  {:>2}  {}", place + 1, end.title));
        }
    }

    /// One line: the first sentence of a caution; the whole stands in the report.
    fn caution(&mut self, text: &str) {
        let first = text.split_once(". ").map_or(text, |(first, _)| first);
        let line = format!("CAUTION  {}.", first.trim_end_matches('.'));
        self.lines.push(Line::styled(
            truncate(&line, self.columns),
            self.theme.caution,
        ));
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
        let head = pad("Likely causes, exact", 46);
        self.row(&format!("  {head} of 100 jobs like this"));
        for row in causes.iter().take(room) {
            let title = &model.causes[row.event].title;
            self.row(&cause_row(title, row.probability, self.columns));
        }
        self.row(&cause_row("Cause not in this list", unlisted, self.columns));
        self.row(&status);
    }

    /// Where the search stands against the rule, in one line.
    fn status(&self) -> String {
        let Some(standing) = self.state.job.standing() else {
            return String::new();
        };
        let share = of_100(standing.share);
        let Some(wanted) = standing.wanted.map(of_100) else {
            return format!("{share} of 100 for the first. This tree has no rule for stopping.");
        };
        let title = |check: usize| &self.state.job.model().checks[check].title;
        let proof = match standing.proof {
            Proof::Stands(_) => "confirmed".to_owned(),
            Proof::Contradicted(check) => format!("{} speaks against it", title(check)),
            Proof::Impossible(check) => format!("not confirmed: {} cannot be made", title(check)),
            Proof::Missing(check) => format!("still to confirm: {}", title(check)),
            Proof::NoneNamed => "no confirming check is named".to_owned(),
        };
        let reached = if share >= wanted {
            "reached"
        } else {
            "not reached"
        };
        format!("First: {share} of 100 (rule {wanted}, {reached}), {proof}.")
    }

    fn stopped(&mut self) {
        let job = &self.state.job;
        match job.stage() {
            Stage::Contradiction(items) => {
                let names: Vec<String> = items
                    .iter()
                    .map(|item| item_name(job.inference(), *item))
                    .collect();
                self.strong("These cannot all be true. Look at each of them again:");
                for name in names {
                    self.plain(&format!("  {name}"));
                }
                self.plain("u takes the last one back; :change NUMBER ANSWER changes another.");
            }
            Stage::Refused(reason) => {
                let text = format!("No ranking: {reason}.");
                self.strong(&text);
            }
            Stage::Closed(end) => {
                let end = &END_STATES[*end];
                self.strong(&format!("Closed: {}", end.title));
                self.plain(end.text);
                self.plain("This program never releases an aircraft. `report` writes the job up.");
            }
            _ => {}
        }
        if self.state.input.starts_with(':') {
            self.strong(&format!("> {}_", self.state.input));
        }
    }
}
