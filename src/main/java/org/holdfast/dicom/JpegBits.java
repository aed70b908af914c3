package org.holdfast.dicom;

/**
 * Bits of entropy-coded data (ISO/IEC 10918-1, F.2.2.5), highest first: takes stuffed bytes out and stops at a marker.
 * Behind the end it gives zeros and remembers that it did, so whoever reads asks {@link #isOverrun} once a row instead of
 * once a bit. One thread.
 */
final class JpegBits {

    private static final int LAST_RESTART = 7;

    private final byte[] data;
    private int at;
    private long buffer;
    private int count;
    private int missing;

    JpegBits(byte[] data, int from) {
        this.data = data;
        this.at = from;
    }

    /** The next bits, not taken; at most 16. */
    int peek(int bits) {
        if (count < bits) {
            fill();
        }
        return (int) (buffer >>> (count - bits)) & ((1 << bits) - 1);
    }

    /** Takes bits that were peeked at. */
    void skip(int bits) {
        count -= bits;
    }

    /** Takes the next bits; at most 16, 0 gives 0. */
    int take(int bits) {
        int value = peek(bits);
        count -= bits;
        return value;
    }

    /** A number of some bits whose first one tells its sign (ISO/IEC 10918-1, F.2.2.1, figure F.12). */
    int takeSigned(int bits) {
        int value = take(bits);
        return bits > 0 && value < 1 << (bits - 1) ? value - (1 << bits) + 1 : value;
    }

    /** Whether more bits were taken than there are. */
    boolean isOverrun() {
        return count < missing;
    }

    /** Whether these next bits, which were peeked at, are more than there are. */
    boolean reachesBeyond(int bits) {
        return count - bits < missing;
    }

    /** Whether the data stops without a marker: the frame is cut short. */
    boolean stopsWithoutMarker() {
        return at >= data.length - 1;
    }

    /** Where the next byte that was not taken in lies; a marker, if the data is used up. */
    int position() {
        return at;
    }

    /**
     * Goes on behind a restart marker; bits before it that were not needed are left out.
     *
     * @param number 0 to 7
     * @return false if another marker comes first, or none
     */
    boolean restart(int number) {
        buffer = 0;
        count = 0;
        missing = 0;
        while (at < data.length - 1 && !isMarker()) {
            at++;
        }
        if (at >= data.length - 1 || (data[at + 1] & 0xFF) != JpegMarker.RESTART_0 + (number & LAST_RESTART)) {
            missing = 1;
            return false;
        }
        at += 2;
        return true;
    }

    private boolean isMarker() {
        return data[at] == (byte) 0xFF && data[at + 1] != 0 && data[at + 1] != (byte) 0xFF;
    }

    private void fill() {
        while (count <= 48) {
            int next = at < data.length ? data[at] & 0xFF : -1;
            if (next == 0xFF) {
                int after = at + 1 < data.length ? data[at + 1] & 0xFF : -1;
                if (after == 0xFF) {
                    at++;
                    continue;
                }
                next = after == 0 ? 0xFF : -1;
                at += after == 0 ? 1 : 0;
            }
            if (next < 0) {
                missing += 8;
                next = 0;
            } else {
                at++;
            }
            buffer = buffer << 8 | next;
            count += 8;
        }
    }
}
