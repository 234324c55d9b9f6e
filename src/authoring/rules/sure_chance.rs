//! Chances of 0 and of 1 where a chance is meant.

use super::{Rule, Whole};
use crate::source::codes::rules as code;
use crate::source::problem::Problem;
use crate::tree::fault_tree::Chance;

pub const RULE: Rule = Rule {
    name: "sure-chance",
    code: code::SURE_CHANCE,
    find,
};

fn find(whole: &mut Whole<'_>) -> Vec<Problem> {
    let tree = &whole.model.tree;
    let is_sure = |chance: f64| chance <= 0.0 || chance >= 1.0;
    let mut found = Vec::new();
    let mut warn = |id: &str, place, chance: f64| {
        let word = if chance > 0.5 {
            "always so"
        } else {
            "never so"
        };
        let message = format!("`{id}` is {word}");
        let problem = Problem::new(RULE.code, place, message);
        found.push(problem.hint("give it a small or a large chance, or take it out"));
    };
    for (event, entry) in tree.events.iter().zip(whole.events) {
        match event.chance {
            Chance::PerParking(chance) if is_sure(chance) => {
                let key = ["chance", "rate", "fault"]
                    .into_iter()
                    .find(|key| entry.field(key).is_some());
                warn(&event.id, entry.place_of(key.unwrap_or("chance")), chance);
            }
            Chance::Seen { share, .. } if share <= 0.0 => {
                warn(&event.id, entry.place_of("seen"), share);
            }
            _ => {}
        }
    }
    for (at, (condition, entry)) in tree.conditions.iter().zip(whole.conditions).enumerate() {
        let asked = &whole.model.questions[at];
        if asked.fact.is_some() || asked.quantity.is_some() {
            continue;
        }
        for (value, chance) in condition
            .values
            .iter()
            .filter(|(_, chance)| is_sure(*chance))
        {
            let key = if value == "yes" || value == "no" {
                "chance"
            } else {
                "one-of"
            };
            // The contrary of a sure yes is said already.
            if value != "no" {
                warn(
                    &format!("{}={value}", condition.id),
                    entry.place_of(key),
                    *chance,
                );
            }
        }
    }
    found
}
