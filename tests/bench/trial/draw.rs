//! How a job is drawn: what is hidden in the aircraft, and how it was parked.

use stillwheel::diagnosis::cause::Part;
use stillwheel::diagnosis::model::Model;
use stillwheel::tree::node::{Node, Operator};

/// The generator `SplitMix64` ("Fast splittable pseudorandom number generators", OOPSLA 2014;
/// constants from memory).
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// A stream of its own for every list of numbers, so that nothing hangs on the order of work.
    pub fn of(numbers: &[u64]) -> Self {
        let mut random = Self(0);
        for number in numbers {
            random.0 ^= *number;
            random.0 = random.bits();
        }
        random
    }

    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 to below 1.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn chance(&mut self, chance: f64) -> bool {
        self.unit() < chance
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Every factor as likely as its inverse.
    pub fn spread(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }

    pub fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        let at = (self.unit() * of.len() as f64) as usize;
        of[at.min(of.len() - 1)]
    }

    /// The place of one of several shares.
    pub fn share(&mut self, shares: &[f64]) -> usize {
        let mut left = self.unit() * shares.iter().sum::<f64>();
        for (at, share) in shares.iter().enumerate() {
            left -= share;
            if left < 0.0 {
                return at;
            }
        }
        shares.len() - 1
    }

    /// Normal, with mean 0 and deviation 1, by Box and Muller.
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.unit()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.unit()).cos()
    }
}

/// A number for a name (FNV-1a, 64 bits).
pub fn number_of(name: &str) -> u64 {
    let step = |sum: u64, byte: u8| (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01B3);
    name.bytes().fold(0xCBF2_9CE4_8422_2325, step)
}

/// The chances jobs are drawn from.
#[derive(Debug, Clone)]
pub struct Chances {
    events: Vec<f64>,
    values: Vec<Vec<f64>>,
    unlisted: f64,
}

impl Chances {
    /// Those of the tree.
    pub fn of(model: &Model) -> Self {
        let values = |values: &[(String, f64)]| values.iter().map(|value| value.1).collect();
        let conditions = model.tree.conditions.iter();
        Self {
            events: model.priors.events.clone(),
            values: conditions.map(|c| values(&c.values)).collect(),
            unlisted: model.priors.unlisted,
        }
    }

    /// Each multiplied by a factor of its own between a third and three.
    pub fn perturbed(mut self, seed: u64) -> Self {
        let mut random = Random::of(&[seed, number_of("perturbed")]);
        let all = self.events.iter_mut();
        for chance in all.chain(self.values.iter_mut().flatten()) {
            *chance *= random.spread(1.0 / 3.0, 3.0);
        }
        self.unlisted *= random.spread(1.0 / 3.0, 3.0);
        self
    }
}

/// Severities and air temperatures are drawn, then moved to the nearest of these, so that
/// parkings can be played once for several jobs.
const SEVERITIES: [f64; 5] = [0.5, 0.71, 1.0, 1.41, 2.0];
const CELSIUS: [f64; 6] = [-20.0, -9.0, 2.0, 13.0, 24.0, 35.0];

fn nearest(value: f64, of: &[f64], distance: impl Fn(f64, f64) -> f64) -> f64 {
    let better = |best: f64, next: &f64| {
        if distance(*next, value) < distance(best, value) {
            *next
        } else {
            best
        }
    };
    of.iter().fold(of[0], better)
}

/// One job: what is true of the aircraft, hidden from the diagnosis.
#[derive(Debug, Clone)]
pub struct Parked {
    /// Seed and number of the job, from which everything about it follows.
    pub key: [u64; 2],
    /// Which basic events are true.
    pub events: Vec<bool>,
    /// The value of every condition.
    pub values: Vec<usize>,
    /// Events each of which alone, in these conditions, makes the report true. None where the
    /// cause is not in the tree.
    pub acts: Vec<usize>,
    /// Severity of every event, should it be a fault.
    pub severity: Vec<f64>,
    /// Air temperature, K.
    pub kelvin: f64,
    /// Rise over run.
    pub slope: f64,
    /// Hours parked; more where it did not move before.
    pub hours: f64,
}

impl Parked {
    /// Draws what is hidden from the chances of the tree, given the report: parkings are drawn
    /// until one ends in such a report.
    pub fn draw(model: &Model, chances: &Chances, key: [u64; 2]) -> Self {
        let mut random = Random::of(&[key[0], key[1], number_of("hidden")]);
        let (events, values) = loop {
            let drawn = chances.events.iter().map(|chance| random.chance(*chance));
            let events: Vec<bool> = drawn.collect();
            let values: Vec<usize> = chances.values.iter().map(|v| random.share(v)).collect();
            if is_true(model, &events, &values) || random.chance(chances.unlisted) {
                break (events, values);
            }
        };
        let alone = |event: &usize| {
            let only: Vec<bool> = (0..events.len()).map(|at| at == *event).collect();
            is_true(model, &only, &values)
        };
        let causes = (0..events.len()).filter(|at| events[*at]);
        let causes = causes.filter(|at| model.causes[*at].part == Part::Cause);
        let acts = causes.filter(alone).collect();
        let mut parked = Self {
            key,
            acts,
            severity: vec![1.0; events.len()],
            events,
            values,
            kelvin: 288.15,
            slope: 0.01,
            hours: 8.0,
        };
        parked.weather(0);
        parked
    }

    /// Draws severity, weather, slope and hours; again, where it is not the
    /// hidden cause that would have moved the aircraft with them.
    pub fn weather(&mut self, attempt: u64) {
        let mut random = Random::of(&[self.key[0], self.key[1], number_of("weather"), attempt]);
        let ratio = |a: f64, b: f64| (a / b).ln().abs();
        for severity in &mut self.severity {
            *severity = nearest(random.spread(0.5, 2.0), &SEVERITIES, ratio);
        }
        let celsius = nearest(random.between(-20.0, 35.0), &CELSIUS, |a, b| (a - b).abs());
        self.kelvin = celsius + 273.15;
        // Stands are seldom steeper, and on less nothing rolls by itself: invented.
        self.slope = random.between(0.01, 0.02);
        // One parking in twenty is shorter than an hour, one in twenty longer than fourteen.
        let middle = 14.0_f64.ln() / 2.0;
        self.hours = (middle + middle / 1.645 * random.normal()).exp();
    }

    /// Whether an event is true.
    pub fn has(&self, model: &Model, id: &str) -> bool {
        self.events[place(model, id)]
    }

    /// Whether an event is true and acts in these conditions.
    pub fn acts(&self, model: &Model, id: &str) -> bool {
        self.acts.contains(&place(model, id))
    }

    /// The value of a condition.
    pub fn value<'a>(&self, model: &'a Model, id: &str) -> &'a str {
        value(model, &self.values, id)
    }
}

/// The trial names causes of the shipped tree; one that is gone must be seen at once.
fn place(model: &Model, id: &str) -> usize {
    let found = model.cause(id);
    found.unwrap_or_else(|| panic!("the trial speaks of `{id}`, which the tree has not"))
}

fn value<'a>(model: &'a Model, values: &[usize], id: &str) -> &'a str {
    let conditions = &model.tree.conditions;
    let at = conditions.iter().position(|c| c.id == id);
    let at = at.unwrap_or_else(|| panic!("the trial speaks of `{id}`, which the tree has not"));
    &conditions[at].values[values[at]].0
}

/// Whether the top is true.
fn is_true(model: &Model, events: &[bool], values: &[usize]) -> bool {
    let tree = &model.tree;
    let mut gates = vec![false; tree.gates.len()];
    for gate in tree.gates_inputs_first() {
        let holds = |node: &Node| match node {
            Node::Event(event) => events[*event],
            Node::Value { condition, value } => values[*condition] == *value,
            Node::Gate(gate) => gates[*gate],
        };
        let inputs = &tree.gates[*gate].inputs;
        let count = inputs.iter().filter(|node| holds(node)).count();
        gates[*gate] = match tree.gates[*gate].operator {
            Operator::Any => count > 0,
            Operator::All => count == inputs.len(),
            Operator::AtLeast(least) => count >= least,
            Operator::Not => count == 0,
            Operator::Either => count == 1,
        };
    }
    match tree.top {
        Node::Event(event) => events[event],
        Node::Value { condition, value } => values[condition] == value,
        Node::Gate(gate) => gates[gate],
    }
}
