//! One pass forward and one back through the layers: every probability at once.
//!
//! Only sums of products of non-negative numbers are formed, so that no digits are lost near
//! 1e-10; complements are formed once, from inputs.

use super::layers::{Edge, Layered};
use super::mass::Mass;

/// The weights of one question.
#[derive(Debug, Clone, PartialEq)]
pub struct Weights<M = f64> {
    /// For each variable the weight of each value: prior chances, or what is known of it.
    pub variables: Vec<Vec<M>>,
    /// For each partition the weight of each outcome: likelihoods, or 1.
    pub outcomes: Vec<Vec<M>>,
}

/// What one pass gives. Divide by `total` for probabilities.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    /// Weight of everything: the probability of the evidence.
    pub total: f64,
    /// For each variable the weight of each value together with the evidence.
    pub variables: Vec<Vec<f64>>,
    /// For each partition the weight of each outcome together with the evidence.
    pub outcomes: Vec<Vec<f64>>,
}

/// Runs both passes. Complexity: linear in the edges of the layers.
pub fn sweep<M: Mass>(layered: &Layered, weights: &Weights<M>) -> Sweep {
    let label_weights = label_weights(layered, weights);
    let backward = backward(layered, weights, &label_weights);
    let root = label_weights
        .get(layered.root_label as usize)
        .copied()
        .unwrap_or(M::ONE);
    let first = backward.first().and_then(|l| l.first()).copied();
    let total = root.times(first.unwrap_or(M::ONE));
    let together = |weight: &M| weight.times(total).weight();
    let mut result = Sweep {
        total: total.weight(),
        variables: weights
            .variables
            .iter()
            .map(|values| values.iter().map(together).collect())
            .collect(),
        outcomes: weights
            .outcomes
            .iter()
            .map(|o| vec![0.0; o.len()])
            .collect(),
    };
    let mut label_mass = vec![0.0; layered.labels.len()];
    label_mass[layered.root_label as usize] += result.total;
    let mut forward = vec![root];
    for (layer, later) in layered.layers.iter().zip(backward.iter().skip(1)) {
        let prior = &weights.variables[layer.variable];
        let mut next = vec![M::ZERO; later.len()];
        let mut by_value = vec![0.0; layer.arity];
        for (state, edges) in forward.iter().zip(layer.edges.chunks_exact(layer.arity)) {
            for ((edge, weight), mass) in edges.iter().zip(prior).zip(&mut by_value) {
                let flow = state
                    .times(*weight)
                    .times(label_weights[edge.label as usize]);
                let target = &mut next[edge.target as usize];
                *target = target.plus(flow);
                let whole = flow.times(later[edge.target as usize]).weight();
                *mass += whole;
                label_mass[edge.label as usize] += whole;
            }
        }
        result.variables[layer.variable] = by_value;
        forward = next;
    }
    for (label, mass) in layered.labels.iter().zip(label_mass) {
        for (place, outcome) in label {
            result.outcomes[*place as usize][*outcome as usize] += mass;
        }
    }
    result
}

fn label_weights<M: Mass>(layered: &Layered, weights: &Weights<M>) -> Vec<M> {
    let weight =
        |(place, outcome): &(u32, u32)| weights.outcomes[*place as usize][*outcome as usize];
    let labels = layered.labels.iter();
    labels
        .map(|label| label.iter().map(weight).fold(M::ONE, M::times))
        .collect()
}

/// For every layer and state the weight of all ways on from there; the last layer holds 1.
fn backward<M: Mass>(layered: &Layered, weights: &Weights<M>, labels: &[M]) -> Vec<Vec<M>> {
    let last = layered
        .layers
        .last()
        .and_then(|layer| {
            layer
                .edges
                .iter()
                .map(|edge| edge.target as usize + 1)
                .max()
        })
        .unwrap_or(1);
    let mut all = vec![vec![M::ONE; last]];
    for layer in layered.layers.iter().rev() {
        let prior = &weights.variables[layer.variable];
        let later = all.last().map_or(&[][..], Vec::as_slice);
        let onward = |(edge, weight): (&Edge, &M)| {
            let here = weight.times(labels[edge.label as usize]);
            here.times(later[edge.target as usize])
        };
        let sum = |edges: &[Edge]| {
            let ways = edges.iter().zip(prior).map(onward);
            ways.fold(M::ZERO, M::plus)
        };
        let present = layer.edges.chunks_exact(layer.arity).map(sum).collect();
        all.push(present);
    }
    all.reverse();
    all
}
