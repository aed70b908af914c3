package org.holdfast.dicom;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalInt;

/**
 * Where the frames of compressed pixel data lie (PS3.5, section A.4). Items are followed by their lengths only: bytes in
 * them that look like a delimiter mean nothing. Which fragments make a frame is found, in this order: one frame has all;
 * as many fragments as frames, one each; the offset table, if it points at fragments; else a frame begins with each
 * fragment that starts like an image of its codec. Immutable.
 */
final class EncapsulatedFrames {

    /** Most items of one file; in fragments of 1 kB that is a gigabyte. */
    static final int MOST_FRAGMENTS = 1 << 20;

    private static final int ITEM_HEADER = 8;
    private static final int WINDOW_BYTES = 4096;

    private final PixelSource source;
    private final List<List<Fragment>> frames;
    private final boolean cutShort;

    /**
     * One item's value.
     *
     * @param item offset of the item in the file
     * @param length bytes of its value that are there
     */
    private record Fragment(long item, int length) {
        long offset() {
            return item + ITEM_HEADER;
        }
    }

    private EncapsulatedFrames(PixelSource source, List<List<Fragment>> frames, boolean cutShort) {
        this.source = source;
        this.frames = frames;
        this.cutShort = cutShort;
    }

    /** Whether the file ends before its last fragment does. */
    boolean isCutShort() {
        return cutShort;
    }

    /** Frames that are there; fewer than the header says only if the file is cut short. */
    int count() {
        return frames.size();
    }

    /** Offset in the file of a frame's byte; of its end if it has fewer. */
    long offsetOf(int frameIndex, long byteOfFrame) {
        long offset = 0;
        long rest = byteOfFrame;
        for (Fragment f : frames.get(frameIndex)) {
            offset = f.offset() + Math.min(rest, f.length);
            if (rest < f.length) {
                break;
            }
            rest -= f.length;
        }
        return offset;
    }

    /** A frame's bytes, its fragments joined. */
    byte[] read(FileChannel channel, int frameIndex) throws IOException, DicomReadException {
        long length = 0;
        for (Fragment f : frames.get(frameIndex)) {
            length += f.length;
        }
        if (length > PixelSource.MOST_FRAME_BYTES) {
            throw wrong(
                    offsetOf(frameIndex, 0),
                    "a frame of at most " + PixelSource.MOST_FRAME_BYTES + " bytes",
                    length + " bytes");
        }
        ByteBuffer out = ByteBuffer.allocate((int) length);
        for (Fragment f : frames.get(frameIndex)) {
            out.limit(out.position() + f.length);
            fill(channel, f.offset(), out);
        }
        return out.array();
    }

    /** The first bytes of a frame, fewer if it is shorter. */
    byte[] start(FileChannel channel, int frameIndex, int most) throws IOException, DicomReadException {
        Fragment first = frames.get(frameIndex).get(0);
        ByteBuffer out = ByteBuffer.allocate(Math.min(first.length, most));
        fill(channel, first.offset(), out);
        return out.array();
    }

    /**
     * Finds the frames.
     *
     * @throws DicomReadException if the items are damaged or cannot be matched with the frames
     */
    static EncapsulatedFrames of(PixelSource source, FileChannel channel) throws IOException, DicomReadException {
        return new Finder(source, channel).find();
    }

    private DicomReadException wrong(long at, String expected, String got) {
        return new DicomReadException(source.path(), at, OptionalInt.of(Tag.PIXEL_DATA), expected, got, null);
    }

    private static void fill(FileChannel channel, long at, ByteBuffer into) throws IOException {
        long from = at - into.position();
        while (into.hasRemaining()) {
            if (channel.read(into, from + into.position()) < 0) {
                throw new EOFException("the file became shorter after its header was read");
            }
        }
    }

    /** Walks through the items of one file. */
    private static final class Finder {
        private final PixelSource source;
        private final FileChannel channel;
        private final ByteOrder order;
        private final long end;
        private final List<Fragment> fragments = new ArrayList<>();
        private final ByteBuffer window = ByteBuffer.allocate(WINDOW_BYTES).limit(0);
        private long windowStart;
        private boolean lastItemIsCut;
        private boolean cutShort;

        Finder(PixelSource source, FileChannel channel) throws IOException {
            this.source = source;
            this.channel = channel;
            this.order = source.transferSyntax().bigEndian() ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN;
            PixelLocation location = source.location();
            this.end = location.length() < 0
                    ? channel.size()
                    : Math.min(channel.size(), location.offset() + location.length());
        }

        EncapsulatedFrames find() throws IOException, DicomReadException {
            long[] table = walk();
            if (fragments.isEmpty()) {
                throw wrong(source.location().offset(), "at least one fragment of pixel data", "none");
            }
            int count = source.layout().frames();
            return new EncapsulatedFrames(source, frames(table, count), cutShort);
        }

        /** Reads all items; returns the offset table, each entry as the place of an item in the file. */
        private long[] walk() throws IOException, DicomReadException {
            long at = source.location().offset();
            long[] table = null;
            for (int items = 0; end - at >= ITEM_HEADER; items++) {
                at += fillingByte(at);
                ByteBuffer header = bytes(at, ITEM_HEADER);
                int tag = tag(header);
                long length = header.getInt() & 0xFFFFFFFFL;
                if (tag == Tag.SEQUENCE_DELIMITATION) {
                    return table == null ? new long[0] : table;
                }
                if (tag != Tag.ITEM) {
                    throw wrong(at, "an item of pixel data or its end", Tag.format(tag));
                }
                if (items > MOST_FRAGMENTS) {
                    throw wrong(at, "at most " + MOST_FRAGMENTS + " fragments", "more");
                }
                long there = end - at - ITEM_HEADER;
                lastItemIsCut = length > there;
                long taken = Math.min(length, there);
                if (taken > PixelSource.MOST_FRAME_BYTES) {
                    throw wrong(
                            at, "a fragment of at most " + PixelSource.MOST_FRAME_BYTES + " bytes", length + " bytes");
                }
                if (table == null) {
                    table = offsetTable(at, (int) taken);
                } else if (taken > 0) {
                    fragments.add(new Fragment(at, (int) taken));
                }
                at += ITEM_HEADER + taken;
            }
            cutShort = lastItemIsCut
                    || source.location().length() < 0
                    || source.location().isTruncated();
            return table == null ? new long[0] : table;
        }

        /** 1 if a byte that fills up an item of odd length stands before the next one, else 0. */
        private int fillingByte(long at) throws IOException {
            boolean behindOdd = !fragments.isEmpty() && fragments.get(fragments.size() - 1).length % 2 == 1;
            if (!behindOdd || end - at <= ITEM_HEADER || isDelimiter(tag(bytes(at, ITEM_HEADER)))) {
                return 0;
            }
            return isDelimiter(tag(bytes(at + 1, ITEM_HEADER))) ? 1 : 0;
        }

        private static boolean isDelimiter(int tag) {
            return tag == Tag.ITEM || tag == Tag.SEQUENCE_DELIMITATION;
        }

        private static int tag(ByteBuffer header) {
            return (header.getShort() & 0xFFFF) << 16 | header.getShort() & 0xFFFF;
        }

        private long[] offsetTable(long item, int length) throws IOException {
            // A table longer than one entry a frame is none; it is passed over unread.
            int entries = (int) Math.min(length / 4, (long) source.layout().frames() + 1);
            ByteBuffer entry = bytes(item + ITEM_HEADER, entries * 4);
            long[] places = new long[entries];
            for (int i = 0; i < entries; i++) {
                places[i] = item + ITEM_HEADER + length + (entry.getInt() & 0xFFFFFFFFL);
            }
            return places;
        }

        private List<List<Fragment>> frames(long[] table, int count) throws IOException, DicomReadException {
            if (count == 1) {
                return List.of(List.copyOf(fragments));
            }
            if (fragments.size() == count && !lastItemIsCut) {
                return fragments.stream().map(List::of).toList();
            }
            boolean[] starts = startsByTable(table, count);
            if (starts == null) {
                starts = startsByContent();
            }
            List<List<Fragment>> frames = new ArrayList<>();
            for (int f = 0; f < fragments.size(); f++) {
                if (starts[f] || f == 0) {
                    frames.add(new ArrayList<>());
                }
                frames.get(frames.size() - 1).add(fragments.get(f));
            }
            // Of a file that is cut short the frames that are there can be read.
            if (frames.size() > count || frames.size() < count && !cutShort) {
                throw wrong(
                        source.location().offset(),
                        "pixel data of " + count + " frames",
                        frames.size() + " frames in " + fragments.size() + " fragments");
            }
            return frames;
        }

        /** Which fragments start a frame by the offset table; null if it does not point at fragments in order. */
        private boolean[] startsByTable(long[] table, int count) {
            if (table.length != count || table[0] != fragments.get(0).item) {
                return null;
            }
            long[] items = fragments.stream().mapToLong(Fragment::item).toArray();
            boolean[] starts = new boolean[items.length];
            for (long place : table) {
                int f = Arrays.binarySearch(items, place);
                if (cutShort && place > items[items.length - 1]) {
                    continue;
                }
                if (f < 0 || starts[f]) {
                    return null;
                }
                starts[f] = true;
            }
            return starts;
        }

        private boolean[] startsByContent() throws IOException {
            boolean[] starts = new boolean[fragments.size()];
            for (int f = 0; f < starts.length; f++) {
                Fragment fragment = fragments.get(f);
                byte[] first = new byte[Math.min(fragment.length, FrameStart.BYTES)];
                bytes(fragment.offset(), first.length).get(first);
                starts[f] = FrameStart.isStart(source.transferSyntax(), source.layout(), first);
            }
            return starts;
        }

        /** Bytes of the file; short ones out of a window, since fragments may be many and small. */
        private ByteBuffer bytes(long at, int length) throws IOException {
            if (length > WINDOW_BYTES) {
                ByteBuffer out = ByteBuffer.allocate(length).order(order);
                fill(channel, at, out);
                return out.flip();
            }
            if (at < windowStart || at + length > windowStart + window.limit()) {
                windowStart = at;
                window.clear().limit((int) Math.min(WINDOW_BYTES, end - at));
                fill(channel, at, window);
            }
            return window.slice((int) (at - windowStart), length).order(order);
        }

        private DicomReadException wrong(long at, String expected, String got) {
            return new DicomReadException(source.path(), at, OptionalInt.of(Tag.PIXEL_DATA), expected, got, null);
        }
    }
}
