//! Claiming and giving back the terminal. The only file that changes its modes.
//!
//! | step | claimed by | given back by |
//! |---|---|---|
//! | raw mode | `enable_raw_mode` | `disable_raw_mode` |
//! | alternate screen | `EnterAlternateScreen` | `LeaveAlternateScreen` |
//! | bracketed paste | `EnableBracketedPaste` | `DisableBracketedPaste` |
//! | hidden cursor | `Hide` | `Show` |
//!
//! Giving back runs once for each claim, whichever of quit, error, panic, signal and suspend comes
//! first, and goes on when a step of it fails.

use std::io::{self, Write};
use std::sync::atomic::{AtomicBool, Ordering};

use crossterm::cursor::{Hide, Show};
use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::execute;
use crossterm::terminal::{
    EnterAlternateScreen, LeaveAlternateScreen, disable_raw_mode, enable_raw_mode,
};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;

static CLAIMED: AtomicBool = AtomicBool::new(false);

/// The steps back, last claimed first.
const STEPS_BACK: &[fn() -> io::Result<()>] = &[
    || execute!(io::stdout(), Show),
    || execute!(io::stdout(), DisableBracketedPaste),
    || execute!(io::stdout(), LeaveAlternateScreen),
    disable_raw_mode,
];

/// Gives the terminal back if it is claimed.
pub fn give_back() {
    if CLAIMED.swap(false, Ordering::SeqCst) {
        for step in STEPS_BACK {
            // One step that fails must not keep the others from being taken.
            let _ = step();
        }
        let _ = io::stdout().flush();
    }
}

/// Gives the terminal back on the signals that end a program, and ends it with their usual code.
///
/// Every entry is on disk already, so nothing else is to be done.
#[cfg(unix)]
fn watch_signals() -> io::Result<()> {
    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM};
    let mut signals = signal_hook::iterator::Signals::new([SIGHUP, SIGINT, SIGTERM])?;
    std::thread::spawn(move || {
        if let Some(signal) = signals.forever().next() {
            give_back();
            std::process::exit(128 + signal);
        }
    });
    Ok(())
}

#[cfg(not(unix))]
fn watch_signals() -> io::Result<()> {
    Ok(())
}

/// Takes the terminal. What was taken is undone by [`give_back`], whether this succeeds or not.
fn claim() -> io::Result<()> {
    CLAIMED.store(true, Ordering::SeqCst);
    // The colour filter of crossterm 0.29 resets bold and reverse along with the colour when
    // NO_COLOR is set, so it is switched off and the mono theme is used instead.
    crossterm::style::force_color_output(true);
    enable_raw_mode()?;
    // The first look for events is what begins to listen for a change of size. One that came
    // between the first frame and the first wait would be lost.
    crossterm::event::poll(std::time::Duration::ZERO)?;
    execute!(
        io::stdout(),
        EnterAlternateScreen,
        EnableBracketedPaste,
        Hide
    )
}

/// The claimed terminal; dropping it gives it back.
pub struct Claimed {
    /// What is drawn on.
    pub terminal: Terminal<CrosstermBackend<io::Stdout>>,
}

impl Claimed {
    /// Claims the terminal. On the way out, a panic included, it is given back.
    pub fn new() -> io::Result<Self> {
        let earlier = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            give_back();
            earlier(panic);
        }));
        watch_signals()?;
        let claimed = claim().and_then(|()| Terminal::new(CrosstermBackend::new(io::stdout())));
        if claimed.is_err() {
            give_back();
        }
        Ok(Self { terminal: claimed? })
    }

    /// Gives the terminal to the shell until the program is called back, then claims it again.
    #[cfg(unix)]
    pub fn suspend(&mut self) -> io::Result<()> {
        give_back();
        signal_hook::low_level::emulate_default_handler(signal_hook::consts::SIGTSTP)?;
        claim()?;
        // The shell has written over the screen, so the next frame is drawn whole.
        let size = self.terminal.size()?;
        let area = ratatui::layout::Rect::new(0, 0, size.width, size.height);
        self.terminal.resize(area)
    }

    /// Elsewhere there is nothing to suspend to.
    #[cfg(not(unix))]
    pub fn suspend(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Drop for Claimed {
    fn drop(&mut self) {
        give_back();
    }
}
