//! Temperature over the hours, and how slowly the equipment follows the air.

/// Whether the nitrogen equation and the viscosity line are of use at a temperature in kelvin:
/// -70 C to 100 C.
pub fn possible_temperature(kelvin: f64) -> bool {
    (203.15..=373.15).contains(&kelvin)
}

/// Air temperature as a broken line, and the equipment behind it.
#[derive(Debug, Clone, PartialEq)]
pub struct Climate {
    /// Seconds and kelvin, in order; constant before the first and after the last.
    points: Vec<(f64, f64)>,
    /// Time constant of the equipment, s; 0 follows at once.
    lag: f64,
    /// Temperature of fluid and gas now, K.
    now: f64,
}

impl Climate {
    /// The same temperature (K) all the time.
    pub fn steady(kelvin: f64) -> Self {
        Self {
            points: vec![(0.0, kelvin)],
            lag: 0.0,
            now: kelvin,
        }
    }

    /// Other weather from now on: a broken line of seconds and kelvin, in order, with the lag of
    /// the equipment in seconds.
    ///
    /// The equipment stays as warm as it is and follows from there. Were it warm at once, fluid
    /// that swells would vanish between two steps.
    #[must_use]
    pub fn turned(&self, points: Vec<(f64, f64)>, lag: f64) -> Self {
        let now = self.now;
        Self { points, lag, now }
    }

    /// Lets the equipment take the temperature of the air at a time, as if it had stood for long.
    pub fn soak(&mut self, time: f64) {
        self.now = self.air(time);
    }

    /// Temperature of fluid and gas, K.
    pub fn now(&self) -> f64 {
        self.now
    }

    /// Temperature of the air at a time in seconds, K.
    pub fn air(&self, seconds: f64) -> f64 {
        let after = self.points.iter().position(|point| point.0 > seconds);
        match (after, self.points.last()) {
            (Some(0), _) => self.points[0].1,
            (Some(at), _) => {
                let ((t0, k0), (t1, k1)) = (self.points[at - 1], self.points[at]);
                k0 + (k1 - k0) * (seconds - t0) / (t1 - t0)
            }
            (None, last) => last.map_or(288.15, |point| point.1),
        }
    }

    /// Temperature of the equipment after some seconds from a time on; exact between two points.
    pub fn after(&self, time: f64, seconds: f64) -> f64 {
        if seconds <= 0.0 {
            return self.now;
        }
        let (begin, end) = (self.air(time), self.air(time + seconds));
        if self.lag <= 0.0 {
            return end;
        }
        let rise = (end - begin) / seconds;
        let behind = rise * self.lag;
        end - behind + (self.now - begin + behind) * (-seconds / self.lag).exp()
    }

    /// Lets the equipment follow for some seconds from a time on.
    pub fn advance(&mut self, time: f64, seconds: f64) {
        self.now = self.after(time, seconds);
    }

    /// Seconds from a time to the next bend of the line.
    pub fn next_bend(&self, time: f64) -> Option<f64> {
        self.points
            .iter()
            .map(|point| point.0 - time)
            .find(|left| *left > 1e-6)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn equipment_follows_a_turn_of_the_weather_from_where_it_is() {
        let climate = Climate::steady(288.15).turned(vec![(100.0, 300.0)], 0.0);
        assert!((climate.after(100.0, 0.0) - 288.15).abs() < 1e-12);
        assert!((climate.after(100.0, 1.0) - 300.0).abs() < 1e-12);
        let slow = Climate::steady(288.15).turned(vec![(100.0, 300.0)], 50.0);
        let one_lag = 300.0 - (300.0 - 288.15) * (-1.0_f64).exp();
        assert!((slow.after(100.0, 50.0) - one_lag).abs() < 1e-9);
        let mut soaked = slow;
        soaked.soak(0.0);
        assert!((soaked.now() - 300.0).abs() < 1e-12);
    }
}
