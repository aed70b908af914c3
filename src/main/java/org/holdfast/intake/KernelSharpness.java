package org.holdfast.intake;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How sharp a convolution kernel is, by its name. Names are each maker's own (PS3.3, section C.8.15.3.8 leaves them free),
 * so this is a table of words; a name that is not in it is {@link #UNKNOWN} and speaks neither for nor against a stack.
 */
public enum KernelSharpness {
    /** Made for bone: edges are kept, noise is high. */
    BONE("bone kernel"),
    /** Sharper than bone kernels with overshoot at edges, made for lung or for show. */
    EDGE("edge-enhancing kernel"),
    /** Neither sharp nor smooth. */
    STANDARD("standard kernel"),
    /** Made for soft tissue: noise is low, edges are blurred. */
    SOFT("soft kernel"),
    /** Not in the table, or not said. */
    UNKNOWN("kernel of unknown sharpness");

    /** Words anywhere in a name, in the order in which they are looked for. */
    private static final List<Map.Entry<String, KernelSharpness>> WORDS = List.of(
            Map.entry("BONE", BONE),
            Map.entry("BONEPLUS", BONE),
            Map.entry("KNOCHEN", BONE),
            Map.entry("OSSEUX", BONE),
            Map.entry("HUESO", BONE),
            Map.entry("LUNG", EDGE),
            Map.entry("EDGE", EDGE),
            Map.entry("ULTRA", EDGE),
            Map.entry("CHST", STANDARD),
            Map.entry("STANDARD", STANDARD),
            Map.entry("STND", STANDARD),
            Map.entry("STD", STANDARD),
            Map.entry("DETAIL", STANDARD),
            Map.entry("SOFT", SOFT),
            Map.entry("SMOOTH", SOFT),
            Map.entry("WEICHTEIL", SOFT));

    /** Names that are a whole value by themselves. */
    private static final Map<String, KernelSharpness> WHOLE = Map.ofEntries(
            Map.entry("A", SOFT),
            Map.entry("B", STANDARD),
            Map.entry("UA", SOFT),
            Map.entry("UB", STANDARD),
            Map.entry("C", STANDARD),
            Map.entry("UC", STANDARD),
            Map.entry("D", BONE),
            Map.entry("E", BONE),
            Map.entry("YA", BONE),
            Map.entry("YB", BONE),
            Map.entry("YC", BONE),
            Map.entry("YD", EDGE),
            Map.entry("L", EDGE));

    /** Letters, then a sharpness from 10 to 99: B30f, Br59, Hr64, I70f, Bv40, Qr36. */
    private static final Pattern NUMBERED =
            Pattern.compile("(?:B|BR|BV|BF|BL|H|HR|HC|HV|I|J|U|UR|D|Q|QR)(\\d{2})[A-Z]*");

    /** FC with two digits, in families by the part of the body. */
    private static final Pattern FAMILY = Pattern.compile("FC(\\d{2})[A-Z]?");

    private static final int BONE_FROM = 55;
    private static final int STANDARD_FROM = 36;
    private static final int EDGE_FROM = 85;

    private final String words;

    KernelSharpness(String words) {
        this.words = words;
    }

    /** The class in words. */
    public String words() {
        return words;
    }

    /** Neither better nor worse than a standard kernel: what is not known decides nothing. */
    int rank() {
        return switch (this) {
            case BONE -> 0;
            case EDGE, STANDARD, UNKNOWN -> 1;
            case SOFT -> 2;
        };
    }

    /** The class of a kernel as a scanner wrote it. */
    public static KernelSharpness of(String kernel) {
        String name = kernel.trim().toUpperCase(Locale.ROOT);
        KernelSharpness whole = WHOLE.get(name);
        if (whole != null) {
            return whole;
        }
        String first = name.split("[\\s\\\\/]+")[0];
        Matcher numbered = NUMBERED.matcher(first);
        if (numbered.matches()) {
            return bySharpness(Integer.parseInt(numbered.group(1)));
        }
        Matcher family = FAMILY.matcher(first);
        if (family.matches()) {
            return byFamily(Integer.parseInt(family.group(1)));
        }
        String words = " " + name.replaceAll("[^A-Z]+", " ") + " ";
        return WORDS.stream()
                .filter(entry -> words.contains(" " + entry.getKey() + " "))
                .map(Map.Entry::getValue)
                .findFirst()
                .orElse(UNKNOWN);
    }

    private static KernelSharpness bySharpness(int value) {
        if (value >= EDGE_FROM) {
            return EDGE;
        }
        return value >= BONE_FROM ? BONE : value >= STANDARD_FROM ? STANDARD : SOFT;
    }

    private static KernelSharpness byFamily(int number) {
        return switch (number / 10) {
            case 0, 1 -> number % 10 >= 4 && number % 10 <= 5 ? STANDARD : SOFT;
            case 2, 4, 6, 7 -> STANDARD;
            case 3 -> BONE;
            case 5 -> EDGE;
            case 8 -> number <= 81 ? BONE : EDGE;
            default -> UNKNOWN;
        };
    }
}
