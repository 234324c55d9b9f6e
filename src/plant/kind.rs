//! Kinds of part: ports, parameters, fault names, behaviour. One list, one file per kind.

use super::behaviour::Behaviour;
use crate::base::dimension::Dimension;

/// What passes through a port.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PortType {
    /// Fluid: pressure and flow.
    Hydraulic,
    /// Nitrogen: pressure and mass.
    Gas,
    /// Travel and force.
    Mechanical,
    /// Volts and amperes.
    Electrical,
    /// On or off.
    Signal,
}

impl PortType {
    /// All types, in the order help shows them.
    pub const ALL: [Self; 5] = [
        Self::Hydraulic,
        Self::Gas,
        Self::Mechanical,
        Self::Electrical,
        Self::Signal,
    ];

    /// The word in documents.
    pub fn word(self) -> &'static str {
        match self {
            Self::Hydraulic => "hydraulic",
            Self::Gas => "gas",
            Self::Mechanical => "mechanical",
            Self::Electrical => "electrical",
            Self::Signal => "signal",
        }
    }

    /// The type a word names.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|port| port.word() == word)
    }
}

/// One port of a kind.
#[derive(Debug, PartialEq)]
pub struct Port {
    /// Its name.
    pub name: &'static str,
    /// What passes through it.
    pub port_type: PortType,
    /// Whether an aircraft may leave it open.
    pub optional: bool,
}

/// What a parameter holds.
#[derive(Debug, PartialEq)]
pub enum ParameterForm {
    /// A quantity of one kind.
    Quantity(Dimension),
    /// A quantity at a temperature.
    AtTemperature(Dimension),
    /// A plain number.
    Number,
    /// One of these words.
    Word(&'static [&'static str]),
}

/// One parameter of a kind.
#[derive(Debug, PartialEq)]
pub struct ParameterSpec {
    /// Its key.
    pub name: &'static str,
    /// What it holds.
    pub form: ParameterForm,
    /// Whether an aircraft must give it.
    pub required: bool,
    /// What holds where the aircraft says nothing, in SI units.
    pub usual: Option<f64>,
}

impl ParameterSpec {
    /// What it measures, where it is a quantity.
    pub fn form_dimension(&self) -> Option<Dimension> {
        match &self.form {
            ParameterForm::Quantity(dimension) | ParameterForm::AtTemperature(dimension) => {
                Some(*dimension)
            }
            ParameterForm::Number | ParameterForm::Word(_) => None,
        }
    }
}

/// What a hand can do to a part: its positions, the first one at the beginning.
#[derive(Debug, PartialEq)]
pub struct Hand {
    /// The positions.
    pub positions: &'static [&'static str],
    /// The switch of the aircraft that moves it, with its positions and those of the part.
    pub follows: Option<(&'static str, &'static [(&'static str, &'static str)])>,
}

/// One kind of part.
#[derive(Debug)]
pub struct Kind {
    /// Its name.
    pub name: &'static str,
    /// What it does, in one sentence.
    pub doc: &'static str,
    /// Its ports.
    pub ports: &'static [Port],
    /// Its parameters.
    pub parameters: &'static [ParameterSpec],
    /// What can be wrong with it.
    pub faults: &'static [&'static str],
    /// What a hand can do to it.
    pub hand: Option<Hand>,
    /// How it works.
    pub behaviour: &'static dyn Behaviour,
}

/// Kinds are the same when their names are.
impl PartialEq for Kind {
    fn eq(&self, other: &Self) -> bool {
        self.name == other.name
    }
}

impl Kind {
    /// The kind with this name.
    pub fn find(name: &str) -> Option<&'static Kind> {
        super::kinds::KINDS
            .iter()
            .copied()
            .find(|kind| kind.name == name)
    }

    /// The port with this name.
    pub fn port(&self, name: &str) -> Option<&'static Port> {
        self.ports.iter().find(|port| port.name == name)
    }

    /// The parameter with this key.
    pub fn parameter(&self, name: &str) -> Option<&'static ParameterSpec> {
        self.parameters.iter().find(|spec| spec.name == name)
    }
}

/// A port that must be joined.
pub const fn port(name: &'static str, port_type: PortType) -> Port {
    Port {
        name,
        port_type,
        optional: false,
    }
}

/// A port that may stay open.
pub const fn open_port(name: &'static str, port_type: PortType) -> Port {
    Port {
        name,
        port_type,
        optional: true,
    }
}

/// A parameter the aircraft must give.
pub const fn given(name: &'static str, form: ParameterForm) -> ParameterSpec {
    ParameterSpec {
        name,
        form,
        required: true,
        usual: None,
    }
}

/// A parameter the aircraft may leave out, with what holds then, in SI units.
pub const fn usual(name: &'static str, form: ParameterForm, si: f64) -> ParameterSpec {
    ParameterSpec {
        name,
        form,
        required: false,
        usual: Some(si),
    }
}
