package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * A DICOM data set: elements by tag, in the standard's order. Immutable and safe to share between threads.
 *
 * <p>Getters are lenient, because a file is what it is: an element that is absent, empty or not of the asked kind gives
 * an empty result; {@link #contains} and {@link #isBlank} tell these apart. Values are decoded when asked for. Text is
 * decoded with the SpecificCharacterSet of this data set or of the one around it. Pixel data that was read from a file is
 * not held here: see {@link DicomFile}.
 */
public final class DataSet {

    private static final Element[] NONE = {};

    /** By tag, each once: a header of very many tiny elements must take little more memory than their values. */
    private final Element[] elements;

    private final Context outer;
    private final Context inner;

    /**
     * What items take over from the data set around them.
     *
     * @param characterSet how text is decoded
     * @param signedPixels whether the pixels have a sign; null if not said
     */
    record Context(SpecificCharacterSet characterSet, Boolean signedPixels) {
        static final Context NONE = new Context(SpecificCharacterSet.DEFAULT, null);

        /** What holds inside a data set with these elements, either of them null if absent. */
        static Context inside(Context outer, Element characterSet, Element pixelRepresentation) {
            boolean names = characterSet != null && !characterSet.isSequence();
            boolean says = pixelRepresentation != null
                    && !pixelRepresentation.isSequence()
                    && pixelRepresentation.value().length >= 2;
            if (!names && !says) {
                return outer;
            }
            return new Context(
                    names ? SpecificCharacterSet.ofElement(characterSet.value()) : outer.characterSet,
                    says ? Boolean.valueOf((pixelRepresentation.value()[0] & 1) == 1) : outer.signedPixels);
        }
    }

    private DataSet(Element[] elements, Context outer, Context inner) {
        this.elements = elements;
        this.outer = outer;
        this.inner = inner;
    }

    /** Starts an empty data set. */
    public static Builder builder() {
        return new Builder(List.of(), Context.NONE, false);
    }

    /** Starts a data set for elements as a file has them: of several with one tag the first is kept. */
    static Builder parsed(Context outer) {
        return new Builder(List.of(), outer, true);
    }

    /** Starts a data set with the elements of this one. */
    public Builder toBuilder() {
        return new Builder(Arrays.asList(elements), outer, false);
    }

    /** Tags of all elements, in the standard's order. */
    public List<Integer> tags() {
        return Arrays.stream(elements).map(Element::tag).toList();
    }

    private Element get(int tag) {
        int low = 0;
        int high = elements.length - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int order = Integer.compareUnsigned(elements[middle].tag(), tag);
            if (order == 0) {
                return elements[middle];
            }
            low = order < 0 ? middle + 1 : low;
            high = order < 0 ? high : middle - 1;
        }
        return null;
    }

    /** Whether the element is there, even if empty. */
    public boolean contains(int tag) {
        return get(tag) != null;
    }

    /** Whether the element is absent, empty, or holds only blanks. */
    public boolean isBlank(int tag) {
        Element e = get(tag);
        if (e == null) {
            return true;
        }
        if (e.isSequence()) {
            return e.items().isEmpty();
        }
        if (e.vr().kind() != Vr.Kind.TEXT) {
            return e.value().length == 0;
        }
        for (byte b : e.value()) {
            if (b != ' ' && b != 0) {
                return false;
            }
        }
        return true;
    }

    /** Representation of an element; empty if it is absent. */
    public Optional<Vr> vr(int tag) {
        return Optional.ofNullable(get(tag)).map(this::writtenVr);
    }

    /** First value as text without padding; empty if absent or blank. */
    public Optional<String> string(int tag) {
        List<String> all = strings(tag, 1);
        return all.isEmpty() || all.get(0).isEmpty() ? Optional.empty() : Optional.of(all.get(0));
    }

    /** All values as text without padding; values in between may be empty text. Numbers are written out. */
    public List<String> strings(int tag) {
        return strings(tag, Integer.MAX_VALUE);
    }

    private List<String> strings(int tag, int most) {
        Element e = get(tag);
        if (e == null || e.isSequence() || e.value().length == 0) {
            return List.of();
        }
        return switch (e.vr().kind()) {
            case TEXT -> ElementValues.texts(e, inner.characterSet(), most);
            case NUMBER -> ElementValues.numbersAsText(e, inner.signedPixels(), most);
            default -> e.vr() == Vr.UN ? ElementValues.texts(e, inner.characterSet(), most) : List.of();
        };
    }

    /** First value as a whole number; empty if absent or not one. */
    public OptionalInt integer(int tag) {
        OptionalDouble first = decimal(tag);
        return first.isPresent() && isWhole(first.getAsDouble())
                ? OptionalInt.of((int) first.getAsDouble())
                : OptionalInt.empty();
    }

    /**
     * All values as whole numbers; an empty array if absent or if one is not a whole number of 32 bits. The sign of
     * elements of type "US or SS" is that of the pixels, whatever the file says.
     */
    public int[] integers(int tag) {
        double[] values = decimals(tag);
        int[] whole = new int[values.length];
        for (int i = 0; i < values.length; i++) {
            if (!isWhole(values[i])) {
                return new int[0];
            }
            whole[i] = (int) values[i];
        }
        return whole;
    }

    private static boolean isWhole(double value) {
        return value == Math.rint(value) && Math.abs(value) <= Integer.MAX_VALUE;
    }

    /** First value as a number; empty if absent or not a finite number. */
    public OptionalDouble decimal(int tag) {
        Element e = get(tag);
        double[] all = e != null && !e.isSequence() && e.vr().kind() == Vr.Kind.NUMBER
                ? ElementValues.numbers(e, inner.signedPixels(), 1)
                : decimals(tag);
        return all.length == 0 ? OptionalDouble.empty() : OptionalDouble.of(all[0]);
    }

    /** All values as numbers; an empty array if absent or if one of them is not a finite number. */
    public double[] decimals(int tag) {
        Element e = get(tag);
        if (e == null || e.isSequence()) {
            return new double[0];
        }
        if (e.vr().kind() == Vr.Kind.NUMBER) {
            return ElementValues.numbers(e, inner.signedPixels(), Integer.MAX_VALUE);
        }
        List<String> texts = strings(tag);
        double[] values = new double[texts.size()];
        for (int i = 0; i < values.length; i++) {
            OptionalDouble value = NumberText.parse(texts.get(i));
            if (value.isEmpty()) {
                return new double[0];
            }
            values[i] = value.getAsDouble();
        }
        return values;
    }

    /** Items of a sequence; an empty list if absent or not a sequence. */
    public List<DataSet> items(int tag) {
        Element e = get(tag);
        return e == null || !e.isSequence() ? List.of() : e.items();
    }

    /** First item of a sequence. */
    public Optional<DataSet> item(int tag) {
        return items(tag).stream().findFirst();
    }

    /** The value field as it is, little endian; a copy. Empty if absent or a sequence. */
    public Optional<byte[]> bytes(int tag) {
        Element e = get(tag);
        return e == null || e.isSequence()
                ? Optional.empty()
                : Optional.of(e.value().clone());
    }

    /** Copies those of the named elements that are here, as they are; an element that is absent is left as it is there. */
    public void copy(Builder into, int... tags) {
        for (int tag : tags) {
            Element e = get(tag);
            if (e != null) {
                into.add(e);
            }
        }
    }

    /** The data set's elements, for writing. */
    Iterable<Element> elements() {
        return Arrays.asList(elements);
    }

    /** The representation to write: "US or SS" follows the pixels. */
    Vr writtenVr(Element e) {
        boolean either = (e.vr() == Vr.US || e.vr() == Vr.SS) && Tag.hasSignOfPixels(e.tag());
        Boolean signed = inner.signedPixels();
        if (!either || signed == null || Tag.isLutDescriptor(e.tag())) {
            return e.vr();
        }
        return signed ? Vr.SS : Vr.US;
    }

    /** What an item inside this data set takes over. */
    Context inner() {
        return inner;
    }

    /**
     * Gathers the elements of a data set. Text beyond ASCII is written as UTF-8, and {@link #build} then says so in
     * SpecificCharacterSet; where a data set that was read has one, it is kept, and text must fit it.
     */
    public static final class Builder {
        private final Context outer;
        private final boolean keepsFirst;
        private final List<Element> gathered;
        private Element characterSet;
        private Element pixelRepresentation;
        private Context inner;
        private boolean inOrder = true;
        private int dropped;

        private Builder(List<Element> elements, Context outer, boolean keepsFirst) {
            this.outer = outer;
            this.keepsFirst = keepsFirst;
            this.gathered = new ArrayList<>(elements.size());
            elements.forEach(this::add);
        }

        /** Text under the representation that the standard gives the element; several values make a list. */
        public Builder string(int tag, String... values) {
            return string(tag, standardVr(tag), values);
        }

        /**
         * Text under a given representation.
         *
         * @throws IllegalArgumentException if the representation is not a text, a UID is over 64 characters or not made
         *     of digits and points, or the text does not fit this data set's character set
         */
        public Builder string(int tag, Vr vr, String... values) {
            if (vr.kind() != Vr.Kind.TEXT) {
                throw new IllegalArgumentException(Tag.format(tag) + " holds " + vr + ", not text");
            }
            for (String value : values) {
                if (vr == Vr.UI && !value.matches("[0-9.]{0,64}")) {
                    throw new IllegalArgumentException(
                            Tag.format(tag) + " needs a UID of at most 64 digits and points, got " + value);
                }
            }
            return add(Element.ofBytes(tag, vr, encode(tag, vr, String.join("\\", values))));
        }

        /** Whole numbers under the representation that the standard gives the element (US, SS, UL, SL or IS). */
        public Builder integers(int tag, int... values) {
            Vr vr = standardVr(tag);
            if (vr == Vr.IS) {
                String[] texts = new String[values.length];
                for (int i = 0; i < values.length; i++) {
                    texts[i] = Integer.toString(values[i]);
                }
                return string(tag, vr, texts);
            }
            ByteBuffer b = ByteBuffer.allocate(values.length * vr.unitBytes()).order(ByteOrder.LITTLE_ENDIAN);
            for (int value : values) {
                switch (vr) {
                    case US, SS -> b.putShort((short) requireRange(tag, value, -0x8000, 0xFFFF));
                    case UL, SL -> b.putInt(value);
                    default ->
                        throw new IllegalArgumentException(Tag.format(tag) + " holds " + vr + ", not whole numbers");
                }
            }
            return add(Element.ofBytes(tag, vr, b.array()));
        }

        /** Numbers under the representation that the standard gives the element (DS, FD or FL). */
        public Builder decimals(int tag, double... values) {
            Vr vr = standardVr(tag);
            if (vr == Vr.DS) {
                String[] texts = new String[values.length];
                for (int i = 0; i < values.length; i++) {
                    texts[i] = NumberText.format(values[i]);
                }
                return string(tag, vr, texts);
            }
            ByteBuffer b = ByteBuffer.allocate(values.length * vr.unitBytes()).order(ByteOrder.LITTLE_ENDIAN);
            for (double value : values) {
                switch (vr) {
                    case FD -> b.putDouble(value);
                    case FL -> b.putFloat((float) value);
                    default -> throw new IllegalArgumentException(Tag.format(tag) + " holds " + vr + ", not decimals");
                }
            }
            return add(Element.ofBytes(tag, vr, b.array()));
        }

        /** A sequence. */
        public Builder items(int tag, List<DataSet> items) {
            return add(Element.ofItems(tag, items));
        }

        /** A value field as it is, little endian; the array is copied. */
        public Builder bytes(int tag, Vr vr, byte[] value) {
            return add(Element.ofBytes(tag, vr, value.clone()));
        }

        /** 16-bit words, such as pixels of 16 bits allocated, as OW. */
        public Builder words(int tag, short[] words) {
            ByteBuffer b =
                    ByteBuffer.allocate(Math.multiplyExact(2, words.length)).order(ByteOrder.LITTLE_ENDIAN);
            b.asShortBuffer().put(words);
            return add(Element.ofBytes(tag, Vr.OW, b.array()));
        }

        /** Takes over all elements of another data set, over those that are here. */
        public Builder addAll(DataSet other) {
            other.elements().forEach(this::add);
            return this;
        }

        /** Leaves an element out. */
        public Builder remove(int tag) {
            gathered.removeIf(e -> e.tag() == tag);
            characterSet = tag == Tag.SPECIFIC_CHARACTER_SET ? null : characterSet;
            pixelRepresentation = tag == Tag.PIXEL_REPRESENTATION ? null : pixelRepresentation;
            inner = null;
            return this;
        }

        /** The data set. The builder may be used further; it does not change what was built. */
        public DataSet build() {
            arrange();
            return new DataSet(gathered.isEmpty() ? NONE : gathered.toArray(NONE), outer, inner());
        }

        Builder add(Element element) {
            int last = gathered.size() - 1;
            inOrder &= last < 0 || Integer.compareUnsigned(gathered.get(last).tag(), element.tag()) < 0;
            gathered.add(element);
            if (element.tag() == Tag.SPECIFIC_CHARACTER_SET && !(keepsFirst && characterSet != null)) {
                characterSet = element;
                inner = null;
            }
            if (element.tag() == Tag.PIXEL_REPRESENTATION && !(keepsFirst && pixelRepresentation != null)) {
                pixelRepresentation = element;
                inner = null;
            }
            return this;
        }

        /** Elements that were left out because another one with their tag is kept; known once it is built. */
        int dropped() {
            return dropped;
        }

        /** What an item inside takes over, from the elements so far. */
        Context inner() {
            if (inner == null) {
                inner = Context.inside(outer, characterSet, pixelRepresentation);
            }
            return inner;
        }

        /** Puts the elements in order, one a tag. */
        private void arrange() {
            if (inOrder) {
                return;
            }
            gathered.sort((a, b) -> Integer.compareUnsigned(a.tag(), b.tag()));
            int kept = 0;
            for (Element e : gathered) {
                boolean again = kept > 0 && gathered.get(kept - 1).tag() == e.tag();
                if (!again) {
                    gathered.set(kept++, e);
                } else if (!keepsFirst) {
                    gathered.set(kept - 1, e);
                }
            }
            dropped += gathered.size() - kept;
            gathered.subList(kept, gathered.size()).clear();
            inOrder = true;
        }

        private byte[] encode(int tag, Vr vr, String text) {
            boolean ascii = StandardCharsets.US_ASCII.newEncoder().canEncode(text);
            if (ascii || !vr.usesCharacterSet()) {
                if (!ascii) {
                    throw new IllegalArgumentException(Tag.format(tag) + " holds ASCII only, got " + text);
                }
                return text.getBytes(StandardCharsets.US_ASCII);
            }
            boolean said = characterSet != null || outer.characterSet() != SpecificCharacterSet.DEFAULT;
            if (!said) {
                string(Tag.SPECIFIC_CHARACTER_SET, "ISO_IR 192");
            }
            return inner().characterSet()
                    .encode(text)
                    .orElseThrow(() -> new IllegalArgumentException(
                            Tag.format(tag) + " cannot be written in this data set's character set: " + text));
        }

        private static Vr standardVr(int tag) {
            Vr vr = ValueRepresentations.of(tag);
            if (vr == Vr.UN) {
                throw new IllegalArgumentException(
                        Tag.format(tag) + " is not a standard element; say its representation");
            }
            return vr;
        }

        private static int requireRange(int tag, int value, int lowest, int highest) {
            if (value < lowest || value > highest) {
                throw new IllegalArgumentException(
                        Tag.format(tag) + " holds 16 bits, " + lowest + " to " + highest + ", got " + value);
            }
            return value;
        }
    }

    /** Elements with their decoded values, one line each, for messages and tests. */
    public String describe() {
        StringBuilder out = new StringBuilder();
        describe(out, "");
        return out.toString();
    }

    private void describe(StringBuilder out, String indent) {
        for (Element e : elements) {
            out.append(indent).append(Tag.format(e.tag())).append(' ').append(writtenVr(e));
            if (e.isSequence()) {
                out.append(" items ").append(e.items().size()).append('\n');
                for (DataSet item : e.items()) {
                    item.describe(out, indent + "  > ");
                }
            } else if (e.vr().kind() == Vr.Kind.BYTES) {
                out.append(" bytes ").append(e.value().length).append(" hash ");
                out.append(Arrays.hashCode(e.value())).append('\n');
            } else {
                out.append(' ').append(strings(e.tag())).append('\n');
            }
        }
    }
}
