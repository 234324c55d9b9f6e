//! Sets of causes that are still possible.

/// How many members a set can have.
pub const MOST: usize = 128;

/// A set of places below [`MOST`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Set(u128);

impl Set {
    /// Nothing.
    pub const EMPTY: Self = Self(0);

    /// The first so many places; all of them from [`MOST`] on.
    pub fn first(count: usize) -> Self {
        if count >= MOST {
            Self(u128::MAX)
        } else {
            Self((1 << count) - 1)
        }
    }

    /// Takes a place in. Places from [`MOST`] on are left out.
    pub fn insert(&mut self, place: usize) {
        if place < MOST {
            self.0 |= 1 << place;
        }
    }

    /// What is in both.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }

    /// Whether nothing is in it.
    pub fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// How many are in it.
    pub fn len(self) -> usize {
        self.0.count_ones() as usize
    }

    /// What is in it, smallest place first.
    pub fn places(self) -> impl Iterator<Item = usize> {
        let mut left = self.0;
        std::iter::from_fn(move || {
            let place = (left != 0).then(|| left.trailing_zeros() as usize)?;
            left &= left - 1;
            Some(place)
        })
    }
}
