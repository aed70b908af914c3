package org.holdfast.dicom;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;

/**
 * Reads the bits of coded data, high bit first; behind a byte FF a filling bit is left out (ISO/IEC 14495-1, section
 * A.1). Not thread-safe.
 */
final class JpegLsBits {

    private static final VarHandle LONG = MethodHandles.byteArrayViewVarHandle(long[].class, ByteOrder.BIG_ENDIAN);
    private static final long LOWEST_BITS = 0x0101010101010101L;
    private static final long HIGHEST_BITS = 0x8080808080808080L;

    /** A code is at most this long, so that one filling does for it. */
    private static final int ENOUGH = 48;

    private final byte[] data;
    private final int end;
    private int at;
    private boolean behindFf;

    /** Bits to come, the next one highest; zeros behind those that are held. */
    private long window;

    private int held;
    private boolean ranOut;

    /** Bits of the bytes from one offset up to another. */
    JpegLsBits(byte[] data, int from, int end) {
        this.data = data;
        this.at = from;
        this.end = end;
    }

    /** The next bits as a number; at most 31. */
    int read(int count) throws CorruptFrameException {
        if (held < count) {
            fill();
            require(count);
        }
        // In two steps, since the second alone could be by 64.
        int value = (int) (window >>> 1 >>> (63 - count));
        drop(count);
        return value;
    }

    /**
     * Reads a limited-length Golomb code (section A.5.3).
     *
     * @param k bits of the remainder
     * @param mostZeros zeros that announce a value written as it is
     * @param escapeBits bits of such a value
     */
    int golomb(int k, int mostZeros, int escapeBits) throws CorruptFrameException {
        if (held < ENOUGH) {
            fill();
        }
        int zeros = zeros(mostZeros);
        return zeros < mostZeros ? zeros << k | read(k) : read(escapeBits) + 1;
    }

    /** Whether more bits were asked for than there are. */
    boolean ranOut() {
        return ranOut;
    }

    /** Byte that is read next, about. */
    int offset() {
        return at - held / 8;
    }

    /** Whether all that is left is what fills the last byte, a zero byte behind FF, or further zeros. */
    boolean isAtEnd() {
        if (end - at + held / 8 <= 1) {
            return true;
        }
        for (int i = offset(); i < end; i++) {
            if (data[i] != 0) {
                return false;
            }
        }
        return true;
    }

    /** Counts zeros up to the next one, and drops that as well. */
    private int zeros(int most) throws CorruptFrameException {
        int zeros = Long.numberOfLeadingZeros(window);
        if (zeros >= held) {
            // All that is held is zero: a code that goes on in the bytes to come, or the end of them.
            zeros = held;
            drop(held);
            fill();
            int more = Math.min(held, Long.numberOfLeadingZeros(window));
            zeros += more;
            drop(more);
            if (zeros <= most) {
                require(1);
                drop(1);
            }
        } else {
            drop(zeros);
            drop(1);
        }
        if (zeros > most) {
            throw new CorruptFrameException(offset(), "a code of at most " + most + " zeros", zeros + " zeros");
        }
        return zeros;
    }

    private void drop(int count) {
        // A shift by 64 does nothing.
        window = count == 64 ? 0 : window << count;
        held -= count;
    }

    private void require(int count) throws CorruptFrameException {
        if (held < count) {
            ranOut = true;
            throw new CorruptFrameException(end, "further coded samples", "the end of the coded data");
        }
    }

    private void fill() {
        if (end - at >= Long.BYTES && !behindFf) {
            long eight = (long) LONG.get(data, at);
            if ((~eight - LOWEST_BITS & eight & HIGHEST_BITS) == 0) {
                int bytes = (Long.SIZE - held) / 8;
                window |= eight >>> held;
                held += bytes * 8;
                at += bytes;
                window &= -1L << Long.SIZE - held;
                return;
            }
        }
        while (held <= Long.SIZE - 8 && at < end) {
            int next = data[at++] & 0xFF;
            int bits = behindFf ? 7 : 8;
            held += bits;
            window |= (long) next << Long.SIZE - held;
            behindFf = next == 0xFF;
        }
    }
}
