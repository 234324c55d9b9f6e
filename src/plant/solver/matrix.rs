//! Elimination on a matrix whose pattern is the graph of the network.
//!
//! Every column is dominated by its diagonal (what leaves one node arrives at another, and each
//! node holds something), so no pivoting is needed and the order can follow the pattern alone.

/// A square matrix with a symmetric pattern, and the order in which it is eliminated.
#[derive(Debug, Clone, Default)]
pub struct Matrix {
    size: usize,
    pairs: Vec<(usize, usize)>,
    order: Vec<usize>,
    later: Vec<Vec<usize>>,
    values: Vec<f64>,
}

impl Matrix {
    /// Takes the pattern of a network: pairs of joined nodes. Cheap when it has not changed.
    pub fn shape(&mut self, size: usize, pairs: impl Iterator<Item = (usize, usize)> + Clone) {
        if self.size == size && self.pairs.iter().copied().eq(pairs.clone()) {
            return;
        }
        self.size = size;
        self.pairs = pairs.collect();
        self.values = vec![0.0; size * size];
        self.find_order();
    }

    /// Least neighbours first, ties by number, with the fill that elimination brings.
    fn find_order(&mut self) {
        let mut neighbours = vec![vec![false; self.size]; self.size];
        for &(a, b) in &self.pairs {
            if a != b {
                neighbours[a][b] = true;
                neighbours[b][a] = true;
            }
        }
        let mut left: Vec<usize> = (0..self.size).collect();
        self.order.clear();
        self.later.clear();
        while !left.is_empty() {
            let count = |node: &usize| {
                left.iter()
                    .filter(|other| neighbours[*node][**other])
                    .count()
            };
            let Some(next) = left.iter().copied().min_by_key(|node| (count(node), *node)) else {
                break;
            };
            left.retain(|node| *node != next);
            let later: Vec<usize> = left
                .iter()
                .copied()
                .filter(|node| neighbours[next][*node])
                .collect();
            for &a in &later {
                for &b in &later {
                    neighbours[a][b] |= a != b;
                }
            }
            self.order.push(next);
            self.later.push(later);
        }
    }

    /// Sets every value to 0.
    pub fn clear(&mut self) {
        self.values.fill(0.0);
    }

    /// Adds to a value.
    pub fn add(&mut self, row: usize, column: usize, value: f64) {
        self.values[row * self.size + column] += value;
    }

    /// Factors the matrix in place. The error is the row whose pivot is not a positive number.
    pub fn factor(&mut self) -> Result<(), usize> {
        let n = self.size;
        for (at, &k) in self.order.iter().enumerate() {
            let pivot = self.values[k * n + k];
            if !(pivot.is_finite() && pivot > 0.0) {
                return Err(k);
            }
            for &i in &self.later[at] {
                let share = self.values[i * n + k] / pivot;
                self.values[i * n + k] = share;
                for &j in &self.later[at] {
                    self.values[i * n + j] -= share * self.values[k * n + j];
                }
            }
        }
        Ok(())
    }

    /// Solves with the factors, in place.
    pub fn solve(&self, right: &mut [f64]) {
        let n = self.size;
        for (at, &k) in self.order.iter().enumerate() {
            for &i in &self.later[at] {
                right[i] -= self.values[i * n + k] * right[k];
            }
        }
        for (at, &k) in self.order.iter().enumerate().rev() {
            let known: f64 = self.later[at]
                .iter()
                .map(|&j| self.values[k * n + j] * right[j])
                .sum();
            right[k] = (right[k] - known) / self.values[k * n + k];
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_network_is_solved_exactly() {
        let mut matrix = Matrix::default();
        matrix.shape(3, [(0, 1), (1, 2)].into_iter());
        for (row, column, value) in [
            (0, 0, 4.0),
            (0, 1, -1.0),
            (1, 0, -2.0),
            (1, 1, 5.0),
            (1, 2, -1.0),
            (2, 1, -3.0),
            (2, 2, 6.0),
        ] {
            matrix.add(row, column, value);
        }
        // Chosen solution: 1, 2, 3.
        let mut right = vec![2.0, 5.0, 12.0];
        assert!(matrix.factor().is_ok());
        matrix.solve(&mut right);
        for (found, wanted) in right.iter().zip([1.0, 2.0, 3.0]) {
            assert!((found - wanted).abs() < 1e-12, "{found}");
        }
    }
}
