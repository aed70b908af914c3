package org.holdfast.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;

/** A stretch of a file as a stream. Does not close the file. */
final class BoundedInput extends InputStream {

    private final FileChannel file;
    private long at;
    private long left;

    BoundedInput(FileChannel file, long from, long count) {
        this.file = file;
        this.at = from;
        this.left = count;
    }

    @Override
    public int read() throws IOException {
        byte[] one = new byte[1];
        return read(one, 0, 1) < 0 ? -1 : one[0] & 0xFF;
    }

    @Override
    public int read(byte[] into, int from, int count) throws IOException {
        if (count == 0) {
            return 0;
        }
        if (left == 0) {
            return -1;
        }
        int n = file.read(ByteBuffer.wrap(into, from, (int) Math.min(count, left)), at);
        if (n > 0) {
            at += n;
            left -= n;
        }
        return n;
    }
}
