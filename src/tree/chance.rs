//! The probability of one function, read off its diagram.

use rustc_hash::FxHashMap as HashMap;

use super::diagram::{Diagrams, Function, TRUE};

impl Diagrams {
    /// Probability of a function with the leaves true and false, under some weights of the values
    /// of each variable. A variable that the function does not ask for must have weights that add
    /// up to 1.
    ///
    /// Complexity: linear in the size of the function.
    pub fn probability(&self, function: Function, weights: &[Vec<f64>]) -> f64 {
        self.probability_known(function, weights, &mut HashMap::default())
    }

    fn probability_known(
        &self,
        function: Function,
        weights: &[Vec<f64>],
        known: &mut HashMap<Function, f64>,
    ) -> f64 {
        let Some((variable, children)) = self.asks(function) else {
            return if function == TRUE { 1.0 } else { 0.0 };
        };
        if let Some(&known) = known.get(&function) {
            return known;
        }
        let mut sum = 0.0;
        for (child, weight) in children.iter().zip(&weights[variable]) {
            if *weight > 0.0 {
                sum += weight * self.probability_known(*child, weights, known);
            }
        }
        known.insert(function, sum);
        sum
    }
}
