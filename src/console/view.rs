//! The whole frame: top line, rule, screen and panels, what just happened, keys.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Position, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::glyphs::Glyphs;
use super::keys::footer;
use super::layout::{self, Room, room};
use super::page::{Page, Role};
use super::panels::beside;
use super::screens;
use super::state::{Preferences, State};
use super::theme::Theme;
use super::top_line::top_line;
use crate::base::text::{pad, truncate};

/// Draws the state.
pub fn view(frame: &mut Frame<'_>, state: &State, theme: &Theme) {
    let area = frame.area();
    if area.is_empty() {
        return;
    }
    frame.buffer_mut().set_style(area, theme.paper);
    let room = room(area.width, area.height, state.preferences.focus);
    if room == Room::Nothing {
        return too_small(frame, area);
    }
    let glyphs = state.preferences.lines.glyphs();
    let parts = layout::frame(area, room);
    let top = top_line(state, theme, usize::from(parts.top.width));
    frame.render_widget(Paragraph::new(top), parts.top);
    let rule = glyphs.rule.to_string();
    let rule = rule.repeat(usize::from(parts.rule.width));
    frame.render_widget(Paragraph::new(Line::styled(rule, theme.text)), parts.rule);
    let more = screen(frame, state, theme, room, parts.screen);
    let (columns, rows) = size(parts.beside.first().copied().unwrap_or_default());
    let pages = beside(state, room, columns, rows);
    for (page, place) in pages.iter().zip(&parts.beside) {
        paint(frame, page, 0, None, glyphs, theme, *place);
    }
    for wall in &parts.walls {
        let lines =
            vec![Line::styled(glyphs.wall.to_string(), theme.text); usize::from(wall.height)];
        frame.render_widget(Paragraph::new(lines), *wall);
    }
    let message = message(&state.message, more, usize::from(parts.happened.width));
    frame.render_widget(
        Paragraph::new(Line::styled(message, theme.text)),
        parts.happened,
    );
    let columns = usize::from(parts.keys.width);
    let keys = truncate(&footer(state, columns), columns);
    frame.render_widget(Paragraph::new(Line::styled(keys, theme.strong)), parts.keys);
}

/// Draws the screen itself; true where there is more below it.
fn screen(frame: &mut Frame<'_>, state: &State, theme: &Theme, room: Room, place: Rect) -> bool {
    let (columns, rows) = size(place);
    let (stays, page) = screens::page(state, room, columns, rows).parted();
    let high = u16::try_from(stays.rows.len()).map_or(place.height, |high| high.min(place.height));
    let [head, place] =
        Layout::vertical([Constraint::Length(high), Constraint::Min(0)]).areas(place);
    let rows = usize::from(place.height);
    let marked = state.marked;
    let from = page.first_shown(state.scroll, marked, rows);
    let marked_row = marked.and_then(|nth| page.item_rows().get(nth).copied());
    let most = page.rows.len().saturating_sub(rows);
    let glyphs = state.preferences.lines.glyphs();
    paint(frame, &stays, 0, None, glyphs, theme, head);
    paint(frame, &page, from, marked_row, glyphs, theme, place);
    from < most
}

/// What just happened, and at its end that there is more of the page.
fn message(said: &str, more: bool, columns: usize) -> String {
    const MORE: &str = "More: PgDn";
    if !more {
        return truncate(said, columns);
    }
    let room = columns.saturating_sub(MORE.len() + 1);
    format!("{} {MORE}", pad(&truncate(said, room), room))
}

/// Draws a page that stands alone, with its top line, its message and its keys.
pub fn paint_frame(
    window: &mut Frame<'_>,
    page: &Page,
    marked: Option<usize>,
    [top, happened, keys]: [&str; 3],
    preferences: &Preferences,
) {
    let theme = preferences.look.theme();
    let glyphs = preferences.lines.glyphs();
    let area = window.area();
    window.buffer_mut().set_style(area, theme.paper);
    let parts = layout::frame(area, Room::One);
    let columns = usize::from(area.width);
    let rule = glyphs.rule.to_string().repeat(columns);
    for (text, style, place) in [
        (top, theme.strong, parts.top),
        (rule.as_str(), theme.text, parts.rule),
        (happened, theme.text, parts.happened),
        (keys, theme.strong, parts.keys),
    ] {
        let line = Line::styled(truncate(text, columns), style);
        window.render_widget(Paragraph::new(line), place);
    }
    let rows = usize::from(parts.screen.height);
    let from = page.first_shown(0, marked, rows);
    let row = marked.and_then(|nth| page.item_rows().get(nth).copied());
    paint(window, page, from, row, glyphs, theme, parts.screen);
}

/// Draws rows of a page from one on; the terminal's own cursor stands where something is typed.
fn paint(
    frame: &mut Frame<'_>,
    page: &Page,
    from: usize,
    marked: Option<usize>,
    glyphs: &Glyphs,
    theme: &Theme,
    place: Rect,
) {
    let columns = usize::from(place.width);
    let shown = page.rows.iter().enumerate().skip(from);
    for ((at, row), y) in shown.zip(place.y..place.bottom()) {
        let line = match row.role {
            Role::Rule => Line::styled(glyphs.rule.to_string().repeat(columns), theme.text),
            _ if marked == Some(at) => {
                let rest = row.text.get(2..).unwrap_or_default();
                Line::styled(pad(&format!("> {rest}"), columns), theme.marked)
            }
            _ if !row.pieces.is_empty() => {
                let pieces = row.pieces.iter();
                let spans = pieces.map(|(text, role)| Span::styled(text.clone(), theme.of(*role)));
                spans.collect()
            }
            role => Line::styled(row.text.clone(), theme.of(role)),
        };
        let area = Rect {
            y,
            height: 1,
            ..place
        };
        frame.render_widget(Paragraph::new(line), area);
        if row.cursor {
            let end = crate::base::text::width(&row.text).min(columns.saturating_sub(1));
            let x = place.x + u16::try_from(end).unwrap_or(0);
            frame.set_cursor_position(Position { x, y });
        }
    }
}

fn size(place: Rect) -> (usize, usize) {
    (usize::from(place.width), usize::from(place.height))
}

/// One line that asks for a larger window.
pub fn too_small(frame: &mut Frame<'_>, area: Rect) {
    let words = "Too small: 40x12 or larger, or --plain.";
    let line = truncate(words, usize::from(area.width));
    frame.render_widget(Paragraph::new(line), area);
}
