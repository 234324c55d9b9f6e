//! How much fluid passes an element, for the pressures at its two ends.

use crate::plant::physics::metering::opening;
use crate::plant::physics::orifice;

/// The fluid at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FluidNow {
    /// Density, kg/m3.
    pub density: f64,
    /// Dynamic viscosity at 15 C over the one now: laminar leaks scale with it.
    pub thinness: f64,
    /// Temperature, K.
    pub temperature: f64,
}

/// The law of an element. Pressures in Pa, conductances in m3/(s Pa) at 15 C, areas in m2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Wide open on the scale of hours; no viscosity, so that it stays an open passage.
    Passage(f64),
    /// Laminar leak; `hardens` is its growth per kelvin below 0 C, for seals that stiffen.
    Leak {
        /// Conductance at 15 C.
        conductance: f64,
        /// Growth per kelvin below 0 C.
        hardens: f64,
    },
    /// Sharp-edged hole.
    Orifice(f64),
    /// Opens one way above a cracking pressure, leaks both ways.
    OneWay {
        /// Conductance when open.
        open: f64,
        /// Cracking pressure, Pa.
        crack: f64,
        /// Conductance of the leak.
        leak: f64,
    },
    /// Supply to port of a metering valve; opens as the port falls below the command.
    MeterIn {
        /// Command, Pa.
        command: f64,
        /// Conductance wide open.
        open: f64,
        /// Conductance of the land.
        land: f64,
    },
    /// Port to return of a metering valve; opens as the port rises above the command.
    MeterOut {
        /// Command, Pa.
        command: f64,
        /// Conductance wide open.
        open: f64,
        /// Conductance of the lap with the spool off centre.
        wide: f64,
        /// Conductance of the lap with the spool at its null.
        null: f64,
    },
}

/// Flow from the first end to the second, and its change with either pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flow {
    /// m3/s.
    pub amount: f64,
    /// Change with the pressure at the first end.
    pub by_from: f64,
    /// Change with the pressure at the second end.
    pub by_to: f64,
}

impl Flow {
    fn straight(conductance: f64, difference: f64) -> Self {
        Self {
            amount: conductance * difference,
            by_from: conductance,
            by_to: -conductance,
        }
    }
}

impl Law {
    /// A plain laminar leak.
    pub fn leak(conductance: f64) -> Self {
        Self::Leak {
            conductance,
            hardens: 0.0,
        }
    }

    /// Flow for gauge pressures in Pa.
    pub fn flow(&self, from: f64, to: f64, fluid: &FluidNow) -> Flow {
        self.with(fluid).flow(from, to)
    }

    /// The law with a fluid put in: what does not change while pressures are searched for is
    /// worked out once.
    pub fn with(&self, fluid: &FluidNow) -> FluidLaw {
        let thinness = fluid.thinness;
        match *self {
            Self::Passage(conductance) => FluidLaw::Straight(conductance),
            Self::Leak {
                conductance,
                hardens,
            } => {
                let cold = (273.15 - fluid.temperature).max(0.0);
                FluidLaw::Straight(conductance * (thinness * (1.0 + hardens * cold)))
            }
            Self::Orifice(area) => FluidLaw::Orifice(orifice::factor(area, fluid.density)),
            Self::OneWay { open, crack, leak } => FluidLaw::OneWay {
                open,
                crack,
                leak: leak * thinness,
            },
            Self::MeterIn {
                command,
                open,
                land,
            } => FluidLaw::MeterIn {
                command,
                open,
                land: land * thinness,
            },
            Self::MeterOut {
                command,
                open,
                wide,
                null,
            } => FluidLaw::MeterOut {
                command,
                open,
                wide: wide * thinness,
                null: null * thinness,
            },
        }
    }
}

/// A [`Law`] for one fluid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FluidLaw {
    /// In proportion to the difference of pressure.
    Straight(f64),
    /// Sharp-edged hole, by its factor.
    Orifice(f64),
    /// See [`Law::OneWay`].
    OneWay {
        /// Conductance when open.
        open: f64,
        /// Cracking pressure, Pa.
        crack: f64,
        /// Conductance of the leak.
        leak: f64,
    },
    /// See [`Law::MeterIn`].
    MeterIn {
        /// Command, Pa.
        command: f64,
        /// Conductance wide open.
        open: f64,
        /// Conductance of the land.
        land: f64,
    },
    /// See [`Law::MeterOut`].
    MeterOut {
        /// Command, Pa.
        command: f64,
        /// Conductance wide open.
        open: f64,
        /// Conductance of the lap with the spool off centre.
        wide: f64,
        /// Conductance of the lap with the spool at its null.
        null: f64,
    },
}

impl FluidLaw {
    /// Flow for gauge pressures in Pa.
    pub fn flow(&self, from: f64, to: f64) -> Flow {
        let difference = from - to;
        match *self {
            Self::Straight(conductance) => Flow::straight(conductance, difference),
            Self::Orifice(factor) => {
                let (amount, slope) = orifice::through(factor, difference);
                Flow {
                    amount,
                    by_from: slope,
                    by_to: -slope,
                }
            }
            Self::OneWay { open, crack, leak } => {
                let mut flow = Flow::straight(leak, difference);
                if difference > crack {
                    flow.amount += open * (difference - crack);
                    flow.by_from += open;
                    flow.by_to -= open;
                }
                flow
            }
            Self::MeterIn {
                command,
                open,
                land,
            } => {
                // The port stands at the second end here.
                let (share, by_excess) = opening(command - to);
                let mut flow = Flow::straight(open * share + land, difference);
                flow.by_to -= open * by_excess * difference;
                flow
            }
            Self::MeterOut {
                command,
                open,
                wide,
                null,
            } => {
                let (below, by_below) = opening(command - from);
                let (above, by_above) = opening(from - command);
                let turn = null - wide;
                let lap = wide + turn * (1.0 - below.max(above));
                let mut flow = Flow::straight(lap + open * above, difference);
                let by_port = open * by_above + turn * (by_below - by_above);
                flow.by_from += by_port * difference;
                flow
            }
        }
    }
}
