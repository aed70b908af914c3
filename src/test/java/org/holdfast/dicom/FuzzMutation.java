package org.holdfast.dicom;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/** Damages a file where it hurts: lengths, tags, representations, delimiters, order, splices of two files, cuts. */
final class FuzzMutation {

    private static final int MOST_BYTES = 400_000;

    private static final long[] LENGTHS = {
        0,
        1,
        2,
        3,
        7,
        8,
        12,
        0x7F,
        0xFF,
        0x100,
        0x7FFF,
        0xFFFE,
        0xFFFF,
        0x10000,
        0x7FFFFFFFL,
        0x80000000L,
        0xFFFFFFF0L,
        0xFFFFFFFEL,
        0xFFFFFFFFL
    };
    private static final int[] TAGS = {
        Tag.ITEM,
        Tag.ITEM_DELIMITATION,
        Tag.SEQUENCE_DELIMITATION,
        Tag.PIXEL_DATA,
        Tag.FLOAT_PIXEL_DATA,
        Tag.SPECIFIC_CHARACTER_SET,
        Tag.PIXEL_REPRESENTATION,
        Tag.BITS_ALLOCATED,
        Tag.ROWS,
        Tag.NUMBER_OF_FRAMES,
        Tag.TRANSFER_SYNTAX_UID,
        Tag.REFERENCED_IMAGE_SEQUENCE,
        Tag.LUT_DESCRIPTOR,
        0,
        0x00090010,
        0x00091010,
        0xFFFFFFFF
    };
    private static final String[] VALUES = {
        "\\\\\\\\",
        "1e999",
        "-1",
        "99999999999",
        "0,143\\",
        "\u001b$B",
        "\u001b$)C",
        "\u001b-F",
        "ISO 2022 IR 87",
        "GB18030",
        "1.2.840.10008.1.2.1.99",
        "1.2.840.10008.1.2.2",
        "1.2.840.10008.1.2",
        "NaN",
        "\0\0\0\0",
        "\u00ff\u00fe\u00fd"
    };

    private final SplittableRandom random;
    private final List<FuzzSeeds.Seed> seeds;
    private byte[] bytes;

    FuzzMutation(List<FuzzSeeds.Seed> seeds, SplittableRandom random) {
        this.seeds = seeds;
        this.random = random;
    }

    /** The next file. */
    byte[] next() {
        FuzzSeeds.Seed chosen = seeds.get(random.nextInt(seeds.size()));
        byte[] seed = chosen.bytes();
        int start = chosen.deflatedStart();
        boolean inside = start > 0 && random.nextInt(4) != 0;
        bytes = inside ? inflated(seed, start) : seed.clone();
        for (int n = 1 + random.nextInt(random.nextInt(8) == 0 ? 8 : 2); n > 0; n--) {
            mutate();
        }
        return inside ? joined(Arrays.copyOf(seed, start), deflated(bytes)) : bytes;
    }

    private void mutate() {
        switch (random.nextInt(14)) {
            case 0, 1, 2 -> length();
            case 3 -> put(mark(), tagBytes(TAGS[random.nextInt(TAGS.length)]));
            case 4 -> representation();
            case 5 -> insertHeader();
            case 6 -> splice();
            case 7 -> bytes = random.nextBoolean() ? bytes : Arrays.copyOf(bytes, random.nextInt(bytes.length + 1));
            case 8 -> flip();
            case 9 -> remove();
            case 10 -> repeat();
            case 11 -> swap();
            case 12 -> put(mark() + 8, VALUES[random.nextInt(VALUES.length)]);
            default -> put(random.nextInt(bytes.length + 1), VALUES[random.nextInt(VALUES.length)]);
        }
    }

    /** A place that looks like the start of an element: letters four bytes on, or an item, or near a known group. */
    private int mark() {
        if (bytes.length < 16) {
            return 0;
        }
        int from = random.nextInt(bytes.length - 8);
        for (int n = 0; n < bytes.length - 8; n++) {
            int at = from + n < bytes.length - 8 ? from + n : from + n - (bytes.length - 8);
            boolean letters = Vr.of(bytes[at + 4], bytes[at + 5]) != null;
            boolean item = (bytes[at] & 0xFF) == 0xFE && (bytes[at + 1] & 0xFF) == 0xFF
                    || (bytes[at] & 0xFF) == 0xFF && (bytes[at + 1] & 0xFF) == 0xFE;
            boolean group = bytes[at + 1] == 0
                    && (bytes[at] == 8 || bytes[at] == 0x10 || bytes[at] == 0x28 || bytes[at] == 0x20)
                    && bytes[at + 6] == 0
                    && bytes[at + 7] == 0;
            if (letters || item || group) {
                return at;
            }
        }
        return from;
    }

    private void length() {
        int at = mark();
        long length = random.nextInt(3) == 0 ? random.nextInt(64) : LENGTHS[random.nextInt(LENGTHS.length)];
        if (random.nextInt(4) == 0) {
            length = bytes.length - at - random.nextInt(16);
        }
        int field = random.nextBoolean() ? 4 : random.nextBoolean() ? 6 : 8;
        int width = field == 6 ? 2 : 4;
        boolean big = random.nextInt(6) == 0;
        for (int i = 0; i < width && at + field + i < bytes.length; i++) {
            bytes[at + field + i] = (byte) (length >>> 8 * (big ? width - 1 - i : i));
        }
    }

    private void representation() {
        Vr vr = Vr.values()[random.nextInt(Vr.values().length)];
        put(
                mark() + 4,
                random.nextInt(4) == 0 ? "" + (char) random.nextInt(256) + (char) random.nextInt(256) : vr.name());
    }

    private void insertHeader() {
        String tag = tagBytes(TAGS[random.nextInt(TAGS.length)]);
        String length = random.nextBoolean() ? "\u00ff\u00ff\u00ff\u00ff" : (char) random.nextInt(40) + "\0\0\0";
        String vr = Vr.values()[random.nextInt(Vr.values().length)].name();
        String header = random.nextBoolean() ? tag + length : tag + vr + "\0\0" + length;
        insert(mark(), latin(header.repeat(random.nextInt(10) == 0 ? 80 : 1)));
    }

    private void splice() {
        byte[] other = seeds.get(random.nextInt(seeds.size())).bytes();
        int from = random.nextInt(other.length + 1);
        int to = from + random.nextInt(Math.min(400, other.length - from) + 1);
        insert(mark(), Arrays.copyOfRange(other, from, to));
    }

    private void flip() {
        for (int n = random.nextInt(8); n >= 0 && bytes.length > 0; n--) {
            int at = random.nextInt(bytes.length);
            bytes[at] = (byte) (random.nextBoolean() ? bytes[at] ^ 1 << random.nextInt(8) : random.nextInt(256));
        }
    }

    private void remove() {
        int a = mark();
        int b = random.nextInt(3) == 0 ? mark() : Math.min(bytes.length, a + random.nextInt(24));
        int from = Math.min(a, b);
        byte[] tail = Arrays.copyOfRange(bytes, Math.max(a, b), bytes.length);
        bytes = joined(Arrays.copyOf(bytes, from), tail);
    }

    private void repeat() {
        int a = mark();
        int b = Math.min(bytes.length, a + 8 + random.nextInt(64));
        byte[] part = Arrays.copyOfRange(bytes, Math.min(a, bytes.length), b);
        for (int n = random.nextInt(random.nextInt(20) == 0 ? 200 : 4); n >= 0; n--) {
            insert(a, part);
        }
    }

    private void swap() {
        int a = mark();
        int b = mark();
        for (int i = 0; i < 24 && Math.max(a, b) + i < bytes.length; i++) {
            byte held = bytes[a + i];
            bytes[a + i] = bytes[b + i];
            bytes[b + i] = held;
        }
    }

    private void put(int at, String text) {
        for (int i = 0; i < text.length() && at + i < bytes.length; i++) {
            bytes[at + i] = (byte) text.charAt(i);
        }
    }

    private void insert(int at, byte[] part) {
        if (bytes.length + part.length <= MOST_BYTES) {
            bytes = joined(joined(Arrays.copyOf(bytes, at), part), Arrays.copyOfRange(bytes, at, bytes.length));
        }
    }

    private String tagBytes(int tag) {
        int t = random.nextInt(8) == 0 ? random.nextInt() : tag;
        int shifted = random.nextInt(6) == 0 ? t : Integer.rotateLeft(Integer.reverseBytes(t), 16);
        char[] out = new char[4];
        for (int i = 0; i < 4; i++) {
            out[i] = (char) (shifted >>> 24 - 8 * i & 0xFF);
        }
        return new String(out);
    }

    private static byte[] latin(String text) {
        return text.getBytes(java.nio.charset.StandardCharsets.ISO_8859_1);
    }

    private static byte[] joined(byte[] a, byte[] b) {
        byte[] out = Arrays.copyOf(a, a.length + b.length);
        System.arraycopy(b, 0, out, a.length, b.length);
        return out;
    }

    private static byte[] inflated(byte[] file, int from) {
        Inflater inflater = new Inflater(true);
        try {
            inflater.setInput(file, from, file.length - from);
            byte[] out = new byte[MOST_BYTES];
            int made = inflater.inflate(out);
            return Arrays.copyOf(out, made);
        } catch (DataFormatException e) {
            return new byte[0];
        } finally {
            inflater.end();
        }
    }

    private static byte[] deflated(byte[] data) {
        Deflater deflater = new Deflater(1, true);
        try {
            deflater.setInput(data);
            deflater.finish();
            byte[] out = new byte[data.length + 1000];
            return Arrays.copyOf(out, deflater.deflate(out));
        } finally {
            deflater.end();
        }
    }
}
