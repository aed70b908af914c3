package org.holdfast.dicom;

import java.util.Arrays;

/**
 * What the marker segments of a JPEG-LS frame say (ISO/IEC 14495-1, section C.2), read scan by scan. Not thread-safe.
 */
final class JpegLsHeaders {

    private static final int START_OF_FRAME = 0xF7;
    private static final int PRESET_PARAMETERS = 0xF8;
    private static final int RESTART_INTERVAL = 0xDD;

    /** Application data; "mrfx" in it names a colour transform that is not of the standard. */
    private static final int APPLICATION_8 = 0xE8;

    private static final byte[] TRANSFORM_NAME = {'m', 'r', 'f', 'x'};

    private final JpegLsSegments segments;
    private int precision;
    private int rows;
    private int columns;
    private int[] componentIds = {};
    private JpegLsPreset preset = JpegLsPreset.DEFAULT;
    private int restartInterval;

    /** How the samples of several components follow each other in a scan. */
    enum Interleave {
        NONE,
        LINE,
        SAMPLE
    }

    /**
     * A start of scan.
     *
     * @param components indices of the components in the frame
     * @param near how far a decoded value may be from the original, 0 if lossless
     * @param interleave order of the components' samples
     * @param dataOffset first byte of the coded data
     */
    record Scan(int[] components, int near, Interleave interleave, int dataOffset) {}

    JpegLsHeaders(byte[] frame) throws CorruptFrameException {
        segments = new JpegLsSegments(frame);
        int marker = segments.next();
        if (marker != JpegLsSegments.START_OF_IMAGE) {
            throw new CorruptFrameException(0, "the start of an image, FF D8", "FF " + JpegLsSegments.hex(marker));
        }
    }

    /** Reads on to the start of the next scan, which must come. */
    Scan nextScan() throws CorruptFrameException {
        while (true) {
            int marker = segments.next();
            switch (marker) {
                case START_OF_FRAME -> readFrame();
                case PRESET_PARAMETERS -> readPreset();
                case RESTART_INTERVAL -> readRestartInterval();
                case APPLICATION_8 -> refuseColourTransform();
                case JpegLsSegments.START_OF_SCAN -> {
                    return readScan();
                }
                case JpegLsSegments.END_OF_IMAGE -> throw wrong("a scan of every component", "the end of the image");
                default -> refuseOtherProcess(marker);
            }
        }
    }

    /** Leaves a scan's coded data. */
    void leaveTo(int offset) {
        segments.leaveTo(offset);
    }

    /** Checks the frame header against the data set's. */
    void requireLayout(PixelLayout layout) throws CorruptFrameException {
        // No rows: they are counted behind the first scan (ISO/IEC 10918-1, B.2.5), or were not; the data set knows.
        if (columns != layout.columns() || rows != layout.rows() && rows != 0) {
            throw wrong(
                    layout.rows() + " rows of " + layout.columns() + " pixels as the data set says",
                    rows + " rows of " + columns);
        }
        if (componentIds.length != layout.samples()) {
            throw wrong(
                    layout.samples() + " samples a pixel as the data set says", componentIds.length + " components");
        }
        if (precision > layout.bitsAllocated()) {
            throw wrong("samples of at most " + layout.bitsAllocated() + " bits", precision + " bits");
        }
    }

    /** Parameters that a scan is coded with. */
    JpegLsCoding coding(Scan scan) throws CorruptFrameException {
        return JpegLsCoding.of(preset, precision, scan.near, scan.dataOffset);
    }

    /** Rows after which decoding starts afresh; 0 if it does not. */
    int restartInterval() {
        return restartInterval;
    }

    private void readFrame() throws CorruptFrameException {
        if (precision != 0) {
            throw wrong("one frame header", "a second");
        }
        int written = segments.unsigned8();
        rows = segments.unsigned16();
        columns = segments.unsigned16();
        int components = segments.unsigned8();
        if (written < 2 || written > 16 || columns == 0 || components < 1 || components > 4) {
            throw wrong(
                    "2 to 16 bits, at least one column and 1 to 4 components",
                    written + " bits, " + columns + " columns and " + components + " components");
        }
        precision = written;
        componentIds = new int[components];
        for (int i = 0; i < components; i++) {
            componentIds[i] = segments.unsigned8();
            int sampling = segments.unsigned8();
            int unused = segments.unsigned8();
            if (sampling != 0x11) {
                throw wrong("components that are not subsampled", "sampling " + JpegLsSegments.hex(sampling));
            }
        }
    }

    private void readPreset() throws CorruptFrameException {
        int type = segments.unsigned8();
        if (type != 1) {
            throw wrong(
                    "preset coding parameters of type 1; mapping tables and oversize images are not read",
                    "type " + type);
        }
        preset = new JpegLsPreset(
                segments.unsigned16(),
                segments.unsigned16(),
                segments.unsigned16(),
                segments.unsigned16(),
                segments.unsigned16());
    }

    private void readRestartInterval() throws CorruptFrameException {
        int interval = segments.unsigned16();
        while (segments.offset() < segments.end()) {
            interval = Math.min(interval, 1 << 20) << 8 | segments.unsigned8();
        }
        restartInterval = interval;
    }

    private Scan readScan() throws CorruptFrameException {
        if (precision == 0) {
            throw wrong("a JPEG-LS frame header before the scan", "none");
        }
        int count = segments.unsigned8();
        if (count < 1 || count > componentIds.length) {
            throw wrong("a scan of 1 to " + componentIds.length + " components", count + " components");
        }
        int[] components = new int[count];
        for (int i = 0; i < count; i++) {
            components[i] = indexOf(segments.unsigned8());
            int table = segments.unsigned8();
            if (table != 0) {
                throw wrong("samples without a mapping table", "table " + table);
            }
        }
        int near = segments.unsigned8();
        int interleave = segments.unsigned8();
        int pointTransform = segments.unsigned8();
        if (interleave > 2 || interleave == 0 && count > 1) {
            throw wrong("components interleaved by line or sample", "interleave mode " + interleave);
        }
        if (pointTransform != 0) {
            throw wrong("samples that were not shifted", "point transform " + pointTransform);
        }
        return new Scan(components, near, Interleave.values()[interleave], segments.end());
    }

    private int indexOf(int componentId) throws CorruptFrameException {
        for (int i = 0; i < componentIds.length; i++) {
            if (componentIds[i] == componentId) {
                return i;
            }
        }
        throw wrong("a component of the frame, one of " + Arrays.toString(componentIds), "" + componentId);
    }

    private void refuseColourTransform() throws CorruptFrameException {
        for (byte letter : TRANSFORM_NAME) {
            if (segments.offset() >= segments.end() || segments.unsigned8() != letter) {
                return;
            }
        }
        int transform = segments.unsigned8();
        if (transform != 0) {
            throw wrong("components without a colour transform of the encoder's own", "transform " + transform);
        }
    }

    private void refuseOtherProcess(int marker) throws CorruptFrameException {
        boolean table = marker == 0xC4 || marker == 0xC8 || marker == 0xCC;
        if (marker >= 0xC0 && marker <= 0xCF && !table) {
            throw wrong("a JPEG-LS frame header, FF F7", "another JPEG process, FF " + JpegLsSegments.hex(marker));
        }
    }

    private CorruptFrameException wrong(String expected, String got) {
        return new CorruptFrameException(segments.offset(), expected, got);
    }
}
