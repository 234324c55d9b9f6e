//! The characters that lines and bars are drawn with. ASCII unless box drawing was asked for.

/// One set of characters, each one column wide.
#[derive(Debug, PartialEq, Eq)]
pub struct Glyphs {
    /// A line from left to right.
    pub rule: char,
    /// A line from top to bottom, between panels.
    pub wall: char,
    /// A piece of a bar.
    pub bar: char,
    /// Where the two axes of a plot meet, and a tick on either.
    pub corner: char,
    /// A tick of the time axis.
    pub time_tick: char,
    /// A tick of the value axis.
    pub value_tick: char,
    /// The inside of a band.
    pub fill: char,
    /// A piece of a line that marks one value from side to side.
    pub dash: char,
}

/// The sets there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lines {
    /// Characters that every terminal, printer and Braille line has.
    Ascii,
    /// Box drawing and blocks of Unicode.
    Box,
}

impl Lines {
    /// All sets, in the order one key steps through them.
    pub const ALL: [Self; 2] = [Self::Ascii, Self::Box];

    /// The other set.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Ascii => Self::Box,
            Self::Box => Self::Ascii,
        }
    }

    /// Its name, in messages and in the settings.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ascii => "ascii",
            Self::Box => "box",
        }
    }

    /// How many dots of a plot one character holds, from left to right and from top to bottom.
    pub fn dots(self) -> (usize, usize) {
        match self {
            Self::Ascii => (1, 1),
            Self::Box => (2, 4),
        }
    }

    /// The character with some of its dots set: those of Braille, bit by bit as Unicode numbers
    /// them (chapter 21.1), or `mark` where a character is one dot.
    pub fn dotted(self, bits: u8, mark: char) -> char {
        match self {
            Self::Ascii => mark,
            Self::Box => char::from_u32(0x2800 + u32::from(bits)).unwrap_or(mark),
        }
    }

    /// Its characters.
    pub fn glyphs(self) -> &'static Glyphs {
        match self {
            Self::Ascii => &ASCII,
            Self::Box => &BOX,
        }
    }
}

const ASCII: Glyphs = Glyphs {
    rule: '-',
    wall: '|',
    bar: '#',
    corner: '+',
    time_tick: '+',
    value_tick: '+',
    fill: '.',
    dash: '-',
};

const BOX: Glyphs = Glyphs {
    rule: '\u{2500}',
    wall: '\u{2502}',
    bar: '\u{2588}',
    corner: '\u{2514}',
    time_tick: '\u{2534}',
    value_tick: '\u{2524}',
    fill: '\u{2591}',
    dash: '\u{254c}',
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::text::width;

    #[test]
    fn every_character_takes_one_column() {
        for set in Lines::ALL {
            let glyphs = set.glyphs();
            let plot = [glyphs.corner, glyphs.time_tick, glyphs.value_tick];
            let inside = [glyphs.fill, glyphs.dash, set.dotted(0xff, 'o')];
            let lines = [glyphs.rule, glyphs.wall, glyphs.bar];
            for c in lines.into_iter().chain(plot).chain(inside) {
                assert_eq!(width(&c.to_string()), 1, "{c}");
            }
        }
        assert_eq!(Lines::Ascii.next().next(), Lines::Ascii);
    }
}
