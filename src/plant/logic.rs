//! Travel, volts and signals: what every part drives, until nothing changes.

use super::error::PlantError;
use super::handle::Handle;
use super::levels::{Drive, Levels};

/// Passes before a net is said never to settle, and as many again for every part: whatever settles
/// does so within the longest chain, which holds every part once.
const PASSES: usize = 200;

impl Handle {
    /// Works all levels out from nothing.
    ///
    /// From nothing each time, because two rods that join each other would otherwise hold up a
    /// travel that nobody gives any more. Complexity: parts times the longest chain.
    pub(super) fn settle_levels(&mut self) -> Result<(), PlantError> {
        self.levels = Levels::nothing(self.wiring.nodes.len());
        let mut next = Levels::default();
        let mut changed = 0;
        for _ in 0..PASSES + self.aircraft.parts.len() {
            self.drive_into(&mut next);
            let different = next
                .value
                .iter()
                .zip(&self.levels.value)
                .position(|(a, b)| (a - b).abs() > 1e-12 * a.abs().max(1.0));
            let same = different.is_none()
                && next.jammed == self.levels.jammed
                && next.loss == self.levels.loss;
            changed = different.unwrap_or(changed);
            std::mem::swap(&mut self.levels, &mut next);
            if same {
                return Ok(());
            }
        }
        Err(PlantError::NeverSettles {
            net: self.wiring.net_name(&self.aircraft, changed),
        })
    }

    /// Carries slow changes (gas pressure, and what is read from it) on by two passes.
    pub(super) fn follow_levels(&mut self) {
        let mut next = Levels::default();
        for _ in 0..2 {
            self.drive_into(&mut next);
            std::mem::swap(&mut self.levels, &mut next);
        }
    }

    /// What every part drives, given the levels now.
    fn drive_into(&self, next: &mut Levels) {
        next.empty(self.wiring.nodes.len());
        for &at in &self.wiring.active {
            let part = &self.aircraft.parts[at];
            let view = self.view(at);
            let mut drive = Drive {
                nets: &self.wiring.nets[at],
                names: part.kind.ports,
                next,
            };
            part.kind.behaviour.drive(&view, &mut drive);
        }
    }
}
