//! The settings file: a table of what can be set, reading it, and the file with its comments.
//!
//! A setting that is not understood is named with its line, and the rest counts: nobody is kept
//! from his work by a misspelt colour.

use std::path::PathBuf;
use std::time::Duration;

use crate::authoring::conform::conform_document;
use crate::authoring::desk::Desk;
use crate::authoring::form::Form as F;
use crate::authoring::form::{Table, may, must};
use crate::authoring::yaml::Node;
use crate::base::dimension::Dimension;
use crate::base::quantity::Quantity;
use crate::base::text::wrap;
use crate::console::glyphs::Lines;
use crate::console::state::Preferences;
use crate::console::theme::Look;
use crate::source::{problem, render};

/// What can be set. A setting is one row here, and one line where a file is taken.
pub static SETTINGS: Table = Table {
    title: "the settings",
    open: false,
    fields: &[
        must("stillwheel", F::Text, "Kind and version of the file."),
        may(
            "look",
            F::Word(|| Look::ALL.map(Look::name).to_vec()),
            "Colours of the screen: those of the terminal, day, night, or none. NO_COLOR goes before it.",
        ),
        may(
            "lines",
            F::Word(|| Lines::ALL.map(Lines::word).to_vec()),
            "What lines and bars are drawn with.",
        ),
        may(
            "letters",
            F::Flag,
            "Whether letters are keys. Without them arrows, Enter, digits, function keys and : remain.",
        ),
        may(
            "alone",
            F::Flag,
            "Whether the question stands alone even where there is room for more.",
        ),
        may(
            "plain",
            F::Flag,
            "Whether to ask line by line instead of drawing a screen.",
        ),
        may(
            "guard",
            F::Quantity(Dimension::Time),
            "How long after a new question keys are dropped. Without it 0.25 s, and 0.6 s over a remote shell.",
        ),
        may(
            "jobs",
            F::Text,
            "Folder of the job files. --jobs goes before it.",
        ),
    ],
};

/// What was set, with what was not understood.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Settings {
    /// The look, where it is set.
    pub look: Option<Look>,
    /// What lines are drawn with.
    pub lines: Option<Lines>,
    /// Whether letters are keys.
    pub letters: Option<bool>,
    /// Whether the question stands alone.
    pub alone: Option<bool>,
    /// Whether to ask line by line.
    pub plain: Option<bool>,
    /// How long keys are dropped.
    pub guard: Option<Duration>,
    /// The folder of the job files.
    pub jobs: Option<PathBuf>,
    /// What was not understood, a line each.
    pub notes: Vec<String>,
}

/// Longest time for which keys are dropped, in seconds: longer would feel like a hung program.
const LONGEST_GUARD: f64 = 5.0;

impl Settings {
    /// Reads a file of settings. One that is not there sets nothing.
    pub fn read(name: &str) -> Self {
        let mut settings = Self::default();
        let mut desk = Desk::default();
        if let Some(opened) = desk.open(name) {
            conform_document(&opened.root, &SETTINGS, opened.file, &mut desk.problems);
            settings.take(&opened.root);
        }
        problem::sort(&mut desk.problems);
        let lines = desk.problems.iter().map(|p| render::line(p, &desk.files));
        settings.notes.extend(lines);
        settings
    }

    fn take(&mut self, root: &Node) {
        let text = |key: &str| root.get(key).and_then(Node::text);
        let flag = |key: &str| text(key).and_then(|word| word.parse::<bool>().ok());
        self.look = text("look").and_then(|w| Look::ALL.into_iter().find(|l| l.name() == w));
        self.lines = text("lines").and_then(|w| Lines::ALL.into_iter().find(|l| l.word() == w));
        self.letters = flag("letters");
        self.alone = flag("alone");
        self.plain = flag("plain");
        self.jobs = text("jobs").map(PathBuf::from);
        let guard = text("guard").and_then(|w| Quantity::parse(w, Dimension::Time).ok());
        let guard = guard.map(Quantity::si);
        if guard.is_some_and(|seconds| !(0.0..=LONGEST_GUARD).contains(&seconds)) {
            self.notes
                .push("guard: only 0 s to 5 s are taken; it is left as it was".to_owned());
        }
        self.guard = guard
            .filter(|seconds| (0.0..=LONGEST_GUARD).contains(seconds))
            .map(Duration::from_secs_f64);
    }

    /// Looks and keys, with the rest as it is without settings.
    pub fn preferences(&self, colour: bool) -> Preferences {
        let usual = Preferences::default();
        let look = self.look.unwrap_or(Look::Terminal);
        Preferences {
            look: if colour { look } else { Look::Mono },
            colour,
            lines: self.lines.unwrap_or(usual.lines),
            letters: self.letters.unwrap_or(usual.letters),
            focus: self.alone.unwrap_or(usual.focus),
        }
    }

    /// The file that would set what is set, with a comment for everything that can be.
    pub fn file(&self) -> String {
        let mut text = "stillwheel: settings 1\n".to_owned();
        for field in SETTINGS.fields.iter().skip(1) {
            text.push('\n');
            let mut doc = field.doc.to_owned();
            if let F::Word(words) = &field.form {
                doc.push_str(&format!(" One of: {}.", words().join(", ")));
            }
            for line in wrap(&doc, 76) {
                text.push_str(&format!("# {line}\n"));
            }
            let (mark, value) = match self.value(field.key) {
                Some(value) => ("", value),
                None => ("# ", usual(field.key)),
            };
            text.push_str(&format!("{mark}{}: {value}\n", field.key));
        }
        text
    }

    fn value(&self, key: &str) -> Option<String> {
        match key {
            "look" => self.look.map(|look| look.name().to_owned()),
            "lines" => self.lines.map(|lines| lines.word().to_owned()),
            "letters" => self.letters.map(|flag| flag.to_string()),
            "alone" => self.alone.map(|flag| flag.to_string()),
            "plain" => self.plain.map(|flag| flag.to_string()),
            "guard" => self.guard.map(|time| format!("{} s", time.as_secs_f64())),
            "jobs" => self.jobs.as_ref().map(|path| path.display().to_string()),
            _ => None,
        }
    }
}

/// What counts where nothing is set.
fn usual(key: &str) -> String {
    let word = match key {
        "look" => Look::Terminal.name(),
        "lines" => Lines::Ascii.word(),
        "letters" => "true",
        "guard" => "0.25 s",
        "jobs" => "some-folder",
        _ => "false",
    };
    word.to_owned()
}
