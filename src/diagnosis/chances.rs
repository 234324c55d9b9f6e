//! Chances as a sweep carries them: plain, or with what the time to movement and the fall of a
//! gauge do to them.

use super::model::Model;
use super::moved::Lapses;
use crate::tree::mass::{Lapse, Mass};

/// Chances of all variables, and of causes inside and outside the tree, as a sweep carries them.
pub(super) struct Chances<M> {
    pub(super) variables: Vec<Vec<M>>,
    /// What is so whatever the cause, such as what a healthy aircraft does to a term.
    pub(super) always: M,
    /// Of a cause that is not in the tree.
    pub(super) unlisted: M,
}

/// What is known of a stretch or two, before it meets the chances.
pub(super) enum Terms {
    /// Nothing.
    None,
    /// When it moved, or how far a gauge fell.
    One(Lapses),
    /// Both.
    Both(Lapses, Lapses),
}

impl Chances<f64> {
    /// Where nothing is known of when it moved and how a gauge fell.
    pub(super) fn plain(model: &Model, variables: Vec<Vec<f64>>) -> Self {
        Self {
            variables,
            always: 1.0,
            unlisted: model.priors.unlisted,
        }
    }
}

impl Chances<Lapse> {
    /// With what a stretch does to every event that is there.
    pub(super) fn one(model: &Model, variables: &[Vec<f64>], lapses: &Lapses) -> Self {
        let events = lapses.events.clone();
        Self::weighted(model, variables, &events, lapses.always, lapses.unlisted)
    }
}

impl Chances<Lapse<Lapse>> {
    /// With what two stretches do to every event that is there.
    pub(super) fn both(
        model: &Model,
        variables: &[Vec<f64>],
        (one, other): (&Lapses, &Lapses),
    ) -> Self {
        let pairs = one.events.iter().zip(&other.events);
        let events: Vec<_> = pairs.map(|(one, other)| one.with(*other)).collect();
        let always = one.always.with(other.always);
        let unlisted = one.unlisted.with(other.unlisted);
        Self::weighted(model, variables, &events, always, unlisted)
    }
}

impl<M: Mass> Chances<M> {
    fn weighted(
        model: &Model,
        variables: &[Vec<f64>],
        events: &[M],
        always: M,
        unlisted: M,
    ) -> Self {
        let plain = |weights: &Vec<f64>| weights.iter().copied().map(M::plain).collect();
        let mut weighted: Vec<Vec<M>> = variables.iter().map(plain).collect();
        for (weights, term) in weighted.iter_mut().zip(events) {
            weights[1] = term.times(weights[1]);
        }
        Self {
            variables: weighted,
            always,
            unlisted: always
                .times(unlisted)
                .times(M::plain(model.priors.unlisted)),
        }
    }
}
