//! The page for authors: its files are written, its commands run, what they print is compared.

use crate::run::{root, stillwheel_in};

/// One fenced block: what stands behind the fence, and the lines inside.
fn blocks(page: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open: Option<(String, String)> = None;
    for line in page.lines() {
        match (&mut open, line.strip_prefix("```")) {
            (Some(_), Some(_)) => found.extend(open.take()),
            (None, Some(head)) => open = Some((head.to_owned(), String::new())),
            (Some((_, text)), None) => text.push_str(&format!("{line}\n")),
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "a block is not closed");
    found
}

#[test]
fn every_example_of_the_page_does_what_it_says() {
    let page = std::fs::read_to_string(root().join("fault-trees/README.md")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let (mut files, mut commands) = (0, 0);
    for (head, text) in blocks(&page) {
        if let Some(name) = head.strip_prefix("yaml ") {
            let path = folder.path().join(name.trim_end_matches(" +"));
            let before = if name.ends_with(" +") {
                std::fs::read_to_string(&path).unwrap()
            } else {
                String::new()
            };
            std::fs::write(&path, before + &text).unwrap();
            files += 1;
            continue;
        }
        assert_eq!(head, "console", "{text}");
        for example in text.split("$ stillwheel ").skip(1) {
            let (command, wanted) = example.split_once('\n').unwrap();
            let words: Vec<&str> = command.split_whitespace().collect();
            let run = stillwheel_in(folder.path(), &words, "");
            assert_eq!((run.code, run.err.as_str()), (0, ""), "{command}");
            // A page may show the beginning of a long answer, whole lines of it, and no less than
            // half a screen where there is more.
            let whole = run.out == wanted;
            let begins = wanted.lines().count() >= 8 && run.out.starts_with(wanted);
            assert!(
                whole || begins,
                "{command}\n--- page\n{wanted}\n--- printed\n{}",
                run.out
            );
            commands += 1;
        }
    }
    assert!(
        files >= 2 && commands >= 5,
        "{files} files, {commands} commands"
    );
}

/// Every command for authors that the page names is one.
#[test]
fn every_command_of_the_page_exists() {
    let page = std::fs::read_to_string(root().join("fault-trees/README.md")).unwrap();
    let verbs: Vec<&str> = page
        .split("`tree ")
        .skip(1)
        .map(|rest| rest.split([' ', '`', ':']).next().unwrap())
        .collect();
    assert!(verbs.len() >= 8);
    for verb in verbs {
        let run = stillwheel_in(&root(), &["tree", verb, "--help"], "");
        assert_eq!(run.code, 0, "{verb}");
    }
}
