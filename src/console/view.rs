//! The whole frame: top line, rule, body, what just happened, keys.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::keys::footer;
use super::screens;
use super::state::{Screen, State};
use super::theme::Theme;
use crate::base::text::{pad, truncate, width};

/// Smallest window that shows a question.
const SMALLEST: (u16, u16) = (40, 12);
/// Text is never set wider than this.
const WIDEST: u16 = 100;

/// Draws the state.
pub fn view(frame: &mut Frame<'_>, state: &State, theme: &Theme) {
    let area = frame.area();
    if area.is_empty() {
        return;
    }
    frame.buffer_mut().set_style(area, theme.paper);
    if area.width < SMALLEST.0 || area.height < SMALLEST.1 {
        return too_small(frame, area);
    }
    let area = Rect {
        width: area.width.min(WIDEST),
        ..area
    };
    let [top, rule, body, happened, keys] = Layout::vertical([
        Constraint::Length(1),
        Constraint::Length(1),
        Constraint::Min(0),
        Constraint::Length(1),
        Constraint::Length(1),
    ])
    .areas(area);
    frame.render_widget(top_line(state, theme, top.width), top);
    let dashes = "-".repeat(usize::from(rule.width));
    frame.render_widget(Paragraph::new(Line::styled(dashes, theme.text)), rule);
    let lines = body_lines(state, theme, body);
    let scroll = match state.screen {
        Screen::Work => 0,
        _ => scroll(state.marked.unwrap_or(0), lines.len(), body.height),
    };
    let length = lines.len();
    frame.render_widget(Paragraph::new(lines).scroll((scroll, 0)), body);
    let more = usize::from(scroll) + usize::from(body.height) < length;
    let list = state.screen != Screen::Work;
    let message = if list && more {
        "More below: Down."
    } else {
        &state.message
    };
    let message = truncate(message, usize::from(happened.width));
    frame.render_widget(Paragraph::new(Line::styled(message, theme.text)), happened);
    let footer = truncate(
        &footer(state, usize::from(keys.width)),
        usize::from(keys.width),
    );
    frame.render_widget(Paragraph::new(Line::styled(footer, theme.strong)), keys);
}

/// What stands between the rule and the message.
fn body_lines(state: &State, theme: &Theme, body: Rect) -> Vec<Line<'static>> {
    let plain = |texts: Vec<String>| -> Vec<Line<'static>> {
        texts
            .into_iter()
            .map(|text| Line::styled(text, theme.text))
            .collect()
    };
    let columns = usize::from(body.width);
    match state.screen {
        Screen::Work => screens::work::lines(state, theme, body),
        Screen::Why => plain(screens::why::texts(state, columns)),
        Screen::Log => plain(screens::log::texts(state)),
        Screen::Pause => plain(screens::pause::texts(state)),
        Screen::Ends => plain(screens::ends::texts()),
        Screen::Messages => plain(state.messages.clone()),
        Screen::Help => plain(screens::help::texts()),
    }
}

/// The first line shown, so that the last page is always full.
fn scroll(wanted: usize, lines: usize, height: u16) -> u16 {
    let most = lines.saturating_sub(usize::from(height));
    u16::try_from(wanted.min(most)).unwrap_or(u16::MAX)
}

fn top_line(state: &State, theme: &Theme, columns: u16) -> Paragraph<'static> {
    let (safety, style) = if state.job.chocked() {
        ("CHOCKS IN", theme.strong)
    } else {
        ("NOT CHOCKED", theme.warning)
    };
    let screen = match state.screen {
        Screen::Work => state
            .prompt()
            .map_or("Where it stands".to_owned(), |prompt| prompt.place),
        Screen::Why => "For and against".to_owned(),
        Screen::Log => "Log".to_owned(),
        Screen::Pause => "Paused".to_owned(),
        Screen::Ends => "Ways to end".to_owned(),
        Screen::Messages => "Messages".to_owned(),
        Screen::Help => "Help".to_owned(),
    };
    let columns = usize::from(columns);
    let aircraft = state.job.field("aircraft").unwrap_or_default();
    let pressure = state.job.field("pressure-as-found").unwrap_or_default();
    let known: Vec<&str> = [aircraft, &screen, pressure]
        .into_iter()
        .filter(|t| !t.is_empty())
        .collect();
    let left = known.join("  ");
    let left = pad(&left, columns.saturating_sub(width(safety) + 1));
    Paragraph::new(Line::from(vec![
        Span::styled(left, theme.strong),
        Span::raw(" "),
        Span::styled(safety, style),
    ]))
}

fn too_small(frame: &mut Frame<'_>, area: Rect) {
    let words = "Make the window larger, or run with --plain. The job is safe.";
    let line = truncate(words, usize::from(area.width));
    frame.render_widget(Paragraph::new(line), area);
}
