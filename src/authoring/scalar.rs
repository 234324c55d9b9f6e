//! Checks of single values: texts, names, numbers, quantities.

use super::conform::name_hint;
use super::form::Form;
use crate::base::dimension::Dimension;
use crate::base::name::is_name;
use crate::base::pressure::STANDARD_ATMOSPHERE;
use crate::base::quantity::{Quantity, QuantityError, plain_decimal};
use crate::base::text::listed;
use crate::base::unit::Unit;
use crate::source::code::Code;
use crate::source::codes::{document, units};
use crate::source::place::Place;
use crate::source::problem::Problem;

/// Checks the text of a single value against its form.
pub fn check(text: &str, plain: bool, form: &Form, place: Place) -> Option<Problem> {
    match form {
        Form::Text => text_problem(text, plain, place),
        Form::Name if is_name(text) => None,
        Form::Name => Some(
            Problem::new(
                document::NOT_A_NAME,
                place,
                format!("`{text}` is not a name"),
            )
            .hint(name_hint(text)),
        ),
        Form::Word(words) => word_problem(text, &words(), place),
        Form::Flag => word_problem(text, &["true", "false"], place),
        Form::Number | Form::Count | Form::Probability => number_problem(text, plain, form, place),
        Form::Quantity(dimension) => quantity(text, *dimension, place).err(),
        _ => None,
    }
}

fn text_problem(text: &str, plain: bool, place: Place) -> Option<Problem> {
    if text.is_empty() {
        let message = "a text is wanted here, and nothing was found";
        return Some(Problem::new(document::WRONG_FORM, place, message).hint("write the text"));
    }
    let constant = matches!(
        text,
        "true" | "false" | "null" | "~" | "True" | "False" | "Null"
    );
    let number = text.parse::<f64>().is_ok() || radix_number(text);
    (plain && (constant || number)).then(|| {
        let message = format!("without quotes `{text}` is not a text");
        Problem::new(document::NEEDS_QUOTES, place, message).hint(format!("write \"{text}\""))
    })
}

fn word_problem(text: &str, words: &[&str], place: Place) -> Option<Problem> {
    (!words.contains(&text)).then(|| {
        let message = format!("`{text}` is not one of the words accepted here");
        Problem::new(document::UNKNOWN_WORD, place, message).suggest(text, words)
    })
}

/// `0x10`, `0o17`, `1_000`, `.nan`: numbers to some readers of YAML.
fn radix_number(text: &str) -> bool {
    let body = text.trim_start_matches(['+', '-']).to_ascii_lowercase();
    let special = matches!(body.as_str(), ".nan" | ".inf");
    let radix = body.starts_with("0x") || body.starts_with("0o") || body.starts_with("0b");
    let grouped = body.contains('_') && body.replace('_', "").parse::<f64>().is_ok();
    special || radix || grouped
}

fn number_problem(text: &str, plain: bool, form: &Form, place: Place) -> Option<Problem> {
    if radix_number(text) {
        let message = format!("`{text}` is not a plain decimal number");
        let hint = "write it with digits, a point and an exponent, such as 0.02 or 1e-7";
        return Some(Problem::new(document::NUMBER_FORM, place, message).hint(hint));
    }
    let Some(number) = plain_decimal(text) else {
        let message = format!("a number is wanted here, and `{text}` was found");
        let problem = Problem::new(units::NOT_A_NUMBER, place, message);
        return Some(problem.hint("write a plain decimal number without a unit"));
    };
    if !plain {
        let message = format!("the number `{text}` stands in quotes");
        return Some(Problem::new(units::NOT_A_NUMBER, place, message).hint("remove the quotes"));
    }
    let range = |code: &'static Code, message: String, hint: &str| {
        Some(Problem::new(code, place.clone(), message).hint(hint))
    };
    match form {
        Form::Probability if !(0.0..=1.0).contains(&number) => range(
            units::NOT_A_PROBABILITY,
            format!("`{text}` is not a probability"),
            "write a number from 0 to 1; 13 of 100 is 0.13",
        ),
        Form::Count if number < 0.0 || number.fract() != 0.0 || number > 1e9 => range(
            units::OUT_OF_RANGE,
            format!("`{text}` is not a count"),
            "write a whole number, 0 or more",
        ),
        _ if number < 0.0 => range(
            units::OUT_OF_RANGE,
            format!("`{text}` is below 0"),
            "write 0 or more",
        ),
        _ => None,
    }
}

/// Reads a quantity of one kind, or says what is wrong with it.
pub fn quantity(text: &str, dimension: Dimension, place: Place) -> Result<Quantity, Problem> {
    let accepted = Unit::symbols_of(dimension);
    let units_hint = format!("units accepted here: {}", accepted.join(", "));
    let quantity = Quantity::parse(text, dimension).map_err(|error| {
        let (code, hint) = match &error {
            QuantityError::NotANumber(_) => (
                units::NOT_A_NUMBER,
                format!(
                    "write a number and its unit, in {}",
                    listed(&accepted, "or")
                ),
            ),
            QuantityError::NoUnit(_) => (units::NO_UNIT, units_hint),
            QuantityError::UnknownUnit(symbol) => match Unit::like(symbol) {
                Some(near) => (units::UNKNOWN_UNIT, format!("did you mean `{near}`?")),
                None => (units::UNKNOWN_UNIT, units_hint),
            },
            QuantityError::WrongKind { .. } => (units::WRONG_KIND, units_hint),
            QuantityError::TooLarge(_) => (units::OUT_OF_RANGE, "write a smaller number".into()),
        };
        Problem::new(code, place.clone(), error.to_string()).hint(hint)
    })?;
    in_range(quantity, dimension, place)
}

/// Temperatures and gauge pressures have a floor of their own; all else is not negative.
fn in_range(quantity: Quantity, dimension: Dimension, place: Place) -> Result<Quantity, Problem> {
    let (floor, reason) = match dimension {
        Dimension::Temperature => (0.0, "absolute zero, -273.15 C"),
        Dimension::GaugePressure => (-STANDARD_ATMOSPHERE.pascals(), "vacuum"),
        // Downhill and a head wind are written with a minus.
        Dimension::Slope | Dimension::Speed => (f64::MIN, ""),
        _ => (0.0, "0"),
    };
    let never_nothing = matches!(
        dimension,
        Dimension::Density | Dimension::Viscosity | Dimension::Mass
    );
    if never_nothing && quantity.si() == 0.0 {
        let message = format!("`{quantity}` is nothing");
        let problem = Problem::new(units::OUT_OF_RANGE, place, message);
        return Err(problem.hint("write a figure above 0"));
    }
    // The tiny slack lets -273.15 C through, whose sum is not exactly 0.
    if quantity.si() >= floor - 1e-9 {
        return Ok(quantity);
    }
    let message = format!("`{quantity}` is below {reason}");
    Err(Problem::new(units::OUT_OF_RANGE, place, message).hint("look at the sign and at the unit"))
}
