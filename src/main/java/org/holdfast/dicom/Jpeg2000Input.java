package org.holdfast.dicom;

import java.nio.ByteBuffer;
import java.util.Arrays;
import jj2000.j2k.io.EndianType;
import jj2000.j2k.io.RandomAccessIO;

/**
 * A codestream in memory, as the library reads it. Where it is cut off this throws what the library does not catch: on an
 * {@code IOException} the library writes to the standard error and then shows what it has, or ends the thread. A marker
 * of the end is added where there is none, which alone is no damage. One thread.
 */
final class Jpeg2000Input implements RandomAccessIO {

    /** Second byte of the marker (ISO/IEC 15444-1, table A.2). */
    private static final byte END_OF_CODESTREAM = (byte) 0xD9;

    private final ByteBuffer bytes;
    private int afterFullByte = -1;

    /** What the library must not go on with. */
    static final class Damage extends RuntimeException {
        private static final long serialVersionUID = 1;

        Damage(String message) {
            super(message);
        }
    }

    /**
     * @param frame bytes that hold the codestream
     * @param start where it begins; its places are counted from here
     */
    Jpeg2000Input(byte[] frame, int start) {
        byte[] ended = Arrays.copyOfRange(frame, start, frame.length + 2);
        ended[ended.length - 2] = (byte) 0xFF;
        ended[ended.length - 1] = END_OF_CODESTREAM;
        this.bytes = ByteBuffer.wrap(ended);
    }

    @Override
    public void close() {}

    @Override
    public void flush() {}

    @Override
    public int getPos() {
        return bytes.position();
    }

    @Override
    public int length() {
        return bytes.limit();
    }

    @Override
    public int getByteOrdering() {
        return EndianType.BIG_ENDIAN;
    }

    @Override
    public void seek(int place) {
        if (place < 0 || place > bytes.limit()) {
            throw new Damage(place - bytes.limit() + " bytes are missing at its end");
        }
        bytes.position(place);
    }

    @Override
    public int skipBytes(int count) {
        need(count);
        bytes.position(bytes.position() + count);
        return count;
    }

    @Override
    public void readFully(byte[] into, int from, int count) {
        need(count);
        bytes.get(into, from, count);
    }

    /** A byte of a packet header; FF twice is never in one (ISO/IEC 15444-1, B.10.1), and the library stays there for ever. */
    @Override
    public int read() {
        int place = bytes.position();
        int value = readUnsignedByte();
        if (value == 0xFF && afterFullByte == place) {
            throw new Damage("FFFF in the header of a packet");
        }
        afterFullByte = value == 0xFF ? place + 1 : -1;
        return value;
    }

    @Override
    public byte readByte() {
        need(1);
        return bytes.get();
    }

    @Override
    public int readUnsignedByte() {
        return readByte() & 0xFF;
    }

    @Override
    public short readShort() {
        need(Short.BYTES);
        return bytes.getShort();
    }

    @Override
    public int readUnsignedShort() {
        return readShort() & 0xFFFF;
    }

    @Override
    public int readInt() {
        need(Integer.BYTES);
        return bytes.getInt();
    }

    @Override
    public long readUnsignedInt() {
        return readInt() & 0xFFFFFFFFL;
    }

    @Override
    public long readLong() {
        need(Long.BYTES);
        return bytes.getLong();
    }

    @Override
    public float readFloat() {
        return Float.intBitsToFloat(readInt());
    }

    @Override
    public double readDouble() {
        return Double.longBitsToDouble(readLong());
    }

    @Override
    public void write(int value) {
        throw readOnly();
    }

    @Override
    public void writeByte(int value) {
        throw readOnly();
    }

    @Override
    public void writeShort(int value) {
        throw readOnly();
    }

    @Override
    public void writeInt(int value) {
        throw readOnly();
    }

    @Override
    public void writeLong(long value) {
        throw readOnly();
    }

    @Override
    public void writeFloat(float value) {
        throw readOnly();
    }

    @Override
    public void writeDouble(double value) {
        throw readOnly();
    }

    private void need(int count) {
        if (count < 0 || count > bytes.remaining()) {
            throw new Damage(count - bytes.remaining() + " bytes are missing at its end");
        }
    }

    private static UnsupportedOperationException readOnly() {
        return new UnsupportedOperationException("a codestream is only read");
    }
}
