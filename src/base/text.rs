//! Text as it stands on a screen: width in columns, cutting, padding, wrapping, plurals.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// Columns a text takes on a terminal.
pub fn width(text: &str) -> usize {
    text.width()
}

/// A number with so many decimals. What rounds to nothing has no sign: `-0.0` would be read as a
/// fall.
pub fn decimal(number: f64, decimals: usize) -> String {
    let text = format!("{number:.decimals$}");
    match text.strip_prefix('-') {
        Some(plain) if plain.chars().all(|letter| matches!(letter, '0' | '.')) => plain.to_owned(),
        _ => text,
    }
}

/// Cuts a text to at most `columns`, on whole letters, ending in `..` where something was cut.
pub fn truncate(text: &str, columns: usize) -> String {
    if width(text) <= columns {
        return text.to_owned();
    }
    let ellipsis = if columns >= 2 { ".." } else { "" };
    let room = columns - width(ellipsis);
    let mut cut = String::new();
    let mut used = 0;
    for letter in text.graphemes(true) {
        used += width(letter);
        if used > room {
            break;
        }
        cut.push_str(letter);
    }
    cut.push_str(ellipsis);
    cut
}

/// Cuts or fills a text with blanks on the right to exactly `columns`.
pub fn pad(text: &str, columns: usize) -> String {
    let mut padded = truncate(text, columns);
    while width(&padded) < columns {
        padded.push(' ');
    }
    padded
}

/// Breaks a text into lines of at most `columns`, at blanks; a longer word is cut on letters.
pub fn wrap(text: &str, columns: usize) -> Vec<String> {
    let columns = columns.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let needed = width(word) + usize::from(!line.is_empty());
        if width(&line) + needed <= columns {
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
            continue;
        }
        if !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line = hard_wrap(word, columns, &mut lines);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// Cuts a word that is wider than a line into full lines; returns what is left over.
fn hard_wrap(word: &str, columns: usize, lines: &mut Vec<String>) -> String {
    let mut line = String::new();
    for letter in word.graphemes(true) {
        if width(&line) + width(letter) > columns && !line.is_empty() {
            lines.push(std::mem::take(&mut line));
        }
        line.push_str(letter);
    }
    line
}

/// A text for searching: small letters, without accents.
pub fn folded(text: &str) -> String {
    text.nfd()
        .filter(|c| !is_combining_mark(*c))
        .collect::<String>()
        .to_lowercase()
}

/// `1 error`, `3 errors`.
pub fn plural(count: usize, one: &str) -> String {
    if count == 1 {
        format!("1 {one}")
    } else {
        format!("{count} {one}s")
    }
}

/// `a pump`, `an accumulator`.
pub fn with_article(word: &str) -> String {
    let vowel = word.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {word}", if vowel { "an" } else { "a" })
}

/// `a`, `a and b`, `a, b and c`.
pub fn listed<S: AsRef<str>>(words: &[S], last_joiner: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.as_ref().to_owned(),
        [front @ .., last] => {
            let front: Vec<&str> = front.iter().map(AsRef::as_ref).collect();
            format!("{} {last_joiner} {}", front.join(", "), last.as_ref())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_letters_count_two_columns() {
        assert_eq!(width("制動"), 4);
        assert_eq!(truncate("制動制動", 5), "制..");
        assert_eq!(pad("制", 4), "制  ");
        assert_eq!(truncate("brake", 1), "b");
    }

    #[test]
    fn what_rounds_to_nothing_has_no_sign() {
        assert_eq!(decimal(-0.04, 1), "0.0");
        assert_eq!(decimal(-0.0, 0), "0");
        assert_eq!(decimal(-0.06, 1), "-0.1");
        assert_eq!(decimal(-10.0, 0), "-10");
    }

    #[test]
    fn wrapping_keeps_every_word() {
        assert_eq!(
            wrap("park valve seat leaks", 10),
            ["park valve", "seat leaks"]
        );
        assert_eq!(wrap("abcdefgh ij", 3), ["abc", "def", "gh", "ij"]);
        assert_eq!(wrap("", 10), [""]);
    }

    #[test]
    fn case_and_accents_are_folded() {
        assert_eq!(
            folded("Bremsdruck-Anzeige ÉTAT Ü"),
            "bremsdruck-anzeige etat u"
        );
    }

    #[test]
    fn words_are_counted_and_listed() {
        assert_eq!(plural(1, "error"), "1 error");
        assert_eq!(plural(0, "error"), "0 errors");
        assert_eq!(listed(&["a", "b", "c"], "or"), "a, b or c");
    }
}
