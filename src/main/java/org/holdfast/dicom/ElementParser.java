package org.holdfast.dicom;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import org.holdfast.finding.Finding;

/**
 * Parses data elements (PS3.5, section 7) up to the pixel data. Every length is checked against what is left; depth,
 * number of elements and size are limited. One use per file.
 */
final class ElementParser {

    static final long UNDEFINED = 0xFFFFFFFFL;
    /** Deepest nesting of sequences; real files stay under ten. */
    static final int DEEPEST = 64;
    /** Most elements and items of one header. */
    static final int MOST_ELEMENTS = 1_000_000;
    /** Longest value that is kept, bytes. */
    static final long LONGEST_VALUE = 64L << 20;
    /** All values of one header together, bytes. */
    static final long LONGEST_HEADER = 128L << 20;

    private final Path file;
    private final ByteSource source;
    private final List<Finding> findings;
    private long at;
    private int currentTag;
    private int count;
    private long kept;
    private PixelLocation pixels;

    /** How the bytes of one level are read; below an unknown representation the items themselves tell. */
    private record Layout(boolean explicit, boolean bigEndian, boolean guessed) {

        /** Content of an element of unknown representation: implicit little endian by rule (PS3.5, 6.2.2, note 4). */
        Layout belowUnknown() {
            return explicit ? new Layout(false, false, true) : this;
        }
    }

    /** What stands before a value. */
    private record Header(int tag, Vr vr, long length) {}

    ElementParser(Path file, ByteSource source, long from, List<Finding> findings) {
        this.file = file;
        this.source = source;
        this.at = from;
        this.findings = findings;
    }

    /** Where parsing stopped. */
    long position() {
        return at;
    }

    /** Pixel data at the outermost level, or null. */
    PixelLocation pixels() {
        return pixels;
    }

    /** Reads the file meta information: elements of group 0002, always little endian. */
    DataSet meta() throws IOException, DicomReadException {
        DataSet.Builder out = DataSet.parsed(DataSet.Context.NONE);
        while (source.size() - at >= 8 && source.unsignedShort(at, false) == 0x0002) {
            boolean explicit = Vr.of(source.unsignedByte(at + 4), source.unsignedByte(at + 5)) != null;
            element(out, new Layout(explicit, false, false), source.size(), 0);
        }
        return out.build();
    }

    /** Reads the data set up to the pixel data or the end. */
    DataSet dataSet(TransferSyntax syntax) throws IOException, DicomReadException {
        Layout layout = new Layout(syntax.explicit(), syntax.bigEndian(), false);
        DataSet.Builder out = DataSet.parsed(DataSet.Context.NONE);
        while (pixels == null && source.size() - at >= 8) {
            if (!element(out, layout, source.size(), 0)) {
                break;
            }
        }
        if (pixels == null && source.size() > at && !isPaddingFrom(at)) {
            throw wrong("another element or the end", source.size() - at + " bytes that are not an element");
        }
        return out.build();
    }

    /** Reads one element; false if it was the delimiter of an item. */
    private boolean element(DataSet.Builder out, Layout layout, long end, int depth)
            throws IOException, DicomReadException {
        long start = at;
        require(8, end);
        currentTag = source.tag(at, layout.bigEndian);
        if (++count > MOST_ELEMENTS) {
            throw wrong("at most " + MOST_ELEMENTS + " elements and items", "more");
        }
        if (currentTag == Tag.ITEM_DELIMITATION || currentTag == Tag.SEQUENCE_DELIMITATION) {
            // A sequence's end that stands where an item's should ends both: it is left for the sequence.
            at += depth > 0 && currentTag == Tag.SEQUENCE_DELIMITATION ? 0 : 8;
            if (depth == 0) {
                findings.add(note("STRAY_DELIMITER", "a delimiter outside any sequence was skipped", start));
            }
            return depth == 0;
        }
        Header header = header(layout, end);
        if (depth == 0 && Tag.isPixelData(header.tag)) {
            long there = source.size() - at;
            pixels = new PixelLocation(
                    header.tag, header.vr, at, header.length == UNDEFINED ? -1 : header.length, there);
            return true;
        }
        value(out, header, layout, end, depth);
        return true;
    }

    private void value(DataSet.Builder out, Header header, Layout layout, long end, int depth)
            throws IOException, DicomReadException {
        if (header.length == UNDEFINED) {
            if (Tag.isPixelData(header.tag)) {
                skipFragments(layout, end);
                return;
            }
            Layout inside = header.vr == Vr.UN ? layout.belowUnknown() : layout;
            out.add(Element.ofItems(header.tag, sequence(out, inside, end, true, depth + 1)));
            return;
        }
        if (header.length > end - at) {
            throw wrong(
                    "a value of at most " + (end - at) + " bytes, which is what is left",
                    "a length of " + header.length);
        }
        if (header.vr == Vr.SQ) {
            out.add(Element.ofItems(header.tag, sequence(out, layout, at + header.length, false, depth + 1)));
        } else if (!itemsUnderUnknown(out, header, layout, depth)) {
            keep(out, header, layout);
        }
    }

    /** Items under an unknown representation of defined length; false if the value holds something else. */
    private boolean itemsUnderUnknown(DataSet.Builder out, Header header, Layout layout, int depth)
            throws IOException, DicomReadException {
        Layout inside = layout.belowUnknown();
        boolean mayBe = header.vr == Vr.UN && header.length >= 8 && source.tag(at, inside.bigEndian) == Tag.ITEM;
        if (!mayBe) {
            return false;
        }
        long start = at;
        try {
            out.add(Element.ofItems(header.tag, sequence(out, inside, start + header.length, false, depth + 1)));
            return true;
        } catch (DicomReadException e) {
            if (depth + 1 > DEEPEST || count > MOST_ELEMENTS) {
                throw e;
            }
            at = start;
            currentTag = header.tag;
            return false;
        }
    }

    private void keep(DataSet.Builder out, Header header, Layout layout) throws IOException, DicomReadException {
        long start = at;
        at += header.length;
        if (header.length > LONGEST_VALUE) {
            findings.add(note(
                    "LONG_VALUE_SKIPPED",
                    Tag.format(header.tag) + " holds " + header.length + " bytes and was left out",
                    start));
            return;
        }
        kept += header.length;
        if (kept > LONGEST_HEADER) {
            throw wrong("a header of at most " + LONGEST_HEADER + " bytes before the pixels", "more");
        }
        byte[] value = source.bytes(start, (int) header.length);
        if (layout.bigEndian) {
            ByteOrders.swap(value, header.vr.unitBytes());
        }
        out.add(Element.ofBytes(header.tag, header.vr, value));
    }

    private List<DataSet> sequence(DataSet.Builder outer, Layout layout, long end, boolean undefined, int depth)
            throws IOException, DicomReadException {
        if (depth > DEEPEST) {
            throw wrong("sequences at most " + DEEPEST + " deep", "deeper nesting");
        }
        int sequenceTag = currentTag;
        List<DataSet> items = new ArrayList<>();
        while (undefined || at < end) {
            currentTag = sequenceTag;
            require(8, end);
            int tag = source.tag(at, layout.bigEndian);
            long length = source.unsignedInt(at + 4, layout.bigEndian);
            if (tag == Tag.SEQUENCE_DELIMITATION) {
                at += 8;
                break;
            }
            if (tag != Tag.ITEM) {
                throw wrong("an item of the sequence", Tag.format(tag));
            }
            if (++count > MOST_ELEMENTS) {
                throw wrong("at most " + MOST_ELEMENTS + " elements and items", "more");
            }
            at += 8;
            items.add(item(outer, layout, length, end, depth));
        }
        currentTag = sequenceTag;
        return items;
    }

    private DataSet item(DataSet.Builder outer, Layout layout, long length, long end, int depth)
            throws IOException, DicomReadException {
        if (length != UNDEFINED && length > end - at) {
            throw wrong("an item of at most " + (end - at) + " bytes", "a length of " + length);
        }
        long itemEnd = length == UNDEFINED ? end : at + length;
        Layout inside = itemLayout(layout, itemEnd);
        DataSet.Builder out = DataSet.parsed(outer.inner());
        while (length == UNDEFINED || at < itemEnd) {
            if (!element(out, inside, itemEnd, depth)) {
                break;
            }
        }
        return out.build();
    }

    /** Items under UN are implicit by rule and explicit by habit of some writers: the first element's letters tell. */
    private Layout itemLayout(Layout layout, long itemEnd) throws IOException {
        if (!layout.guessed || itemEnd - at < 8) {
            return layout;
        }
        int group = source.unsignedShort(at, false);
        boolean letters = Vr.of(source.unsignedByte(at + 4), source.unsignedByte(at + 5)) != null;
        boolean small = letters && source.unsignedShort(at + 6, false) <= itemEnd - at - 8;
        return letters && small && group != 0xFFFE ? new Layout(true, false, true) : layout;
    }

    private Header header(Layout layout, long end) throws IOException, DicomReadException {
        int tag = currentTag;
        require(8, end);
        if (!layout.explicit) {
            long length = source.unsignedInt(at + 4, layout.bigEndian);
            at += 8;
            return new Header(tag, ValueRepresentations.of(tag), length);
        }
        int first = source.unsignedByte(at + 4);
        int second = source.unsignedByte(at + 5);
        Vr vr = Vr.of(first, second);
        if (vr == null) {
            return unknownRepresentation(layout, tag, first, second, end);
        }
        if (!vr.hasLongLength()) {
            int length = source.unsignedShort(at + 6, layout.bigEndian);
            at += 8;
            return new Header(tag, vr, length);
        }
        require(12, end);
        long length = source.unsignedInt(at + 8, layout.bigEndian);
        at += 12;
        return new Header(tag, vr, length);
    }

    /**
     * Letters that are no known representation: a newer one has the long form (PS3.5, section 7.1.2); an old or careless
     * one has the short form; no letters at all means that the element was written implicitly.
     */
    private Header unknownRepresentation(Layout layout, int tag, int first, int second, long end)
            throws IOException, DicomReadException {
        findings.add(note(
                "UNKNOWN_VR",
                String.format(
                        Locale.ROOT,
                        "%s has no valid value representation (bytes %02X %02X)",
                        Tag.format(tag),
                        first,
                        second),
                at));
        Vr standard = ValueRepresentations.of(tag);
        boolean letters = Character.isLetter(first) && Character.isLetter(second) && first < 128 && second < 128;
        long left = end - at;
        int shortLength = source.unsignedShort(at + 6, layout.bigEndian);
        long implicitLength = source.unsignedInt(at + 4, layout.bigEndian);
        if (letters && shortLength == 0 && left >= 12) {
            long longLength = source.unsignedInt(at + 8, layout.bigEndian);
            if (longLength <= left - 12 || longLength == UNDEFINED) {
                at += 12;
                return new Header(tag, Vr.UN, longLength);
            }
        }
        if (!letters && implicitLength <= left - 8) {
            at += 8;
            return new Header(tag, standard, implicitLength);
        }
        at += 8;
        return new Header(tag, standard == Vr.SQ ? Vr.UN : standard, shortLength);
    }

    /** Passes over the fragments of pixel data that lie in an item, such as an icon's. */
    private void skipFragments(Layout layout, long end) throws IOException, DicomReadException {
        while (true) {
            require(8, end);
            int tag = source.tag(at, layout.bigEndian);
            long length = source.unsignedInt(at + 4, layout.bigEndian);
            at += 8;
            if (tag == Tag.SEQUENCE_DELIMITATION) {
                return;
            }
            if (tag != Tag.ITEM || length > end - at) {
                throw wrong("a fragment of at most " + (end - at) + " bytes", Tag.format(tag) + " of length " + length);
            }
            at += length;
        }
    }

    /** Zeros after the last element come from writers that fill up a block. */
    private boolean isPaddingFrom(long from) throws IOException {
        for (long i = from; i < source.size(); i++) {
            if (source.unsignedByte(i) != 0) {
                return false;
            }
        }
        return true;
    }

    private void require(int bytes, long end) throws DicomReadException {
        if (end - at < bytes) {
            throw wrong(bytes + " more bytes of an element", (end - at) + " bytes before the end");
        }
    }

    private Finding note(String code, String text, long offset) {
        return Finding.info(code, text + " (at byte " + offset + ")", file.toString());
    }

    private DicomReadException wrong(String expected, String got) {
        return new DicomReadException(file, at, OptionalInt.of(currentTag), expected, got, null);
    }
}
