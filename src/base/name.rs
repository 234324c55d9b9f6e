//! Names of things in documents: lower-case words joined by hyphens.

/// Whether a text is a name: `park-valve`, `l1`, `main`. Starts with a letter.
pub fn is_name(text: &str) -> bool {
    let starts_with_letter = text.starts_with(|c: char| c.is_ascii_lowercase());
    let letters_only = text
        .chars()
        .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
    starts_with_letter && letters_only && !text.ends_with('-') && !text.contains("--")
}

/// The name somebody probably meant: lower case, blanks and underscores turned into hyphens.
pub fn as_name(text: &str) -> String {
    let mut name = String::new();
    for c in text.trim().chars() {
        if c.is_ascii_alphanumeric() {
            name.push(c.to_ascii_lowercase());
        } else if !name.is_empty() && !name.ends_with('-') {
            name.push('-');
        }
    }
    name.trim_end_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_lower_case_words_with_hyphens() {
        for good in ["a", "park-valve", "l1", "brake-l3-seal"] {
            assert!(is_name(good), "{good}");
        }
        for bad in ["", "Park", "3a", "a_b", "a b", "a-", "a--b", "-a", "ä"] {
            assert!(!is_name(bad), "{bad}");
        }
    }

    #[test]
    fn a_bad_name_is_turned_into_a_good_one() {
        assert_eq!(as_name("Park_Valve open "), "park-valve-open");
        assert!(is_name(&as_name("Lamp (dead)")));
    }
}
