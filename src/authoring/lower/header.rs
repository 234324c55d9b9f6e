//! The single values at the head of a tree.

use crate::authoring::document::Source;
use crate::authoring::scalar::quantity;
use crate::authoring::shape;
use crate::base::dimension::Dimension;
use crate::base::physical::Seconds;
use crate::base::quantity::plain_decimal;
use crate::diagnosis::model::Rule;
use crate::source::codes::tree as code;
use crate::source::problem::Problem;

/// The single values at the head of a tree.
pub struct Header {
    /// How long a fault could have been there unseen.
    pub exposure: Option<Seconds>,
    /// Share kept for a cause that is not in the tree.
    pub unlisted: f64,
    /// Chance of such a report per parking, where it is typed.
    pub per_parking: Option<f64>,
    /// Where the figures come from, unless an entry says otherwise.
    pub source: Option<String>,
    /// Whether the top is true where the plant of the aircraft moves.
    pub moves: bool,
    /// When the search may stop.
    pub rule: Option<Rule>,
    /// Roles of parts the tree asks for.
    pub roles: Vec<String>,
}

impl Header {
    /// Reads the head; what is wrong with a single value is added to the list.
    pub fn read(main: &Source, problems: &mut Vec<Problem>) -> Self {
        let text = |key: &str| main.root.get(key).and_then(|node| node.text());
        let number = |key: &str| text(key).and_then(plain_decimal);
        let place = |key: &str| main.place_of(key);
        let exposure = text("exposure")
            .and_then(|text| quantity(text, Dimension::Time, place("exposure")).ok())
            .and_then(|quantity| Seconds::new(quantity.si()))
            // One that is there and wrong has its own problem; it is not missing as well.
            .or_else(|| text("exposure").and_then(|_| Seconds::new(0.0)));
        let unlisted = number("unlisted").unwrap_or_default();
        if !(0.0..1.0).contains(&unlisted) {
            let message = format!("`unlisted` is {unlisted}");
            let problem = Problem::new(code::UNLISTED, place("unlisted"), message);
            problems.push(problem.hint("write a number from 0 to below 1, such as 0.05"));
        }
        let rule = main
            .root
            .get("rule")
            .filter(|node| node.text() != Some("none"));
        let rule: Option<shape::tree::Rule> = rule.and_then(|node| shape::read(node).ok());
        let roles = main
            .root
            .get("needs-parts")
            .map_or(&[][..], |node| node.entries());
        Self {
            exposure,
            unlisted: if (0.0..1.0).contains(&unlisted) {
                unlisted
            } else {
                0.0
            },
            per_parking: number("per-parking"),
            moves: text("top-in-plant") == Some("moves"),
            source: text("source").map(str::to_owned),
            rule: rule.map(|rule| Rule {
                share: rule.share,
                confirm: rule.confirm.as_deref() != Some("none"),
            }),
            roles: roles.iter().map(|role| role.key.clone()).collect(),
        }
    }
}
