//! The limits a text must keep before anything else looks at it.

/// Longest text read, in bytes. The largest tree tried (5,000 events) has 348 kB.
pub const MAX_BYTES: u64 = 2 * 1024 * 1024;
/// Deepest nesting. The documents need six levels.
pub const MAX_DEPTH: usize = 16;
/// Most values in one text.
pub const MAX_NODES: usize = 200_000;
