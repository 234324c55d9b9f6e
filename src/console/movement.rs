//! Moving the mark, and the page under it.

use super::action::Move;
use super::effect::Effect;
use super::screens;
use super::state::{Screen, State};

/// Where the page and its mark stand.
struct View {
    /// Rows that can be marked.
    items: Vec<usize>,
    /// Rows of the window.
    rows: usize,
    /// The highest first row.
    most: usize,
    /// The first row shown.
    from: usize,
    /// Which of the items is marked.
    marked: Option<usize>,
}

/// Moves the mark where something can be marked, else the page; every row can be reached.
pub fn go(state: &mut State, way: Move) -> Option<Effect> {
    let (columns, rows) = state.screen_size();
    let (stays, page) = screens::page(state, state.room(), columns, rows).parted();
    let rows = rows.saturating_sub(stays.rows.len());
    let mut view = View {
        from: page.first_shown(state.scroll, state.marked, rows),
        most: page.rows.len().saturating_sub(rows),
        items: page.item_rows(),
        rows,
        marked: state.marked,
    };
    match way {
        Move::Up => view.up(),
        Move::Down => view.down(),
        Move::PageUp => view.to(view.from.saturating_sub(view.step())),
        Move::PageDown => view.to(view.from + view.step()),
        Move::First => view.to(0),
        Move::Last => {
            view.to(view.most);
            view.marked = (0..view.items.len()).rev().find(|item| view.sees(*item));
        }
    }
    // On the work only an arrow marks an answer: turning pages must not push one.
    let pages = !matches!(way, Move::Up | Move::Down);
    if state.screen == Screen::Work && pages {
        view.marked = state.marked.filter(|item| view.sees(*item));
    }
    state.marked = view.marked;
    state.scroll = view.from;
    None
}

impl View {
    fn step(&self) -> usize {
        self.rows.saturating_sub(1).max(1)
    }

    fn sees(&self, item: usize) -> bool {
        (self.from..self.from + self.rows).contains(&self.items[item])
    }

    /// Shows the page from a row on; the first item that is seen is marked, if there is one.
    fn to(&mut self, from: usize) {
        self.from = from.min(self.most);
        self.marked = (0..self.items.len()).find(|item| self.sees(*item));
    }

    /// One item down. Where rows that were not seen yet lie before the next one, the page moves by
    /// a row instead, so that nothing is jumped over; below the last one too.
    fn down(&mut self) {
        let seen = |item: &usize| self.items[*item] >= self.from;
        let next = match self.marked {
            Some(item) => Some(item + 1),
            None => (0..self.items.len()).find(seen),
        };
        let near = |item: &usize| {
            let row = self.items.get(*item);
            row.is_some_and(|row| *row <= self.from + self.rows)
        };
        match next.filter(near) {
            Some(item) => {
                // What belongs to it, as far as the next one, comes into sight with it.
                let row = self.items[item];
                let next = self.items.get(item + 1).copied().unwrap_or(row + 1);
                let end = next.min(row + self.rows);
                self.from = self.from.max(end.saturating_sub(self.rows)).min(row);
                self.marked = Some(item);
            }
            None => self.slide((self.from + 1).min(self.most)),
        }
    }

    /// One item up, by the same rule.
    fn up(&mut self) {
        let above = |item: &usize| self.items[*item] < self.from;
        let next = match self.marked {
            Some(item) => item.checked_sub(1),
            None => (0..self.items.len()).rev().find(above),
        };
        let near = |item: &usize| self.items[*item] + 1 >= self.from;
        match next.filter(near) {
            Some(item) => {
                self.from = self.from.min(self.items[item]);
                self.marked = Some(item);
            }
            None => self.slide(self.from.saturating_sub(1)),
        }
    }

    /// Moves the page under the mark; a mark that goes out of sight is dropped.
    fn slide(&mut self, from: usize) {
        self.from = from;
        if self.marked.is_some_and(|item| !self.sees(item)) {
            self.marked = None;
        }
    }
}
