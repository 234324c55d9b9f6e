//! What is carried through the layers: a plain weight, or one weight at two times.

/// A weight that a sweep adds and multiplies. Every member is zero or more.
pub trait Mass: Copy {
    /// Nothing.
    const ZERO: Self;
    /// What changes nothing in a product.
    const ONE: Self;
    /// A plain weight, the same at every time.
    fn plain(weight: f64) -> Self;
    /// Both together.
    #[must_use]
    fn plus(self, other: Self) -> Self;
    /// One behind the other.
    #[must_use]
    fn times(self, other: Self) -> Self;
    /// What counts in the end.
    fn weight(self) -> f64;
}

impl Mass for f64 {
    const ZERO: Self = 0.0;
    const ONE: Self = 1.0;

    fn plain(weight: f64) -> Self {
        weight
    }

    fn plus(self, other: Self) -> Self {
        self + other
    }

    fn times(self, other: Self) -> Self {
        self * other
    }

    fn weight(self) -> f64 {
        self
    }
}

/// A weight that falls with time, at the end of a stretch, and what it loses within the stretch.
///
/// The first of several independent times lies beyond t where each of them does, which is a
/// product; so it lies within a stretch with the weight that the product loses from its beginning
/// to its end. Carrying what is lost keeps every sum one of products that are not negative, where
/// the difference of two sweeps would cancel. Nothing asks for a time: the greatest of several
/// independent falls is such a product too, and two such stretches are a lapse of lapses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lapse<M = f64> {
    /// Weight of times beyond the end.
    pub beyond: M,
    /// Weight of times within the stretch.
    pub within: M,
}

impl<M: Mass> Mass for Lapse<M> {
    const ZERO: Self = Self::never(M::ZERO);
    const ONE: Self = Self::never(M::ONE);

    fn plain(weight: f64) -> Self {
        Self::never(M::plain(weight))
    }

    fn plus(self, other: Self) -> Self {
        Self {
            beyond: self.beyond.plus(other.beyond),
            within: self.within.plus(other.within),
        }
    }

    fn times(self, other: Self) -> Self {
        let gone = self.within.times(other.beyond.plus(other.within));
        Self {
            beyond: self.beyond.times(other.beyond),
            within: gone.plus(self.beyond.times(other.within)),
        }
    }

    fn weight(self) -> f64 {
        self.within.weight()
    }
}

impl<M: Mass> Lapse<M> {
    /// A weight of what has no time: it lies beyond every end.
    pub const fn never(weight: M) -> Self {
        Self {
            beyond: weight,
            within: M::ZERO,
        }
    }

    /// The same with a chance before it.
    #[must_use]
    pub fn scaled(self, chance: f64) -> Self {
        let chance = M::plain(chance);
        Self {
            beyond: chance.times(self.beyond),
            within: chance.times(self.within),
        }
    }
}

impl Lapse {
    /// Two stretches of one thing that have nothing to do with each other.
    #[must_use]
    pub fn with(self, other: Self) -> Lapse<Self> {
        Lapse {
            beyond: other.scaled(self.beyond),
            within: other.scaled(self.within),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Lapse, Mass};

    #[test]
    fn the_first_of_two_times_is_a_product_of_what_lies_beyond() {
        // Two exponential times with means of 2 h and 5 h; the first of them is exponential again
        // with the sum of the rates (a textbook property of the exponential distribution).
        let of = |rate: f64| Lapse {
            beyond: (-rate * 3.0_f64).exp(),
            within: (-rate * 1.0_f64).exp() - (-rate * 3.0_f64).exp(),
        };
        let both = of(0.5).times(of(0.2));
        assert!((both.beyond - (-0.7 * 3.0_f64).exp()).abs() < 1e-15);
        let within = (-0.7_f64).exp() - (-2.1_f64).exp();
        assert!((both.weight() - within).abs() < 1e-15, "{both:?}");
    }

    #[test]
    fn what_has_no_time_changes_weights_alone() {
        let timed: Lapse = Lapse {
            beyond: 0.25,
            within: 0.5,
        };
        assert_eq!(timed.times(Lapse::never(0.5)), timed.scaled(0.5));
        assert!(Lapse::<f64>::ONE.weight() < f64::MIN_POSITIVE);
    }

    #[test]
    fn two_stretches_count_where_both_are_met() {
        let of = |beyond: f64, within: f64| Lapse { beyond, within };
        let (one, other) = (of(0.5, 0.3), of(0.2, 0.6));
        let (a, b) = (of(0.9, 0.05), of(0.4, 0.5));
        // Of two independent things each stretch is met by the first of its own pair alone.
        let both = one.with(a).times(other.with(b)).weight();
        let apart = one.times(other).weight() * a.times(b).weight();
        assert!((both - apart).abs() < 1e-15, "{both} and {apart}");
    }
}
