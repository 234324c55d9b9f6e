//! Problems of the text itself, before anybody asks what it means.

use crate::source::code::codes;

codes! {
    NOT_READABLE "Y001" Error "the file cannot be read"
        "The operating system refused to hand over the file. Look at the path as it was typed, and at who may read it.";
    IS_A_FOLDER "Y002" Error "a folder was named where a file is wanted"
        "Name the document inside the folder. Several documents are named one after the other.";
    TOO_LONG "Y003" Error "the file is too long"
        "Documents are limited to 2 MiB, some five times the longest tree tried. The length is looked at before anything is read. A longer file is hardly ever a tree; split a real one with `use`.";
    NOT_UTF8 "Y004" Error "the file is not UTF-8"
        "Save it as UTF-8. The place shown is the first byte that does not fit; it is often an accented letter saved in an older encoding.";
    EMPTY "Y005" Error "the file holds no document"
        "It is empty, or holds comments only. A document starts with a line such as `stillwheel: tree 1`.";
    SYNTAX "Y006" Error "the text is not YAML"
        "The reader could not follow the text past this place. The usual reasons: a text with `: ` or `#` in it that is not quoted, a bracket that was never closed, or a line indented differently from its neighbours.";
    TOO_DEEP "Y007" Error "values are nested too deep"
        "No document of this kind is nested more than six levels; sixteen is the limit. Look for a bracket too many.";
    TOO_MANY "Y008" Error "the document holds too many values"
        "The limit is 200,000 values in one file. Split a tree into several files with `use`.";
    DUPLICATE_KEY "Y009" Error "a key stands twice"
        "In one mapping every key may stand once. Two entries of one name would leave it open which of them counts.";
    ANCHOR "Y010" Error "anchors are not accepted"
        "`&name` marks a value for use elsewhere. Shared values make it hard to see what a line of a fault tree says, so they are refused. Shared gates go into a file of their own that others name under `use`.";
    ALIAS "Y011" Error "aliases are not accepted"
        "`*name` stands for a value written elsewhere. See Y010.";
    TAG "Y012" Error "tags are not accepted"
        "`!name` tells a reader how to treat a value. Here keys say what a value is.";
    SECOND_DOCUMENT "Y013" Error "a second document starts in the file"
        "One file holds one document. A line of three hyphens in the middle of a file starts another one.";
    MERGE_KEY "Y014" Error "the merge key is not accepted"
        "`<<` copies the keys of another mapping into this one. See Y010.";
    NUMBER_FORM "Y015" Error "a number is not written as a plain decimal"
        "Numbers are written with digits, a point and an exponent: `0.02`, `1e-7`. Hexadecimal, octal, underscores, `.nan` and `.inf` are refused, because readers of YAML disagree on them.";
    WRONG_FORM "Y016" Error "another kind of value is wanted here"
        "A list stands where a single value is wanted, or the other way round. `tree explain` with the code of a neighbouring problem, or a shipped tree, shows the usual form.";
    UNKNOWN_KEY "Y017" Error "the key is not known here"
        "Unknown keys are errors, because a misspelt key that is passed over changes what a tree means without a word. Look at the suggestion.";
    MISSING_KEY "Y018" Error "a key is missing"
        "The entry cannot be understood without it.";
    UNKNOWN_DOCUMENT "Y019" Error "the document does not say what it is"
        "The first key is `stillwheel`, and its value names the kind and the version of the format: `tree 1`, `aircraft 1` or `bench 1`. A higher version was written for a newer program.";
    NOT_A_NAME "Y020" Error "this is not a name"
        "Names are lower-case words joined by hyphens, starting with a letter: `park-valve`. They are used in other files, in commands and in job files, so blanks and capitals are refused.";
    UNKNOWN_WORD "Y021" Error "the word is not one of those accepted here"
        "Only the words of a fixed list are accepted in this place.";
    NEEDS_QUOTES "Y022" Error "a text would be read as something else"
        "Without quotes YAML reads this text as a number, as true or false, or as nothing. Put it in quotes.";
    KEPT "Y023" Warning "a kept file cannot be used"
        "The file beside a tree that ends in `.kept.json` keeps what was worked out from the plant. This one says that it belongs to these texts, and it cannot be read or was changed by hand. Nothing of it is used, so loading takes longer and gives the same; `tree derive FILE --keep` writes it anew.";
}
