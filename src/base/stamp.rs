//! Moments in time, to the second, in UTC.

use std::fmt;

/// A moment, as seconds since 1970.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stamp(i64);

impl Stamp {
    /// From seconds since 1970. Moments outside the years 0 to 9999 are moved to 1970.
    pub fn from_seconds(seconds: i64) -> Self {
        let valid = jiff::Timestamp::from_second(seconds).is_ok();
        Self(if valid { seconds } else { 0 })
    }

    /// Reads `2026-11-25T02:31:00Z`.
    pub fn parse(text: &str) -> Option<Self> {
        let stamp: jiff::Timestamp = text.parse().ok()?;
        Some(Self(stamp.as_second()))
    }

    /// Seconds since 1970.
    pub fn seconds(self) -> i64 {
        self.0
    }

    /// `02:31Z`: UTC, written as aviation writes it (ISO 8601).
    pub fn clock(self) -> String {
        let text = self.to_string();
        format!("{}Z", text.get(11..16).unwrap_or_default())
    }

    /// `20261125-0231`, for names of files.
    pub fn compact(self) -> String {
        let digits: String = self
            .to_string()
            .chars()
            .filter(char::is_ascii_digit)
            .collect();
        let (day, time) = digits.split_at(8.min(digits.len()));
        format!("{day}-{}", time.get(..4).unwrap_or(time))
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let stamp = jiff::Timestamp::from_second(self.0).unwrap_or_default();
        write!(f, "{stamp}")
    }
}

#[cfg(test)]
mod tests {
    use super::Stamp;

    #[test]
    fn a_stamp_is_written_and_read_back() {
        // 86 400 s after the start of 1970, counted by hand.
        let stamp = Stamp::from_seconds(86_400 + 2 * 3600 + 31 * 60);
        assert_eq!(stamp.to_string(), "1970-01-02T02:31:00Z");
        assert_eq!(stamp.clock(), "02:31Z");
        assert_eq!(stamp.compact(), "19700102-0231");
        assert_eq!(Stamp::parse(&stamp.to_string()), Some(stamp));
        assert_eq!(Stamp::parse("yesterday"), None);
    }
}
