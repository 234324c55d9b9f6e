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
};

const BOX: Glyphs = Glyphs {
    rule: '\u{2500}',
    wall: '\u{2502}',
    bar: '\u{2588}',
};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::text::width;

    #[test]
    fn every_character_takes_one_column() {
        for set in Lines::ALL {
            let glyphs = set.glyphs();
            for c in [glyphs.rule, glyphs.wall, glyphs.bar] {
                assert_eq!(width(&c.to_string()), 1, "{c}");
            }
        }
        assert_eq!(Lines::Ascii.next().next(), Lines::Ascii);
    }
}
