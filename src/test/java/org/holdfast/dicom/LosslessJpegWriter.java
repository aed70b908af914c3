package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;

/**
 * Writes lossless JPEG streams for tests, straight from ISO/IEC 10918-1, annex H: every predictor, point transform,
 * restart interval, in one scan or in one for each component. The Huffman table gives every category 5 bits.
 *
 * @param precision bits of a sample
 * @param predictor 1 to 7
 * @param pointTransform lowest bits that are left out
 * @param linesToRestart lines between restart markers; 0 for none
 * @param scanForEach whether each component has a scan of its own
 */
record LosslessJpegWriter(int precision, int predictor, int pointTransform, int linesToRestart, boolean scanForEach) {

    private static final int CODE_BITS = 5;

    byte[] write(int rows, int columns, int components, short[] words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(Bytes.of("FFD8 FFC4 0024 00 00000000110000000000000000000000"));
        for (int category = 0; category <= 16; category++) {
            out.write(category);
        }
        out.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xC3, 0, (byte) (8 + 3 * components), (byte) precision});
        shorts(out, rows, columns);
        out.write(components);
        for (int c = 0; c < components; c++) {
            out.writeBytes(new byte[] {(byte) (c + 1), 0x11, 0});
        }
        if (linesToRestart > 0) {
            out.writeBytes(Bytes.of("FFDD 0004"));
            shorts(out, linesToRestart * columns);
        }
        for (int first = 0; first < components; first += scanForEach ? 1 : components) {
            int count = scanForEach ? 1 : components;
            out.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xDA, 0, (byte) (6 + 2 * count), (byte) count});
            for (int c = first; c < first + count; c++) {
                out.writeBytes(new byte[] {(byte) (c + 1), 0});
            }
            out.writeBytes(new byte[] {(byte) predictor, 0, (byte) pointTransform});
            scan(out, rows, columns, components, first, count, words);
        }
        out.writeBytes(Bytes.of("FFD9"));
        return out.toByteArray();
    }

    private void scan(
            ByteArrayOutputStream out, int rows, int columns, int components, int first, int count, short[] words) {
        Bits bits = new Bits(out);
        for (int y = 0; y < rows; y++) {
            boolean restart = linesToRestart > 0 && y % linesToRestart == 0;
            if (restart && y > 0) {
                bits.flush();
                out.write(0xFF);
                out.write(0xD0 + (y / linesToRestart - 1) % 8);
            }
            for (int x = 0; x < columns; x++) {
                for (int c = first; c < first + count; c++) {
                    int at = (y * columns + x) * components + c;
                    int left = x > 0 ? sample(words, at - components) : 0;
                    int up = y > 0 ? sample(words, at - columns * components) : 0;
                    int corner = x > 0 && y > 0 ? sample(words, at - (columns + 1) * components) : 0;
                    int predicted = y == 0 || restart
                            ? x == 0 ? 1 << (precision - pointTransform - 1) : left
                            : x == 0 ? up : predict(left, up, corner);
                    bits.difference((short) (sample(words, at) - predicted));
                }
            }
        }
        bits.flush();
    }

    private int sample(short[] words, int at) {
        return (words[at] & 0xFFFF) >> pointTransform;
    }

    private int predict(int left, int up, int corner) {
        int[] byNumber = {
            0,
            left,
            up,
            corner,
            left + up - corner,
            left + ((up - corner) >> 1),
            up + ((left - corner) >> 1),
            (left + up) >> 1
        };
        return byNumber[predictor];
    }

    private static void shorts(ByteArrayOutputStream out, int... values) {
        for (int value : values) {
            out.write(value >> 8);
            out.write(value);
        }
    }

    /** Bits, highest first, a zero byte behind each FF. */
    private static final class Bits {
        private final ByteArrayOutputStream out;
        private int held;
        private int count;

        Bits(ByteArrayOutputStream out) {
            this.out = out;
        }

        void difference(int value) {
            if (value == -32768) {
                put(16, CODE_BITS);
                return;
            }
            int category = 32 - Integer.numberOfLeadingZeros(Math.abs(value));
            put(category, CODE_BITS);
            put(value < 0 ? value + (1 << category) - 1 : value, category);
        }

        void put(int value, int bits) {
            for (int i = bits - 1; i >= 0; i--) {
                held = held << 1 | value >> i & 1;
                if (++count == 8) {
                    out.write(held);
                    if ((held & 0xFF) == 0xFF) {
                        out.write(0);
                    }
                    held = 0;
                    count = 0;
                }
            }
        }

        void flush() {
            while (count != 0) {
                put(1, 1);
            }
        }
    }
}
