//! What people would say and see of checks that take no reading of the plant.
//!
//! Written from what is physically there, never from the lines of the tree. Rates of error are
//! judgement for this trial, unless a row says that the plant was played for it.

use super::draw::Random;
use super::yard::Visit;

/// Least leak a contact probe picks out, mL/min: from memory of the trade.
const AUDIBLE: f64 = 5.0;
/// Litres by which a sight glass must be off: twice what can be told on it.
const MAIN_GLASS: f64 = 0.4;
const SECOND_GLASS: f64 = 0.25;
/// Newtons by which a pedal must be light.
const LIGHT: f64 = 25.0;
/// What is heard, felt or read on a sight glass: missed, and reported where nothing is.
const SURVEY: (f64, f64) = (0.15, 0.1);
/// What is measured or looked at straight.
const STRAIGHT: (f64, f64) = (0.02, 0.02);

/// The answer to a check, in its own word; `None` where it cannot be answered.
pub fn answer(visit: &Visit<'_>, check: usize, random: &mut Random) -> Option<&'static str> {
    let id = visit.yard.model.checks[check].id.as_str();
    let teller = Teller { visit, check };
    teller
        .people(id, random)
        .or_else(|| teller.records(id, random))
        .or_else(|| teller.looks(id, random))
        .or_else(|| teller.latch(id, random))
        .or_else(|| teller.electrics(id, random))
        .or_else(|| teller.hydraulics(id, random))
        .unwrap_or_else(|| panic!("the trial has no answer to `{id}`"))
}

/// Who tells; each table gives `None` for a check that is none of its own.
struct Teller<'a> {
    visit: &'a Visit<'a>,
    check: usize,
}

type Told = Option<Option<&'static str>>;

/// Yes or no, with the chance that a yes is missed and that a no is told as a yes.
fn told(random: &mut Random, truth: bool, (missed, false_alarm): (f64, f64)) -> Told {
    let wrong = random.chance(if truth { missed } else { false_alarm });
    word(if truth == wrong { "no" } else { "yes" })
}

/// The inverse: the good case is yes.
fn good(random: &mut Random, bad: bool, rates: (f64, f64)) -> Told {
    let shown = told(random, bad, rates);
    word(if shown == Some(Some("yes")) {
        "no"
    } else {
        "yes"
    })
}

#[expect(clippy::unnecessary_wraps, reason = "one form for every table")]
fn word(word: &'static str) -> Told {
    Some(Some(word))
}

/// The bad word where it is bad and seen, the good one otherwise; alarms for nothing give the bad.
fn seen(
    random: &mut Random,
    bad: Option<&'static str>,
    good: &'static str,
    others: &[&'static str],
    (missed, false_alarm): (f64, f64),
) -> Told {
    match bad {
        Some(bad) => word(if random.chance(missed) { good } else { bad }),
        None => word(if random.chance(false_alarm) {
            random.pick(others)
        } else {
            good
        }),
    }
}

impl Teller<'_> {
    fn has(&self, id: &str) -> bool {
        self.visit.parked.has(&self.visit.yard.model, id)
    }

    fn any(&self, ids: &[&str]) -> bool {
        ids.iter().any(|id| self.has(id))
    }

    fn acts(&self, id: &str) -> bool {
        self.visit.parked.acts(&self.visit.yard.model, id)
    }

    fn value(&self, id: &str) -> &str {
        self.visit.parked.value(&self.visit.yard.model, id)
    }

    /// The lever cannot be brought to stay up.
    fn will_not_latch(&self) -> bool {
        self.any(&["latch-dirty", "lever-rod-broken", "pedal-pivot-seized"])
    }

    /// What the crew and the ramp say. Nobody likes to say that he did it: a third of what speaks
    /// against the one who is asked is not told.
    fn people(&self, id: &str, random: &mut Random) -> Told {
        let supply = self.value("supply-used");
        let own_fault = (0.05, 0.3);
        match id {
            // Whoever fed it from the second system saw a needle up, and errs more often.
            "ask-last-pump" => {
                let taken = if supply == "second" { 0.4 } else { 0.2 };
                told(random, supply == "main", (0.05, taken))
            }
            "ask-pump-first" => told(random, supply != "none", (0.05, 0.25)),
            "ask-lever-order" => {
                let short = [
                    "never-set",
                    "part-set",
                    "mat-under-pedals",
                    "pedal-pivot-seized",
                ];
                told(random, !self.any(&short), own_fault)
            }
            "ask-who-touched" => {
                let by_hand = [
                    "let-go-by-a-person",
                    "tow-crew-did-not-reset",
                    "chock-slipped",
                ];
                let touched = self.value("lever-touched") == "yes";
                let truth = touched || by_hand.iter().any(|id| self.acts(id));
                told(random, truth, (0.3, 0.03))
            }
            "ask-other-seat" => told(random, self.acts("other-seat-over-pressed"), (0.3, 0.02)),
            "ask-shutdown-gauge" => {
                let empty = [
                    "set-with-nothing-feeding",
                    "set-before-pumps-ran",
                    "set-on-the-wrong-supply",
                    "set-on-part-empty-store",
                ];
                let full = !empty.iter().any(|id| self.acts(id));
                told(random, full, (0.05, 0.2))
            }
            "ask-use-after" => {
                // Doors and flaps are used on one parking in ten without any harm.
                let used = self.acts("store-used-up") || random.chance(0.1);
                told(random, used, (0.15, 0.03))
            }
            "ask-push" => {
                let by_force = ["thrust", "pushed", "blown"];
                let truth = by_force.iter().any(|id| self.acts(id));
                // A vehicle or a gale that did nothing is named as well now and then.
                let near = ["attached", "strong-wind", "engine-running"];
                let near = near.iter().any(|id| self.value(id) == "yes");
                told(random, truth, (0.15, if near { 0.15 } else { 0.03 }))
            }
            "ask-tow" => self.towed(random),
            "ask-chocks" => self.chocks(random),
            _ => None,
        }
    }

    fn towed(&self, random: &mut Random) -> Told {
        let words = ["not-towed", "set-after", "not-reset"];
        let shares = if self.acts("tow-crew-did-not-reset") {
            [0.1, 0.2, 0.7]
        } else if self.value("attached") == "yes" {
            [0.5, 0.47, 0.03]
        } else {
            [0.92, 0.07, 0.01]
        };
        word(words[random.share(&shares)])
    }

    fn chocks(&self, random: &mut Random) -> Told {
        let words = ["none-fitted", "slipped", "pulled", "held"];
        let shares = if self.acts("chock-slipped") {
            [0.05, 0.8, 0.1, 0.05]
        } else {
            [0.65, 0.03, 0.22, 0.1]
        };
        word(words[random.share(&shares)])
    }

    /// What stands in the log, and what a camera saw.
    fn records(&self, id: &str, random: &mut Random) -> Told {
        match id {
            "ask-battery" => {
                let cut = self.value("battery-disconnected") == "yes";
                // A breaker that tripped by itself is known to nobody.
                let out = self.any(&["breaker-open", "breaker-will-not-latch"]);
                let known = cut || (out && random.chance(0.5));
                told(random, known, (0.1, 0.02))
            }
            "ask-last-work" => {
                let worked = [
                    "left-bleed-port-loose",
                    "right-bleed-port-loose",
                    "rig-pin-left-in",
                    "gas-core-loose",
                    "gas-added-over-fluid",
                ];
                // Something is always worked on somewhere near.
                let near = self.any(&worked) || random.chance(0.1);
                told(random, near, (0.1, 0.02))
            }
            "ask-before" => {
                let comes_back = ["pawl-worn", "latch-spring-weak"];
                let creeping = [
                    "valve-seat-leaks",
                    "brake-seal-leaks",
                    "ran-down-as-designed",
                ];
                let before = match (self.any(&comes_back), self.any(&creeping)) {
                    (true, _) => random.chance(0.6),
                    (_, true) => random.chance(0.3),
                    _ => random.chance(0.1),
                };
                told(random, before, (0.1, 0.01))
            }
            "ask-gas-service" => told(random, self.has("gas-added-over-fluid"), (0.2, 0.03)),
            "ask-camera" => {
                // Most stands have no camera that looks at the wheels.
                let slid = self.acts("slid");
                let seen = if slid { "sliding" } else { "turning" };
                let other = if slid { "turning" } else { "sliding" };
                let shares = [0.6, 0.37, 0.03];
                word(["no-picture", seen, other][random.share(&shares)])
            }
            _ => None,
        }
    }

    /// What is seen.
    fn looks(&self, id: &str, random: &mut Random) -> Told {
        match id {
            "marks" => {
                let slid = self.acts("slid");
                let shares = if slid {
                    [0.1, 0.75, 0.15]
                } else {
                    [0.5, 0.03, 0.47]
                };
                word(["rolled", "slid", "none"][random.share(&shares)])
            }
            "pedals-free" => told(random, self.has("mat-under-pedals"), (0.15, 0.02)),
            "highest-wet" => {
                let (piston, hose) = (self.has("brake-seal-leaks"), self.has("hose-split"));
                if !piston && !hose {
                    // No brake is wet, so none has a highest wet point.
                    return Some(None);
                }
                let shares = if hose {
                    [0.05, 0.85, 0.1]
                } else {
                    [0.85, 0.05, 0.1]
                };
                word(["piston", "hose", "runs-from-above"][random.share(&shares)])
            }
            "cable-look" => {
                let lost = ["left-bell-crank-bolt-lost", "right-bell-crank-bolt-lost"];
                let off = ["left-cable-off", "right-cable-off"];
                let slack = ["left-cable-slack", "right-cable-slack"];
                let others = ["bolt-missing", "off-pulley", "slack"];
                let (bad, missed) = match () {
                    () if self.any(&lost) => (Some("bolt-missing"), 0.05),
                    () if self.any(&off) => (Some("off-pulley"), 0.05),
                    () if self.any(&slack) => (Some("slack"), 0.3),
                    () => (None, 0.0),
                };
                seen(random, bad, "good", &others, (missed, 0.05))
            }
            "quadrant-look" => {
                let pin = self.has("rig-pin-left-in").then_some("pin-left-in");
                let out = self.has("quadrant-out-of-rig").then_some("out-of-rig");
                let others = ["out-of-rig", "pin-left-in"];
                seen(random, pin.or(out), "in-rig", &others, (0.05, 0.04))
            }
            _ => None,
        }
    }

    /// Lever, latch and pedals, tried.
    fn latch(&self, id: &str, random: &mut Random) -> Told {
        match id {
            "latch-stays" => {
                // A weak spring lets go after hours, so an hour's watch says nothing of it.
                let severity = |id: &str| {
                    let at = self.visit.yard.model.cause(id);
                    at.map_or(1.0, |at| self.visit.parked.severity[at])
                };
                let worn = self.has("pawl-worn") && 0.7 * severity("pawl-worn") < 1.0;
                good(random, worn || self.will_not_latch(), STRAIGHT)
            }
            "lever-latches" => {
                let others = ["drops", "loose", "pedals-short"];
                // What lay under the pedals is seen by half of those who set the brake anew.
                let mat = self.has("mat-under-pedals") && random.chance(0.5);
                let bad = match () {
                    () if self.has("lever-rod-broken") => Some("loose"),
                    () if self.has("pedal-pivot-seized") || mat => Some("pedals-short"),
                    () if self.has("latch-dirty") => Some("drops"),
                    () => None,
                };
                seen(random, bad, "latches", &others, (0.1, 0.02))
            }
            "latch-spring" => good(random, self.has("latch-spring-weak"), STRAIGHT),
            "seats-follow" => {
                let off = ["left-cross-rod-detached", "right-cross-rod-detached"];
                good(random, self.any(&off), STRAIGHT)
            }
            "pedal-effort" => self.pedal_effort(random),
            _ => None,
        }
    }

    /// Played: effort of each side against a healthy one.
    fn pedal_effort(&self, random: &mut Random) -> Told {
        let light = |side: &str| {
            let name = format!("pedal-effort-{side}-n");
            let here = self.visit.number(self.check, &name);
            let healthy = self.visit.healthy_number(self.check, &name);
            let both = here.zip(healthy);
            both.is_some_and(|(here, healthy)| healthy - here > LIGHT)
        };
        let bad = match (light("left"), light("right")) {
            (true, true) => Some("both-light"),
            (true, false) => Some("left-light"),
            (false, true) => Some("right-light"),
            (false, false) => None,
        };
        let others = ["left-light", "right-light", "both-light"];
        seen(random, bad, "neither", &others, SURVEY)
    }

    /// What a meter shows, and what motor and light do.
    fn electrics(&self, id: &str, random: &mut Random) -> Told {
        let breaker = self.any(&["breaker-open", "breaker-will-not-latch"]);
        let flat = self.has("battery-flat");
        let switch = self.any(&["latch-switch-open", "latch-switch-mis-set"]);
        let unfed = flat || breaker || switch || self.will_not_latch();
        let wire = self.any(&["close-wire-open", "close-wire-bad-joint"]);
        let made = self.has("closed-switch-always-made");
        let silent = unfed || wire || made || self.has("motor-open-circuit");
        match id {
            "hot-bus-volts" => good(random, flat, STRAIGHT),
            "breaker-holds" => good(random, self.has("breaker-will-not-latch"), STRAIGHT),
            "switch-volts" => good(random, unfed, STRAIGHT),
            "switch-at-latch" => {
                // A lever that does not latch presses the switch no more than one out of adjustment.
                let by_hand = self.has("latch-switch-mis-set") || self.will_not_latch();
                let bad = match () {
                    () if self.has("latch-switch-open") => Some("never-makes"),
                    () if by_hand => Some("makes-by-hand"),
                    () => None,
                };
                seen(
                    random,
                    bad,
                    "makes",
                    &["makes-by-hand", "never-makes"],
                    STRAIGHT,
                )
            }
            "wire-ohms" => {
                let open = self.has("close-wire-open").then_some("open");
                let high = self.has("close-wire-bad-joint").then_some("high");
                seen(random, open.or(high), "good", &["high", "open"], STRAIGHT)
            }
            "motor-winding" => good(random, self.has("motor-open-circuit"), STRAIGHT),
            "indicator-follows" => {
                let still = self.any(&["gearbox-slips", "valve-jammed-open"]);
                if silent {
                    // A silent motor turns nothing, so there is nothing to follow.
                    return Some(None);
                }
                good(random, still, (0.03, 0.02))
            }
            "light-delay" => {
                let dark = ["lamp-dead", "light-contact-open", "relay-does-not-pull-in"];
                let dark = self.any(&dark) || self.has("closed-switch-does-not-make");
                let never = dark || self.has("valve-jammed-open") || (silent && !made);
                let bad = match () {
                    () if never => Some("never"),
                    () if made => Some("at-once"),
                    () => None,
                };
                seen(
                    random,
                    bad,
                    "after-a-stroke",
                    &["at-once", "never"],
                    STRAIGHT,
                )
            }
            _ => None,
        }
    }

    /// Levels, applications, pumps and noise: played.
    fn hydraulics(&self, id: &str, random: &mut Random) -> Told {
        match id {
            "main-needle" => good(random, self.has("main-pump-gives-nothing"), STRAIGHT),
            "store-charges" => {
                let dead = [
                    "charge-check-valve-stuck-shut",
                    "main-pump-gives-nothing",
                    "gas-lost",
                ];
                good(random, self.any(&dead), STRAIGHT)
            }
            "reservoirs" => self.reservoirs(random),
            "applications" => {
                let both = self
                    .visit
                    .number(self.like("pump-down"), "applications")
                    .zip(
                        self.visit
                            .healthy_number(self.like("pump-down"), "applications"),
                    );
                let Some((here, healthy)) = both else {
                    return Some(None);
                };
                let bad = match here - healthy {
                    less if less < -1.5 => Some("fewer"),
                    more if more > 1.5 => Some("more"),
                    _ => None,
                };
                seen(random, bad, "usual", &["fewer", "more"], STRAIGHT)
            }
            "pumps-in-turn" => {
                let all = |name: &str| {
                    let read = self.visit.made(self.check, name);
                    read.is_some_and(|read| read.reading == all_clamped())
                };
                let (main, second) = (
                    all("clamped-by-pedals-main"),
                    all("clamped-by-pedals-second"),
                );
                let bad = match (main, second) {
                    (true, true) => None,
                    (true, false) => return Some(None),
                    (false, true) => Some("second-only"),
                    (false, false) => Some("neither"),
                };
                seen(random, bad, "both", &["second-only", "neither"], STRAIGHT)
            }
            "listen-at-store" => {
                let probed = [
                    ("charge-check-valve", "charge-check-valve"),
                    ("supply-check-valve", "supply-check-valve"),
                    ("isolation-valve", "isolation-valve"),
                    ("relief-valve", "relief-valve"),
                ];
                self.loudest(random, &probed, None)
            }
            "listen-at-metering" => {
                let probed = [
                    ("left-metering-valve", "left"),
                    ("right-metering-valve", "right"),
                ];
                self.loudest(random, &probed, Some("alike"))
            }
            "listen-beyond" => {
                let probed = [
                    ("park-valve", "park-valve"),
                    ("leaking-shuttle", "a-shuttle"),
                    ("wet-brake", "a-brake"),
                ];
                self.loudest(random, &probed, Some("nothing"))
            }
            _ => None,
        }
    }

    /// Another check, for the state it is made in.
    fn like(&self, id: &str) -> usize {
        let found = self.visit.yard.model.check(id);
        found.unwrap_or_else(|| panic!("the trial speaks of `{id}`, which the tree has not"))
    }

    /// Sight glasses against the log, which was written with a full store.
    fn reservoirs(&self, random: &mut Random) -> Told {
        let empty_at_first = [
            "set-with-nothing-feeding",
            "set-before-pumps-ran",
            "set-on-the-wrong-supply",
            "set-on-part-empty-store",
            "store-used-up",
        ];
        let main = self.visit.gain_litres("main-reservoir") + random.normal() * MAIN_GLASS / 2.0;
        let second = self.visit.gain_litres("second-reservoir");
        let second = second + random.normal() * SECOND_GLASS / 2.0;
        let bad = match () {
            // What the store never held stands in the main reservoir.
            () if empty_at_first.iter().any(|id| self.acts(id)) => Some("main-up"),
            () if second > SECOND_GLASS => Some("second-up"),
            () if main > MAIN_GLASS => Some("main-up"),
            () if main < -MAIN_GLASS => Some("lost"),
            () => None,
        };
        let others = ["main-up", "second-up", "lost"];
        seen(random, bad, "as-usual", &others, SURVEY)
    }

    /// The loudest of some parts, ten minutes after the pumps stopped.
    fn loudest(
        &self,
        random: &mut Random,
        probed: &[(&str, &'static str)],
        nothing: Option<&'static str>,
    ) -> Told {
        let rounds = self.visit.rounds(self.like("listen"));
        if !rounds.fresh.latched() {
            // The walk is made with the lever up.
            return Some(None);
        }
        let plant = &rounds.ten_minutes;
        let flow = |role: &str| {
            let part = self
                .visit
                .yard
                .aircraft
                .part_for(role)
                .expect("a bound role");
            let flows = plant.flows_of(&part.id);
            let leaks = flows.iter().filter(|passing| !passing.serves);
            leaks
                .map(|passing| passing.flow.abs() * 60e6)
                .fold(0.0, f64::max)
        };
        let mut loudest: Option<(f64, &'static str)> = None;
        for (role, word) in probed {
            let flow = flow(role);
            if flow > AUDIBLE && loudest.is_none_or(|(most, _)| flow > most * 1.01) {
                loudest = Some((flow, *word));
            }
        }
        let words: Vec<&'static str> = probed.iter().map(|(_, word)| *word).collect();
        match (loudest, nothing) {
            (Some((_, heard)), _) if random.chance(SURVEY.0) => {
                let others: Vec<&'static str> = words
                    .into_iter()
                    .chain(nothing)
                    .filter(|word| *word != heard)
                    .collect();
                word(random.pick(&others))
            }
            (Some((_, heard)), _) => word(heard),
            (None, Some(nothing)) => seen(random, None, nothing, &words, SURVEY),
            // Nothing is heard there, and the check has no word for that.
            (None, None) if random.chance(SURVEY.1) => word(random.pick(&words)),
            (None, None) => Some(None),
        }
    }
}

fn all_clamped() -> stillwheel::plant::observe::Reading {
    stillwheel::plant::observe::Reading::word("8 of 8")
}
