package org.holdfast.dicom;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.holdfast.finding.FileFailure;

/**
 * The pixel data of a file, to be written behind another data set without being decoded: the frames keep every byte and
 * their transfer syntax. Checked when it is made: that it is complete, and that its fragments follow each other. What
 * stands behind the pixel data, and behind the last frame of uncompressed pixel data, is not copied. Immutable; holds no
 * open file.
 */
public final class PixelCopy {

    private static final int ITEM_HEADER = 8;
    private static final int CHUNK = 1 << 20;

    private final Path path;
    private final TransferSyntax syntax;
    private final PixelLocation location;
    private final byte[] inflated;
    private final List<Part> parts;
    private final boolean excessCut;
    private final boolean comments;

    /** A run of bytes of the source: a fragment, or all uncompressed pixel data. */
    private record Part(long offset, long length) {}

    private PixelCopy(
            Path path,
            TransferSyntax syntax,
            PixelLocation location,
            byte[] inflated,
            List<Part> parts,
            boolean excessCut,
            boolean comments) {
        this.path = path;
        this.syntax = syntax;
        this.location = location;
        this.inflated = inflated;
        this.parts = List.copyOf(parts);
        this.excessCut = excessCut;
        this.comments = comments;
    }

    /**
     * The pixel data of a file; one without pixel data gives a copy of nothing.
     *
     * @throws DicomReadException if the transfer syntax is not a known one, the pixel data are not of its kind, or they
     *     are cut short or damaged
     */
    public static PixelCopy of(DicomFile source) throws DicomReadException {
        TransferSyntax syntax = TransferSyntax.of(source.transferSyntax().uid());
        if (!syntax.isKnown()) {
            throw wrong(source, 0, "a known transfer syntax", "another");
        }
        if (source.pixels().isEmpty()) {
            return new PixelCopy(source.path(), syntax, null, null, List.of(), false, false);
        }
        PixelLocation location = source.pixels().get();
        if (syntax.encapsulated() != location.length() < 0) {
            String expected = syntax.encapsulated() ? "fragments" : "pixel data of defined length";
            throw wrong(source, location.offset(), expected + ", as the transfer syntax says", "the other kind");
        }
        if (location.isTruncated()) {
            throw wrong(
                    source,
                    location.offset(),
                    location.length() + " bytes of pixel data",
                    location.available() + " bytes before the end");
        }
        try (FileChannel channel = FileChannel.open(source.path(), StandardOpenOption.READ)) {
            ByteSource bytes = ByteSource.of(channel);
            byte[] inflated = null;
            if (syntax.deflated()) {
                inflated = BoundedInflater.inflate(source.path(), bytes, source.dataSetStart());
                bytes = ByteSource.of(inflated);
            }
            if (syntax.encapsulated()) {
                List<Part> fragments = fragments(source, bytes);
                boolean comments = haveComments(fragments, bytes);
                return new PixelCopy(source.path(), syntax, location, null, fragments, false, comments);
            }
            long length = lengthOfFrames(source, location.length());
            List<Part> all = List.of(new Part(location.offset(), length));
            return new PixelCopy(source.path(), syntax, location, inflated, all, length < location.length(), false);
        } catch (IOException e) {
            throw new DicomReadException(
                    source.path(),
                    location.offset(),
                    OptionalInt.of(location.tag()),
                    "readable pixel data",
                    FileFailure.words(e),
                    e);
        }
    }

    /** The transfer syntax that the copy is written in. */
    public TransferSyntax syntax() {
        return syntax;
    }

    /** Whether bytes behind the last frame are left behind. */
    public boolean leavesExcessBehind() {
        return excessCut;
    }

    /** Whether a frame carries comments or other data beside its picture, which are copied with it; JPEG and JPEG-LS. */
    public boolean carriesComments() {
        return comments;
    }

    /** Writes the pixel data element, or nothing if there is none. */
    void writeTo(OutputStream out) throws IOException {
        if (location == null) {
            return;
        }
        ElementWriter writer = new ElementWriter(syntax, DicomWriter.SequenceLength.DEFINED);
        if (inflated != null) {
            writeTo(out, writer, ByteSource.of(inflated));
            return;
        }
        try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
            writeTo(out, writer, ByteSource.of(channel));
        }
    }

    private void writeTo(OutputStream out, ElementWriter writer, ByteSource source) throws IOException {
        if (!syntax.encapsulated()) {
            Part all = parts.get(0);
            int odd = (int) (all.length & 1);
            writer.header(out, location.tag(), representation(), (int) (all.length + odd));
            copy(source, all, out);
            out.write(new byte[odd]);
            return;
        }
        writer.header(out, location.tag(), Vr.OB, -1);
        for (Part fragment : parts) {
            writer.tag(out, Tag.ITEM);
            writer.int32(out, (int) fragment.length);
            copy(source, fragment, out);
        }
        writer.tag(out, Tag.SEQUENCE_DELIMITATION);
        writer.int32(out, 0);
    }

    private Vr representation() {
        return switch (location.vr()) {
            case OB, OW, OF, OD -> location.vr();
            default -> Vr.OW;
        };
    }

    private static void copy(ByteSource source, Part part, OutputStream out) throws IOException {
        for (long done = 0; done < part.length; ) {
            int take = (int) Math.min(CHUNK, part.length - done);
            out.write(source.bytes(part.offset + done, take));
            done += take;
        }
    }

    /** The items of compressed pixel data, the offset table first. A missing end mark behind whole items is no loss. */
    private static List<Part> fragments(DicomFile source, ByteSource bytes) throws IOException, DicomReadException {
        boolean bigEndian = source.transferSyntax().bigEndian();
        List<Part> found = new ArrayList<>();
        long at = source.pixels().orElseThrow().offset();
        while (bytes.size() - at >= ITEM_HEADER) {
            int tag = bytes.tag(at, bigEndian);
            long length = bytes.unsignedInt(at + 4, bigEndian);
            if (tag == Tag.SEQUENCE_DELIMITATION) {
                break;
            }
            if (tag != Tag.ITEM || found.size() >= EncapsulatedFrames.MOST_FRAGMENTS) {
                throw wrong(source, at, "a fragment of pixel data or their end", Tag.format(tag));
            }
            if (length > bytes.size() - at - ITEM_HEADER) {
                throw wrong(
                        source,
                        at,
                        "a fragment of " + length + " bytes",
                        bytes.size() - at - ITEM_HEADER + " bytes before the end");
            }
            found.add(new Part(at + ITEM_HEADER, length));
            at += ITEM_HEADER + length;
        }
        if (found.size() < 2) {
            throw wrong(source, at, "an offset table and a fragment of pixel data", found.size() + " items");
        }
        return found;
    }

    private static boolean haveComments(List<Part> fragments, ByteSource bytes) throws IOException {
        for (Part fragment : fragments) {
            if (JpegComments.in(bytes, fragment.offset, fragment.length)) {
                return true;
            }
        }
        return false;
    }

    /** Bytes that the frames take, made even; all that are there where the header does not tell. */
    private static long lengthOfFrames(DicomFile source, long there) {
        try {
            PixelLayout layout = PixelLayout.of(source);
            // 4:2:2 colour takes less than its samples say (PS3.3, section C.7.6.3.1.2).
            boolean fewer = layout.photometric().contains("422");
            long whole = layout.totalBytes();
            return fewer ? there : Math.min(there, whole + (whole & 1));
        } catch (DicomReadException e) {
            return there;
        }
    }

    private static DicomReadException wrong(DicomFile source, long at, String expected, String got) {
        return new DicomReadException(source.path(), at, OptionalInt.of(Tag.PIXEL_DATA), expected, got, null);
    }
}
