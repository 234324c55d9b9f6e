//! The chart: a fixed order of checks, against which the console's own choice is compared.
//!
//! The order is that of an expert who works from what disturbs nothing to what disturbs most. It
//! was written down before any trial was run, and is judgement: common practice, no source.

/// The checks in the order of the chart, a step of it each.
pub const CHART: [(&str, &[&str]); 8] = [
    (
        "still: look, photograph, write down what the last crew says",
        &[
            "lever-position",
            "pedals-free",
            "marks",
            "ask-shutdown-gauge",
            "ask-last-pump",
            "ask-pump-first",
            "ask-lever-order",
            "ask-who-touched",
            "ask-other-seat",
            "ask-tow",
            "ask-chocks",
            "ask-push",
            "ask-camera",
        ],
    ),
    (
        "cold, no power: gauge, indicator, breaker, wet spots, sight glasses",
        &[
            "gas-gauge",
            "position-indicator",
            "witness-mark",
            "breaker-in",
            "fluid-where",
            "highest-wet",
            "wet-at-valves",
            "reservoirs",
        ],
    ),
    (
        "battery on: light, caption, one gauge against the other",
        &[
            "park-light",
            "held-caption",
            "flight-deck-gauge",
            "gauges-agree",
        ],
    ),
    (
        "arithmetic before tools: hours, use, history",
        &[
            "ask-use-after",
            "ask-battery",
            "ask-last-work",
            "ask-before",
            "ask-gas-service",
        ],
    ),
    ("recharged once", &["leak-down"]),
    (
        "listening walk, then the store watched in two halves",
        &[
            "listen",
            "listen-at-store",
            "listen-at-metering",
            "listen-beyond",
            "store-watch",
            "released-watch",
        ],
    ),
    (
        "electrical half-split at the valve connector",
        &[
            "close-volts",
            "switch-volts",
            "hot-bus-volts",
            "breaker-holds",
            "switch-at-latch",
            "wire-ohms",
            "motor-winding",
        ],
    ),
    (
        "moving and opening, last",
        &[
            "cable-look",
            "quadrant-look",
            "gas-bubbles",
            "brakes-clamped",
            "pumps-in-turn",
            "motor-heard",
            "indicator-follows",
            "light-delay",
            "lever-latches",
            "latch-stays",
            "latch-spring",
            "seats-follow",
            "pedal-effort",
            "pedals-held",
            "applications",
            "pump-down",
            "oil-at-gas-valve",
            "return-flow",
        ],
    ),
];

/// Names of the checks, in the order of the chart.
pub fn order() -> impl Iterator<Item = &'static str> {
    CHART.iter().flat_map(|(_, checks)| checks.iter().copied())
}
