//! What stands on the nets that carry no fluid: travel, volts, signals, gas pressure.

/// One value for each net, whatever its type.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Levels {
    /// Travel (1 is full), volts, signal or gauge pressure (Pa): the highest that anything puts there.
    pub value: Vec<f64>,
    /// For a mechanical net, where something on it is jammed.
    pub jammed: Vec<Option<f64>>,
    /// For a gas net, the share that leaks away per second.
    pub loss: Vec<f64>,
}

impl Levels {
    /// Nothing on any net.
    pub fn nothing(nets: usize) -> Self {
        Self {
            value: vec![0.0; nets],
            jammed: vec![None; nets],
            loss: vec![0.0; nets],
        }
    }

    /// Takes everything off, in the room that is there.
    pub fn empty(&mut self, nets: usize) {
        self.value.clear();
        self.value.resize(nets, 0.0);
        self.jammed.clear();
        self.jammed.resize(nets, None);
        self.loss.clear();
        self.loss.resize(nets, 0.0);
    }
}

/// Where a part puts what it drives.
#[derive(Debug)]
pub struct Drive<'a> {
    /// Nets of the ports of the part, in the order of its kind.
    pub nets: &'a [Option<usize>],
    /// Names of the ports, in the same order.
    pub names: &'a [super::kind::Port],
    /// What is built up.
    pub next: &'a mut Levels,
}

impl Drive<'_> {
    fn net(&self, port: &str) -> Option<usize> {
        let at = self.names.iter().position(|spec| spec.name == port)?;
        self.nets.get(at).copied().flatten()
    }

    /// Puts a value on the net of a port; the highest of all wins.
    pub fn put(&mut self, port: &str, value: f64) {
        if let Some(net) = self.net(port) {
            self.next.value[net] = self.next.value[net].max(value);
        }
    }

    /// Says that the net of a port is jammed at a position.
    pub fn jam(&mut self, port: &str, position: f64) {
        if let Some(net) = self.net(port) {
            self.next.jammed[net] = Some(position);
        }
    }

    /// Lets gas out of the net of a port, as a share per second.
    pub fn lose(&mut self, port: &str, share: f64) {
        if let Some(net) = self.net(port) {
            self.next.loss[net] += share;
        }
    }
}
