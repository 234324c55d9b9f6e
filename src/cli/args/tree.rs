//! What can be typed after `tree`.

use clap::{Args, Subcommand};

/// Work with documents.
#[derive(Debug, Subcommand)]
pub enum TreeCommand {
    /// Check documents and print every problem at its line
    Check(CheckArguments),
    /// Hold a tree against the plant of its aircraft: every fault played, every difference at its line
    Agree(AgreeArguments),
    /// Work the answer lines of checks out from the plant, as text for the tree
    Derive(DeriveArguments),
    /// Work the cases of a tree, and show the first step of each that comes out otherwise
    Cases(CasesArguments),
    /// Which check tells which causes apart: weak pairs, idle checks, what is missing
    Cover(CoverArguments),
    /// The minimal cut sets of the top, most probable first
    CutSets(CutSetsArguments),
    /// How much each event matters to the top, by five measures
    Importance(ImportanceArguments),
    /// Write a commented tree of three causes to start from
    New(NewArguments),
    /// What changed between two issues of a tree, in words and in effect
    Diff(DiffArguments),
    /// Draw a tree with its gate symbols
    Draw(DrawArguments),
    /// Write a tree in the Open-PSA exchange format, and list what that cannot carry
    Export(ExportArguments),
    /// Take a model in the Open-PSA exchange format over, as text of a tree
    Import(ImportArguments),
    /// Explain a problem code such as T001
    Explain(ExplainArguments),
}

/// Check documents.
#[derive(Debug, Args)]
pub struct CheckArguments {
    /// Trees and aircraft: files, or ids of embedded ones
    #[arg(required = true, value_name = "FILE")]
    pub files: Vec<String>,
    /// Join trees to this aircraft instead of their own
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// Print JSON
    #[arg(long, conflicts_with = "lines")]
    pub json: bool,
    /// Print one line for each problem, for editors
    #[arg(long)]
    pub lines: bool,
}

/// Hold a tree against the plant.
#[derive(Debug, Args)]
pub struct AgreeArguments {
    /// Tree: a file, or the id of an embedded one: crept-while-parked, pressure-found-gone
    #[arg(default_value = "crept-while-parked")]
    pub tree: String,
    /// Aircraft instead of the tree's own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// Print JSON
    #[arg(long, conflicts_with = "lines")]
    pub json: bool,
    /// Print one line for each difference, for editors
    #[arg(long)]
    pub lines: bool,
}

/// Work answer lines out from the plant.
///
/// Prints the lines of every check that says under `shows` what its readings show. A check that
/// carries neither `yes` nor `lines` has them worked out whenever its tree is loaded, which takes
/// seconds; with --keep they are kept in a file beside the tree, together with the order in which
/// the tree is small, and loading is fast until one of its texts changes.
#[derive(Debug, Args)]
pub struct DeriveArguments {
    /// Tree: a file, or the id of an embedded one: crept-while-parked, pressure-found-gone
    #[arg(default_value = "crept-while-parked")]
    pub tree: String,
    /// Aircraft instead of the tree's own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
    /// Write what was worked out into TREE-NAME.kept.json beside the tree, and print no lines
    #[arg(long, conflicts_with = "json")]
    pub keep: bool,
}

/// A tree on an aircraft, and the form of what is printed.
#[derive(Debug, Args)]
pub struct TreeArguments {
    /// Tree: a file, or the id of an embedded one: crept-while-parked, pressure-found-gone
    #[arg(default_value = "crept-while-parked")]
    pub tree: String,
    /// Aircraft instead of the tree's own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Work the cases of a tree.
///
/// Report, conditions and answers come in the order written; in the end one of the causes under
/// `expect` must lead. Exit code 1 where a case comes out otherwise.
#[derive(Debug, Args)]
pub struct CasesArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
}

/// Which check tells which causes apart.
#[derive(Debug, Args)]
pub struct CoverArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
    /// Also try readings of the aircraft that no check takes: some seconds
    #[arg(long)]
    pub plant: bool,
    /// Show one check: the causes by the answer that each alone makes likeliest
    #[arg(long, value_name = "CHECK", conflicts_with_all = ["json", "plant"])]
    pub check: Option<String>,
}

/// Minimal cut sets.
///
/// With `not`, `either` or several values of one condition below the top they are prime implicants,
/// and there are no bounds.
#[derive(Debug, Args)]
pub struct CutSetsArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
    /// List only cut sets of up to so many events and conditions
    #[arg(long, value_name = "COUNT")]
    pub order: Option<usize>,
}

/// Importance of events.
#[derive(Debug, Args)]
pub struct ImportanceArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
}

/// Write a tree to start from.
#[derive(Debug, Args)]
pub struct NewArguments {
    /// Name of the tree; it is written into NAME.yaml in this folder
    pub name: String,
}

/// Compare two issues of a tree.
#[derive(Debug, Args)]
pub struct DiffArguments {
    /// The issue that was: a file, or the id of an embedded tree
    pub old: String,
    /// The issue that is to be
    pub new: String,
    /// Aircraft instead of the trees' own: a file, or the id of an embedded one
    #[arg(long, value_name = "AIRCRAFT")]
    pub aircraft: Option<String>,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Draw a tree.
#[derive(Debug, Args)]
pub struct DrawArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
    /// Form of the drawing
    #[arg(long, value_enum, default_value = "svg")]
    pub format: DrawFormat,
}

/// Form of a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum DrawFormat {
    /// A picture that every browser shows
    Svg,
    /// Text for Graphviz
    Graphviz,
}

/// Write a tree in the exchange format.
///
/// The model goes to the standard output, and what it cannot carry to the standard error.
#[derive(Debug, Args)]
pub struct ExportArguments {
    /// The tree
    #[command(flatten)]
    pub of: TreeArguments,
}

/// Take a model over.
///
/// The text of the tree goes to the standard output, and what it cannot carry to the standard error.
#[derive(Debug, Args)]
pub struct ImportArguments {
    /// Model in the Open-PSA exchange format: a file
    #[arg(value_name = "FILE")]
    pub file: String,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}

/// Explain a problem code.
#[derive(Debug, Args)]
pub struct ExplainArguments {
    /// The code, such as T001
    pub code: String,
    /// Print JSON
    #[arg(long)]
    pub json: bool,
}
