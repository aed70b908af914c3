package org.holdfast.intake;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** New UIDs and the shift of dates: from the secret alone, and the same each time. */
final class PseudonymsTest {

    static byte[] secret() {
        byte[] secret = new byte[Pseudonyms.SECRET_BYTES];
        for (int i = 0; i < secret.length; i++) {
            secret[i] = (byte) i;
        }
        return secret;
    }

    static Pseudonyms of(String code) {
        return new Pseudonyms(secret(), code);
    }

    @Test
    void uidIsTheFirstHalfOfTheHmac() {
        // Computed: Python 3.11, int.from_bytes(hmac.new(bytes(range(32)), b'uid\0' + b'1.2.3.4',
        // sha256).digest()[:16])
        assertEquals("2.25.157910775163533369044210656696165106212", of("S-001").uid("1.2.3.4"));
    }

    @Test
    void shiftFollowsFromTheCode() {
        // Computed: Python 3.11, -7 * (53 + int.from_bytes(hmac.new(bytes(range(32)), b'shift\0S-001',
        // sha256).digest()) % 469)
        assertEquals(-1022, of("S-001").shiftDays());
        // Computed: the same call with S-002
        assertEquals(-2205, of("S-002").shiftDays());
    }

    @Test
    void shiftIsWholeWeeksFromOneToTenYearsBack() {
        Set<Integer> shifts = new HashSet<>();
        for (int i = 0; i < 2000; i++) {
            int days = of("S-" + i).shiftDays();
            assertEquals(0, days % 7);
            assertTrue(days <= -365 && days >= -3652, "" + days);
            shifts.add(days);
        }
        // By hand: 469 possible shifts, 2000 subjects; an even spread leaves out 469 · (1 − 1/469)^2000 ≈ 7 of them.
        assertTrue(shifts.size() > 440, "" + shifts.size());
    }

    @Test
    void anotherSecretGivesAnotherUid() {
        byte[] other = secret();
        other[31] ^= 1;
        assertNotEquals(of("S-001").uid("1.2.3.4"), new Pseudonyms(other, "S-001").uid("1.2.3.4"));
    }

    @Test
    void newUidsAreWellFormed() {
        for (int i = 0; i < 500; i++) {
            String uid = of("S-001").uid("1.3.6.1." + i);
            assertTrue(uid.matches("2\\.25\\.(0|[1-9]\\d{0,38})"), uid);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.2.840.10008.5.1.4.1.1.2", "1.2.840.10008.1.2.4.90", "1.2.840.10008.1.40.1", ""})
    void standardUidsStay(String uid) {
        assertEquals(uid, of("S-001").uid(uid));
    }

    @ParameterizedTest
    @ValueSource(strings = {"1.2.840.10008.20040119.72730", "1.2.840.1000", "1.2.840.100080.1", "SECRET-7731"})
    void uidsThatOnlyLookLikeItDoNot(String uid) {
        assertTrue(of("S-001").uid(uid).startsWith("2.25."));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "Müller", "a b", "../x", "A^B", "x\n"})
    void codesOfOtherCharactersAreRefused(String code) {
        assertFalse(Pseudonyms.isCode(code));
        assertThrows(IllegalArgumentException.class, () -> of(code));
    }

    @Test
    void codesAreAtMost64Long() {
        assertTrue(Pseudonyms.isCode("x".repeat(64)));
        assertFalse(Pseudonyms.isCode("x".repeat(65)));
    }
}
