//! The real program in a pseudo-terminal, its bytes read back by a terminal emulator.

use portable_pty::{CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use crate::run::root;

/// A program in a terminal of its own.
struct InTerminal {
    child: Box<dyn portable_pty::Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    keys: Box<dyn Write + Send>,
    parser: Arc<Mutex<vt100::Parser>>,
    bytes: Arc<Mutex<Vec<u8>>>,
}

fn size_of(count: u16) -> std::num::NonZero<u16> {
    std::num::NonZero::new(count).unwrap()
}

fn emulator(rows: u16, columns: u16) -> vt100::Parser {
    vt100::Parser::new(size_of(rows), size_of(columns), 0)
}

/// How long a screen may take. Nothing is asserted about the time itself.
const PATIENCE: Duration = Duration::from_secs(20);

impl InTerminal {
    fn start(program: &str, arguments: &[&str], variables: &[(&str, &str)]) -> Self {
        let size = PtySize {
            rows: 24,
            cols: 80,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).unwrap();
        let mut command = CommandBuilder::new(program);
        command.args(arguments);
        command.cwd(root());
        command.env("TERM", "xterm-256color");
        command.env_remove("NO_COLOR");
        for (name, value) in variables {
            command.env(name, value);
        }
        let child = pair.slave.spawn_command(command).unwrap();
        let mut out = pair.master.try_clone_reader().unwrap();
        let parser = Arc::new(Mutex::new(emulator(24, 80)));
        let bytes = Arc::new(Mutex::new(Vec::new()));
        let (into, all) = (Arc::clone(&parser), Arc::clone(&bytes));
        std::thread::spawn(move || {
            let mut piece = [0; 4096];
            while let Ok(count) = out.read(&mut piece) {
                if count == 0 {
                    break;
                }
                into.lock().unwrap().process(&piece[..count]);
                all.lock().unwrap().extend_from_slice(&piece[..count]);
            }
        });
        Self {
            child,
            keys: pair.master.take_writer().unwrap(),
            master: pair.master,
            parser,
            bytes,
        }
    }

    fn console(jobs: &std::path::Path, variables: &[(&str, &str)]) -> Self {
        let jobs = jobs.to_str().unwrap();
        Self::start(
            env!("CARGO_BIN_EXE_stillwheel"),
            &["--jobs", jobs, "job"],
            variables,
        )
    }

    fn bench() -> Self {
        Self::start(env!("CARGO_BIN_EXE_stillwheel"), &["bench"], &[])
    }

    fn start_screen(jobs: &std::path::Path) -> Self {
        let arguments = ["--jobs", jobs.to_str().unwrap()];
        Self::start(env!("CARGO_BIN_EXE_stillwheel"), &arguments, &[])
    }

    fn screen(&self) -> String {
        self.parser.lock().unwrap().screen().contents()
    }

    /// Waits until the screen holds some words.
    fn until(&self, words: &str) {
        let start = Instant::now();
        while !self.screen().contains(words) {
            assert!(
                start.elapsed() < PATIENCE,
                "no `{words}` on:\n{}",
                self.screen()
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    /// Types keys once the guard against typing ahead is over.
    fn press(&mut self, keys: &str) {
        std::thread::sleep(Duration::from_millis(600));
        self.keys.write_all(keys.as_bytes()).unwrap();
        self.keys.flush().unwrap();
    }

    fn wait(&mut self) -> u32 {
        let start = Instant::now();
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                // What was written last is still on its way.
                std::thread::sleep(Duration::from_millis(100));
                return status.exit_code();
            }
            assert!(
                start.elapsed() < PATIENCE,
                "still running:\n{}",
                self.screen()
            );
            std::thread::sleep(Duration::from_millis(10));
        }
    }

    fn written(&self) -> String {
        String::from_utf8_lossy(&self.bytes.lock().unwrap()).into_owned()
    }
}

#[test]
fn it_starts_answers_and_gives_the_terminal_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[]);
    console.until("Anyone hurt");
    console.press("3");
    console.until("Nose chocks IN");
    console.until("SAVED");
    console.press("q");
    assert_eq!(console.wait(), 0);
    let written = console.written();
    for step in [
        "\u{1b}[?1049h",
        "\u{1b}[?1049l",
        "\u{1b}[?25h",
        "\u{1b}[?2004l",
    ] {
        assert!(written.contains(step), "{step:?}");
    }
    let begins = written.matches("\u{1b}[?2026h").count();
    assert!(begins >= 2 && begins == written.matches("\u{1b}[?2026l").count());
}

#[test]
fn the_first_start_asks_which_report_it_is() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::start_screen(folder.path());
    console.until("3  New: It moved");
    console.until("5  New: The stored pressure was gone");
    console.press("5");
    console.until("Anyone hurt");
    console.press("q");
    assert_eq!(console.wait(), 0);
}

#[test]
fn it_goes_on_in_two_keys() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[]);
    console.until("Anyone hurt");
    console.press("3");
    console.until("Nose chocks IN");
    console.press("q");
    console.wait();
    let mut again = InTerminal::start_screen(folder.path());
    again.until("1  Go on:");
    again.press("1");
    again.until("Nose chocks IN");
    again.press("1");
    again.until("Main chocks IN");
    again.press("q");
    assert_eq!(again.wait(), 0);
}

#[test]
fn it_survives_a_resize_to_nothing_and_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[]);
    console.until("Anyone hurt");
    for (rows, cols) in [(5, 20), (12, 40), (24, 80)] {
        let size = PtySize {
            rows,
            cols,
            pixel_width: 0,
            pixel_height: 0,
        };
        console
            .parser
            .lock()
            .unwrap()
            .screen_mut()
            .set_size(size_of(rows), size_of(cols));
        // The emulator first: what the program draws for the new size must find it there.
        console.master.resize(size).unwrap();
        let words = if rows < 12 {
            "Too small"
        } else {
            "Anyone hurt"
        };
        console.until(words);
    }
    console.press("q");
    assert_eq!(console.wait(), 0);
}

#[test]
fn without_colour_no_colour_byte_is_sent_and_the_marked_row_stays_reversed() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[("NO_COLOR", "1")]);
    console.until("Anyone hurt");
    console.press("\u{1b}[B");
    console.until(">  1");
    let reversed = {
        let parser = console.parser.lock().unwrap();
        let screen = parser.screen();
        let row = (0..24).find(|row| screen.contents_between(*row, 0, *row, 80).contains(">  1"));
        screen.cell(row.unwrap(), 3).unwrap().inverse()
    };
    assert!(reversed, "the marked answer is shown by reverse video");
    console.press("q");
    console.wait();
    for (at, _) in console.written().match_indices("\u{1b}[") {
        let written = console.written();
        let code: String = written[at + 2..]
            .chars()
            .take_while(|c| !c.is_ascii_alphabetic())
            .collect();
        let end = written[at + 2 + code.len()..].chars().next();
        if end == Some('m') {
            let colour = code.split(';').any(|part| {
                let number: u32 = part.parse().unwrap_or(0);
                (30..=38).contains(&number) || (40..=48).contains(&number) || number >= 90
            });
            assert!(!colour, "colour code {code}");
        }
    }
}

#[test]
fn a_signal_gives_the_terminal_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[]);
    console.until("Anyone hurt");
    let id = console.child.process_id().unwrap();
    let sent = std::process::Command::new("kill")
        .arg(id.to_string())
        .status()
        .unwrap();
    assert!(sent.success());
    console.wait();
    assert!(console.written().contains("\u{1b}[?1049l"));
    assert!(console.written().contains("\u{1b}[?25h"));
}

/// Run by the next test inside a terminal: claims it and panics.
#[test]
#[ignore = "takes the terminal it runs in"]
fn panics_with_the_terminal_claimed() {
    let _claimed = stillwheel::console::terminal::Claimed::new().unwrap();
    panic!("forced");
}

#[test]
fn a_panic_leaves_the_terminal_as_it_was() {
    let program = std::env::current_exe().unwrap();
    let inner = format!(
        "stty -g; {} --exact terminal::panics_with_the_terminal_claimed --ignored --nocapture --test-threads=1; stty -g; echo over",
        program.display()
    );
    let mut shell = InTerminal::start("sh", &["-c", &inner], &[]);
    shell.wait();
    let written = shell.written();
    let settings: Vec<&str> = written
        .lines()
        .map(str::trim)
        .filter(|line| line.matches(':').count() > 10)
        .filter(|line| line.chars().all(|c| c.is_ascii_hexdigit() || c == ':'))
        .collect();
    assert_eq!(settings.len(), 2, "{written}");
    assert_eq!(
        settings[0], settings[1],
        "terminal settings before and after"
    );
    let back = written
        .find("\u{1b}[?1049l")
        .expect("the screen is given back");
    let words = written.find("forced").expect("the panic is told");
    assert!(
        back < words,
        "the terminal is given back before the panic is told"
    );
    assert!(written.contains("\u{1b}[?25h"));
}

#[test]
fn a_dumb_terminal_is_asked_line_by_line() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[("TERM", "dumb")]);
    console.until("Anyone hurt");
    console.press("q\n");
    console.wait();
    assert!(!console.written().contains('\u{1b}'));
}

/// The lines of plain mode as keys of the screen: a digit is a key where nothing is typed.
fn as_keys(lines: &str) -> String {
    let mut state = crate::console_keys::console();
    let mut keys = String::new();
    for line in lines.lines() {
        let by_key = !state.typing() && !line.starts_with(':');
        let pressed = if by_key {
            line.to_owned()
        } else {
            format!("{line}\n")
        };
        crate::console_keys::press(&mut state, &pressed);
        keys.push_str(&pressed.replace('\n', "\r"));
    }
    keys
}

fn ranking(jobs: &std::path::Path) -> serde_json::Value {
    let jobs = jobs.to_str().unwrap();
    let report = crate::run::stillwheel(&["--jobs", jobs, "report", "--json"]);
    assert_eq!(report.code, 0, "{}", report.err);
    let value: serde_json::Value = serde_json::from_str(&report.out).unwrap();
    let ranking = &value["annex"]["ranking"];
    assert!(ranking[0]["probability"].is_number(), "{ranking}");
    ranking.clone()
}

/// The job that plain mode walks, by keyboard at 80x24: closed alike, and the same digits.
#[test]
fn a_whole_job_by_keyboard_gives_the_digits_of_plain_mode() {
    let lines = crate::job_lines::whole_job();
    let plain = tempfile::tempdir().unwrap();
    let jobs = plain.path().to_str().unwrap();
    crate::run::stillwheel_in(&root(), &["--jobs", jobs, "job"], &lines);

    let folder = tempfile::tempdir().unwrap();
    let jobs = folder.path().to_str().unwrap();
    // Without the guard, since the keys come from a script.
    let arguments = [
        "--jobs",
        jobs,
        "--settings",
        "tests/documents/settings.yaml",
        "job",
    ];
    let mut console = InTerminal::start(env!("CARGO_BIN_EXE_stillwheel"), &arguments, &[]);
    console.until("Anyone hurt");
    console.press(&as_keys(&lines));
    console.until("Closed: Never set, part set");
    console.press("q");
    assert_eq!(console.wait(), 0);
    assert_eq!(ranking(folder.path()), ranking(plain.path()));
}

#[test]
fn an_idle_console_sends_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let mut console = InTerminal::console(folder.path(), &[]);
    console.until("Anyone hurt");
    std::thread::sleep(Duration::from_millis(300));
    let before = console.written().len();
    std::thread::sleep(Duration::from_millis(1500));
    assert_eq!(console.written().len(), before);
    console.press("q");
    assert_eq!(console.wait(), 0);
}

#[test]
fn a_bench_that_stands_sends_nothing_and_one_that_runs_shows_the_time() {
    let mut bench = InTerminal::bench();
    bench.until("Bench  Controls  demo-twin");
    std::thread::sleep(Duration::from_millis(300));
    let before = bench.written().len();
    std::thread::sleep(Duration::from_millis(1500));
    assert_eq!(bench.written().len(), before);
    bench.press(":speed 1000\r ");
    bench.until("runs 1000x");
    bench.until("1 h");
    bench.press(" ");
    bench.until("stopped");
    bench.press(":fault brake-l3/seal-leak\r");
    bench.until("Put in: L3 brake piston seal leaks");
    bench.press("3");
    bench.until("Readings, ");
    bench.press("q");
    bench.until("not saved");
    bench.press("q");
    assert_eq!(bench.wait(), 0);
    let written = bench.written();
    assert!(written.contains("\u{1b}[?1049l") && written.contains("\u{1b}[?25h"));
}

#[test]
fn a_dumb_terminal_gets_the_bench_line_by_line() {
    let mut bench = InTerminal::start(
        env!("CARGO_BIN_EXE_stillwheel"),
        &["bench"],
        &[("TERM", "dumb")],
    );
    bench.until("One command a line");
    bench.press("run 1 h\n");
    bench.until("At 1 h: gas side");
    bench.press("quit\nquit\n");
    bench.wait();
    assert!(!bench.written().contains('\u{1b}'));
}
