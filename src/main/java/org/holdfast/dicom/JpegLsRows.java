package org.holdfast.dicom;

import java.util.Arrays;
import org.holdfast.dicom.JpegLsHeaders.Interleave;

/**
 * Decodes the rows of a scan up to its end or its next restart (ISO/IEC 14495-1, sections A.2, A.3, A.7 and annex B).
 * Not thread-safe.
 */
final class JpegLsRows {

    /** J: a piece of a run is 2^J long (section A.7.1). */
    private static final int[] RUN_BITS = {
        0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 9, 10, 11, 12, 13, 14, 15
    };

    private final JpegLsCoding coding;
    private final boolean bySample;
    private final int columns;
    private final byte[] gradientClasses;
    private final int steepest;

    /** Which piece of a run comes next, for each component. */
    private final int[] runIndex;

    /** Of each component the row above, one sample longer at both ends. */
    private int[][] above;

    private int[][] row;

    private JpegLsBits bits;
    private JpegLsSamples samples;

    JpegLsRows(JpegLsCoding coding, JpegLsHeaders.Scan scan, int columns) {
        this.coding = coding;
        int components = scan.components().length;
        this.bySample = components > 1 && scan.interleave() == Interleave.SAMPLE;
        this.columns = columns;
        this.gradientClasses = coding.gradientClasses();
        this.steepest = coding.third();
        this.runIndex = new int[components];
        this.above = new int[components][columns + 2];
        this.row = new int[components][columns + 2];
    }

    /** Starts afresh with the bits of a scan or of what follows a restart marker. */
    void restart(JpegLsBits coded) {
        bits = coded;
        samples = new JpegLsSamples(coding, coded);
        Arrays.fill(runIndex, 0);
        for (int[] line : row) {
            Arrays.fill(line, 0);
        }
    }

    /** Decodes the next row of all components. */
    void next() throws CorruptFrameException {
        int[][] free = above;
        above = row;
        row = free;
        for (int c = 0; c < row.length; c++) {
            above[c][columns + 1] = above[c][columns];
            row[c][0] = above[c][1];
        }
        if (bySample) {
            decodePixels();
            return;
        }
        for (int c = 0; c < row.length; c++) {
            decodeSamples(c);
        }
    }

    /** Copies the last row of a component to every {@code step}-th word. */
    void copy(int component, short[] words, int from, int step) {
        int[] values = row[component];
        for (int i = 1, w = from; i <= columns; i++, w += step) {
            words[w] = (short) values[i];
        }
    }

    private void decodeSamples(int component) throws CorruptFrameException {
        int[] over = above[component];
        int[] line = row[component];
        int i = 1;
        while (i <= columns) {
            int context = context(line, over, i);
            if (context != 0) {
                line[i] = samples.regular(context, predicted(line, over, i));
                i++;
                continue;
            }
            int end = i + runLength(component, columns + 1 - i);
            Arrays.fill(line, i, end, line[i - 1]);
            if (end <= columns) {
                line[end] = samples.endOfRun(line[i - 1], over[end], RUN_BITS[runIndex[component]]);
                shortenRuns(component);
                end++;
            }
            i = end;
        }
    }

    private void decodePixels() throws CorruptFrameException {
        int i = 1;
        while (i <= columns) {
            if (!isFlat(i)) {
                for (int c = 0; c < row.length; c++) {
                    row[c][i] = samples.regular(context(row[c], above[c], i), predicted(row[c], above[c], i));
                }
                i++;
                continue;
            }
            int end = i + runLength(0, columns + 1 - i);
            for (int c = 0; c < row.length; c++) {
                int[] line = row[c];
                Arrays.fill(line, i, end, line[i - 1]);
                if (end <= columns) {
                    line[end] = samples.endOfPixelRun(line[i - 1], above[c][end], RUN_BITS[runIndex[0]]);
                }
            }
            if (end <= columns) {
                shortenRuns(0);
                end++;
            }
            i = end;
        }
    }

    private boolean isFlat(int i) {
        for (int c = 0; c < row.length; c++) {
            if (context(row[c], above[c], i) != 0) {
                return false;
            }
        }
        return true;
    }

    /** Context of a sample by the gradients around it; 0 if there are none (section A.3). */
    private int context(int[] line, int[] over, int i) {
        int b = over[i];
        int c = over[i - 1];
        return (gradientClass(over[i + 1] - b) * 9 + gradientClass(b - c)) * 9 + gradientClass(c - line[i - 1]);
    }

    private int gradientClass(int gradient) {
        return gradientClasses[Math.max(-steepest, Math.min(steepest, gradient)) + steepest];
    }

    /** Median of the left sample, the one above and their plane (section A.4.1). */
    private static int predicted(int[] line, int[] over, int i) {
        int a = line[i - 1];
        int b = over[i];
        int lower = Math.min(a, b);
        int upper = Math.max(a, b);
        return Math.max(lower, Math.min(upper, a + b - over[i - 1]));
    }

    /** Reads the length of a run, at most up to the end of the row (section A.7.1). */
    private int runLength(int component, int most) throws CorruptFrameException {
        int length = 0;
        while (bits.read(1) == 1) {
            int piece = 1 << RUN_BITS[runIndex[component]];
            if (piece > most - length) {
                return most;
            }
            length += piece;
            runIndex[component] = Math.min(runIndex[component] + 1, RUN_BITS.length - 1);
            if (length == most) {
                return most;
            }
        }
        length += bits.read(RUN_BITS[runIndex[component]]);
        if (length > most) {
            throw new CorruptFrameException(
                    bits.offset(), "a run of at most " + most + " pixels up to the end of the row", "" + length);
        }
        return length;
    }

    private void shortenRuns(int component) {
        runIndex[component] = Math.max(0, runIndex[component] - 1);
    }
}
