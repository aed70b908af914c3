package org.holdfast.dicom;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/**
 * Bytes by position, in a file or in memory. A file is read in windows: one small read usually holds a whole header.
 * Not thread-safe.
 */
final class ByteSource {

    /** First window, bytes: most CT headers are smaller. */
    private static final int FIRST_WINDOW = 16 << 10;

    private static final int NEXT_WINDOW = 256 << 10;

    private final FileChannel channel;
    private final long size;
    private byte[] window;
    private long windowStart;
    private int windowLength;

    private ByteSource(FileChannel channel, long size, byte[] window, int windowLength) {
        this.channel = channel;
        this.size = size;
        this.window = window;
        this.windowLength = windowLength;
    }

    static ByteSource of(FileChannel channel) throws IOException {
        return new ByteSource(channel, channel.size(), new byte[0], 0);
    }

    static ByteSource of(byte[] bytes) {
        return new ByteSource(null, bytes.length, bytes, bytes.length);
    }

    long size() {
        return size;
    }

    int unsignedByte(long at) throws IOException {
        int i = require(at, 1);
        return window[i] & 0xFF;
    }

    int unsignedShort(long at, boolean bigEndian) throws IOException {
        int i = require(at, 2);
        int low = window[bigEndian ? i + 1 : i] & 0xFF;
        int high = window[bigEndian ? i : i + 1] & 0xFF;
        return high << 8 | low;
    }

    long unsignedInt(long at, boolean bigEndian) throws IOException {
        long first = unsignedShort(at, bigEndian);
        long second = unsignedShort(at + 2, bigEndian);
        return bigEndian ? first << 16 | second : second << 16 | first;
    }

    int tag(long at, boolean bigEndian) throws IOException {
        return unsignedShort(at, bigEndian) << 16 | unsignedShort(at + 2, bigEndian);
    }

    /** A copy of so many bytes; the caller has checked that they are there. */
    byte[] bytes(long at, int length) throws IOException {
        byte[] out = new byte[length];
        if (length <= NEXT_WINDOW) {
            int from = require(at, length);
            System.arraycopy(window, from, out, 0, length);
        } else {
            readFully(at, out, length);
        }
        return out;
    }

    /** Makes the window hold these bytes; returns where they start in it. */
    private int require(long at, int length) throws IOException {
        if (at < 0 || length > size - at) {
            throw new EOFException("bytes " + at + " to " + (at + length) + " of " + size);
        }
        if (at < windowStart || at + length > windowStart + windowLength) {
            boolean first = at + length <= FIRST_WINDOW;
            long start = first ? 0 : at;
            int take = (int) Math.min(first ? FIRST_WINDOW : Math.max(length, NEXT_WINDOW), size - start);
            if (window.length < take) {
                window = new byte[take];
            }
            windowLength = 0;
            readFully(start, window, take);
            windowStart = start;
            windowLength = take;
        }
        return (int) (at - windowStart);
    }

    private void readFully(long at, byte[] into, int length) throws IOException {
        if (channel == null) {
            System.arraycopy(window, (int) at, into, 0, length);
            return;
        }
        ByteBuffer buffer = ByteBuffer.wrap(into, 0, length);
        while (buffer.hasRemaining()) {
            if (channel.read(buffer, at + buffer.position()) < 0) {
                throw new EOFException("the file became shorter while it was read");
            }
        }
    }
}
