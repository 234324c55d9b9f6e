//! The screens, one file each.

pub mod help;
pub mod why;
pub mod work;
