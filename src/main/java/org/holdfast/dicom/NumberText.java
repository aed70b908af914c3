package org.holdfast.dicom;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/** Numbers written as text: DS and IS (PS3.5, section 6.2). */
final class NumberText {

    /** Longest decimal string that the standard allows, bytes. */
    static final int LONGEST = 16;

    /** Longest text that is looked at: writers exceed 16 characters, none needs this many digits. */
    private static final int LONGEST_READ = 128;

    /** Possessive, so that long runs of digits are passed once. */
    private static final Pattern NUMBER = Pattern.compile("[+-]?(\\d++\\.?\\d*+|\\.\\d++)([eE][+-]?\\d++)?");

    private NumberText() {}

    /** The number, with a decimal comma taken as a point; empty if the text is not a finite number. */
    static OptionalDouble parse(String text) {
        String trimmed = text.trim().replace(',', '.');
        if (trimmed.length() > LONGEST_READ || !NUMBER.matcher(trimmed).matches()) {
            return OptionalDouble.empty();
        }
        double value = Double.parseDouble(trimmed);
        return Double.isFinite(value) ? OptionalDouble.of(value) : OptionalDouble.empty();
    }

    /**
     * The number as a decimal string of at most 16 characters, with as many digits as fit.
     *
     * @throws IllegalArgumentException if the value is not finite
     */
    static String format(double value) {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("a decimal string must be a finite number, got " + value);
        }
        if (value == 0) {
            return "0";
        }
        BigDecimal exact = new BigDecimal(Double.toString(value)).stripTrailingZeros();
        for (int digits = 17; digits >= 1; digits--) {
            BigDecimal rounded = exact.round(new MathContext(digits)).stripTrailingZeros();
            String plain = rounded.scale() > 40 || rounded.scale() < -20 ? rounded.toString() : rounded.toPlainString();
            if (plain.length() <= LONGEST) {
                return plain;
            }
            if (rounded.toString().length() <= LONGEST) {
                return rounded.toString();
            }
        }
        throw new IllegalArgumentException("no decimal string of 16 characters holds " + value);
    }
}
