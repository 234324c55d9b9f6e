//! The first screen: go on with an open job, or start a new one.

use std::io;

use ratatui::Frame;
use ratatui::text::Line;
use ratatui::widgets::Paragraph;

use super::event::Key;
use super::plain::Lines;
use super::theme::Theme;
use crate::base::text::truncate;

/// What was chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Choice {
    /// Go on with this job.
    Resume(String),
    /// A new job.
    New,
}

/// The jobs, those at work first and the newest of them on top: name and a line about it.
#[derive(Debug, Clone, Default)]
pub struct Start {
    /// The jobs.
    pub jobs: Vec<(String, String)>,
    /// The marked job.
    pub marked: usize,
}

impl Start {
    /// Takes a key: `Some(None)` leaves, `Some(Some(..))` is the choice.
    pub fn press(&mut self, key: Key) -> Option<Option<Choice>> {
        let job = |place: usize| {
            self.jobs
                .get(place)
                .map(|(name, _)| Choice::Resume(name.clone()))
        };
        match key {
            Key::Char('1') => job(0).map(Some),
            Key::Char('3' | 'n') | Key::Typed('N') => Some(Some(Choice::New)),
            Key::Enter => job(self.marked).map(Some),
            Key::Up => {
                self.marked = self.marked.saturating_sub(1);
                None
            }
            Key::Down => {
                self.marked = (self.marked + 1).min(self.jobs.len().saturating_sub(1));
                None
            }
            Key::Char('q') | Key::Typed('Q') | Key::Control('c') => Some(None),
            _ => None,
        }
    }

    /// Draws the screen.
    pub fn view(&self, frame: &mut Frame<'_>, theme: &Theme) {
        let area = frame.area();
        let columns = usize::from(area.width);
        let mut lines = vec![
            Line::styled(truncate("Start", columns), theme.strong),
            Line::styled("-".repeat(columns), theme.text),
        ];
        for (place, text) in self.texts().iter().enumerate() {
            let marked = place >= 2 && place - 2 == self.marked && place - 2 < self.jobs.len();
            let style = if marked { theme.marked } else { theme.text };
            lines.push(Line::styled(truncate(text, columns), style));
        }
        lines.push(Line::default());
        let keys = "1 newest  3 new job  Up Down mark  Enter open marked  q quit";
        lines.push(Line::styled(truncate(keys, columns), theme.strong));
        frame.render_widget(Paragraph::new(lines), area);
    }

    fn texts(&self) -> Vec<String> {
        let mut texts = vec![
            "  1  Go on with the newest job".to_owned(),
            "  3  New job".to_owned(),
        ];
        let marked = |place| if place == self.marked { '>' } else { ' ' };
        let jobs = self.jobs.iter().enumerate();
        texts.extend(
            jobs.map(|(place, (name, about))| format!("{} {name}  {about}", marked(place))),
        );
        texts.push("Aid only. Work to the approved maintenance data of your aircraft.".to_owned());
        texts
    }

    /// The same line by line. `None` where the input ends or the person leaves.
    pub fn ask(&mut self, lines: &mut Lines<'_>) -> io::Result<Option<Choice>> {
        loop {
            for (name, about) in self.jobs.iter().take(5) {
                lines.say(&format!("JOB {name}. {about}"))?;
            }
            lines.say("  1 = go on with the newest job")?;
            lines.say("  3 = new job")?;
            lines.say("Answer (q quit):")?;
            let Some(line) = lines.read()? else {
                return Ok(None);
            };
            let key = line.chars().next().map_or(Key::Up, Key::Char);
            if let Some(done) = self.press(key) {
                return Ok(done);
            }
        }
    }
}
