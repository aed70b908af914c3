package org.holdfast.dicom;

import java.util.HashSet;
import java.util.Set;

/**
 * JPEG frames (ISO/IEC 10918-1): sequential DCT of 8 and 12 bits, and the lossless process with any predictor, both with
 * Huffman coding. Gives the samples as they are coded: colour stays luminance and chrominance if it is coded so, and
 * samples that are stored for several pixels are repeated. Stateless.
 */
final class JpegDecoder implements FrameDecoder {

    /** Most marker segments of a frame; each may define tables, which takes time. */
    static final int MOST_SEGMENTS = 4096;

    private final Set<Integer> processes;
    private final String expected;

    private JpegDecoder(Set<Integer> processes, String expected) {
        this.processes = processes;
        this.expected = expected;
    }

    /** Reads what may stand in a lossless transfer syntax; a stream with loss there would pass for one without. */
    static JpegDecoder lossless() {
        return new JpegDecoder(Set.of(JpegMarker.LOSSLESS), JpegMarker.process(JpegMarker.LOSSLESS));
    }

    /** Reads every process that is known. */
    static JpegDecoder any() {
        return new JpegDecoder(
                Set.of(JpegMarker.BASELINE, JpegMarker.EXTENDED, JpegMarker.LOSSLESS),
                "baseline or extended sequential DCT, or lossless, with Huffman coding");
    }

    @Override
    public int decode(byte[] data, PixelLayout layout, short[] words) throws CorruptFrameException {
        JpegSegment segment = JpegSegment.next(data, 0);
        if (segment.marker() != JpegMarker.START_OF_IMAGE) {
            throw new CorruptFrameException(0, "the start of an image", JpegMarker.name(segment.marker()));
        }
        JpegTables tables = new JpegTables();
        JpegFrameHeader frame = null;
        Set<Integer> done = new HashSet<>();
        int at = segment.end();
        for (int segments = 0; segments < MOST_SEGMENTS; segments++) {
            segment = JpegSegment.next(data, at);
            at = segment.end();
            int marker = segment.marker();
            if (marker == JpegMarker.HUFFMAN_TABLES) {
                tables.readHuffman(segment);
            } else if (marker == JpegMarker.QUANTIZATION_TABLES) {
                tables.readQuantization(segment);
            } else if (marker == JpegMarker.RESTART_INTERVAL) {
                tables.readRestartInterval(segment);
            } else if (JpegMarker.isStartOfFrame(marker)) {
                frame = readFrame(segment, frame, layout);
            } else if (marker == JpegMarker.START_OF_SCAN) {
                if (frame == null) {
                    throw segment.corrupt("a frame's header before its scans", "a scan");
                }
                JpegScan scan = JpegScan.read(segment, frame, tables);
                JpegBits bits = new JpegBits(data, at);
                int lines = readScan(scan, bits, done, words);
                at = bits.position();
                if (done.size() == layout.samples()) {
                    return lines * layout.columns() * layout.samples();
                }
            } else if (marker == JpegMarker.END_OF_IMAGE) {
                throw segment.corrupt("data of " + layout.samples() + " components", "of " + done.size());
            }
        }
        throw new CorruptFrameException(at, "at most " + MOST_SEGMENTS + " marker segments", "more");
    }

    private JpegFrameHeader readFrame(JpegSegment segment, JpegFrameHeader before, PixelLayout layout)
            throws CorruptFrameException {
        if (before != null) {
            throw segment.corrupt("one image in a frame", "another frame header");
        }
        if (!processes.contains(segment.marker())) {
            throw segment.corrupt(
                    expected, JpegMarker.process(segment.marker()) + ", which this version does not read here");
        }
        JpegFrameHeader frame = JpegFrameHeader.read(segment, layout);
        if (frame.process() != JpegMarker.LOSSLESS && frame.precision() != 8 && frame.precision() != 12) {
            throw segment.corrupt("8 or 12 bits a sample for a DCT", String.valueOf(frame.precision()));
        }
        return frame;
    }

    private static int readScan(JpegScan scan, JpegBits bits, Set<Integer> done, short[] words)
            throws CorruptFrameException {
        for (JpegScan.Part part : scan.parts()) {
            if (!done.add(part.component().index())) {
                throw new CorruptFrameException(
                        bits.position(),
                        "one scan for each component",
                        "another for component " + part.component().id());
            }
        }
        int lines = scan.frame().process() == JpegMarker.LOSSLESS
                ? new JpegLosslessScan(scan, bits).read(words)
                : new JpegDctScan(scan, bits).read(words);
        boolean whole = lines == scan.frame().lines();
        if (!whole && scan.parts().size() < scan.frame().components().size()) {
            throw new CorruptFrameException(bits.position(), "whole scans of single components", lines + " lines");
        }
        return lines;
    }
}
