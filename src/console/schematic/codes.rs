//! Short names of parts for the picture: initials, longer where two parts would share them.

use std::collections::BTreeMap;

/// One short name for each id, all different, in the order given.
pub fn codes(ids: &[&str]) -> Vec<String> {
    let mut codes: Vec<String> = ids.iter().map(|id| initials(id, 1, 1)).collect();
    for letters in 2..=6 {
        let mut shared: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (at, code) in codes.iter().enumerate() {
            shared.entry(code).or_default().push(at);
        }
        let shared: Vec<Vec<usize>> = shared.into_values().filter(|s| s.len() > 1).collect();
        if shared.is_empty() {
            break;
        }
        for group in shared {
            // The word that tells them apart grows: the last one, or the first.
            let last = |at: &usize| ids[*at].rsplit('-').next().unwrap_or_default();
            let alike = group.iter().all(|at| last(at) == last(&group[0]));
            for at in group {
                codes[at] = if alike {
                    initials(ids[at], letters, 1)
                } else {
                    initials(ids[at], 1, letters)
                };
            }
        }
    }
    codes
}

/// The first letters of the words of an id; more of the first and of the last word.
fn initials(id: &str, of_first: usize, of_last: usize) -> String {
    let words: Vec<&str> = id.split('-').collect();
    let count = words.len();
    let take = |(nth, word): (usize, &&str)| {
        // `l3` and `r1` are names of places and stay whole.
        let place = word.len() == 2 && word.ends_with(|c: char| c.is_ascii_digit());
        let letters = match nth {
            _ if place => 2,
            0 if count == 1 => of_first.max(of_last).max(3),
            0 => of_first,
            _ if nth + 1 == count => of_last,
            _ => 1,
        };
        let part: String = word.chars().take(letters).collect();
        part.to_uppercase()
    };
    words.iter().enumerate().map(take).collect()
}

#[cfg(test)]
mod tests {
    use super::codes;

    #[test]
    fn parts_that_share_initials_get_longer_ones() {
        let found = codes(&[
            "park-latch",
            "park-lever",
            "supply-line",
            "second-line",
            "brake-l3",
        ]);
        assert_eq!(found, ["PLA", "PLE", "SUL", "SEL", "BL3"]);
        assert_eq!(codes(&["quadrant", "wheels"]), ["QUA", "WHE"]);
    }
}
