//! Elimination on a matrix whose pattern is the graph of the network.
//!
//! Every column is dominated by its diagonal (what leaves one node arrives at another, and each
//! node holds something), so no pivoting is needed and the order can follow the pattern alone.
//! Only what the pattern and its fill need is kept, and every product of the elimination knows
//! its places beforehand: networks are nearly trees, and most of a full matrix would be nothing.

/// Where a pair of nodes stands that does not couple, because one of them is pinned.
const NOWHERE: usize = usize::MAX;

/// A matrix with a symmetric pattern, and the order in which it is eliminated.
///
/// Values lie in one list: the diagonal by node, then what is right of it, then what is below it.
#[derive(Debug, Clone, Default)]
pub struct Matrix {
    size: usize,
    pairs: Vec<(usize, usize)>,
    free: Vec<bool>,
    /// For each pair the places of both its values.
    places: Vec<(usize, usize)>,
    order: Vec<usize>,
    /// For each node of the order, where its neighbours eliminated later end in `later`.
    ends: Vec<usize>,
    later: Vec<usize>,
    /// Where every product of the elimination goes, in the order in which they come up.
    targets: Vec<usize>,
    values: Vec<f64>,
    kept: Vec<f64>,
}

impl Matrix {
    /// Takes the pattern of a network: pairs of joined nodes, and which nodes are free. A node
    /// that is not free has no row. Cheap when nothing has changed.
    pub fn shape(
        &mut self,
        pairs: impl Iterator<Item = (usize, usize)> + Clone,
        free: impl ExactSizeIterator<Item = bool> + Clone,
    ) {
        if self.free.iter().copied().eq(free.clone())
            && self.pairs.iter().copied().eq(pairs.clone())
        {
            return;
        }
        self.size = free.len();
        self.pairs = pairs.collect();
        self.free = free.collect();
        self.find_order();
        self.find_places();
    }

    /// Least neighbours first, ties by number, with the fill that elimination brings.
    fn find_order(&mut self) {
        let mut neighbours = vec![vec![false; self.size]; self.size];
        for &(a, b) in &self.pairs {
            if a != b && self.free[a] && self.free[b] {
                neighbours[a][b] = true;
                neighbours[b][a] = true;
            }
        }
        let mut left: Vec<usize> = (0..self.size).filter(|node| self.free[*node]).collect();
        self.order.clear();
        self.ends.clear();
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
            let begin = self.later.len();
            let joined = left.iter().copied().filter(|node| neighbours[next][*node]);
            self.later.extend(joined);
            for &a in &self.later[begin..] {
                for &b in &self.later[begin..] {
                    neighbours[a][b] |= a != b;
                }
            }
            self.order.push(next);
            self.ends.push(self.later.len());
        }
    }

    fn find_places(&mut self) {
        let entries = self.later.len();
        let mut place = vec![vec![NOWHERE; self.size]; self.size];
        let mut begin = 0;
        for (&k, &end) in self.order.iter().zip(&self.ends) {
            place[k][k] = k;
            for entry in begin..end {
                place[k][self.later[entry]] = self.size + entry;
                place[self.later[entry]][k] = self.size + entries + entry;
            }
            begin = end;
        }
        self.targets.clear();
        begin = 0;
        for &end in &self.ends {
            let joined = &self.later[begin..end];
            let products = joined
                .iter()
                .flat_map(|&i| joined.iter().map(move |&j| (i, j)));
            self.targets.extend(products.map(|(i, j)| place[i][j]));
            begin = end;
        }
        let both = |&(a, b): &(usize, usize)| (place[a][b], place[b][a]);
        self.places = self.pairs.iter().map(both).collect();
        self.values = vec![0.0; self.size + 2 * entries];
    }

    /// Sets every value to 0.
    pub fn clear(&mut self) {
        self.values.fill(0.0);
    }

    /// Keeps the values as they are, for [`Matrix::restore`].
    pub fn keep(&mut self) {
        self.kept.clone_from(&self.values);
    }

    /// Takes back the values that were kept.
    pub fn restore(&mut self) {
        self.values.copy_from_slice(&self.kept);
    }

    /// Adds to a value on the diagonal.
    pub fn add(&mut self, node: usize, value: f64) {
        self.values[node] += value;
    }

    /// Adds to all values that a flow between a pair of nodes changes: the pair by its place in
    /// the list that gave the shape, and how much more leaves the first node for the second with
    /// the pressure of either.
    pub fn couple(&mut self, pair: usize, by_first: f64, by_second: f64) {
        let (first, second) = self.pairs[pair];
        self.values[first] += by_first;
        self.values[second] -= by_second;
        let (right, below) = self.places[pair];
        if right != NOWHERE {
            self.values[right] += by_second;
            self.values[below] -= by_first;
        }
    }

    /// Factors the matrix in place. The error is the row whose pivot is not a positive number.
    pub fn factor(&mut self) -> Result<(), usize> {
        let entries = self.later.len();
        let (diagonal, rest) = (self.size, self.size + entries);
        let mut targets = self.targets.iter();
        let mut begin = 0;
        for (&k, &end) in self.order.iter().zip(&self.ends) {
            let pivot = self.values[k];
            if !(pivot.is_finite() && pivot > 0.0) {
                return Err(k);
            }
            for below in rest + begin..rest + end {
                let share = self.values[below] / pivot;
                self.values[below] = share;
                for (right, &target) in (diagonal + begin..diagonal + end).zip(&mut targets) {
                    self.values[target] -= share * self.values[right];
                }
            }
            begin = end;
        }
        Ok(())
    }

    /// The node with the largest value on the diagonal before it is factored, the first of equals.
    pub fn stiffest(&self) -> usize {
        let mut nodes = self.order.clone();
        nodes.sort_unstable();
        let first = nodes.first().copied().unwrap_or_default();
        nodes.into_iter().fold(first, |most, node| {
            let larger = self.values[node].total_cmp(&self.values[most]).is_gt();
            if larger { node } else { most }
        })
    }

    /// Solves with the factors, in place. Rows of nodes that are not free become 0.
    pub fn solve(&self, right: &mut [f64]) {
        let entries = self.later.len();
        let (diagonal, rest) = (self.size, self.size + entries);
        let mut begin = 0;
        for (&k, &end) in self.order.iter().zip(&self.ends) {
            let known = right[k];
            for entry in begin..end {
                right[self.later[entry]] -= self.values[rest + entry] * known;
            }
            begin = end;
        }
        for (at, &k) in self.order.iter().enumerate().rev() {
            let begin = if at == 0 { 0 } else { self.ends[at - 1] };
            let mut sum = right[k];
            for entry in begin..self.ends[at] {
                sum -= self.values[diagonal + entry] * right[self.later[entry]];
            }
            right[k] = sum / self.values[k];
        }
        for (value, free) in right.iter_mut().zip(&self.free) {
            if !free {
                *value = 0.0;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_network_is_solved_exactly() {
        let mut matrix = Matrix::default();
        matrix.shape([(0, 1), (1, 2)].into_iter(), [true; 3].into_iter());
        for (node, value) in [(0, 3.0), (1, 1.0), (2, 5.0)] {
            matrix.add(node, value);
        }
        // Rows: 4 -3; -1 5 -2; -1 7.
        matrix.couple(0, 1.0, -3.0);
        matrix.couple(1, 1.0, -2.0);
        // Chosen solution: 1, 2, 3.
        let mut right = vec![-2.0, 3.0, 19.0];
        assert!(matrix.factor().is_ok());
        matrix.solve(&mut right);
        for (found, wanted) in right.iter().zip([1.0, 2.0, 3.0]) {
            assert!((found - wanted).abs() < 1e-12, "{found}");
        }
    }

    #[test]
    fn a_pinned_node_neither_moves_nor_couples() {
        let mut matrix = Matrix::default();
        let free = [true, false, true];
        matrix.shape([(0, 1), (1, 2)].into_iter(), free.into_iter());
        matrix.add(0, 1.0);
        matrix.add(2, 2.0);
        matrix.couple(0, 1.0, -1.0);
        matrix.couple(1, 2.0, -2.0);
        let mut right = vec![4.0, 9.0, 8.0];
        assert!(matrix.factor().is_ok());
        matrix.solve(&mut right);
        assert_eq!(right, [2.0, 0.0, 2.0]);
    }
}
