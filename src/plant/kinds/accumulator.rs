//! Gas over fluid behind a floating piston.
//! The precharge is put in with the fluid side empty; fluid that passed the piston seal takes room
//! from the gas and leaves its mass. The stroke ends at its own figure, or where 7 % of the gas
//! volume is left, whichever comes first. Seal friction and the lag of the gas are data.

use crate::base::dimension::Dimension as D;
use crate::base::pressure::ATMOSPHERE;
use crate::plant::behaviour::Behaviour;
use crate::plant::kind::{Kind, ParameterForm as F, PortType as P, given, port, usual};
use crate::plant::levels::Drive;
use crate::plant::memory::Memory;
use crate::plant::physics::gas_charge::GasCharge;
use crate::plant::solver::store::{Moment, Piston, PistonStop, Store};
use crate::plant::stamp::Stamp;
use crate::plant::view::View;

/// The kind `accumulator`.
pub const KIND: Kind = Kind {
    name: "accumulator",
    doc: "Gas over fluid behind a floating piston.",
    ports: &[port("fluid", P::Hydraulic), port("gas", P::Gas)],
    parameters: &[
        given("gas-volume", F::Quantity(D::Volume)),
        usual("stroke", F::Quantity(D::Volume), 0.0),
        given("precharge", F::AtTemperature(D::GaugePressure)),
        usual("fluid-in-gas", F::Quantity(D::Volume), 0.0),
        usual("friction", F::Quantity(D::GaugePressure), 1e5),
        usual("gas-lag", F::Quantity(D::Time), 60.0),
    ],
    faults: &[
        "gas-low",
        "gas-lost",
        "piston-seal",
        "overcharged",
        "piston-jammed",
    ],
    hand: None,
    behaviour: &Works,
};

#[derive(Debug)]
struct Works;

/// Share of the gas volume that no stroke takes: invented.
const LEFT_BY_STROKE: f64 = 0.07;
impl Behaviour for Works {
    fn begin(&self, part: &View<'_>, memory: &mut Memory) {
        let room = room(part);
        let absolute = (part.value("precharge") + ATMOSPHERE).max(1.0);
        let put_in = GasCharge::filled(
            absolute,
            part.stated_at("precharge"),
            part.value("gas-volume"),
        );
        memory.gas = Some(GasCharge {
            mass: put_in.mass,
            volume: room,
            temperature: part.temperature,
        });
    }

    fn drive(&self, part: &View<'_>, drive: &mut Drive<'_>) {
        if let Some(gas) = part.memory.gas {
            drive.put("gas", gas.pressure() - ATMOSPHERE);
        }
    }

    fn stamps_every_step(&self) -> bool {
        true
    }

    fn stamp(&self, part: &View<'_>, stamp: &mut Stamp<'_>) {
        if let Some(piston) = piston(part)
            && !part.has("piston-jammed")
        {
            stamp.store("fluid", Store::Gas(piston));
        }
    }

    fn advance(&self, part: &View<'_>, memory: &mut Memory, seconds: f64) {
        let Some(piston) = piston(part) else {
            return;
        };
        if part.has("piston-jammed") {
            return;
        }
        let moment = Moment {
            fluid: part.temperature,
            gas: part.temperature,
            seconds,
        };
        memory.gas = Some(piston.after(part.pressure("fluid"), &moment));
    }

    fn refit(&self, part: &View<'_>, memory: &mut Memory) {
        let mut fresh = *memory;
        self.begin(part, &mut fresh);
        if let (Some(gas), Some(fresh)) = (&mut memory.gas, fresh.gas) {
            gas.mass = fresh.mass;
        }
    }

    fn mode(&self, part: &View<'_>) -> u8 {
        let piston = piston(part);
        match piston.map(|piston| piston.stop(piston.charge.volume)) {
            Some(PistonStop::Bottomed) => 1,
            Some(PistonStop::Full) => 2,
            _ => 0,
        }
    }
}

fn room(part: &View<'_>) -> f64 {
    let volume = part.value("gas-volume");
    (volume - part.value("fluid-in-gas")).max(0.02 * volume)
}

/// The piston with its gas as it is remembered.
pub fn piston(part: &View<'_>) -> Option<Piston> {
    let charge = part.memory.gas?;
    let volume = part.value("gas-volume");
    let room = room(part);
    let stroke = part.value("stroke");
    let full_stroke = if stroke > 0.0 { stroke } else { volume };
    let least = (room - full_stroke).max(LEFT_BY_STROKE * volume).min(room);
    Some(Piston {
        charge: GasCharge {
            volume: charge.volume.clamp(least, room),
            ..charge
        },
        room,
        least,
        friction: part.value("friction"),
        lag: part.value("gas-lag"),
        loss: part.loss("gas"),
    })
}
