package org.holdfast.dicom;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HexFormat;

/** Small JPEG 2000 codestreams that are kept as text; {@code jpeg2000-16x16.txt} says how they were made. */
final class Codestreams {

    static final int SIDE = 16;

    private Codestreams() {}

    /** The bytes of a stream. */
    static byte[] of(String name) {
        try (InputStream in = Codestreams.class.getResourceAsStream("jpeg2000-16x16.txt")) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> line.startsWith(name + "|"))
                    .map(line -> HexFormat.of().parseHex(line.substring(line.lastIndexOf('|') + 1)))
                    .findFirst()
                    .orElseThrow();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    /** What was encoded. */
    static short[] values() {
        short[] values = new short[SIDE * SIDE];
        for (int y = 0; y < SIDE; y++) {
            for (int x = 0; x < SIDE; x++) {
                values[y * SIDE + x] = (short) (60 * x + 25 * y - 1000 + 3 * ((7 * x + 13 * y) % 5));
            }
        }
        return values;
    }

    /** A layout of the same size. */
    static PixelLayout layout(int bitsAllocated, boolean signed) {
        return new PixelLayout(
                SIDE, SIDE, 1, 1, bitsAllocated, bitsAllocated, bitsAllocated - 1, signed, "MONOCHROME2");
    }
}
