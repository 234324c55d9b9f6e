//! What is set on a part at this moment: parameters with faults in them, hand positions.

use super::aircraft::{Parameter, Part};
use super::kind::{Kind, ParameterForm};
use crate::base::dimension::Dimension;

/// A parameter as a number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Value {
    /// In SI units.
    pub si: f64,
    /// The temperature it is stated at, K.
    pub at: f64,
}

/// Settings of one part.
#[derive(Debug, Clone, PartialEq)]
pub struct PartNow {
    values: Vec<Option<Value>>,
    /// Values that stand in the place of the document's, by the place of their parameter.
    put: Vec<(usize, Value)>,
    /// Faults that are in, with their severity.
    pub faults: Vec<(String, f64)>,
    /// Position a hand left it in.
    pub hand: usize,
    /// How far feet press a pair of pedals, left and right; 1 is full travel.
    pub feet: [f64; 2],
}

/// Temperature of a parameter that states none, K: 20 C.
const USUAL_TEMPERATURE: f64 = 293.15;

fn number(parameter: &Parameter) -> Option<Value> {
    let plain = |si| Value {
        si,
        at: USUAL_TEMPERATURE,
    };
    match parameter {
        Parameter::Quantity(quantity) => Some(plain(quantity.si())),
        Parameter::Number(number) => Some(plain(*number)),
        Parameter::At(quantity, temperature) => Some(Value {
            si: quantity.si(),
            at: temperature.si(),
        }),
        Parameter::Word(_) => None,
    }
}

impl PartNow {
    /// A part as its document describes it, with its in-limit leaks scaled by `wear`.
    pub fn new(part: &Part, wear: f64) -> Self {
        let mut now = Self {
            values: Vec::new(),
            put: Vec::new(),
            faults: Vec::new(),
            hand: 0,
            feet: [0.0; 2],
        };
        now.resolve(part, wear);
        now
    }

    /// Works the parameters out anew. A fault of severity s takes a parameter from its healthy
    /// value h to h + s (f - h), where f is what the document says of the fault.
    pub fn resolve(&mut self, part: &Part, wear: f64) {
        let named = |list: &[(&'static str, Parameter)], name: &str| {
            list.iter()
                .find(|(key, _)| *key == name)
                .map(|(_, p)| p.clone())
        };
        self.values = part
            .kind
            .parameters
            .iter()
            .enumerate()
            .map(|(place, spec)| {
                let put = self.put.iter().find(|(at, _)| *at == place);
                let own = || named(&part.parameters, spec.name).and_then(|p| number(&p));
                let given = put.map(|(_, value)| *value).or_else(own);
                let usual = spec.usual.map(|si| Value {
                    si,
                    at: USUAL_TEMPERATURE,
                });
                let mut value = given.or(usual)?;
                if spec.form == ParameterForm::Quantity(Dimension::Flow) {
                    value.si *= wear;
                }
                let healthy = value.si;
                let mut below_zero = healthy < 0.0;
                for (fault, severity) in &self.faults {
                    let overrides = part.fault(fault).map_or(&[][..], |f| &f.overrides);
                    if let Some(wrong) = named(overrides, spec.name).and_then(|p| number(&p)) {
                        value.si += severity * (wrong.si - healthy);
                        below_zero |= wrong.si < 0.0;
                        value.at = wrong.at;
                    }
                }
                // A severe fault does not carry a pressure through zero, such as that at which a
                // relief valve opens, unless the fault is said to be below zero itself.
                if signed(spec.form_dimension()) && below_zero {
                    return Some(value);
                }
                value.si = value.si.max(0.0);
                Some(value)
            })
            .collect();
    }

    /// Puts a value in the place of what the document says of a parameter. It counts once
    /// parameters are worked out anew; faults then move it from there.
    pub fn put(&mut self, kind: &Kind, name: &str, si: f64, at: f64) {
        let place = kind.parameters.iter().position(|spec| spec.name == name);
        if let Some(place) = place {
            self.put.retain(|(known, _)| *known != place);
            self.put.push((place, Value { si, at }));
        }
    }

    /// A parameter in SI units; 0 where nothing is said of it.
    pub fn value(&self, kind: &Kind, name: &str) -> f64 {
        self.find(kind, name).map_or(0.0, |value| value.si)
    }

    /// The temperature a parameter is stated at, K.
    pub fn stated_at(&self, kind: &Kind, name: &str) -> f64 {
        self.find(kind, name)
            .map_or(USUAL_TEMPERATURE, |value| value.at)
    }

    /// Severity of a fault; 0 where it is not in.
    pub fn severity(&self, fault: &str) -> f64 {
        self.faults
            .iter()
            .find(|(id, _)| id == fault)
            .map_or(0.0, |(_, severity)| *severity)
    }

    fn find(&self, kind: &Kind, name: &str) -> Option<Value> {
        let at = kind.parameters.iter().position(|spec| spec.name == name)?;
        self.values.get(at).copied().flatten()
    }
}

fn signed(dimension: Option<Dimension>) -> bool {
    matches!(
        dimension,
        Some(Dimension::GaugePressure | Dimension::Slope | Dimension::Speed)
    )
}
