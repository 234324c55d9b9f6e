//! The documents that are part of the program.

/// One embedded text.
#[derive(Debug)]
pub struct Embedded {
    /// Id of the document; `None` for a text that is not one.
    pub id: Option<&'static str>,
    /// Path, as `demo` writes it out.
    pub path: &'static str,
    /// The text.
    pub text: &'static str,
}

/// Every embedded text.
pub const ALL: &[Embedded] = &[
    Embedded {
        id: Some("crept-while-parked"),
        path: "fault-trees/crept-while-parked.yaml",
        text: include_str!("../../fault-trees/crept-while-parked.yaml"),
    },
    Embedded {
        id: Some("pressure-found-gone"),
        path: "fault-trees/pressure-found-gone.yaml",
        text: include_str!("../../fault-trees/pressure-found-gone.yaml"),
    },
    // Taken in by the trees above under `use`, and no tree by itself.
    Embedded {
        id: None,
        path: "fault-trees/shared/parked-pressure.yaml",
        text: include_str!("../../fault-trees/shared/parked-pressure.yaml"),
    },
    Embedded {
        id: None,
        path: "fault-trees/crept-while-parked.kept.json",
        text: include_str!("../../fault-trees/crept-while-parked.kept.json"),
    },
    Embedded {
        id: None,
        path: "fault-trees/pressure-found-gone.kept.json",
        text: include_str!("../../fault-trees/pressure-found-gone.kept.json"),
    },
    // For editors that know JSON Schema.
    Embedded {
        id: None,
        path: "fault-trees/tree.schema.json",
        text: include_str!("../../fault-trees/tree.schema.json"),
    },
    Embedded {
        id: None,
        path: "fault-trees/aircraft.schema.json",
        text: include_str!("../../fault-trees/aircraft.schema.json"),
    },
    Embedded {
        id: None,
        path: "fault-trees/bench.schema.json",
        text: include_str!("../../fault-trees/bench.schema.json"),
    },
    Embedded {
        id: Some("demo-twin"),
        path: "demo-data/demo-twin.yaml",
        text: include_str!("../../demo-data/demo-twin.yaml"),
    },
];

/// The embedded trees in the order in which reports are offered: id, and the words of the report.
pub fn reports() -> impl Iterator<Item = (&'static str, &'static str)> {
    ALL.iter().filter_map(|document| {
        // Read off the head alone, since a list of reports must not cost the loading of every tree.
        let mut head = document.text.lines();
        let report = head.find_map(|line| line.strip_prefix("report: "))?;
        Some((document.id?, report))
    })
}

/// The document with this id.
pub fn by_id(id: &str) -> Option<&'static Embedded> {
    ALL.iter().find(|document| document.id == Some(id))
}

/// The text at this path.
pub fn by_path(path: &str) -> Option<&'static Embedded> {
    ALL.iter().find(|document| document.path == path)
}
