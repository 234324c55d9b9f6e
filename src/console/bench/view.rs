//! The whole frame: top line, panes, what just happened, keys.

use ratatui::Frame;
use ratatui::layout::{Constraint, Layout, Rect};
use ratatui::text::{Line, Span};
use ratatui::widgets::Paragraph;

use super::panes;
use super::state::{Pane, State};
use super::table::footer;
use crate::base::text::{pad, plural, truncate, width};
use crate::console::layout::{self, Room, room};
use crate::console::page::Page;
use crate::console::theme::Theme;
use crate::console::view::{paint, too_small};
use crate::plant::course::clock;

/// Rows of the controls where the faults stand below them.
const CONTROLS: u16 = 27;

/// Draws the state.
pub fn view(frame: &mut Frame<'_>, state: &State, theme: &Theme) {
    let area = frame.area();
    if area.is_empty() {
        return;
    }
    frame.buffer_mut().set_style(area, theme.paper);
    let room = room(area.width, area.height, false);
    if room == Room::Nothing {
        return too_small(frame, area);
    }
    let glyphs = state.preferences.lines.glyphs();
    let parts = layout::frame(area, room);
    frame.render_widget(
        Paragraph::new(top_line(state, theme, parts.top.width)),
        parts.top,
    );
    let rule = glyphs
        .rule
        .to_string()
        .repeat(usize::from(parts.rule.width));
    frame.render_widget(Paragraph::new(Line::styled(rule, theme.text)), parts.rule);
    for (pane, place) in places(state, area) {
        draw_pane(frame, state, theme, pane, place);
    }
    for wall in &parts.walls {
        let lines =
            vec![Line::styled(glyphs.wall.to_string(), theme.text); usize::from(wall.height)];
        frame.render_widget(Paragraph::new(lines), *wall);
    }
    let columns = usize::from(parts.happened.width);
    let mut happened = Page::new(columns);
    match &state.input {
        Some(input) => happened.input(input),
        None => happened.row(&state.message),
    }
    paint(frame, &happened, 0, None, glyphs, theme, parts.happened);
    let keys = truncate(&footer(state, columns), columns);
    frame.render_widget(Paragraph::new(Line::styled(keys, theme.strong)), parts.keys);
}

/// Which panes a window shows, and where.
fn places(state: &State, area: Rect) -> Vec<(Pane, Rect)> {
    let room = room(area.width, area.height, false);
    let parts = layout::frame(area, room);
    match (room, &parts.beside[..]) {
        (Room::Two, [right]) => vec![(state.left, parts.screen), (state.right, *right)],
        (Room::Three, [middle, right]) => {
            let [picture, plot, account] = Layout::vertical([
                Constraint::Percentage(42),
                Constraint::Percentage(30),
                Constraint::Min(0),
            ])
            .areas(*right);
            let middle_pane = if state.right == Pane::Help {
                Pane::Help
            } else {
                Pane::Readings
            };
            let [controls, faults] =
                Layout::vertical([Constraint::Length(CONTROLS), Constraint::Min(0)])
                    .areas(parts.screen);
            vec![
                (Pane::Controls, controls),
                (Pane::Faults, faults),
                (middle_pane, *middle),
                (Pane::Schematic, picture),
                (Pane::Plot, plot),
                (Pane::Account, account),
            ]
        }
        _ => vec![(state.pane, parts.screen)],
    }
}

/// Columns and rows of the pane that keys speak to.
pub fn pane_size(state: &State) -> (usize, usize) {
    let area = Rect::new(0, 0, state.size.0, state.size.1);
    let places = places(state, area);
    let found = places.iter().find(|(pane, _)| *pane == state.pane);
    let place = found.map_or(area, |(_, place)| *place);
    (usize::from(place.width), usize::from(place.height))
}

fn draw_pane(frame: &mut Frame<'_>, state: &State, theme: &Theme, pane: Pane, place: Rect) {
    let (columns, rows) = (usize::from(place.width), usize::from(place.height));
    let glyphs = state.preferences.lines.glyphs();
    let (stays, page) = panes::page(state, pane, columns, rows).parted();
    let high = u16::try_from(stays.rows.len()).map_or(place.height, |high| high.min(place.height));
    let [head, rest] =
        Layout::vertical([Constraint::Length(high), Constraint::Min(0)]).areas(place);
    let mark = state.marks[pane.place()];
    let items = page.item_rows();
    let own = pane == state.pane;
    let marked = (own && !items.is_empty()).then(|| mark.min(items.len() - 1));
    let wanted = if items.is_empty() { mark } else { 0 };
    let from = page.first_shown(wanted, marked, usize::from(rest.height));
    let marked_row = marked.and_then(|nth| items.get(nth).copied());
    paint(frame, &stays, 0, None, glyphs, theme, head);
    paint(frame, &page, from, marked_row, glyphs, theme, rest);
}

/// Aircraft and pane on the left; time, speed and faults on the right, as far as there is room.
fn top_line(state: &State, theme: &Theme, columns: u16) -> Line<'static> {
    let columns = usize::from(columns);
    let time = clock(state.play.now());
    let (runs, style) = if state.running {
        (format!("{time}  runs {}x", state.speed), theme.caution)
    } else {
        (format!("{time}  stopped"), theme.strong)
    };
    let faults = plural(state.play.course().faults().len(), "fault");
    let moves = if state.play.plant().excess() > 0.0 {
        "MOVES  "
    } else {
        ""
    };
    let mut left = format!("{}  {}", state.pane.word(), state.play.aircraft().id);
    if columns >= 60 {
        left = format!("Bench  {left}");
    }
    let longer = format!("{left}  {faults}");
    if width(&longer) + width(moves) + width(&runs) < columns {
        left = longer;
    }
    let room = columns.saturating_sub(width(&runs) + width(moves));
    Line::from(vec![
        Span::styled(
            pad(&truncate(&left, room.saturating_sub(1)), room),
            theme.strong,
        ),
        Span::styled(moves, theme.warning),
        Span::styled(runs, style),
    ])
}
