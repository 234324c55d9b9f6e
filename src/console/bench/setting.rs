//! Setting things on the bench: controls, faults, and the hands that set and let go the brake.

use super::course::replace;
use super::state::State;
use crate::base::suggestion::nearest;
use crate::plant::control::{Control, Form, fault};
use crate::plant::course::{Done, LONGEST, clock};
use crate::plant::handle::Change;

/// The words of the lever beside its positions: pedals down, lever up, feet off; and lever down.
const SET: &str = "set";
const RELEASED: &str = "released";
/// Tenths of a second from pedals down to lever up, and from there to feet off: chosen by us.
const HANDS: u64 = 20;
/// Severities that the arrows step through.
const SEVERITIES: [&str; 8] = ["0", "0.1", "0.25", "0.5", "1", "2", "5", "10"];

impl State {
    /// Sets a control by its name; the error is for people.
    pub fn set_control(&mut self, name: &str, value: &str) -> Result<(), String> {
        let Some(control) = self.controls.iter().find(|control| control.name == name) else {
            return Err(self.unknown(name));
        };
        let control = control.clone();
        if value.is_empty() {
            return Err(format!(
                "Write set {name} and a value; {}.",
                takes(&control)
            ));
        }
        if let (Form::Switch(_), SET | RELEASED) = (&control.form, value)
            && name == "lever"
        {
            return self.set_lever(value);
        }
        if control.form == Form::Precharge {
            return self.set_gas(&control, value);
        }
        if self.value(&control) == value {
            self.say(&format!("{} is {value} already.", control.title));
            return Ok(());
        }
        self.done(&control, value)?;
        let (title, time) = (&control.title, clock(self.play.now()));
        self.say(&format!("{title}: {value}, at {time}."));
        Ok(())
    }

    /// Gas is put in with the store empty, so that a parking begins anew with it.
    fn set_gas(&mut self, control: &Control, value: &str) -> Result<(), String> {
        let most = self.play.plant().pump_pressure();
        let change = control
            .read(value, 0.0, most)
            .map_err(|error| format!("Not set: {error}."))?;
        let mut course = self.play.course().anew(self.play.aircraft(), None);
        course.begin.retain(|done| done.name != control.name);
        course.begin.push(Done {
            at: 0,
            name: control.name.clone(),
            value: value.to_owned(),
            change,
        });
        replace(self, &course)?;
        self.running = false;
        self.unsaved = true;
        self.say(&format!("{}: {value}, parked anew with it.", control.title));
        Ok(())
    }

    fn unknown(&self, name: &str) -> String {
        let names = self.controls.iter().map(|control| control.name.as_str());
        match nearest(name, names) {
            Some(near) => format!("There is no control {name}; did you mean {near}?"),
            None => format!("There is no control {name}; controls lists them."),
        }
    }

    fn done(&mut self, control: &Control, value: &str) -> Result<(), String> {
        let now = self.play.now();
        let most = self.play.plant().pump_pressure();
        let change = control
            .read(value, in_seconds(now), most)
            .map_err(|error| format!("Not set: {error}."))?;
        self.apply(Done {
            at: now,
            name: control.name.clone(),
            value: value.to_owned(),
            change,
        })
    }

    fn apply(&mut self, done: Done) -> Result<(), String> {
        self.play
            .set(done)
            .map_err(|error| format!("Not set: {error}."))?;
        self.unsaved = true;
        // What was tried before means another aircraft.
        self.tried = None;
        self.look();
        Ok(())
    }

    /// Pedals of the first seat down, lever up, feet off; or the lever down.
    fn set_lever(&mut self, value: &str) -> Result<(), String> {
        let latched = self.play.plant().latched();
        if value == RELEASED {
            let lever = self.control("lever")?;
            self.done(&lever, "down")?;
            self.say("Lever down: the brake is let go.");
            return Ok(());
        }
        let lever = self.control("lever")?;
        if latched && self.value(&lever) == "up" {
            self.say("The lever is set already.");
            return Ok(());
        }
        let pedals = self
            .controls
            .iter()
            .find(|control| control.form == Form::Feet);
        let pedals = pedals.cloned().ok_or("This aircraft has no pedals.")?;
        self.done(&pedals, "down")?;
        self.pass(HANDS)?;
        self.done(&lever, "up")?;
        self.pass(HANDS)?;
        self.done(&pedals, "free")?;
        let time = clock(self.play.now());
        self.say(&format!("Pedals down, lever up, feet off, at {time}."));
        Ok(())
    }

    fn control(&self, name: &str) -> Result<Control, String> {
        let found = self.controls.iter().find(|control| control.name == name);
        found.cloned().ok_or_else(|| self.unknown(name))
    }

    /// Lets so many tenths of a second pass.
    pub fn pass(&mut self, tenths: u64) -> Result<(), String> {
        let to = self.play.now() + tenths;
        if to > LONGEST {
            return Err("A course ends after ten days; b goes back to its beginning.".to_owned());
        }
        let gone = self.play.go(to);
        self.unsaved = true;
        self.look();
        gone.map_err(|error| format!("Stopped: {error}."))
    }

    /// Puts a fault in, or takes it out.
    pub fn set_fault(&mut self, name: &str, severity: &str) -> Result<(), String> {
        let aircraft = self.play.aircraft();
        let change =
            fault(aircraft, name, severity).map_err(|error| format!("Not set: {error}."))?;
        let Change::Fault(part, id, number) = &change else {
            return Ok(());
        };
        let part = part.clone();
        let name = format!("{part}/{id}");
        let known = self.faults.iter().find(|row| row.name == name);
        let title = known.map_or_else(|| name.clone(), |row| row.title.clone());
        let words = match (*number > 0.0, self.severity(&name)) {
            (false, None) => {
                self.say(&format!("{title}: it is not in."));
                return Ok(());
            }
            (false, Some(_)) => format!("Taken out: {title}"),
            (true, _) => format!("Put in: {title}, severity {severity}"),
        };
        let now = self.play.now();
        self.apply(Done {
            at: now,
            name,
            value: severity.to_owned(),
            change,
        })?;
        let accumulator = self.play.aircraft().part_for(&part);
        let gas = accumulator.is_some_and(|part| part.kind.name == "accumulator");
        let anew = if gas { " p parks anew with it." } else { "" };
        self.say(&format!("{words}, at {}.{anew}", clock(now)));
        Ok(())
    }

    /// Takes all faults out.
    pub fn clear(&mut self) -> Result<(), String> {
        let faults = self.play.course().faults();
        let names: Vec<String> = faults.iter().map(|(name, _)| (*name).to_owned()).collect();
        if names.is_empty() {
            self.say("No fault is in.");
        }
        for name in names {
            self.set_fault(&name, "0")?;
        }
        Ok(())
    }

    /// Steps the marked control one position or figure up or down.
    pub fn step_control(&mut self, place: usize, up: bool) -> Result<(), String> {
        let Some(control) = self.controls.get(place).cloned() else {
            return Ok(());
        };
        let value = self.value(&control);
        match control.stepped(&value, up) {
            Some(next) => self.set_control(&control.name, &next),
            None => Err(format!(
                "{} has no such step; Enter types a value.",
                control.title
            )),
        }
    }

    /// Steps the severity of a listed fault.
    pub fn step_fault(&mut self, place: usize, up: bool) -> Result<(), String> {
        let Some(name) = self.listed().get(place).map(|row| row.name.clone()) else {
            return Ok(());
        };
        let number = |text: &str| text.parse::<f64>().unwrap_or(0.0);
        let now = number(&self.severity(&name).unwrap_or_default());
        let mut steps = SEVERITIES.iter();
        let next = if up {
            steps.find(|step| number(step) > now)
        } else {
            steps.rfind(|step| number(step) < now)
        };
        let next = next.ok_or("That is the end of its severities; type `fault` for others.")?;
        self.set_fault(&name, next)
    }

    /// Puts the listed fault in at its usual severity, or takes it out.
    pub fn take_fault(&mut self, place: usize) -> Result<(), String> {
        let Some(name) = self.listed().get(place).map(|row| row.name.clone()) else {
            return Ok(());
        };
        let severity = if self.severity(&name).is_some() {
            "0"
        } else {
            "1"
        };
        self.set_fault(&name, severity)
    }

    /// Changes the marked control: the lever is set or let go, two positions change over, anything
    /// else is typed.
    pub fn take_control(&mut self, place: usize) -> Result<(), String> {
        let Some(control) = self.controls.get(place).cloned() else {
            return Ok(());
        };
        match &control.form {
            Form::Switch(_) if control.name == "lever" => {
                let up = self.value(&control) == "up" && self.play.plant().latched();
                self.set_lever(if up { RELEASED } else { SET })
            }
            Form::Switch(_) | Form::Hand(_) => self.step_control(place, true),
            Form::Feet => {
                let pressed = self.value(&control) != "free";
                self.set_control(&control.name, if pressed { "free" } else { "down" })
            }
            Form::Figure(_) | Form::Air | Form::Precharge => {
                self.input = Some(format!(":set {} ", control.name));
                Ok(())
            }
        }
    }
}

/// What a control takes, for people.
pub fn takes(control: &Control) -> String {
    match &control.form {
        Form::Switch(words) if control.name == "lever" => {
            format!(
                "it takes {}, or set and released, with pedals and all",
                words.join(", ")
            )
        }
        Form::Switch(words) | Form::Hand(words) => format!("it takes {}", words.join(", ")),
        Form::Feet => "it takes free, down, hard, or percent left and right".to_owned(),
        Form::Air => "it takes 15 C, or 35 C, 6 h -15 C, lag 1.5 h".to_owned(),
        Form::Precharge => "it takes a pressure and its temperature: 76 bar at 20 C".to_owned(),
        Form::Figure(_) => format!("it is written like {}", control.usual),
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "ten days are far below the numbers that are held exactly"
)]
fn in_seconds(tenths: u64) -> f64 {
    tenths as f64 / 10.0
}
