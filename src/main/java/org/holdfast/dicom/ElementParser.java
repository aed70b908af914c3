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
    /** Zeros behind the last element that are taken as filling, bytes. */
    static final long LONGEST_FILLING = 16L << 20;

    private static final int META_GROUP = 0x0002;

    private final Path file;
    private final ByteSource source;
    private final List<Finding> findings;
    private final HeaderBudget budget;
    private long at;
    private int currentTag;
    private boolean zerosSeen;
    private boolean pastMeta;
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

    ElementParser(Path file, ByteSource source, long from, List<Finding> findings, HeaderBudget budget) {
        this.file = file;
        this.source = source;
        this.at = from;
        this.findings = findings;
        this.budget = budget;
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
        while (source.size() - at >= 8 && source.unsignedShort(at, false) == META_GROUP) {
            boolean explicit = Vr.of(source.unsignedByte(at + 4), source.unsignedByte(at + 5)) != null;
            element(out, new Layout(explicit, false, false), source.size(), 0);
        }
        return built(out);
    }

    /** Reads the data set up to the pixel data or the end. */
    DataSet dataSet(TransferSyntax syntax) throws IOException, DicomReadException {
        Layout layout = new Layout(syntax.explicit(), syntax.bigEndian(), false);
        pastMeta = true;
        DataSet.Builder out = DataSet.parsed(DataSet.Context.NONE);
        while (pixels == null && source.size() - at >= 8 && !isFillingAhead()) {
            if (!element(out, layout, source.size(), 0)) {
                break;
            }
        }
        if (pixels == null && source.size() > at && !isZeroFrom(at)) {
            throw wrong("another element or the end", source.size() - at + " bytes that are not an element");
        }
        return built(out);
    }

    /** Reads one element; false if it was the delimiter of an item. */
    private boolean element(DataSet.Builder out, Layout layout, long end, int depth)
            throws IOException, DicomReadException {
        long start = at;
        require(8, end);
        currentTag = source.tag(at, layout.bigEndian);
        count();
        if (currentTag == Tag.ITEM_DELIMITATION || currentTag == Tag.SEQUENCE_DELIMITATION) {
            // A sequence's end that stands where an item's should ends both: it is left for the sequence.
            at += depth > 0 && currentTag == Tag.SEQUENCE_DELIMITATION ? 0 : 8;
            if (depth == 0) {
                note("STRAY_DELIMITER", "a delimiter outside any sequence was skipped", start);
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
        } else if (depth == 0 && header.tag >>> 16 == META_GROUP && pastMeta) {
            note("META_IN_DATA_SET", Tag.format(header.tag) + " belongs into the file meta group; left out", at);
            at += header.length;
        } else if (!itemsUnderUnknown(out, header, layout, depth)) {
            keep(out, header, layout);
        }
    }

    /** Items under an unknown representation of defined length; false if the value holds something else. */
    private boolean itemsUnderUnknown(DataSet.Builder out, Header header, Layout layout, int depth)
            throws IOException, DicomReadException {
        Layout inside = layout.belowUnknown();
        boolean mayBe = header.vr == Vr.UN && header.length >= 8 && source.tag(at, inside.bigEndian) == Tag.ITEM;
        if (!mayBe || !budget.mayTry()) {
            return false;
        }
        long start = at;
        long taken = budget.taken();
        try {
            out.add(Element.ofItems(header.tag, sequence(out, inside, start + header.length, false, depth + 1)));
            return true;
        } catch (DicomReadException e) {
            if (depth + 1 > DEEPEST || budget.isSpent()) {
                throw e;
            }
            budget.giveBack(taken);
            at = start;
            currentTag = header.tag;
            return false;
        }
    }

    private void keep(DataSet.Builder out, Header header, Layout layout) throws IOException, DicomReadException {
        long start = at;
        if (header.length > (header.vr.mayBeLong() ? HeaderBudget.LONGEST_VALUE : HeaderBudget.LONGEST_LIST)) {
            note(
                    "LONG_VALUE_SKIPPED",
                    Tag.format(header.tag) + " holds " + header.length + " bytes and was left out",
                    start);
            at += header.length;
            return;
        }
        requireMemory(budget.takeElement(header.length));
        at += header.length;
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
            count();
            requireMemory(budget.takeItem());
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
        return built(out);
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
            if (tag >>> 16 == META_GROUP || length > end - at - 8 && length != UNDEFINED) {
                Header explicit = explicitAmongImplicit(end);
                if (explicit != null) {
                    return explicit;
                }
            }
            at += 8;
            return new Header(tag, ValueRepresentations.of(tag), length);
        }
        return explicitHeader(layout, tag, end);
    }

    /** An element with letters in an implicit data set, as a second file meta group has them; null if it is none. */
    private Header explicitAmongImplicit(long end) throws IOException, DicomReadException {
        boolean letters = Vr.of(source.unsignedByte(at + 4), source.unsignedByte(at + 5)) != null;
        return letters ? explicitHeader(new Layout(true, false, false), currentTag, end) : null;
    }

    private Header explicitHeader(Layout layout, int tag, long end) throws IOException, DicomReadException {
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
        note(
                "UNKNOWN_VR",
                String.format(
                        Locale.ROOT,
                        "%s has no valid value representation (bytes %02X %02X)",
                        Tag.format(tag),
                        first,
                        second),
                at);
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
            count();
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
    private boolean isFillingAhead() throws IOException {
        if (zerosSeen || source.tag(at, false) != 0 || source.size() - at > LONGEST_FILLING) {
            return false;
        }
        // Looked at once: zeros that end before the file does would else be counted again at every step.
        zerosSeen = true;
        return isZeroFrom(at);
    }

    private boolean isZeroFrom(long from) throws IOException {
        for (long i = from; i < source.size(); i++) {
            if (source.unsignedByte(i) != 0) {
                return false;
            }
        }
        return true;
    }

    private DataSet built(DataSet.Builder out) {
        DataSet built = out.build();
        if (out.dropped() > 0) {
            note("DUPLICATE_ELEMENT", out.dropped() + " elements repeat a tag; the first of each was kept", at);
        }
        return built;
    }

    private void count() throws DicomReadException {
        if (!budget.count()) {
            throw wrong("at most " + HeaderBudget.MOST_ELEMENTS + " elements and items", "more");
        }
    }

    private void requireMemory(boolean enough) throws DicomReadException {
        if (!enough) {
            throw wrong("a header that takes at most " + budget.most() + " bytes of memory", "more");
        }
    }

    private void require(int bytes, long end) throws DicomReadException {
        if (end - at < bytes) {
            throw wrong(bytes + " more bytes of an element", (end - at) + " bytes before the end");
        }
    }

    private void note(String code, String text, long offset) {
        if (budget.mayNote()) {
            findings.add(Finding.info(code, text + " (at byte " + offset + ")", file.toString()));
        }
    }

    private DicomReadException wrong(String expected, String got) {
        return new DicomReadException(file, at, OptionalInt.of(currentTag), expected, got, null);
    }
}
