//! The tree that an author starts from.

/// A commented tree of three causes under a name; it passes every rule, and its cases hold.
pub fn starter(name: &str) -> String {
    include_str!("starter.yaml").replace("NAME", name)
}
