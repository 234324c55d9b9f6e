//! A page: rows of text with their roles, made for a width. Screen and plain mode show the same.

use crate::base::text::{truncate, width, wrap};

/// What a row is; the theme gives it its look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Plain text.
    Text,
    /// What matters most.
    Strong,
    /// People can be hurt.
    Warning,
    /// Aircraft or evidence can be harmed.
    Caution,
    /// What the plant predicts, on a plot.
    Predicted,
    /// A line from side to side, without text.
    Rule,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its text. A row that can be marked begins with two blanks for the mark.
    pub text: String,
    /// Its role.
    pub role: Role,
    /// What marking it means on its screen; `None` where it cannot be marked.
    pub item: Option<usize>,
    /// Whether the text cursor stands at its end.
    pub cursor: bool,
    /// The same text piece by piece, where its pieces have roles of their own; else empty.
    pub pieces: Vec<Piece>,
}

/// A piece of a row with its role.
pub type Piece = (String, Role);

/// Rows of a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Page {
    /// Columns there are.
    pub columns: usize,
    /// The rows.
    pub rows: Vec<Row>,
    /// How many of the first rows stay in sight while the others move under them.
    pub fixed: usize,
}

impl Page {
    /// An empty page of a width.
    pub fn new(columns: usize) -> Self {
        Self {
            columns,
            rows: Vec::new(),
            fixed: 0,
        }
    }

    fn push(&mut self, text: String, role: Role, item: Option<usize>) {
        self.rows.push(Row {
            text,
            role,
            item,
            cursor: false,
            pieces: Vec::new(),
        });
    }

    /// Plain text, wrapped.
    pub fn text(&mut self, text: &str) {
        self.wrapped(text, 0, Role::Text);
    }

    /// Text that matters, wrapped.
    pub fn strong(&mut self, text: &str) {
        self.wrapped(text, 0, Role::Strong);
    }

    /// A caution, whole.
    pub fn caution(&mut self, text: &str) {
        self.wrapped(&format!("CAUTION  {text}"), 0, Role::Caution);
    }

    /// Plain text, wrapped, with blanks before each line.
    pub fn indented(&mut self, blanks: usize, text: &str) {
        self.wrapped(text, blanks, Role::Text);
    }

    /// A line that is kept as it is where it fits, blanks included, and wrapped where it does not.
    pub fn text_kept(&mut self, text: &str) {
        if width(text) <= self.columns {
            self.push(text.to_owned(), Role::Text, None);
        } else {
            self.text(text);
        }
    }

    /// A line whose later rows begin further in, under its words.
    pub fn hanging(&mut self, blanks: usize, text: &str) {
        if width(text) <= self.columns || self.columns <= 2 * blanks {
            return self.text_kept(text);
        }
        let head: String = text.chars().take(blanks).collect();
        let tail: String = text.chars().skip(blanks).collect();
        let before = " ".repeat(blanks);
        for (nth, part) in wrap(&tail, self.columns - blanks).iter().enumerate() {
            let start = if nth == 0 { &head } else { &before };
            self.push(format!("{start}{part}"), Role::Text, None);
        }
    }

    fn wrapped(&mut self, text: &str, blanks: usize, role: Role) {
        let before = " ".repeat(blanks);
        for part in wrap(text, self.columns.saturating_sub(blanks)) {
            self.push(format!("{before}{part}"), role, None);
        }
    }

    /// One row, cut where it is too long.
    pub fn row(&mut self, text: &str) {
        self.push(truncate(text, self.columns), Role::Text, None);
    }

    /// One row of a role, cut where it is too long.
    pub fn row_of(&mut self, role: Role, text: &str) {
        self.push(truncate(text, self.columns), role, None);
    }

    /// Rows that were drawn, each piece in its role; they fit the page already.
    pub fn drawn(&mut self, rows: Vec<Vec<Piece>>) {
        for pieces in rows {
            let text: String = pieces.iter().map(|(text, _)| text.as_str()).collect();
            self.push(text.trim_end().to_owned(), Role::Text, None);
            if let Some(row) = self.rows.last_mut() {
                row.pieces = pieces;
            }
        }
    }

    /// A row that can be marked.
    pub fn item(&mut self, item: usize, text: &str) {
        let text = truncate(&format!("  {text}"), self.columns);
        self.push(text, Role::Text, Some(item));
    }

    /// What is being typed, with the cursor behind it; the end of it where it is long.
    pub fn input(&mut self, typed: &str) {
        let letters: Vec<char> = typed.chars().collect();
        let mut from = 0;
        let shown = |from: usize| format!("> {}", letters[from..].iter().collect::<String>());
        while from < letters.len() && width(&shown(from)) >= self.columns {
            from += 1;
        }
        self.rows.push(Row {
            text: shown(from),
            role: Role::Strong,
            item: None,
            cursor: true,
            pieces: Vec::new(),
        });
    }

    /// A line from side to side.
    pub fn rule(&mut self) {
        self.push(String::new(), Role::Rule, None);
    }

    /// An empty row.
    pub fn blank(&mut self) {
        self.push(String::new(), Role::Text, None);
    }

    /// Lets everything written so far stay in sight.
    pub fn fix(&mut self) {
        self.fixed = self.rows.len();
    }

    /// The rows that stay, and the page that moves under them.
    #[must_use]
    pub fn parted(mut self) -> (Self, Self) {
        let moving = self.rows.split_off(self.fixed.min(self.rows.len()));
        let rest = Self {
            columns: self.columns,
            rows: moving,
            fixed: 0,
        };
        (self, rest)
    }

    /// What can be marked, in order.
    pub fn items(&self) -> Vec<usize> {
        self.rows.iter().filter_map(|row| row.item).collect()
    }

    /// The places of the rows that can be marked, in order.
    pub fn item_rows(&self) -> Vec<usize> {
        let rows = self.rows.iter().enumerate();
        rows.filter(|(_, row)| row.item.is_some())
            .map(|(place, _)| place)
            .collect()
    }

    /// The first row shown of a window of some rows: the wanted one, unless the page would end
    /// above the window's end or the marked row would be out of sight.
    pub fn first_shown(&self, wanted: usize, marked: Option<usize>, rows: usize) -> usize {
        let from = wanted.min(self.rows.len().saturating_sub(rows));
        match marked.and_then(|nth| self.item_rows().get(nth).copied()) {
            Some(row) => from.max((row + 1).saturating_sub(rows)).min(row),
            None => from,
        }
    }
}
