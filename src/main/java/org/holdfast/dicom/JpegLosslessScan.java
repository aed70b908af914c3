package org.holdfast.dicom;

/**
 * Samples coded without loss: a predictor and Huffman-coded differences (ISO/IEC 10918-1, annex H). All predictors, point
 * transforms, restart intervals of whole lines, any number of components of one size. One scan, one thread.
 */
final class JpegLosslessScan {

    /** Category of the one difference that has no further bits (H.1.2.2). */
    private static final int HALF_RANGE = 16;

    private final JpegScan scan;
    private final JpegBits bits;
    private final int columns;
    private final int samples;
    private final int pointTransform;
    /** By component: the line before and the line that is being read, shifted down by the point transform. */
    private final int[][] above;

    private final int[][] line;

    JpegLosslessScan(JpegScan scan, JpegBits bits) throws CorruptFrameException {
        this.scan = scan;
        this.bits = bits;
        this.columns = scan.frame().samplesPerLine();
        this.samples = scan.frame().components().size();
        this.pointTransform = scan.pointTransform();
        if (scan.predictor() < 1
                || scan.predictor() > 7
                || pointTransform >= scan.frame().precision()) {
            throw new CorruptFrameException(
                    bits.position(),
                    "a predictor of 1 to 7 and a point transform below "
                            + scan.frame().precision(),
                    scan.predictor() + " and " + pointTransform);
        }
        if (scan.restartInterval() % columns != 0) {
            throw new CorruptFrameException(
                    bits.position(), "restart intervals of whole lines", scan.restartInterval() + " samples");
        }
        for (JpegFrameHeader.Component c : scan.frame().components()) {
            // Units of several components would hold several samples of each (A.2.3).
            boolean alone = scan.parts().size() == 1
                    && c.horizontal() == scan.frame().mostHorizontal()
                    && c.vertical() == scan.frame().mostVertical();
            if (!alone && (c.horizontal() != 1 || c.vertical() != 1)) {
                throw new CorruptFrameException(
                        bits.position(), "components of one size", "subsampled ones, which this version does not read");
            }
        }
        this.above = new int[scan.parts().size()][columns];
        this.line = new int[scan.parts().size()][columns];
    }

    /** Reads the scan; returns the whole lines that there are, fewer than the frame has if it is cut short. */
    int read(short[] words) throws CorruptFrameException {
        int linesToRestart = scan.restartInterval() / columns;
        int restarts = 0;
        for (int y = 0; y < scan.frame().lines(); y++) {
            boolean first = y == 0;
            if (!first && linesToRestart > 0 && y % linesToRestart == 0) {
                first = true;
                if (!bits.restart(restarts++)) {
                    return cutShortAt(y);
                }
            }
            readLine(first);
            if (bits.isOverrun()) {
                return cutShortAt(y);
            }
            put(y, words);
        }
        return scan.frame().lines();
    }

    private int cutShortAt(int y) throws CorruptFrameException {
        if (y > 0 && bits.stopsWithoutMarker()) {
            return y;
        }
        throw new CorruptFrameException(
                bits.position(), "data of " + scan.frame().lines() + " lines", "a marker or the end in line " + y);
    }

    private void readLine(boolean first) throws CorruptFrameException {
        for (int p = 0; p < line.length; p++) {
            int[] swapped = above[p];
            above[p] = line[p];
            line[p] = swapped;
        }
        int start = 1 << (scan.frame().precision() - pointTransform - 1);
        // The first line has nothing above it, the first column nothing to its left (H.1.2.1).
        for (int p = 0; p < line.length; p++) {
            line[p][0] = (first ? start : above[p][0]) + difference(p) & 0xFFFF;
        }
        int selection = first ? 1 : scan.predictor();
        for (int x = 1; x < columns; x++) {
            for (int p = 0; p < line.length; p++) {
                line[p][x] = predict(selection, p, x) + difference(p) & 0xFFFF;
            }
        }
    }

    /** A sample by its neighbours (ISO/IEC 10918-1, table H.1). */
    private int predict(int selection, int part, int x) {
        int left = line[part][x - 1];
        int up = above[part][x];
        int corner = above[part][x - 1];
        return switch (selection) {
            case 1 -> left;
            case 2 -> up;
            case 3 -> corner;
            case 4 -> left + up - corner;
            case 5 -> left + (up - corner >> 1);
            case 6 -> up + (left - corner >> 1);
            default -> left + up >> 1;
        };
    }

    private int difference(int part) throws CorruptFrameException {
        int category = scan.parts().get(part).dc().take(bits);
        if (category >= 0 && category < HALF_RANGE) {
            return bits.takeSigned(category);
        }
        if (category != HALF_RANGE) {
            throw new CorruptFrameException(
                    bits.position(), "a code of the table for a difference of 0 to 16 bits", "another");
        }
        return 1 << 15;
    }

    private void put(int y, short[] words) {
        for (int p = 0; p < line.length; p++) {
            int at = y * columns * samples + scan.parts().get(p).component().index();
            for (int x = 0; x < columns; x++, at += samples) {
                words[at] = (short) (line[p][x] << pointTransform);
            }
        }
    }
}
