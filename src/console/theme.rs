//! Roles and their looks. The only place that names a colour.

use ratatui::style::{Color, Modifier, Style};

use super::page::Role;

/// One look for each role.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Theme {
    /// The paper under everything; the terminal's own where it says nothing.
    pub paper: Style,
    /// Plain text.
    pub text: Style,
    /// Text that matters most on the screen.
    pub strong: Style,
    /// People can be hurt.
    pub warning: Style,
    /// Aircraft or evidence can be harmed.
    pub caution: Style,
    /// What the plant predicts, on a plot. Characters tell it apart too.
    pub predicted: Style,
    /// The marked row.
    pub marked: Style,
}

impl Theme {
    /// The look of a role.
    pub fn of(&self, role: Role) -> Style {
        match role {
            Role::Text | Role::Rule => self.text,
            Role::Strong => self.strong,
            Role::Warning => self.warning,
            Role::Caution => self.caution,
            Role::Predicted => self.predicted,
        }
    }
}

/// The looks there are, in the order one key steps through them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// The terminal's own ink and paper, and one of its colours.
    Terminal,
    /// Dark on light, in true colour.
    Day,
    /// Light on dark, in true colour.
    Night,
    /// No colour: bold and reverse only.
    Mono,
}

impl Look {
    /// All looks, in the order one key steps through them.
    pub const ALL: [Self; 4] = [Self::Terminal, Self::Day, Self::Night, Self::Mono];

    /// Its name in the settings.
    pub fn name(self) -> &'static str {
        match self {
            Self::Terminal => "terminal",
            Self::Day => "day",
            Self::Night => "night",
            Self::Mono => "no-colour",
        }
    }

    /// The next look.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Terminal => Self::Day,
            Self::Day => Self::Night,
            Self::Night => Self::Mono,
            Self::Mono => Self::Terminal,
        }
    }

    /// Its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Terminal => "terminal colours",
            Self::Day => "day",
            Self::Night => "night",
            Self::Mono => "no colour",
        }
    }

    /// Its theme.
    pub fn theme(self) -> &'static Theme {
        match self {
            Self::Terminal => &TERMINAL,
            Self::Day => &DAY,
            Self::Night => &NIGHT,
            Self::Mono => &MONO,
        }
    }
}

const BOLD: Style = Style::new().add_modifier(Modifier::BOLD);
const REVERSED: Style = Style::new().add_modifier(Modifier::REVERSED);
const BOTH: Style = Style::new().add_modifier(Modifier::REVERSED.union(Modifier::BOLD));

/// No colour: bold and reverse only.
pub const MONO: Theme = Theme {
    paper: Style::new(),
    text: Style::new(),
    strong: BOLD,
    warning: BOTH,
    caution: BOLD,
    predicted: Style::new(),
    marked: REVERSED,
};

/// The terminal's own ink and paper. Yellow and blue are not used as ink, because one of them
/// cannot be read on every paper.
pub const TERMINAL: Theme = Theme {
    paper: Style::new(),
    text: Style::new(),
    strong: BOLD,
    warning: BOTH.fg(Color::Red),
    caution: BOLD.fg(Color::Red),
    predicted: Style::new(),
    marked: REVERSED,
};

/// Contrast on white by the WCAG formula: ink 21, warning 7.0, caution 6.1, predicted 8.5.
pub const DAY: Theme = Theme {
    paper: Style::new()
        .fg(Color::Rgb(0, 0, 0))
        .bg(Color::Rgb(255, 255, 255)),
    text: Style::new(),
    strong: BOLD,
    warning: BOTH.fg(Color::Rgb(0xa8, 0x20, 0x50)),
    caution: BOLD.fg(Color::Rgb(0x88, 0x58, 0x00)),
    predicted: Style::new().fg(Color::Rgb(0x00, 0x4e, 0x8c)),
    marked: REVERSED,
};

/// Contrast on black by the WCAG formula: ink 14.7, warning 9.2, caution 11.5, predicted 11.2.
pub const NIGHT: Theme = Theme {
    paper: Style::new()
        .fg(Color::Rgb(0xd8, 0xd8, 0xd8))
        .bg(Color::Rgb(0, 0, 0)),
    text: Style::new(),
    strong: BOLD,
    warning: BOTH.fg(Color::Rgb(0xff, 0x8a, 0x80)),
    caution: BOLD.fg(Color::Rgb(0xf2, 0xb6, 0x32)),
    predicted: Style::new().fg(Color::Rgb(0x6e, 0xc6, 0xff)),
    marked: REVERSED,
};

/// A true colour as `#rrggbb`; any other is left to the reader of the picture.
pub fn hex(colour: Option<Color>) -> String {
    match colour {
        Some(Color::Rgb(r, g, b)) => format!("#{r:02x}{g:02x}{b:02x}"),
        _ => "currentColor".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance, WCAG 2.2, definition of that name.
    fn luminance(colour: Option<Color>) -> f64 {
        let Some(Color::Rgb(r, g, b)) = colour else {
            panic!("{colour:?} is not a true colour");
        };
        let part = |c: u8| {
            let c = f64::from(c) / 255.0;
            if c <= 0.040_45 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b)
    }

    // WCAG 2.2, success criteria 1.4.3 and 1.4.6, ask 4.5 and 7 to 1 of text; 6 to 1 is ours.
    #[test]
    fn every_true_colour_stands_out_from_its_paper() {
        for theme in [DAY, NIGHT] {
            let paper = luminance(theme.paper.bg);
            for ink in [
                theme.paper.fg,
                theme.warning.fg,
                theme.caution.fg,
                theme.predicted.fg,
            ] {
                let ink = luminance(ink);
                let contrast = (ink.max(paper) + 0.05) / (ink.min(paper) + 0.05);
                assert!(contrast >= 6.0, "{contrast}");
            }
        }
    }

    #[test]
    fn without_colour_there_is_none() {
        for style in [
            MONO.paper,
            MONO.text,
            MONO.strong,
            MONO.warning,
            MONO.caution,
            MONO.predicted,
            MONO.marked,
        ] {
            assert!(style.fg.is_none() && style.bg.is_none());
        }
    }
}
