//! What can reach the console from outside.

use crossterm::event::{Event as Raw, KeyCode, KeyEventKind, KeyModifiers};

use crate::base::stamp::Stamp;

/// One event.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Event {
    /// A key was pressed.
    Key(Key),
    /// The window has another size: columns and rows.
    Resize(u16, u16),
    /// This moment was reached, at which the screen changes by itself.
    Moment(Stamp),
    /// Text was pasted.
    Paste(String),
}

/// A key, without regard to upper and lower case: gloves hit Caps Lock.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A letter, a digit or a mark; letters in lower case.
    Char(char),
    /// A capital letter: the same key as the small one, but kept where text is typed.
    Typed(char),
    /// Control and a letter.
    Control(char),
    /// Enter.
    Enter,
    /// Backspace.
    Back,
    /// Escape.
    Escape,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow to the left.
    Left,
    /// Arrow to the right.
    Right,
    /// Tabulator.
    Tab,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
    /// Home.
    Home,
    /// End.
    End,
    /// A function key.
    F(u8),
}

/// The event behind a terminal event; `None` for what means nothing here.
///
/// Only presses count: some terminals report releases as well, and a held key must not answer
/// twice.
pub fn from_terminal(raw: &Raw) -> Option<Event> {
    match raw {
        Raw::Key(key) if key.kind == KeyEventKind::Press => {
            let control = key.modifiers.contains(KeyModifiers::CONTROL);
            let alt = key.modifiers.contains(KeyModifiers::ALT);
            let key = match key.code {
                KeyCode::Char(c) if control => Key::Control(c.to_ascii_lowercase()),
                KeyCode::Char(c) if !alt && c.is_uppercase() => Key::Typed(c),
                KeyCode::Char(c) if !alt => Key::Char(c),
                KeyCode::Enter => Key::Enter,
                KeyCode::Backspace => Key::Back,
                KeyCode::Esc => Key::Escape,
                KeyCode::Up => Key::Up,
                KeyCode::Down => Key::Down,
                KeyCode::Left => Key::Left,
                KeyCode::Right => Key::Right,
                KeyCode::Tab => Key::Tab,
                KeyCode::PageUp => Key::PageUp,
                KeyCode::PageDown => Key::PageDown,
                KeyCode::Home => Key::Home,
                KeyCode::End => Key::End,
                KeyCode::F(n) => Key::F(n),
                _ => return None,
            };
            Some(Event::Key(key))
        }
        Raw::Resize(columns, rows) => Some(Event::Resize(*columns, *rows)),
        Raw::Paste(text) => Some(Event::Paste(text.clone())),
        _ => None,
    }
}
