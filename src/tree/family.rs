//! Families of sets of literals, shared like the functions of a decision diagram.
//!
//! A family asks one variable: the first child holds the sets without it, each further child the
//! rest of the sets that hold one of its literals. Equal families have equal ids, so seventeen
//! thousand cut sets take no more room than the tree they come from.

use rustc_hash::FxHashMap as HashMap;

/// A family in the store.
pub type Family = u32;

/// No set at all.
pub const NONE: Family = 0;
/// The empty set alone.
pub const UNIT: Family = 1;
/// The first two ids are taken.
const TAKEN: u32 = 2;

/// Families after which the store gives up.
const MOST_FAMILIES: usize = 1_000_000;

/// The store of families over ranked variables.
#[derive(Debug, Default)]
pub struct Families {
    /// Rank of the variable and children of every family beyond the first two.
    nodes: Vec<(u32, Box<[Family]>)>,
    known: HashMap<(u32, Box<[Family]>), Family>,
    differences: HashMap<(Family, Family), Family>,
    full: bool,
}

impl Families {
    /// The rank of the variable a family asks, and its children; `None` for the first two.
    pub fn asks(&self, family: Family) -> Option<(u32, &[Family])> {
        let index = family.checked_sub(TAKEN)?;
        let (rank, children) = self.nodes.get(index as usize)?;
        Some((*rank, children))
    }

    /// Whether the store gave up; its families mean nothing then.
    pub fn is_full(&self) -> bool {
        self.full
    }

    /// The family with these children; one that holds no literal of the variable is its first.
    pub fn make(&mut self, rank: u32, children: Vec<Family>) -> Family {
        let (first, rest) = match children.split_first() {
            Some((first, rest)) => (*first, rest),
            None => return NONE,
        };
        if rest.iter().all(|child| *child == NONE) {
            return first;
        }
        let key = (rank, children.into_boxed_slice());
        if let Some(&known) = self.known.get(&key) {
            return known;
        }
        if self.nodes.len() >= MOST_FAMILIES {
            self.full = true;
            return NONE;
        }
        let family = TAKEN + u32::try_from(self.nodes.len()).unwrap_or(u32::MAX - TAKEN);
        self.nodes.push(key.clone());
        self.known.insert(key, family);
        family
    }

    /// The sets of one family that are not in another.
    ///
    /// Complexity: at most the product of the two sizes.
    pub fn without(&mut self, family: Family, other: Family) -> Family {
        if family == NONE || family == other {
            return NONE;
        }
        if other == NONE || self.full {
            return family;
        }
        let key = (family, other);
        if let Some(&known) = self.differences.get(&key) {
            return known;
        }
        let owned = |(rank, children): (u32, &[Family])| (rank, children.to_vec());
        let own = self.asks(family).map(owned);
        let theirs = self.asks(other).map(owned);
        let made = match (own, theirs) {
            (Some((rank, children)), theirs)
                if theirs.as_ref().is_none_or(|(other, _)| rank < *other) =>
            {
                let mut children = children;
                children[0] = self.without(children[0], other);
                self.make(rank, children)
            }
            (Some((rank, children)), Some((same, others))) if rank == same => {
                let pairs = children.into_iter().zip(others);
                let children = pairs.map(|(own, other)| self.without(own, other)).collect();
                self.make(rank, children)
            }
            (_, Some((_, others))) => self.without(family, others[0]),
            // Both are the empty set alone or nothing, and they differ.
            (_, None) => family,
        };
        self.differences.insert(key, made);
        made
    }

    /// The sets that hold one literal: that of the child `choice` of the variable with this rank.
    pub fn holding(&mut self, family: Family, rank: u32, choice: usize) -> Family {
        self.holding_known(family, (rank, choice), &mut HashMap::default())
    }

    fn holding_known(
        &mut self,
        family: Family,
        literal: (u32, usize),
        known: &mut HashMap<Family, Family>,
    ) -> Family {
        if let Some(&known) = known.get(&family) {
            return known;
        }
        let Some((rank, children)) = self.asks(family) else {
            return NONE;
        };
        let mut children = children.to_vec();
        let made = match rank.cmp(&literal.0) {
            std::cmp::Ordering::Greater => NONE,
            std::cmp::Ordering::Equal => {
                for (at, child) in children.iter_mut().enumerate() {
                    if at != literal.1 {
                        *child = NONE;
                    }
                }
                self.make(rank, children)
            }
            std::cmp::Ordering::Less => {
                for child in &mut children {
                    *child = self.holding_known(*child, literal, known);
                }
                self.make(rank, children)
            }
        };
        known.insert(family, made);
        made
    }

    /// How many sets there are of each order, from order 0 on.
    pub fn orders(&self, family: Family) -> Vec<u128> {
        let mut known: HashMap<Family, Vec<u128>> = HashMap::default();
        self.orders_known(family, &mut known)
    }

    fn orders_known(&self, family: Family, known: &mut HashMap<Family, Vec<u128>>) -> Vec<u128> {
        let Some((_, children)) = self.asks(family) else {
            return if family == UNIT { vec![1] } else { Vec::new() };
        };
        if let Some(known) = known.get(&family) {
            return known.clone();
        }
        let mut counts: Vec<u128> = Vec::new();
        for (at, child) in children.iter().enumerate() {
            let own = self.orders_known(*child, known);
            let shift = usize::from(at > 0);
            counts.resize(counts.len().max(own.len() + shift), 0);
            for (order, count) in own.iter().enumerate() {
                counts[order + shift] = counts[order + shift].saturating_add(*count);
            }
        }
        known.insert(family, counts.clone());
        counts
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_difference_takes_whole_sets_out_and_no_others() {
        let mut store = Families::default();
        // {b}, {a, b} and {a}, over a (rank 0) and b (rank 1).
        let b = store.make(1, vec![NONE, UNIT]);
        let b_or_nothing = store.make(1, vec![UNIT, UNIT]);
        let all = store.make(0, vec![b, b_or_nothing]);
        assert_eq!(store.orders(all), [0, 2, 1]);
        let left = store.without(all, b);
        assert_eq!(store.orders(left), [0, 1, 1]);
        assert_eq!(store.without(b, all), NONE);
        let with_b = store.holding(all, 1, 1);
        assert_eq!(store.orders(with_b), [0, 1, 1]);
    }
}
