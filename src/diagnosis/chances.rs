//! Chances as a sweep carries them: plain, or with what the time to movement does to them.

use super::model::Model;
use super::moved::Lapses;
use crate::tree::mass::{Lapse, Mass};

/// Chances of all variables, and of a cause that is not in the tree, as a sweep carries them.
pub(super) struct Chances<M> {
    pub(super) variables: Vec<Vec<M>>,
    pub(super) unlisted: M,
}

impl Chances<f64> {
    /// Where nothing is known of when it moved.
    pub(super) fn plain(model: &Model, variables: Vec<Vec<f64>>) -> Self {
        let unlisted = model.priors.unlisted;
        Self {
            variables,
            unlisted,
        }
    }
}

impl Chances<Lapse> {
    /// With what the time to movement does to every event that is there.
    pub(super) fn timed(model: &Model, variables: &[Vec<f64>], lapses: &Lapses) -> Self {
        let plain = |weights: &Vec<f64>| weights.iter().copied().map(Lapse::plain).collect();
        let mut timed: Vec<Vec<Lapse>> = variables.iter().map(plain).collect();
        for ((weights, lapse), chances) in timed.iter_mut().zip(&lapses.events).zip(variables) {
            weights[1] = lapse.scaled(chances[1]);
        }
        Self {
            variables: timed,
            unlisted: lapses.unlisted.scaled(model.priors.unlisted),
        }
    }
}
