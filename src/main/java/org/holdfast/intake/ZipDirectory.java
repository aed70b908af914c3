package org.holdfast.intake;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipException;

/**
 * The list of entries at the end of a zip archive (APPNOTE 6.3, sections 4.3.12 to 4.3.16), read by hand as the platform's
 * reader hides which entries are encrypted. Every number is checked against the file before it is used.
 */
final class ZipDirectory {

    static final int STORED = 0;
    static final int DEFLATED = 8;

    private static final int END = 0x06054b50;
    private static final int END_BYTES = 22;
    private static final int LOCATOR_64 = 0x07064b50;
    private static final int LOCATOR_64_BYTES = 20;
    private static final int END_64 = 0x06064b50;
    private static final int END_64_BYTES = 56;
    private static final int ENTRY = 0x02014b50;
    private static final int ENTRY_BYTES = 46;
    private static final int LOCAL = 0x04034b50;
    private static final int LOCAL_BYTES = 30;
    private static final int LONGEST_COMMENT = 0xFFFF;
    private static final int UNIX_TYPE = 0170000;
    private static final int UNIX_LINK = 0120000;
    private static final long IN_64 = 0xFFFFFFFFL;

    /**
     * One entry.
     *
     * @param name as written; decides nothing but what a person reads
     * @param headerAt where its own header starts in the file
     */
    record Entry(
            String name, int method, boolean encrypted, boolean link, long crc, long compressedBytes, long headerAt) {

        boolean isFolder() {
            return name.endsWith("/");
        }
    }

    /**
     * Where the list lies.
     *
     * @param entries how many it has
     * @param shift bytes before the archive proper, as of a program that unpacks itself
     */
    private record Place(long entries, long offset, long bytes, long shift) {}

    private ZipDirectory() {}

    /**
     * @param mostEntries longest list that is read
     * @throws ZipException if there is no list, or an impossible one; says which
     */
    static List<Entry> read(FileChannel file, int mostEntries) throws IOException {
        Place place = place(file);
        if (place.entries > mostEntries) {
            throw new ZipException(place.entries + " entries, more than " + mostEntries);
        }
        if (place.offset + place.shift < 0
                || place.bytes > file.size() - place.offset - place.shift
                || place.bytes > Integer.MAX_VALUE
                || place.entries * ENTRY_BYTES > place.bytes) {
            throw new ZipException("its list of entries does not lie inside it");
        }
        ByteBuffer list = bytes(file, place.offset + place.shift, (int) place.bytes);
        List<Entry> out = new ArrayList<>();
        for (long n = 0; n < place.entries; n++) {
            out.add(entry(list, place.shift));
        }
        return out;
    }

    /** Where the bytes of an entry start. */
    static long dataAt(FileChannel file, Entry entry) throws IOException {
        ByteBuffer local = bytes(file, entry.headerAt, LOCAL_BYTES);
        if (local.getInt(0) != LOCAL) {
            throw new ZipException("its header is not where the list says");
        }
        long start = entry.headerAt + LOCAL_BYTES + unsigned(local, 26) + unsigned(local, 28);
        if (entry.compressedBytes > file.size() - start) {
            throw new ZipException("it ends after the archive's end");
        }
        return start;
    }

    private static Place place(FileChannel file) throws IOException {
        int tailBytes = (int) Math.min(file.size(), LONGEST_COMMENT + END_BYTES);
        long tailAt = file.size() - tailBytes;
        ByteBuffer tail = bytes(file, tailAt, tailBytes);
        for (int at = tailBytes - END_BYTES; at >= 0; at--) {
            if (tail.getInt(at) == END && at + END_BYTES + unsigned(tail, at + 20) <= tailBytes) {
                return place(file, tail, at, tailAt + at);
            }
        }
        throw new ZipException("no list of entries at its end: cut short?");
    }

    private static Place place(FileChannel file, ByteBuffer tail, int at, long endAt) throws IOException {
        if (unsigned(tail, at + 4) != unsigned(tail, at + 6)) {
            throw new ZipException("one piece of an archive in several pieces");
        }
        long entries = unsigned(tail, at + 10);
        long bytes = tail.getInt(at + 12) & IN_64;
        long offset = tail.getInt(at + 16) & IN_64;
        if (entries == 0xFFFF || bytes == IN_64 || offset == IN_64) {
            Place large = place64(file, endAt);
            if (large != null) {
                return large;
            }
        }
        return new Place(entries, offset, bytes, endAt - bytes - offset);
    }

    private static Place place64(FileChannel file, long endAt) throws IOException {
        if (endAt < LOCATOR_64_BYTES) {
            return null;
        }
        ByteBuffer locator = bytes(file, endAt - LOCATOR_64_BYTES, LOCATOR_64_BYTES);
        long at = locator.getLong(8);
        if (locator.getInt(0) != LOCATOR_64 || at < 0 || at > file.size() - END_64_BYTES) {
            return null;
        }
        ByteBuffer end = bytes(file, at, END_64_BYTES);
        long entries = end.getLong(32);
        long bytes = end.getLong(40);
        long offset = end.getLong(48);
        if (end.getInt(0) != END_64 || entries < 0 || bytes < 0 || offset < 0 || entries > Integer.MAX_VALUE) {
            throw new ZipException("its list of entries has an impossible length");
        }
        return new Place(entries, offset, bytes, 0);
    }

    private static Entry entry(ByteBuffer list, long shift) throws ZipException {
        int at = list.position();
        if (list.remaining() < ENTRY_BYTES || list.getInt(at) != ENTRY) {
            throw new ZipException("its list of entries is damaged");
        }
        int flags = unsigned(list, at + 8);
        int nameBytes = unsigned(list, at + 28);
        int extraBytes = unsigned(list, at + 30);
        int commentBytes = unsigned(list, at + 32);
        if (list.remaining() < ENTRY_BYTES + nameBytes + extraBytes + commentBytes) {
            throw new ZipException("its list of entries is damaged");
        }
        long bytes = list.getInt(at + 24) & IN_64;
        long compressed = list.getInt(at + 20) & IN_64;
        long header = list.getInt(at + 42) & IN_64;
        byte[] name = new byte[nameBytes];
        list.get(at + ENTRY_BYTES, name);
        ByteBuffer extra = list.slice(at + ENTRY_BYTES + nameBytes, extraBytes).order(ByteOrder.LITTLE_ENDIAN);
        long[] wide = wide(extra, bytes == IN_64, compressed == IN_64, header == IN_64);
        compressed = compressed == IN_64 ? wide[1] : compressed;
        header = (header == IN_64 ? wide[2] : header) + shift;
        if (compressed < 0 || header < 0) {
            throw new ZipException("its list of entries is damaged");
        }
        int mode = list.getInt(at + 38) >>> 16;
        list.position(at + ENTRY_BYTES + nameBytes + extraBytes + commentBytes);
        return new Entry(
                text(name),
                unsigned(list, at + 10),
                (flags & 1) != 0,
                (mode & UNIX_TYPE) == UNIX_LINK,
                list.getInt(at + 16) & IN_64,
                compressed,
                header);
    }

    /** Size, compressed size and place of an entry that need 64 bits; only those that do are written, in this order. */
    private static long[] wide(ByteBuffer extra, boolean... needed) {
        long[] out = new long[needed.length];
        int at = 0;
        while (at + 4 <= extra.limit()) {
            int length = unsigned(extra, at + 2);
            int end = Math.min(extra.limit(), at + 4 + length);
            if (unsigned(extra, at) == 1) {
                int from = at + 4;
                for (int n = 0; n < needed.length; n++) {
                    if (needed[n] && from + 8 <= end) {
                        out[n] = extra.getLong(from);
                        from += 8;
                    }
                }
            }
            at += 4 + length;
        }
        return out;
    }

    private static String text(byte[] name) {
        String text;
        try {
            text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(name))
                    .toString();
        } catch (CharacterCodingException e) {
            // An older archive in some code page that it does not name: every byte stays visible as one letter.
            text = new String(name, StandardCharsets.ISO_8859_1);
        }
        return text.replaceAll("\\p{Cntrl}", "?");
    }

    private static int unsigned(ByteBuffer b, int at) {
        return b.getShort(at) & 0xFFFF;
    }

    private static ByteBuffer bytes(FileChannel file, long at, int count) throws IOException {
        ByteBuffer out = ByteBuffer.allocate(count).order(ByteOrder.LITTLE_ENDIAN);
        while (out.hasRemaining()) {
            if (file.read(out, at + out.position()) < 0) {
                throw new EOFException("the archive ends too early");
            }
        }
        return out.flip();
    }
}
