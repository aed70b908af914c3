package org.holdfast.dicom;

/** A marker and what belongs to it (ISO/IEC 10918-1, B.1.1.4); a cursor over its bytes. One thread. */
final class JpegSegment {

    private final byte[] data;
    private final int marker;
    private final int start;
    private final int end;
    private int at;

    private JpegSegment(byte[] data, int marker, int start, int end) {
        this.data = data;
        this.marker = marker;
        this.start = start;
        this.end = end;
        this.at = start;
    }

    /**
     * The next segment; bytes before its marker that are none are passed over.
     *
     * @throws CorruptFrameException if none comes, or it is longer than the frame
     */
    static JpegSegment next(byte[] data, int from) throws CorruptFrameException {
        int at = from;
        while (at < data.length - 1 && (data[at] != (byte) 0xFF || data[at + 1] == 0 || data[at + 1] == (byte) 0xFF)) {
            at++;
        }
        if (at >= data.length - 1) {
            throw new CorruptFrameException(data.length, "a marker", "the end of the frame");
        }
        int marker = data[at + 1] & 0xFF;
        int start = at + 2;
        if (JpegMarker.standsAlone(marker) || marker == JpegMarker.END_OF_IMAGE) {
            return new JpegSegment(data, marker, start, start);
        }
        int left = data.length - start;
        int length = left < 2 ? 0 : (data[start] & 0xFF) << 8 | data[start + 1] & 0xFF;
        if (length < 2 || length > left) {
            throw new CorruptFrameException(
                    start, "a length of 2 to " + left + " behind " + JpegMarker.name(marker), String.valueOf(length));
        }
        return new JpegSegment(data, marker, start + 2, start + length);
    }

    int marker() {
        return marker;
    }

    int start() {
        return start;
    }

    int end() {
        return end;
    }

    boolean hasMore() {
        return at < end;
    }

    int unsignedByte() throws CorruptFrameException {
        if (at >= end) {
            throw corrupt("more bytes behind " + JpegMarker.name(marker), "its end");
        }
        return data[at++] & 0xFF;
    }

    int unsignedShort() throws CorruptFrameException {
        int high = unsignedByte();
        return high << 8 | unsignedByte();
    }

    byte[] bytes(int count) throws CorruptFrameException {
        byte[] out = new byte[Math.min(count, 256)];
        for (int i = 0; i < out.length; i++) {
            out[i] = (byte) unsignedByte();
        }
        return out;
    }

    CorruptFrameException corrupt(String expected, String got) {
        return new CorruptFrameException(at, expected, got);
    }
}
