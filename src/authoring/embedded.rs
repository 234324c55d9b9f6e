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
        id: None,
        path: "fault-trees/crept-while-parked.kept.json",
        text: include_str!("../../fault-trees/crept-while-parked.kept.json"),
    },
    Embedded {
        id: Some("demo-twin"),
        path: "demo-data/demo-twin.yaml",
        text: include_str!("../../demo-data/demo-twin.yaml"),
    },
];

/// Id of the tree a job starts on when none is named.
pub const STARTER_TREE: &str = "crept-while-parked";

/// The document with this id.
pub fn by_id(id: &str) -> Option<&'static Embedded> {
    ALL.iter().find(|document| document.id == Some(id))
}

/// The text at this path.
pub fn by_path(path: &str) -> Option<&'static Embedded> {
    ALL.iter().find(|document| document.path == path)
}
