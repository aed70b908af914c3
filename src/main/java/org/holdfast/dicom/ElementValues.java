package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** Decodes value fields (PS3.5, section 6.2). */
final class ElementValues {

    private ElementValues() {}

    /**
     * Values of a text element without padding; one blank value is none. Long bytes of unknown kind are no text.
     *
     * @param most values that are wanted at most
     */
    static List<String> texts(Element e, SpecificCharacterSet characterSet, int most) {
        if (e.vr() == Vr.UN && e.value().length > HeaderBudget.LONGEST_LIST) {
            return List.of();
        }
        String text = e.vr().usesCharacterSet()
                ? characterSet.decode(e.value(), e.vr())
                : new String(e.value(), StandardCharsets.ISO_8859_1);
        if (!e.vr().isMultiValued() && e.vr() != Vr.UN) {
            return List.of(withoutTrailingPadding(text));
        }
        List<String> values = new ArrayList<>();
        int from = 0;
        while (from >= 0 && values.size() < most) {
            int to = text.indexOf('\\', from);
            values.add(trim(to < 0 ? text.substring(from) : text.substring(from, to)));
            from = to < 0 ? -1 : to + 1;
        }
        return values.size() == 1 && values.get(0).isEmpty() ? List.of() : List.copyOf(values);
    }

    /** Values of a binary element written out; tags in the standard's form. */
    static List<String> numbersAsText(Element e, Boolean signedPixels, int most) {
        List<String> values = new ArrayList<>();
        if (e.vr() == Vr.AT) {
            ByteBuffer b = ByteBuffer.wrap(e.value()).order(ByteOrder.LITTLE_ENDIAN);
            while (b.remaining() >= 4 && values.size() < most) {
                values.add(Tag.format((b.getShort() & 0xFFFF) << 16 | b.getShort() & 0xFFFF));
            }
            return values;
        }
        for (double value : numbers(e, signedPixels, most)) {
            boolean whole = value == Math.rint(value) && Math.abs(value) < 1e15;
            values.add(whole ? String.format(Locale.ROOT, "%d", (long) value) : Double.toString(value));
        }
        return values;
    }

    /**
     * Values of a binary element; none for tags.
     *
     * @param signedPixels sign of elements of type "US or SS"; null if not known, then the representation decides
     * @param most values that are wanted at most
     */
    static double[] numbers(Element e, Boolean signedPixels, int most) {
        ByteBuffer b = ByteBuffer.wrap(e.value()).order(ByteOrder.LITTLE_ENDIAN);
        int count = e.vr() == Vr.AT ? 0 : Math.min(most, e.value().length / e.vr().unitBytes());
        double[] values = new double[count];
        for (int i = 0; i < count; i++) {
            values[i] = switch (e.vr()) {
                case US, SS -> isSigned(e, i, signedPixels) ? b.getShort() : b.getShort() & 0xFFFF;
                case UL -> b.getInt() & 0xFFFFFFFFL;
                case SL -> b.getInt();
                case FL -> b.getFloat();
                case FD -> b.getDouble();
                case UV -> Double.parseDouble(Long.toUnsignedString(b.getLong()));
                default -> b.getLong();
            };
        }
        return values;
    }

    private static boolean isSigned(Element e, int index, Boolean signedPixels) {
        if (Tag.isLutDescriptor(e.tag()) && index != 1) {
            return false;
        }
        Boolean signed = Tag.hasSignOfPixels(e.tag()) ? signedPixels : null;
        return signed == null ? e.vr() == Vr.SS : signed;
    }

    private static String trim(String value) {
        String text = withoutTrailingPadding(value);
        int from = 0;
        while (from < text.length() && (text.charAt(from) == ' ' || text.charAt(from) == 0)) {
            from++;
        }
        return text.substring(from);
    }

    private static String withoutTrailingPadding(String value) {
        int to = value.length();
        while (to > 0 && (value.charAt(to - 1) == ' ' || value.charAt(to - 1) == 0)) {
            to--;
        }
        return value.substring(0, to);
    }
}
