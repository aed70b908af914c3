package org.holdfast.desktop.state;

import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Pattern;

/** Numbers as the window writes them: a thin space before units, a true minus, a dash with thin spaces in ranges. */
public final class Words {

    private static final char THIN_SPACE = '\u2009';
    private static final char MINUS = '\u2212';
    /** What three decimals cannot show. */
    private static final double SAME_NOMINAL = 0.0005;

    private static final Pattern SIGNED_ZERO = Pattern.compile("-0(\\.0+)?");

    private Words() {}

    /** A number with so many decimals; what rounds to nothing has no minus. */
    public static String number(double value, int decimals) {
        String digits = String.format(Locale.ROOT, "%." + decimals + "f", value);
        return SIGNED_ZERO.matcher(digits).matches() ? digits.substring(1) : digits.replace('-', MINUS);
    }

    /** A number with its unit. */
    public static String quantity(double value, int decimals, String unit) {
        return number(value, decimals) + THIN_SPACE + unit;
    }

    /** A nominal value with its unit: one decimal, up to three where it was chosen so finely, such as 0.625 mm. */
    public static String nominal(double value, String unit) {
        int decimals = 1;
        while (decimals < 3 && Math.abs(value - rounded(value, decimals)) > SAME_NOMINAL) {
            decimals++;
        }
        return quantity(value, decimals, unit);
    }

    private static double rounded(double value, int decimals) {
        double tens = Math.pow(10, decimals);
        return Math.round(value * tens) / tens;
    }

    /** A fraction, 0 to 1, in percent with one decimal. */
    public static String percent(double fraction) {
        return quantity(100 * fraction, 1, "%");
    }

    /** Two fractions, 0 to 1, as a range of percents without the sign. */
    public static String percentRange(double low, double high) {
        return number(100 * low, 1) + THIN_SPACE + '–' + THIN_SPACE + number(100 * high, 1);
    }

    /** A length, or what stands for none. */
    public static String millimetres(OptionalDouble mm, int decimals, String otherwise) {
        return mm.isPresent() ? quantity(mm.getAsDouble(), decimals, "mm") : otherwise;
    }

    /** A text with its first letter in upper case. */
    public static String sentence(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
