//! Claiming and giving back the terminal. The only file that changes its modes.
//!
//! | step | claimed by | given back by |
//! |---|---|---|
//! | raw mode | `enable_raw_mode` | `disable_raw_mode` |
//! | alternate screen | `EnterAlternateScreen` | `LeaveAlternateScreen` |
//! | bracketed paste | `EnableBracketedPaste` | `DisableBracketedPaste` |
//! | hidden cursor | `Hide` | `Show` |
//!
//! Giving back runs once, whichever of quit, error and panic comes first, and goes on when a step
//! of it fails.

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
        CLAIMED.store(true, Ordering::SeqCst);
        let claimed = Self::claim();
        if claimed.is_err() {
            give_back();
        }
        claimed
    }

    fn claim() -> io::Result<Self> {
        // The colour filter of crossterm 0.29 resets bold and reverse along with the colour when
        // NO_COLOR is set, so it is switched off and the mono theme is used instead.
        crossterm::style::force_color_output(true);
        enable_raw_mode()?;
        execute!(
            io::stdout(),
            EnterAlternateScreen,
            EnableBracketedPaste,
            Hide
        )?;
        let terminal = Terminal::new(CrosstermBackend::new(io::stdout()))?;
        Ok(Self { terminal })
    }
}

impl Drop for Claimed {
    fn drop(&mut self) {
        give_back();
    }
}
