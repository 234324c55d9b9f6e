//! Running the program, and comparing with files.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// What a run of the program gave.
pub struct Run {
    pub out: String,
    pub err: String,
    pub code: i32,
}

/// Runs the program in the root of the project.
pub fn stillwheel(arguments: &[&str]) -> Run {
    stillwheel_in(&root(), arguments, "")
}

/// Runs the program in a folder, with some input.
pub fn stillwheel_in(folder: &Path, arguments: &[&str], input: &str) -> Run {
    use std::io::Write as _;
    let mut child = Command::new(env!("CARGO_BIN_EXE_stillwheel"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("NO_COLOR")
        .env("TERM", "xterm")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // A program that ended early does not read its input.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    let Output {
        status,
        stdout,
        stderr,
    } = child.wait_with_output().unwrap();
    Run {
        out: String::from_utf8(stdout).unwrap(),
        err: String::from_utf8(stderr).unwrap(),
        code: status.code().unwrap(),
    }
}

/// The root of the project.
pub fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Compares a text with a file. With `ACCEPT=1` in the environment the file is written instead.
pub fn expect_file(path: &Path, found: &str) {
    if std::env::var_os("ACCEPT").is_some() {
        std::fs::write(path, found).unwrap();
        return;
    }
    let wanted = std::fs::read_to_string(path)
        .unwrap_or_else(|_| panic!("{} is missing; run once with ACCEPT=1", path.display()));
    assert!(
        wanted == found,
        "{} differs\n--- wanted\n{wanted}\n--- found\n{found}",
        path.display()
    );
}

/// Files of a folder with one ending, sorted.
pub fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut found: Vec<PathBuf> = std::fs::read_dir(root().join(folder))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .collect();
    found.sort();
    found
}
