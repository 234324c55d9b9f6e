//! Causes that no check tells apart.

use super::Finding;
use crate::diagnosis::cause::Part;
use crate::diagnosis::evidence::Evidence;
use crate::diagnosis::inference::{Inference, NoBelief};
use crate::diagnosis::stop::{TOLD_APART, coin_information};

/// Gathers causes that give every check the same answers, each group once.
pub fn compare(inference: &Inference, found: &mut Vec<Finding>) -> Result<(), NoBelief> {
    let model = inference.model();
    let causes: Vec<usize> = (0..model.causes.len())
        .filter(|event| model.causes[*event].part == Part::Cause)
        .collect();
    let evidence = Evidence::report_only(model);
    let mut answers: Vec<(usize, Vec<Vec<f64>>)> = Vec::new();
    for &cause in &causes {
        let fixed: Vec<(usize, bool)> = causes.iter().map(|at| (*at, *at == cause)).collect();
        // A cause that cannot be there alone is told from nothing and from everything.
        match inference.believe_fixed(&evidence, &fixed) {
            Ok(belief) => {
                let lines = model.checks.iter().zip(&belief.lines);
                let chances = lines.map(|(check, lines)| check.answer_chances(lines));
                answers.push((cause, chances.collect()));
            }
            Err(NoBelief::Contradiction) => {}
            Err(error) => return Err(error),
        }
    }
    let mut grouped: Vec<usize> = Vec::new();
    for (at, (cause, own)) in answers.iter().enumerate() {
        if grouped.contains(cause) {
            continue;
        }
        let mut group = vec![*cause];
        for (other, theirs) in &answers[at + 1..] {
            let apart = own
                .iter()
                .zip(theirs)
                .any(|(own, theirs)| coin_information(own, theirs) >= TOLD_APART);
            if !apart && !grouped.contains(other) {
                group.push(*other);
            }
        }
        if group.len() > 1 {
            grouped.extend_from_slice(&group);
            found.push(Finding::NotToldApart(group));
        }
    }
    Ok(())
}
