//! The texts that were read, kept so that problems can show the line they speak of.

use super::place::FileId;

/// One text with the name it goes by.
#[derive(Debug, Clone)]
pub struct SourceFile {
    /// Path as typed, or `embedded:NAME`.
    pub name: String,
    /// The whole text; empty where it could not be read.
    pub text: String,
}

/// All texts of one run, in the order they were opened.
#[derive(Debug, Clone, Default)]
pub struct SourceFiles {
    files: Vec<SourceFile>,
}

impl SourceFiles {
    /// Adds a text and gives the id places use for it.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> FileId {
        self.files.push(SourceFile {
            name: name.into(),
            text: text.into(),
        });
        FileId(self.files.len() - 1)
    }

    /// The file with this id. Ids come from [`Self::add`] only, so the file is there.
    pub fn get(&self, id: FileId) -> &SourceFile {
        &self.files[id.0]
    }

    /// Line and column, both from 1 and the column in letters, of a byte offset.
    ///
    /// An offset past the end counts as the end.
    pub fn line_and_column(&self, id: FileId, offset: usize) -> (usize, usize) {
        let text = &self.get(id).text;
        let before = text.get(..offset.min(text.len())).unwrap_or(text);
        let line = before.matches('\n').count() + 1;
        let column = before.rsplit('\n').next().map_or(0, |l| l.chars().count()) + 1;
        (line, column)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_letters_not_bytes() {
        let mut files = SourceFiles::default();
        let id = files.add("a.yaml", "x: 1\nä: b\n");
        assert_eq!(files.line_and_column(id, 0), (1, 1));
        assert_eq!(files.line_and_column(id, 9), (2, 4));
        assert_eq!(files.line_and_column(id, 99), (3, 1));
    }
}
