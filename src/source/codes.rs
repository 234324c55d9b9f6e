//! Every problem code there is, by family.

use super::code::Code;

pub mod agreement;
pub mod aircraft;
pub mod bench;
pub mod cases;
pub mod checks;
pub mod document;
pub mod exchange;
pub mod rules;
pub mod tree;
pub mod units;

/// The families, in the order they are listed.
const FAMILIES: &[&[&Code]] = &[
    document::ALL,
    units::ALL,
    aircraft::ALL,
    tree::ALL,
    checks::ALL,
    rules::ALL,
    exchange::ALL,
    agreement::ALL,
    cases::ALL,
    bench::ALL,
];

/// All codes.
pub fn all() -> impl Iterator<Item = &'static Code> {
    FAMILIES.iter().flat_map(|family| family.iter().copied())
}

/// The code with this id; letters in either case.
pub fn find(id: &str) -> Option<&'static Code> {
    all().find(|code| code.id.eq_ignore_ascii_case(id))
}
