//! What a job asks beside checks and conditions: its form, and what it settles.

/// The part of a job a field belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Section {
    /// People first, then the aircraft.
    Safety,
    /// The scene stays as it is: somebody was hurt, something was hit, or it still moves.
    Frozen,
    /// Which aircraft.
    Aircraft,
    /// What the first pump start would erase.
    Evidence,
    /// How it was parked.
    Details,
    /// One's own first idea.
    Idea,
    /// What was done about it.
    Work,
    /// What shows that it holds again.
    Proof,
    /// A deferral, where that is the choice.
    Deferral,
    /// What must not be left behind.
    TidyUp,
    /// To the next person.
    HandOver,
}

impl Section {
    /// The heading of the section.
    pub fn title(self) -> &'static str {
        match self {
            Self::Safety => "Safety first",
            Self::Frozen => "Scene frozen",
            Self::Aircraft => "Aircraft",
            Self::Evidence => "Keep the evidence",
            Self::Details => "How it was parked",
            Self::Idea => "Your own idea",
            Self::Work => "Work done",
            Self::Proof => "Proof of the fix",
            Self::Deferral => "Deferral",
            Self::TidyUp => "Tidy up",
            Self::HandOver => "Hand over",
        }
    }
}

/// The form of an answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Yes or no, by one key.
    YesNo,
    /// Free text.
    Text,
    /// A pressure with its unit, kept as typed.
    Pressure,
    /// A temperature with its unit, kept as typed.
    Temperature,
    /// A time with its unit, kept as typed.
    Time,
    /// A whole number from 0 to 10.
    OutOfTen,
}

/// One thing a job asks.
#[derive(Debug, PartialEq, Eq)]
pub struct Field {
    /// Its name in job files. Never reused for something else.
    pub id: &'static str,
    /// Its section.
    pub section: Section,
    /// The question.
    pub ask: &'static str,
    /// What to mind.
    pub how: &'static str,
    /// The form of the answer.
    pub form: Form,
    /// Whether "not known" is refused.
    pub must: bool,
    /// The lock that a yes opens.
    pub lock: Option<&'static str>,
    /// Whether it waits until chocks are seen in: it sends somebody to the aircraft.
    pub after_chocks: bool,
}

impl Field {
    /// Checks what was typed and gives it as it is kept; the error says what would do.
    pub fn accept(&self, typed: &str) -> Result<String, String> {
        use crate::base::dimension::Dimension;
        let typed = typed.trim();
        if typed.is_empty() {
            return Err("Type an answer, or 0 for not known.".to_owned());
        }
        let quantity = |dimension: Dimension| {
            if is_ambiguous(typed) {
                return Err(format!(
                    "Not kept: {typed} can be two numbers. Write it without the comma, or with a point."
                ));
            }
            crate::base::quantity::Quantity::parse(&typed.replace(',', "."), dimension)
                .map(|_| typed.to_owned())
                .map_err(|error| format!("Not kept: {error}."))
        };
        match self.form {
            Form::YesNo => match typed {
                "yes" | "no" => Ok(typed.to_owned()),
                _ => Err("Answer 1 for yes or 3 for no.".to_owned()),
            },
            Form::Text => Ok(typed.to_owned()),
            Form::Pressure => quantity(Dimension::GaugePressure),
            Form::Temperature => quantity(Dimension::Temperature),
            Form::Time => quantity(Dimension::Time),
            Form::OutOfTen => match typed.parse::<u8>() {
                Ok(number) if number <= 10 => Ok(typed.to_owned()),
                _ => Err("Type a whole number from 0 to 10.".to_owned()),
            },
        }
    }

    /// A kept value with what it is in other units, so that a slip between bar and psi is seen.
    pub fn read_back(&self, kept: &str) -> String {
        use crate::base::dimension::Dimension;
        use crate::base::quantity::Quantity;
        use crate::base::unit::Unit;
        let (dimension, others) = match self.form {
            Form::Pressure => (Dimension::GaugePressure, ["bar", "psi"]),
            Form::Temperature => (Dimension::Temperature, ["C", "F"]),
            _ => return kept.to_owned(),
        };
        let Ok(quantity) = Quantity::parse(&kept.replace(',', "."), dimension) else {
            return kept.to_owned();
        };
        let other = others
            .into_iter()
            .find(|symbol| *symbol != quantity.unit().symbol);
        match other.and_then(Unit::find) {
            Some(unit) => format!(
                "{kept} = {:.1} {}",
                unit.from_si(quantity.si()),
                unit.symbol
            ),
            None => kept.to_owned(),
        }
    }
}

/// `1,480` can be one and a half or fourteen hundred.
pub(super) fn is_ambiguous(typed: &str) -> bool {
    let Some((before, after)) = typed.split_once(',') else {
        return false;
    };
    let digits = after.chars().take_while(char::is_ascii_digit).count();
    digits == 3 && before.chars().all(|c| c.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use crate::session::fields::{FIELDS, place};

    fn pressure(typed: &str) -> Result<String, String> {
        FIELDS[place("pressure-as-found").unwrap()].accept(typed)
    }

    #[test]
    fn a_pressure_needs_its_unit_and_no_doubt() {
        assert_eq!(pressure("102,5 bar"), Ok("102,5 bar".to_owned()));
        assert_eq!(pressure("1480 psi"), Ok("1480 psi".to_owned()));
        for bad in ["1480", "1,480 psi", "4 C", "bar", ""] {
            assert!(pressure(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn a_pressure_is_read_back_in_the_other_unit() {
        let field = &FIELDS[place("pressure-as-found").unwrap()];
        // 102 bar x 14.5038 psi/bar (NIST SP 811, from memory) = 1479.4 psi.
        assert_eq!(field.read_back("102 bar"), "102 bar = 1479.4 psi");
    }
}
