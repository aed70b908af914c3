package org.holdfast.dicom;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import java.util.stream.IntStream;
import org.holdfast.dicom.JpegLsHeaders.Interleave;

/**
 * Encodes JPEG-LS (ISO/IEC 14495-1) step by step as the standard has it, for what no encoder at hand offers: restarts, few
 * bits, four components. The decoder is checked against other encoders as well, so that both cannot err alike.
 */
final class JpegLsEncoder {

    private static final int[] J = {
        0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3, 4, 4, 5, 5, 6, 6, 7, 7, 8, 9, 10, 11, 12, 13, 14, 15
    };

    private final PixelLayout layout;
    private final JpegLsCoding coding;
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();

    private int pending;
    private int pendingBits;
    private int wanted = 8;

    private int[] a;
    private int[] b;
    private int[] c;
    private int[] n;
    private int[] runIndex;

    private JpegLsEncoder(PixelLayout layout, JpegLsCoding coding) {
        this.layout = layout;
        this.coding = coding;
    }

    /**
     * Encodes a frame.
     *
     * @param restartRows rows between restarts, 0 for none
     */
    static byte[] encode(PixelLayout layout, short[] words, int near, Interleave interleave, int restartRows)
            throws CorruptFrameException {
        JpegLsCoding coding = JpegLsCoding.of(JpegLsPreset.DEFAULT, layout.bitsStored(), near, 0);
        return new JpegLsEncoder(layout, coding).frame(words, interleave, restartRows);
    }

    private byte[] frame(short[] words, Interleave interleave, int restartRows) {
        int samples = layout.samples();
        bytes(0xFF, 0xD8, 0xFF, 0xF7, 0, 8 + 3 * samples, layout.bitsStored());
        bytes(layout.rows() >> 8, layout.rows(), layout.columns() >> 8, layout.columns(), samples);
        for (int s = 1; s <= samples; s++) {
            bytes(s, 0x11, 0);
        }
        if (restartRows > 0) {
            bytes(0xFF, 0xDD, 0, 4, restartRows >> 8, restartRows);
        }
        if (interleave == Interleave.NONE) {
            for (int s = 0; s < samples; s++) {
                scan(words, new int[] {s}, interleave, restartRows);
            }
        } else {
            scan(words, IntStream.range(0, samples).toArray(), interleave, restartRows);
        }
        bytes(0xFF, 0xD9);
        return out.toByteArray();
    }

    private void scan(short[] words, int[] components, Interleave interleave, int restartRows) {
        bytes(0xFF, 0xDA, 0, 6 + 2 * components.length, components.length);
        for (int s : components) {
            bytes(s + 1, 0);
        }
        bytes(coding.near(), interleave.ordinal(), 0);
        int[][] above = reset(components.length);
        for (int y = 0; y < layout.rows(); y++) {
            if (restartRows > 0 && y > 0 && y % restartRows == 0) {
                flush();
                bytes(0xFF, 0xD0 + (y / restartRows - 1) % 8);
                above = reset(components.length);
            }
            int[][] row = new int[components.length][layout.columns() + 2];
            for (int k = 0; k < components.length; k++) {
                above[k][layout.columns() + 1] = above[k][layout.columns()];
                row[k][0] = above[k][1];
                for (int x = 0; x < layout.columns(); x++) {
                    int w = (y * layout.columns() + x) * layout.samples() + components[k];
                    row[k][x + 1] = words[w] & coding.maximum();
                }
            }
            if (interleave == Interleave.SAMPLE) {
                line(row, above, 0);
            } else {
                for (int k = 0; k < components.length; k++) {
                    line(new int[][] {row[k]}, new int[][] {above[k]}, k);
                }
            }
            above = row;
        }
        flush();
    }

    private int[][] reset(int components) {
        a = new int[367];
        b = new int[367];
        c = new int[365];
        n = new int[367];
        Arrays.fill(a, Math.max(2, (coding.range() + 32) / 64));
        Arrays.fill(n, 1);
        runIndex = new int[components];
        return new int[components][layout.columns() + 2];
    }

    /** Codes a row of one component, or of several by sample, and puts the decoded values in the place of its own. */
    private void line(int[][] row, int[][] above, int run) {
        int x = 1;
        while (x <= layout.columns()) {
            int at = x;
            if (IntStream.range(0, row.length).anyMatch(k -> context(row[k], above[k], at) != 0)) {
                for (int k = 0; k < row.length; k++) {
                    row[k][x] = regular(row[k], above[k], x);
                }
                x++;
                continue;
            }
            int length = 0;
            while (x + length <= layout.columns() && like(row, x, length)) {
                for (int[] component : row) {
                    component[x + length] = component[x - 1];
                }
                length++;
            }
            x += length;
            codeRun(length, x > layout.columns(), run);
            if (x <= layout.columns()) {
                for (int k = 0; k < row.length; k++) {
                    row[k][x] = endOfRun(row[k][x], row[k][x - 1], above[k][x], row.length > 1, J[runIndex[run]]);
                }
                runIndex[run] = Math.max(0, runIndex[run] - 1);
                x++;
            }
        }
    }

    private boolean like(int[][] row, int x, int length) {
        return Arrays.stream(row).allMatch(k -> Math.abs(k[x + length] - k[x - 1]) <= coding.near());
    }

    private void codeRun(int length, boolean endOfRow, int run) {
        int rest = length;
        while (rest >= 1 << J[runIndex[run]]) {
            bits(1, 1);
            rest -= 1 << J[runIndex[run]];
            runIndex[run] = Math.min(31, runIndex[run] + 1);
        }
        if (!endOfRow) {
            bits(0, 1);
            bits(rest, J[runIndex[run]]);
        } else if (rest > 0) {
            bits(1, 1);
        }
    }

    private int context(int[] row, int[] above, int x) {
        return 81 * gradient(above[x + 1] - above[x])
                + 9 * gradient(above[x] - above[x - 1])
                + gradient(above[x - 1] - row[x - 1]);
    }

    private int gradient(int d) {
        int size = Math.abs(d);
        int type = size <= coding.near() ? 0 : size < coding.first() ? 1 : size < coding.second() ? 2 : 3;
        return Integer.signum(d) * (size >= coding.third() ? 4 : type);
    }

    private int regular(int[] row, int[] above, int x) {
        int context = context(row, above, x);
        int sign = context < 0 ? -1 : 1;
        int q = context * sign;
        int left = row[x - 1];
        int up = above[x];
        int corner = above[x - 1];
        int predicted = corner >= Math.max(left, up)
                ? Math.min(left, up)
                : corner <= Math.min(left, up) ? Math.max(left, up) : left + up - corner;
        predicted = clamp(predicted + sign * c[q]);
        int error = reduced(sign * (row[x] - predicted));
        int value = decoded(predicted, sign * error);
        int k = 0;
        while (n[q] << k < a[q]) {
            k++;
        }
        boolean swapped = coding.near() == 0 && k == 0 && 2 * b[q] <= -n[q];
        int mapped =
                swapped ? (error >= 0 ? 2 * error + 1 : -2 * (error + 1)) : (error >= 0 ? 2 * error : -2 * error - 1);
        golomb(mapped, k, coding.limit());
        b[q] += error * (2 * coding.near() + 1);
        a[q] += Math.abs(error);
        if (n[q] == coding.reset()) {
            a[q] >>= 1;
            b[q] = b[q] >= 0 ? b[q] >> 1 : -(1 - b[q] >> 1);
            n[q] >>= 1;
        }
        n[q]++;
        if (b[q] <= -n[q]) {
            b[q] = Math.max(b[q] + n[q], 1 - n[q]);
            c[q] = Math.max(-128, c[q] - 1);
        } else if (b[q] > 0) {
            b[q] = Math.min(b[q] - n[q], 0);
            c[q] = Math.min(127, c[q] + 1);
        }
        return value;
    }

    private int endOfRun(int value, int left, int up, boolean bySample, int runBits) {
        int type = !bySample && Math.abs(left - up) <= coding.near() ? 1 : 0;
        int predicted = type == 1 ? left : up;
        int sign = type == 0 && left > up ? -1 : 1;
        int error = reduced(sign * (value - predicted));
        int q = 365 + type;
        int size = a[q] + (type == 1 ? n[q] >> 1 : 0);
        int k = 0;
        while (n[q] << k < size) {
            k++;
        }
        boolean map = k == 0 && error > 0 && 2 * b[q] < n[q] || error < 0 && 2 * b[q] >= n[q] || error < 0 && k != 0;
        int mapped = 2 * Math.abs(error) - type - (map ? 1 : 0);
        golomb(mapped, k, coding.limit() - runBits - 1);
        if (error < 0) {
            b[q]++;
        }
        a[q] += mapped + 1 - type >> 1;
        if (n[q] == coding.reset()) {
            a[q] >>= 1;
            n[q] >>= 1;
            b[q] >>= 1;
        }
        n[q]++;
        return decoded(predicted, sign * error);
    }

    private int reduced(int difference) {
        int near = coding.near();
        int error = difference > 0 ? (difference + near) / (2 * near + 1) : -((near - difference) / (2 * near + 1));
        if (error < 0) {
            error += coding.range();
        }
        return error >= (coding.range() + 1) / 2 ? error - coding.range() : error;
    }

    private int decoded(int predicted, int error) {
        int step = 2 * coding.near() + 1;
        int value = predicted + error * step;
        if (value < -coding.near()) {
            value += coding.range() * step;
        } else if (value > coding.maximum() + coding.near()) {
            value -= coding.range() * step;
        }
        return clamp(value);
    }

    private int clamp(int value) {
        return Math.max(0, Math.min(coding.maximum(), value));
    }

    private void golomb(int value, int k, int limit) {
        int zeros = limit - coding.errorBits() - 1;
        if (value >> k < zeros) {
            zeros = value >> k;
            bits(value & (1 << k) - 1, k, zeros);
        } else {
            bits(value - 1, coding.errorBits(), zeros);
        }
    }

    private void bits(int value, int count, int zerosAndOne) {
        for (int i = 0; i < zerosAndOne; i++) {
            bits(0, 1);
        }
        bits(1, 1);
        bits(value, count);
    }

    private void bits(int value, int count) {
        for (int i = count - 1; i >= 0; i--) {
            pending = pending << 1 | value >> i & 1;
            pendingBits++;
            if (pendingBits == wanted) {
                out.write(pending);
                wanted = pending == 0xFF ? 7 : 8;
                pending = 0;
                pendingBits = 0;
            }
        }
    }

    private void flush() {
        while (pendingBits > 0 || wanted == 7) {
            bits(0, 1);
        }
    }

    private void bytes(int... values) {
        for (int value : values) {
            out.write(value);
        }
    }
}
