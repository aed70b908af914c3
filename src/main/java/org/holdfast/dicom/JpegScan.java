package org.holdfast.dicom;

import java.util.ArrayList;
import java.util.List;

/**
 * What a scan holds (ISO/IEC 10918-1, B.2.3).
 *
 * @param frame the frame that it is part of
 * @param parts components whose data are in it, in that order
 * @param restartInterval minimum coded units between restart markers; 0 for none
 * @param predictor how samples are foretold where coding is without loss
 * @param pointTransform lowest bits that are left out where coding is without loss
 */
record JpegScan(JpegFrameHeader frame, List<Part> parts, int restartInterval, int predictor, int pointTransform) {

    /**
     * A component and the tables that it is read with.
     *
     * @param component the component
     * @param dc table of DC coefficients or differences
     * @param ac table of AC coefficients; null where coding is without loss
     * @param steps quantization steps; null where coding is without loss
     */
    record Part(JpegFrameHeader.Component component, JpegHuffmanTable dc, JpegHuffmanTable ac, int[] steps) {}

    JpegScan {
        parts = List.copyOf(parts);
    }

    static JpegScan read(JpegSegment segment, JpegFrameHeader frame, JpegTables tables) throws CorruptFrameException {
        int count = segment.unsignedByte();
        if (count < 1 || count > frame.components().size()) {
            throw segment.corrupt("a scan of 1 to " + frame.components().size() + " components", String.valueOf(count));
        }
        boolean lossless = frame.process() == JpegMarker.LOSSLESS;
        List<Part> parts = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            int id = segment.unsignedByte();
            int numbers = segment.unsignedByte();
            JpegFrameHeader.Component c = frame.component(id);
            if (c == null || parts.stream().anyMatch(p -> p.component == c)) {
                throw segment.corrupt("each component of the frame once", "component " + id);
            }
            parts.add(new Part(
                    c,
                    tables.dc(numbers >> 4),
                    lossless ? null : tables.ac(numbers & 15),
                    lossless ? null : tables.quantization(c.quantization())));
        }
        int predictor = segment.unsignedByte();
        // The last coefficient; sequential coding always has all 64, and some encoders write 0 all the same.
        segment.unsignedByte();
        int pointTransform = segment.unsignedByte() & 15;
        return new JpegScan(frame, parts, tables.restartInterval(), predictor, pointTransform);
    }
}
