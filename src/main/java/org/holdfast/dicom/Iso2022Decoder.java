package org.holdfast.dicom;

import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;

/**
 * Text with ISO 2022 escape sequences (PS3.5, section 6.1.2.5; PS3.3, table C.12-3 and C.12-4). One use per value.
 *
 * <p>G0 is what bytes below 80H mean, G1 what bytes from 80H on mean; an escape sequence changes one of them; the
 * delimiters of values, lines and name parts bring both back to the start.
 */
final class Iso2022Decoder {

    private static final Charset JIS_X_0201 = Charset.forName("JIS_X0201");
    private static final Charset JIS_X_0208 = Charset.forName("x-JIS0208");
    private static final Charset JIS_X_0212 = Charset.forName("JIS_X0212-1990");
    private static final Charset KS_X_1001 = Charset.forName("EUC-KR");
    private static final Charset GB_2312 = Charset.forName("GB2312");

    private final Charset initialG1;
    private final boolean personName;
    private Charset g0 = StandardCharsets.US_ASCII;
    private Charset g1;

    Iso2022Decoder(Charset initial, Vr vr) {
        this.initialG1 = initial == null ? StandardCharsets.ISO_8859_1 : initial;
        this.g1 = initialG1;
        this.personName = vr == Vr.PN;
    }

    String decode(byte[] value) {
        StringBuilder out = new StringBuilder(value.length);
        int at = 0;
        while (at < value.length) {
            int b = value[at] & 0xFF;
            int escape = b == 0x1B ? escape(value, at + 1) : 0;
            if (escape > 0) {
                at += 1 + escape;
                continue;
            }
            boolean upper = b >= 0x80;
            boolean pairs = upper ? isTwoBytes(g1) : isTwoBytes(g0) && b > 0x20;
            int length = pairs && at + 1 < value.length ? 2 : 1;
            out.append(new String(value, at, length, upper ? g1 : length == 2 ? g0 : StandardCharsets.US_ASCII));
            if (length == 1 && isDelimiter(b)) {
                g0 = StandardCharsets.US_ASCII;
                g1 = initialG1;
            }
            at += length;
        }
        return out.toString();
    }

    private boolean isDelimiter(int b) {
        return b == '\\' || b == '\n' || b == '\f' || b == '\r' || personName && (b == '^' || b == '=');
    }

    private static boolean isTwoBytes(Charset charset) {
        return charset == JIS_X_0208 || charset == JIS_X_0212 || charset == KS_X_1001 || charset == GB_2312;
    }

    /** Follows the escape sequence after ESC; returns its length, or 0 if it is not a known one. */
    private int escape(byte[] value, int at) {
        int first = byteAt(value, at);
        int second = byteAt(value, at + 1);
        int third = byteAt(value, at + 2);
        if (first == '(' && (second == 'B' || second == 'J')) {
            // The Roman half of JIS X 0201 differs from ASCII in two signs only; the delimiter \ must stay one.
            g0 = StandardCharsets.US_ASCII;
            return 2;
        }
        if (first == ')' && second == 'I') {
            g1 = JIS_X_0201;
            return 2;
        }
        if (first == '$' && (second == 'B' || second == '@')) {
            g0 = JIS_X_0208;
            return 2;
        }
        if (first == '$' && second == '(' && third == 'D') {
            g0 = JIS_X_0212;
            return 3;
        }
        if (first == '$' && second == ')' && (third == 'C' || third == 'A')) {
            g1 = third == 'C' ? KS_X_1001 : GB_2312;
            return 3;
        }
        return first == '-' ? upperHalf(second) : 0;
    }

    private int upperHalf(int letter) {
        int registration =
                switch (letter) {
                    case 'A' -> 100;
                    case 'B' -> 101;
                    case 'C' -> 109;
                    case 'D' -> 110;
                    case 'L' -> 144;
                    case 'G' -> 127;
                    case 'F' -> 126;
                    case 'H' -> 138;
                    case 'M' -> 148;
                    case 'T' -> 166;
                    case 'b' -> 203;
                    default -> 0;
                };
        if (registration == 0) {
            return 0;
        }
        g1 = SpecificCharacterSet.ofRegistration(registration);
        return 2;
    }

    private static int byteAt(byte[] value, int at) {
        return at < value.length ? value[at] & 0xFF : -1;
    }
}
