//! A short checksum, to tell whether a text is still the one it was. Not for security.

/// The 64-bit FNV-1a hash of some texts, as 16 hexadecimal digits.
///
/// Source: IETF draft on the FNV non-cryptographic hash algorithm (offset basis and prime).
pub fn checksum<'a>(texts: impl IntoIterator<Item = &'a str>) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    for text in texts {
        // A zero byte between texts keeps "ab" + "c" apart from "a" + "bc".
        for byte in text.bytes().chain(std::iter::once(0)) {
            hash ^= u64::from(byte);
            hash = hash.wrapping_mul(0x0000_0100_0000_01b3);
        }
    }
    format!("{hash:016x}")
}

#[cfg(test)]
mod tests {
    use super::checksum;

    #[test]
    fn texts_and_their_borders_count() {
        // FNV-1a of the one byte 0: basis x prime, worked out by hand.
        let one_zero = 0xcbf2_9ce4_8422_2325_u64.wrapping_mul(0x0000_0100_0000_01b3);
        assert_eq!(checksum([""]), format!("{one_zero:016x}"));
        assert_ne!(checksum(["ab", "c"]), checksum(["a", "bc"]));
    }
}
