package org.holdfast.intake;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.Objects;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * What stands in place of a subject's identity: the code, new UIDs, and a shift of all dates. UIDs and shift follow from a
 * secret by HMAC-SHA256 (RFC 2104), so that exams which are taken in years later get the same, and nobody without the
 * secret can go back. Immutable; the secret and the shift are never shown.
 */
public final class Pseudonyms {

    /** Bytes of the secret. */
    public static final int SECRET_BYTES = 32;

    private static final String ALGORITHM = "HmacSHA256";
    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9_-]{1,64}");
    // Registered UIDs of PS3.6 are short numbers; a long one under the standard's root is a device's own.
    private static final Pattern STANDARD_UID = Pattern.compile("1\\.2\\.840\\.10008(\\.\\d{1,5}){1,10}");
    private static final int UID_BYTES = 16;
    private static final int FEWEST_WEEKS = 53;
    private static final int MOST_WEEKS = 521;

    private final SecretKeySpec secret;
    private final String subjectCode;
    private final int shiftDays;

    /**
     * @param secret 32 random bytes, the same for all subjects; copied
     * @param subjectCode the study's code of the subject: letters, digits, - and _, 1 to 64 of them
     * @throws IllegalArgumentException if one of them is not so
     */
    public Pseudonyms(byte[] secret, String subjectCode) {
        if (secret.length != SECRET_BYTES) {
            throw new IllegalArgumentException("secret must have " + SECRET_BYTES + " bytes, got " + secret.length);
        }
        if (!isCode(Objects.requireNonNull(subjectCode, "subjectCode"))) {
            throw new IllegalArgumentException(
                    "subjectCode must be 1 to 64 letters, digits, - and _, got \"" + subjectCode + "\"");
        }
        this.secret = new SecretKeySpec(secret, ALGORITHM);
        this.subjectCode = subjectCode;
        this.shiftDays = -7 * weeks(subjectCode);
    }

    /** Whether a text can be a subject's code. */
    public static boolean isCode(String text) {
        return CODE.matcher(text).matches();
    }

    String subjectCode() {
        return subjectCode;
    }

    /**
     * Days to add to every date of the subject: whole weeks back, so that days of the week stay, from 53 to 521 weeks (one
     * to ten years).
     */
    int shiftDays() {
        return shiftDays;
    }

    /** The day in place of another. */
    public LocalDate shifted(LocalDate day) {
        return day.plusDays(shiftDays);
    }

    /** The day that stands behind a shifted one. */
    public LocalDate unshifted(LocalDate day) {
        return day.minusDays(shiftDays);
    }

    /**
     * The UID in place of another: root 2.25 and 128 bits of the HMAC (PS3.5, annex B.2), at most 44 characters. The
     * standard's own UIDs stay, an empty one stays empty.
     */
    String uid(String old) {
        if (old.isEmpty() || isStandard(old)) {
            return old;
        }
        byte[] number = Arrays.copyOf(hmac("uid", old), UID_BYTES);
        return "2.25." + new BigInteger(1, number);
    }

    /** Whether a UID is one of the standard's, such as a SOP class. */
    static boolean isStandard(String uid) {
        return STANDARD_UID.matcher(uid).matches();
    }

    private int weeks(String code) {
        BigInteger number = new BigInteger(1, hmac("shift", code));
        BigInteger span = BigInteger.valueOf(MOST_WEEKS - FEWEST_WEEKS + 1);
        return FEWEST_WEEKS + number.mod(span).intValue();
    }

    private byte[] hmac(String purpose, String text) {
        try {
            Mac mac = Mac.getInstance(ALGORITHM);
            mac.init(secret);
            mac.update(purpose.getBytes(StandardCharsets.UTF_8));
            mac.update((byte) 0);
            return mac.doFinal(text.getBytes(StandardCharsets.UTF_8));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has " + ALGORITHM, e);
        }
    }
}
