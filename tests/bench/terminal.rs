//! The real program in a pseudo-terminal: bytes of an answer, silence at rest, memory.

use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};

const PROGRAM: &str = env!("CARGO_BIN_EXE_stillwheel");

/// No byte for this long: the screen is complete.
const QUIET: Duration = Duration::from_millis(400);

/// Answers, one of them undone, and the why of the ranking.
const KEYS: [&str; 8] = ["1", "1", "3", "0", "3", "1", "u", "w"];

/// What one key or the start brought.
struct Burst {
    bytes: usize,
    last: Duration,
}

struct Console {
    child: Box<dyn Child + Send + Sync>,
    /// Closing it would end the program.
    _master: Box<dyn MasterPty + Send>,
    keys: Box<dyn Write + Send>,
    arrived: Receiver<(Instant, usize)>,
}

impl Console {
    fn start(jobs: &str, columns: u16, rows: u16) -> Self {
        let size = PtySize {
            rows,
            cols: columns,
            pixel_width: 0,
            pixel_height: 0,
        };
        let pair = native_pty_system().openpty(size).expect("a terminal");
        let mut command = CommandBuilder::new(PROGRAM);
        command.args(["--jobs", jobs, "resume"]);
        command.args(["--settings", "tests/documents/settings.yaml"]);
        command.cwd(env!("CARGO_MANIFEST_DIR"));
        command.env("TERM", "xterm-256color");
        command.env_remove("NO_COLOR");
        let child = pair.slave.spawn_command(command).expect("started");
        let mut out = pair.master.try_clone_reader().expect("its bytes");
        let (send, arrived) = channel();
        std::thread::spawn(move || {
            let mut piece = vec![0; 65_536];
            while let Ok(count) = out.read(&mut piece) {
                if count == 0 || send.send((Instant::now(), count)).is_err() {
                    break;
                }
            }
        });
        Self {
            child,
            keys: pair.master.take_writer().expect("its keys"),
            _master: pair.master,
            arrived,
        }
    }

    fn burst(&self, begin: Instant, quiet: Duration) -> Burst {
        let (mut bytes, mut last) = (0, Duration::ZERO);
        loop {
            match self.arrived.recv_timeout(quiet) {
                Ok((moment, count)) => {
                    bytes += count;
                    last = moment.duration_since(begin);
                }
                Err(RecvTimeoutError::Timeout | RecvTimeoutError::Disconnected) => {
                    return Burst { bytes, last };
                }
            }
        }
    }

    fn press(&mut self, key: &str) -> Burst {
        let begin = Instant::now();
        self.keys.write_all(key.as_bytes()).expect("a key");
        self.keys.flush().expect("a key");
        self.burst(begin, QUIET)
    }

    fn peak_memory(&self) -> Option<f64> {
        let id = self.child.process_id()?;
        crate::measure::peak_memory_of(&format!("/proc/{id}/status"))
    }
}

/// Works a job in plain mode up to its first check: people and chocks answered, the rest left out.
fn job_with_a_check(jobs: &str) {
    let mut plain = Command::new(PROGRAM)
        .args(["--plain", "--jobs", jobs, "job"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("started");
    let mut input = plain.stdin.take().expect("its input");
    let output = BufReader::new(plain.stdout.take().expect("its output"));
    let known = ["3", "1", "1", "1", "1", "LT1 02:01", "DEMO-7", "1"];
    let mut answers = known.into_iter().chain(std::iter::repeat("0"));
    for line in output.lines() {
        let line = line.expect("a line");
        if line.contains("QUESTION.") {
            break;
        }
        if line.trim_end().ends_with("):") {
            let answer = answers.next().unwrap_or("0");
            writeln!(input, "{answer}").expect("an answer");
        }
    }
    drop(input);
    plain.wait().expect("ended");
}

fn measure(columns: u16, rows: u16) {
    let folder = tempfile::tempdir().expect("a folder");
    let jobs = folder.path().to_str().expect("a name");
    job_with_a_check(jobs);
    let begin = Instant::now();
    let mut console = Console::start(jobs, columns, rows);
    let first = console.burst(begin, QUIET);
    let answers = KEYS.map(|key| console.press(key));
    println!("{columns}x{rows}: answer, bytes, key to last byte");
    for (key, burst) in KEYS.iter().zip(&answers) {
        println!(
            "  {key} {:>8} {:>12.1} ms",
            burst.bytes,
            burst.last.as_secs_f64() * 1e3
        );
    }
    let idle = console.burst(Instant::now(), Duration::from_secs(2));
    println!(
        "{columns}x{rows}: program start to complete first frame {:.0} ms, {} bytes",
        first.last.as_secs_f64() * 1e3,
        first.bytes
    );
    println!("{columns}x{rows}: bytes in 2 s at rest {}", idle.bytes);
    if let Some(memory) = console.peak_memory() {
        println!("{columns}x{rows}: peak memory {memory:.1} MB");
    }
    console.press("q");
    let _ = console.child.kill();
    let _ = console.child.wait();
}

/// Prints the figures.
pub fn run() {
    println!(
        "Program in a terminal (goals: first frame 100 ms, 2,000 bytes an answer at 80x24, 0 at rest, 40 MB)"
    );
    measure(80, 24);
    measure(200, 60);
}
