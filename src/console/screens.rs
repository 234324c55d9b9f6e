//! The screens, one file each. Those that plain mode shows too give plain texts.

pub mod ends;
pub mod help;
pub mod log;
pub mod pause;
pub mod why;
pub mod work;
