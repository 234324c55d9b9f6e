//! "Did you mean": the nearest of the words that would have been accepted.

/// The candidate most like `word`, if one is near enough to be worth offering.
///
/// Near enough means a normalised Damerau-Levenshtein similarity of at least 0.6 (chosen by us:
/// it accepts two slips in a word of six letters). Ties go to the first candidate.
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let mut best: Option<(&str, f64)> = None;
    for candidate in candidates {
        let likeness = strsim::normalized_damerau_levenshtein(word, candidate);
        if likeness >= 0.6 && best.is_none_or(|(_, so_far)| likeness > so_far) {
            best = Some((candidate, likeness));
        }
    }
    best.map(|(candidate, _)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_is_found_and_a_stranger_is_not() {
        let words = ["return-open", "valve-jammed-open", "let-go"];
        assert_eq!(nearest("retrun-open", words), Some("return-open"));
        assert_eq!(nearest("accumulator", words), None);
    }
}
