//! `demo DIR`: writes the embedded documents out.

use anyhow::Context;

use crate::authoring::embedded;
use crate::cli::args::DemoArguments;
use crate::cli::{exit, output};

/// Writes every embedded document below the folder. A file that is there with other text stays.
pub fn run(arguments: &DemoArguments) -> anyhow::Result<u8> {
    let mut kept = Vec::new();
    for document in embedded::ALL {
        let path = arguments.folder.join(document.path);
        let folder = path.parent().unwrap_or(&arguments.folder);
        std::fs::create_dir_all(folder)
            .with_context(|| format!("cannot make the folder {}", folder.display()))?;
        if std::fs::read_to_string(&path).is_ok_and(|text| text != document.text) {
            kept.push(path.display().to_string());
            continue;
        }
        std::fs::write(&path, document.text)
            .with_context(|| format!("cannot write {}", path.display()))?;
        output::print(&format!("wrote {}\n", path.display()))?;
    }
    for path in &kept {
        output::complain(&format!(
            "kept {path}: it was changed; move it away to get ours\n"
        ));
    }
    Ok(if kept.is_empty() {
        exit::FINE
    } else {
        exit::FILE
    })
}
