//! `tree new`, `tree diff`, `tree draw`, and the schema for editors.

use std::collections::BTreeSet;

use crate::run::{expect_file, files, root, stillwheel, stillwheel_in};
use serde_json::Value;
use stillwheel::authoring::document::DocumentKind;
use stillwheel::authoring::schema::{schema, schema_text};

#[test]
fn the_starter_passes_every_rule_and_its_cases() {
    let folder = tempfile::tempdir().unwrap();
    let run = |arguments: &[&str]| stillwheel_in(folder.path(), arguments, "");
    let made = run(&["tree", "new", "my-first-tree"]);
    assert_eq!((made.code, made.err.as_str()), (0, ""));
    let check = run(&["tree", "check", "my-first-tree.yaml"]);
    assert_eq!(
        (check.code, check.out.as_str()),
        (0, "no problems in 1 document\n")
    );
    let cases = run(&["tree", "cases", "my-first-tree.yaml"]);
    assert!(
        cases
            .out
            .starts_with("my-first-tree: 3 cases, all as expected"),
        "{}",
        cases.out
    );
    // What it says to try works.
    for line in made.out.lines().skip(1) {
        let words: Vec<&str> = line.split_whitespace().skip(1).collect();
        assert_eq!(run(&words).code, 0, "{line}");
    }
    // A second one does not write over the first.
    std::fs::write(folder.path().join("my-first-tree.yaml"), "mine").unwrap();
    let again = run(&["tree", "new", "my-first-tree"]);
    assert_eq!(again.code, 3, "{}", again.err);
    let text = std::fs::read_to_string(folder.path().join("my-first-tree.yaml")).unwrap();
    assert_eq!(text, "mine");
    let wrong = run(&["tree", "new", "My Tree"]);
    assert_eq!(wrong.code, 2);
    assert!(wrong.err.contains("write `my-tree`"), "{}", wrong.err);
}

/// The starter with five changes, and what each must be called.
const CHANGES: [(&str, &str, &str); 5] = [
    (
        "    rate: 9e-6 /h",
        "    rate: 2e-6 /h",
        "event `valve-open`: rate 9e-6 /h -> 2e-6 /h",
    ),
    (
        "  pressure-lost: {any: [valve-open, hose-leaks]}",
        "  pressure-lost: {all: [valve-open, hose-leaks]}",
        "gate `pressure-lost`: any removed",
    ),
    (
        "      - {when: hose-leaks, chance: 0.9}",
        "      - {when: hose-leaks, chance: 0.6}",
        "check `wet`: yes line 1 chance 0.9 -> 0.6",
    ),
    (
        "chance: 0.1}\n",
        "chance: 0.2}\n",
        "condition `lever-touched`: chance 0.1 -> 0.2",
    ),
    (
        "expect: {first: hose-leaks}",
        "expect: {first: valve-open}",
        "case `wet hose`: expect first hose-leaks -> valve-open",
    ),
];

#[test]
fn five_of_five_changes_stand_in_the_report() {
    let folder = tempfile::tempdir().unwrap();
    let run = |arguments: &[&str]| stillwheel_in(folder.path(), arguments, "");
    assert_eq!(run(&["tree", "new", "old"]).code, 0);
    let old = std::fs::read_to_string(folder.path().join("old.yaml")).unwrap();
    let mut new = old.clone();
    for (before, after, _) in CHANGES {
        assert!(new.contains(before), "{before}");
        new = new.replacen(before, after, 1);
    }
    std::fs::write(folder.path().join("new.yaml"), &new).unwrap();
    let text = run(&["tree", "diff", "old.yaml", "new.yaml"]);
    assert_eq!((text.code, text.err.as_str()), (0, ""));
    expect_file(&root().join("tests/documents/difference.txt"), &text.out);
    let json: Value =
        serde_json::from_str(&run(&["tree", "diff", "--json", "old.yaml", "new.yaml"]).out)
            .unwrap();
    let changes: Vec<&str> = json["changes"]
        .as_array()
        .unwrap()
        .iter()
        .map(|c| c.as_str().unwrap())
        .collect();
    for (_, _, words) in CHANGES {
        assert!(
            changes.iter().any(|change| change.starts_with(words)),
            "{words}: {changes:?}"
        );
    }
    // And nothing else: a gate that changes its operator is one removed and one added.
    assert_eq!(changes.len(), 6, "{changes:?}");
    // In effect: the case of the wet hose no longer comes out.
    let cases = json["cases"].as_array().unwrap();
    let wet = cases
        .iter()
        .find(|case| case["name"] == "wet hose")
        .unwrap();
    assert_eq!(wet["old"]["leads"], "hose-leaks");
    assert_eq!(wet["new"]["as_expected"], Value::Bool(false));
}

#[test]
fn a_tree_does_not_differ_from_itself() {
    let run = stillwheel(&["tree", "diff", "crept-while-parked", "crept-while-parked"]);
    assert!(
        run.out.contains("crept-while-parked 4: 0 changes"),
        "{}",
        run.out
    );
    assert!(run.out.contains("No cause stands elsewhere"), "{}", run.out);
    assert!(
        run.out.ends_with("63 cases come out as before.\n"),
        "{}",
        run.out
    );
}

/// Every node below the top is drawn once, no two in one place, and a gate that is used again is a
/// transfer symbol.
#[test]
fn a_tree_of_three_hundred_nodes_is_drawn_without_anything_on_top_of_anything() {
    let folder = tempfile::tempdir().unwrap();
    let mut text = "stillwheel: tree 1\nid: large\ntitle: Large <&>\nreport: It moved.\nsource: invented\nevents:\n".to_owned();
    for at in 0..200 {
        text.push_str(&format!("  event-{at}: {{chance: 0.001}}\n"));
    }
    text.push_str("gates:\n");
    for at in 0..99 {
        let operator = ["any", "all"][at % 2];
        text.push_str(&format!(
            "  gate-{at}: {{{operator}: [event-{}, event-{}]}}\n",
            2 * at,
            2 * at + 1
        ));
    }
    let all: Vec<String> = (0..99).map(|at| format!("gate-{at}")).collect();
    text.push_str(&format!("  twice: {{at-least: 2, of: [gate-1, event-198, event-199]}}\n  top: {{any: [{}, twice]}}\ntop: top\n", all.join(", ")));
    let path = folder.path().join("large.yaml");
    std::fs::write(&path, text).unwrap();
    let path = path.to_str().unwrap();
    let json: Value =
        serde_json::from_str(&stillwheel(&["tree", "draw", "--json", path]).out).unwrap();
    let items = json["items"].as_array().unwrap();
    let mut places = BTreeSet::new();
    let mut drawn = BTreeSet::new();
    let mut transfers = 0;
    for item in items {
        let row = (item["row"].as_f64().unwrap() * 2.0) as i64;
        assert!(
            places.insert((item["column"].as_u64().unwrap(), row)),
            "{item}"
        );
        match item["kind"].as_str().unwrap() {
            "transfer" => transfers += 1,
            _ => assert!(drawn.insert(item["name"].as_str().unwrap()), "{item}"),
        }
    }
    assert_eq!((drawn.len(), transfers), (301, 1));
    let svg = stillwheel(&["tree", "draw", path]).out;
    assert!(svg.contains("Large &lt;&amp;&gt;") && svg.contains(">2/3</text>"));
    // Texts of one column stand at least a line of text apart.
    let mut texts: Vec<(i64, i64)> = svg
        .lines()
        .filter(|line| line.starts_with("<text x=") && !line.contains("font-size"))
        .map(|line| {
            let number = |key: &str| {
                line.split(key)
                    .nth(1)
                    .unwrap()
                    .split('"')
                    .next()
                    .unwrap()
                    .parse()
                    .unwrap()
            };
            (number("x=\""), number("y=\""))
        })
        .collect();
    texts.sort_unstable();
    assert_eq!(texts.len(), items.len());
    for pair in texts.windows(2) {
        assert!(
            pair[0].0 != pair[1].0 || pair[1].1 - pair[0].1 >= 15,
            "{pair:?}"
        );
    }
    assert_eq!(svg.matches("<svg").count(), svg.matches("</svg>").count());
    let dot = stillwheel(&["tree", "draw", "--format", "graphviz", path]).out;
    assert_eq!(dot.matches(" -> ").count(), 2 * 99 + 3 + 100);
    assert!(dot.contains("2 of 3"));
}

#[test]
fn the_kept_schemas_are_those_of_the_tables() {
    for kind in DocumentKind::ALL {
        let path = root().join(format!("fault-trees/{}.schema.json", kind.word()));
        expect_file(&path, &schema_text(kind));
    }
}

#[test]
fn every_shipped_document_is_valid_under_its_schema() {
    let mut seen = 0;
    for (folder, kind) in [
        ("fault-trees", DocumentKind::Tree),
        ("fault-trees/shared", DocumentKind::Tree),
        ("tests/published", DocumentKind::Tree),
        ("demo-data", DocumentKind::Aircraft),
    ] {
        for path in files(folder, "yaml") {
            let found = faults(kind, &std::fs::read_to_string(&path).unwrap());
            assert!(found.is_empty(), "{}: {found:?}", path.display());
            seen += 1;
        }
    }
    assert!(seen >= 15, "{seen}");
}

/// What the loader refuses for its form, the schema refuses too.
#[test]
fn the_schema_refuses_what_the_tables_refuse() {
    for name in [
        "unknown-key",
        "missing-key",
        "chance-above-one",
        "no-unit",
        "not-a-name",
        "unknown-word",
        "list-for-a-value",
        "not-a-count",
    ] {
        let text =
            std::fs::read_to_string(root().join(format!("tests/bad-input/{name}.yaml"))).unwrap();
        let found = faults(DocumentKind::Tree, &text);
        assert!(!found.is_empty(), "{name} is valid under the schema");
    }
}

fn faults(kind: DocumentKind, text: &str) -> Vec<String> {
    let document: serde_yaml::Value = serde_yaml::from_str(text).unwrap();
    let document = serde_json::to_value(document).unwrap();
    let mut found = Vec::new();
    validate(&schema(kind), &document, "", &mut found);
    found
}

/// The few words of JSON Schema (draft 2020-12) that ours uses; any other is refused, so that none
/// goes unchecked.
fn validate(schema: &Value, value: &Value, path: &str, found: &mut Vec<String>) {
    for (word, rule) in schema.as_object().unwrap() {
        let number = |limit: &Value| value.as_f64().zip(limit.as_f64());
        let fine = match word.as_str() {
            "$schema" | "title" | "description" => true,
            "type" => match rule.as_str().unwrap() {
                "object" => value.is_object(),
                "array" => value.is_array(),
                "string" => value.is_string(),
                "boolean" => value.is_boolean(),
                "number" => value.is_number(),
                "integer" => value.as_f64().is_some_and(|n| n.fract() == 0.0),
                other => panic!("{other}"),
            },
            "enum" => rule.as_array().unwrap().contains(value),
            "const" => rule == value,
            "minimum" => number(rule).is_none_or(|(value, limit)| value >= limit),
            "maximum" => number(rule).is_none_or(|(value, limit)| value <= limit),
            "minLength" => value.as_str().is_none_or(|text| !text.is_empty()),
            "minItems" => value.as_array().is_none_or(|items| !items.is_empty()),
            "pattern" => value
                .as_str()
                .is_none_or(|text| matches(rule.as_str().unwrap(), text)),
            "required" => value.as_object().is_none_or(|map| {
                rule.as_array()
                    .unwrap()
                    .iter()
                    .all(|key| map.contains_key(key.as_str().unwrap()))
            }),
            "properties" => {
                for (key, inner) in rule.as_object().unwrap() {
                    if let Some(value) = value.get(key) {
                        validate(inner, value, &format!("{path}/{key}"), found);
                    }
                }
                true
            }
            "additionalProperties" => {
                let known = schema.get("properties");
                let others =
                    value.as_object().into_iter().flatten().filter(|(key, _)| {
                        known.is_none_or(|known| known.get(key.as_str()).is_none())
                    });
                let mut fine = true;
                for (key, value) in others {
                    match rule {
                        Value::Bool(allowed) => fine &= allowed,
                        rule => validate(rule, value, &format!("{path}/{key}"), found),
                    }
                }
                fine
            }
            "propertyNames" => {
                let pattern = rule["pattern"].as_str().unwrap();
                value
                    .as_object()
                    .is_none_or(|map| map.keys().all(|key| matches(pattern, key)))
            }
            "items" => {
                for (at, value) in value.as_array().into_iter().flatten().enumerate() {
                    validate(rule, value, &format!("{path}/{at}"), found);
                }
                true
            }
            "if" => {
                let mut inner = Vec::new();
                validate(rule, value, path, &mut inner);
                let branch = if inner.is_empty() { "then" } else { "else" };
                validate(&schema[branch], value, path, found);
                true
            }
            "then" | "else" => schema.get("if").is_some(),
            "anyOf" => rule.as_array().unwrap().iter().any(|rule| {
                let mut inner = Vec::new();
                validate(rule, value, path, &mut inner);
                inner.is_empty()
            }),
            other => panic!("`{other}` is not checked"),
        };
        if !fine {
            found.push(format!("{path}: {word} {rule}"));
        }
    }
}

/// The two patterns that are used: that of a name, and a number with one of some units.
fn matches(pattern: &str, text: &str) -> bool {
    if pattern.starts_with("^[a-z]") {
        return stillwheel::base::name::is_name(text);
    }
    let units = pattern.rsplit_once(" *(").unwrap().1.trim_end_matches(")$");
    let end = text
        .find(|c: char| !"+-.0123456789eE".contains(c))
        .unwrap_or(text.len());
    let (number, unit) = text.split_at(end);
    let unit = unit.trim();
    number.parse::<f64>().is_ok()
        && units
            .split('|')
            .any(|known| known.replace('\\', "") == unit)
}
