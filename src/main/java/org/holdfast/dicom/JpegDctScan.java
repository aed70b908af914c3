package org.holdfast.dicom;

import java.util.Arrays;

/**
 * Samples coded by a sequential discrete cosine transform with Huffman coding (ISO/IEC 10918-1, annex F), 8 or 12 bits.
 * A component with fewer samples than the frame has pixels is brought up by repeating its samples. One scan, one thread.
 */
final class JpegDctScan {

    private static final int SIDE = InverseDct.SIDE;

    /** Sixteen zeros (F.1.2.2.1). */
    private static final int ZERO_RUN = 15;

    private final JpegScan scan;
    private final JpegBits bits;
    private final JpegFrameHeader frame;
    private final InverseDct transform = new InverseDct();
    private final int[] coefficients = new int[SIDE * SIDE];
    private final int[] samples = new int[SIDE * SIDE];
    /** By component of the scan: the last DC coefficient. */
    private final int[] lastDc;

    JpegDctScan(JpegScan scan, JpegBits bits) {
        this.scan = scan;
        this.bits = bits;
        this.frame = scan.frame();
        this.lastDc = new int[scan.parts().size()];
    }

    /** Reads the scan; returns the whole lines that there are, fewer than the frame has if it is cut short. */
    int read(short[] words) throws CorruptFrameException {
        boolean interleaved = scan.parts().size() > 1;
        JpegFrameHeader.Component only = scan.parts().get(0).component();
        // One component alone comes block by block as far as it reaches (A.2.2), several in units of the largest ones.
        int unitLines = SIDE * frame.mostVertical() / (interleaved ? 1 : only.vertical());
        int acrossUnits = blocks(frame.samplesPerLine(), interleaved, frame.mostHorizontal(), only.horizontal());
        int downUnits = blocks(frame.lines(), interleaved, frame.mostVertical(), only.vertical());
        int restarts = 0;
        long unit = 0;
        for (int row = 0; row < downUnits; row++) {
            for (int column = 0; column < acrossUnits; column++, unit++) {
                if (scan.restartInterval() > 0 && unit > 0 && unit % scan.restartInterval() == 0) {
                    Arrays.fill(lastDc, 0);
                    if (bits.isOverrun() || !bits.restart(restarts++)) {
                        return cutShortAt(row * unitLines);
                    }
                }
                readUnit(row, column, interleaved, words);
            }
            if (bits.isOverrun()) {
                return cutShortAt(row * unitLines);
            }
        }
        return frame.lines();
    }

    private static int blocks(int length, boolean interleaved, int most, int factor) {
        if (interleaved) {
            return ceiling(length, SIDE * most);
        }
        return ceiling(ceiling(length * factor, most), SIDE);
    }

    private static int ceiling(int dividend, int divisor) {
        return (dividend + divisor - 1) / divisor;
    }

    private int cutShortAt(int line) throws CorruptFrameException {
        if (line > 0 && bits.stopsWithoutMarker()) {
            return line;
        }
        throw new CorruptFrameException(
                bits.position(), "data of " + frame.lines() + " lines", "a marker or the end behind line " + line);
    }

    private void readUnit(int row, int column, boolean interleaved, short[] words) throws CorruptFrameException {
        for (int p = 0; p < lastDc.length; p++) {
            JpegFrameHeader.Component c = scan.parts().get(p).component();
            int across = interleaved ? c.horizontal() : 1;
            int down = interleaved ? c.vertical() : 1;
            for (int v = 0; v < down; v++) {
                for (int h = 0; h < across; h++) {
                    readBlock(p);
                    put(c, (row * down + v) * SIDE, (column * across + h) * SIDE, words);
                }
            }
        }
    }

    private void readBlock(int part) throws CorruptFrameException {
        JpegScan.Part p = scan.parts().get(part);
        int category = symbol(p.dc());
        if (category > 16) {
            throw new CorruptFrameException(bits.position(), "a DC difference of 0 to 16 bits", category + " bits");
        }
        lastDc[part] += bits.takeSigned(category);
        Arrays.fill(coefficients, 0);
        coefficients[0] = lastDc[part] * p.steps()[0];
        int last = 0;
        for (int k = 1; k < SIDE * SIDE; k++) {
            int runAndCategory = symbol(p.ac());
            int run = runAndCategory >> 4;
            category = runAndCategory & 15;
            if (category == 0 && run != ZERO_RUN) {
                break;
            }
            k += run;
            if (k >= SIDE * SIDE) {
                throw new CorruptFrameException(bits.position(), "64 coefficients of a block", "more");
            }
            if (category > 0) {
                coefficients[JpegTables.zigzag(k)] = bits.takeSigned(category) * p.steps()[k];
                last = k;
            }
        }
        makeSamples(last == 0);
    }

    private int symbol(JpegHuffmanTable table) throws CorruptFrameException {
        int symbol = table.take(bits);
        if (symbol >= 0) {
            return symbol;
        }
        throw new CorruptFrameException(bits.position(), "a code of the Huffman table", "another");
    }

    private void makeSamples(boolean flat) {
        int middle = 1 << (frame.precision() - 1);
        int highest = 2 * middle - 1;
        if (flat) {
            Arrays.fill(samples, clamp(coefficients[0] / 8.0, middle, highest));
            return;
        }
        double[] exact = transform.samples(coefficients);
        for (int i = 0; i < exact.length; i++) {
            samples[i] = clamp(exact[i], middle, highest);
        }
    }

    private static int clamp(double sample, int middle, int highest) {
        return (int) Math.max(0, Math.min(highest, Math.floor(sample + middle + 0.5)));
    }

    private void put(JpegFrameHeader.Component c, int top, int left, short[] words) {
        int most = frame.mostHorizontal();
        int lastLine = Math.min(frame.lines(), ceiling((top + SIDE) * frame.mostVertical(), c.vertical()));
        int lastColumn = Math.min(frame.samplesPerLine(), ceiling((left + SIDE) * most, c.horizontal()));
        int stride = frame.components().size();
        int firstColumn = ceiling(left * most, c.horizontal());
        for (int y = ceiling(top * frame.mostVertical(), c.vertical()); y < lastLine; y++) {
            int from = (y * c.vertical() / frame.mostVertical() - top) * SIDE - left;
            int at = (y * frame.samplesPerLine() + firstColumn) * stride + c.index();
            if (most == c.horizontal()) {
                for (int x = firstColumn; x < lastColumn; x++, at += stride) {
                    words[at] = (short) samples[from + x];
                }
            } else {
                for (int x = firstColumn; x < lastColumn; x++, at += stride) {
                    words[at] = (short) samples[from + x * c.horizontal() / most];
                }
            }
        }
    }
}
