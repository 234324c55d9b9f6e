//! Minimal cut sets as text and JSON.

use serde_json::{Value, json};

use crate::base::text::{listed, plural, truncate, wrap};
use crate::diagnosis::certificate::Certificate;
use crate::diagnosis::model::Model;
use crate::tree::cut_sets::{CutSet, CutSets, Literal};
use crate::tree::layers::OverBudget;

/// Lines are at most this wide.
const COLUMNS: usize = 78;
/// Cut sets listed for people; programs get all of them.
const LISTED: usize = 100;
/// Cut sets that are formed one by one at all.
const MOST: usize = 200_000;

/// How a literal is written.
fn name(model: &Model, literal: &Literal) -> String {
    let name = model.tree.name(literal.node);
    if literal.holds {
        name
    } else {
        format!("not {name}")
    }
}

/// `392 minimal cut sets`, `3 prime implicants`.
fn counted(sets: &CutSets, count: u128) -> String {
    let one = match sets.implicants {
        None => "minimal cut set",
        Some(_) => "prime implicant",
    };
    plural(usize::try_from(count).unwrap_or(usize::MAX), one)
}

/// Cut sets for people, most probable first.
pub fn cut_sets_text(model: &Model, sets: &CutSets, order: Option<usize>) -> String {
    let orders = sets.orders();
    let all: u128 = orders.iter().sum();
    let by_order: Vec<String> = orders
        .iter()
        .enumerate()
        .filter(|(_, count)| **count > 0)
        .map(|(order, count)| format!("{count} of order {order}"))
        .collect();
    let mut text = format!("{}\n", model.title);
    let top = model.tree.name(model.tree.top);
    let head = format!(
        "{} of `{top}`: {}.",
        counted(sets, all),
        listed(&by_order, "and")
    );
    for line in wrap(&head, COLUMNS)
        .into_iter()
        .chain(wrap(&chances(sets), COLUMNS))
    {
        text.push_str(&format!("{line}\n"));
    }
    let limit = order.unwrap_or(usize::MAX);
    let Some(list) = sets.list(limit, MOST) else {
        text.push_str(&format!(
            "\nMore than {MOST}, so none is listed; --order COUNT lists small ones.\n"
        ));
        return text;
    };
    let whole = sets.exact();
    if !list.is_empty() {
        text.push_str("\n   chance  of 100  order  all of these\n");
    }
    for set in list.iter().take(LISTED) {
        let names: Vec<String> = set.literals.iter().map(|l| name(model, l)).collect();
        let row = format!(
            "{:>9} {:>7.2} {:>6}  {}",
            format!("{:.2e}", set.chance),
            100.0 * set.chance / whole,
            set.literals.len(),
            names.join(", ")
        );
        text.push_str(&format!("{}\n", truncate(&row, COLUMNS.max(120))));
    }
    if list.len() > LISTED {
        let more = list.len() - LISTED;
        text.push_str(&format!("and {more} less probable ones; --json has all\n"));
    }
    if let Some(order) = order {
        let above = all - u128::try_from(list.len()).unwrap_or(0);
        text.push_str(&format!("of order above {order}, not listed: {above}\n"));
    }
    text
}

/// The probabilities in a sentence.
fn chances(sets: &CutSets) -> String {
    let exact = sets.exact();
    if let Some(reason) = &sets.implicants {
        return format!(
            "Chance per parking {exact:.4e}, exact. There are no bounds, because {reason}."
        );
    }
    let rare = sets.rare_event();
    let upper = sets
        .list(usize::MAX, MOST)
        .map(|l| CutSets::upper_bound(&l));
    let upper = upper.map_or(String::new(), |upper| {
        format!(", upper bound of minimal cut sets {upper:.4e}")
    });
    format!("Chance per parking {exact:.4e}, exact; sum of all {rare:.4e} (rare event){upper}.")
}

/// The same for other programs.
pub fn cut_sets_json(model: &Model, sets: &CutSets, order: Option<usize>) -> Value {
    let orders = sets.orders();
    let all = sets.list(usize::MAX, MOST);
    let listed = match order {
        None => all.clone(),
        Some(order) => sets.list(order, MOST),
    };
    let literal = |literal: &Literal| {
        let name = model.tree.name(literal.node);
        if literal.holds {
            json!(name)
        } else {
            json!({"not": name})
        }
    };
    let row = |set: &CutSet| set.literals.iter().map(literal).collect::<Value>();
    let count: u128 = orders.iter().sum();
    let plain = sets.implicants.is_none();
    let upper = all.as_deref().map(CutSets::upper_bound);
    let reason = sets.implicants.as_ref();
    let reason = reason.map(|reason| format!("these are prime implicants: {reason}"));
    json!({
        "top": model.tree.name(model.tree.top),
        "count": u64::try_from(count).unwrap_or(u64::MAX),
        "orders": orders.iter().map(|n| u64::try_from(*n).unwrap_or(u64::MAX)).collect::<Vec<_>>(),
        "order_limit": order,
        "cut_sets": listed.as_ref().map(|list| list.iter().map(row).collect::<Vec<_>>()),
        "chances": listed.map(|list| list.iter().map(|set| set.chance).collect::<Vec<_>>()),
        "probability": {
            "exact": sets.exact(),
            "rare_event": plain.then(|| sets.rare_event()),
            "upper_bound": upper.filter(|_| plain),
            "reason": reason,
        },
        "certificate": certificate(&Certificate::Exact),
    })
}

/// What programs get where the tree is too large.
pub fn refused_json(model: &Model, error: &OverBudget) -> Value {
    json!({
        "top": model.tree.name(model.tree.top),
        "certificate": certificate(&Certificate::from(*error)),
    })
}

/// A certificate for other programs.
pub fn certificate(certificate: &Certificate) -> Value {
    json!({"kind": certificate.kind(), "reason": certificate.reason()})
}
