//! How much each event matters to the top: five measures.
//!
//! Definitions as in NUREG-0492 (1981), the NASA Fault Tree Handbook (2002) and IEC 61025 (2006),
//! from memory. Worths are ratios here; some handbooks print differences.

use rustc_hash::FxHashMap as HashMap;

use super::cut_sets::CutSets;
use super::fault_tree::{Chance, FaultTree};
use super::node::Node;

/// The measures of one event. Q is the probability of the top, Q(1) and Q(0) with the event true
/// and false.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Importance {
    /// Place of the event.
    pub event: usize,
    /// Q(1) - Q(0); the one difference that is formed.
    pub birnbaum: f64,
    /// Birnbaum times the chance of the event, as a part of Q.
    pub criticality: f64,
    /// Probability that a cut set with the event holds, as a part of Q.
    pub fussell_vesely: f64,
    /// The rare-event form: the sum of those cut sets as a part of the sum of all.
    pub fussell_vesely_sum: f64,
    /// Risk achievement worth, Q(1) / Q.
    pub raw: f64,
    /// Risk reduction worth, Q / Q(0); `None` where nothing is left without the event.
    pub rrw: Option<f64>,
}

/// The measures of every event below the top, greatest Fussell-Vesely first, then file order.
///
/// Complexity: two walks through the diagram of the top for each event.
pub fn importance(tree: &FaultTree, sets: &mut CutSets) -> Vec<Importance> {
    let whole = sets.exact();
    let sum_of_all = sets.rare_event();
    let below = tree.below(tree.top);
    let mut rows = Vec::new();
    for node in below {
        let Node::Event(event) = node else { continue };
        if whole <= 0.0 || tree.events[event].chance == Chance::Dropped {
            continue;
        }
        let chance = sets.weights[event][1];
        let own = sets.weights[event].clone();
        let [without, with] = [[1.0, 0.0], [0.0, 1.0]].map(|fixed| {
            sets.weights[event] = fixed.to_vec();
            sets.exact()
        });
        sets.weights[event] = own;
        let birnbaum = with - without;
        let rank = sets.diagrams.rank(event);
        let family = sets.families.holding(sets.root, rank, 2);
        let union = sets.union(family, &mut HashMap::default());
        let sum = sets.sum_of(family, &mut HashMap::default());
        rows.push(Importance {
            event,
            birnbaum,
            criticality: birnbaum * chance / whole,
            fussell_vesely: sets.probability(union) / whole,
            fussell_vesely_sum: sum / sum_of_all,
            raw: with / whole,
            rrw: (without > 0.0).then(|| whole / without),
        });
    }
    let rounded = |row: &Importance| (row.fussell_vesely * 1e12).round();
    rows.sort_by(|a, b| rounded(b).total_cmp(&rounded(a)));
    rows
}
