//! Exit codes, one meaning each.

/// Everything went well.
pub const FINE: u8 = 0;
/// There are problems in what was read.
pub const PROBLEMS: u8 = 1;
/// The command line is wrong.
pub const COMMAND_LINE: u8 = 2;
/// A file could not be read or written.
pub const FILE: u8 = 3;
/// A terminal is needed and there is none.
pub const NO_TERMINAL: u8 = 4;
/// A mistake in the program itself.
pub const BUG: u8 = 70;
