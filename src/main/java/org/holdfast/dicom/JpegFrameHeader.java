package org.holdfast.dicom;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Size and components of a frame (ISO/IEC 10918-1, B.2.2), already compared with the header of the file.
 *
 * @param process marker that says how it is coded
 * @param precision bits of a sample
 * @param lines rows
 * @param samplesPerLine columns
 * @param components samples of a pixel, in order
 */
record JpegFrameHeader(int process, int precision, int lines, int samplesPerLine, List<Component> components) {

    private static final int MOST_SAMPLING = 4;

    /**
     * One sample of each pixel.
     *
     * @param index 0-based
     * @param id number by which scans name it
     * @param horizontal samples in a unit of all components, left to right
     * @param vertical samples in a unit of all components, top to bottom
     * @param quantization number of its table
     */
    record Component(int index, int id, int horizontal, int vertical, int quantization) {}

    JpegFrameHeader {
        components = List.copyOf(components);
    }

    int mostHorizontal() {
        return components.stream().mapToInt(Component::horizontal).max().orElseThrow();
    }

    int mostVertical() {
        return components.stream().mapToInt(Component::vertical).max().orElseThrow();
    }

    /** The component of a number, or null. */
    Component component(int id) {
        return components.stream().filter(c -> c.id == id).findFirst().orElse(null);
    }

    static JpegFrameHeader read(JpegSegment segment, PixelLayout layout) throws CorruptFrameException {
        int precision = segment.unsignedByte();
        int lines = segment.unsignedShort();
        int samplesPerLine = segment.unsignedShort();
        int count = segment.unsignedByte();
        if (precision < 2 || precision > Math.min(16, layout.bitsAllocated())) {
            throw segment.corrupt("2 to " + Math.min(16, layout.bitsAllocated()) + " bits a sample", precision + "");
        }
        // No lines here means that their number comes behind the first scan (B.2.5): the file's header has it too.
        if (lines != 0 && lines != layout.rows() || samplesPerLine != layout.columns() || count != layout.samples()) {
            throw segment.corrupt(
                    size(layout.rows(), layout.columns(), layout.samples()) + " as the header says",
                    size(lines, samplesPerLine, count));
        }
        List<Component> components = new ArrayList<>();
        Set<Integer> ids = new HashSet<>();
        for (int i = 0; i < count; i++) {
            int id = segment.unsignedByte();
            int sampling = segment.unsignedByte();
            Component c = new Component(i, id, sampling >> 4, sampling & 15, segment.unsignedByte());
            if (!ids.add(id) || !isSampling(c.horizontal) || !isSampling(c.vertical)) {
                throw segment.corrupt(
                        "components of different numbers, sampled 1 to 4 times",
                        "number " + id + ", sampled " + c.horizontal + " × " + c.vertical);
            }
            components.add(c);
        }
        return new JpegFrameHeader(segment.marker(), precision, layout.rows(), samplesPerLine, components);
    }

    private static boolean isSampling(int factor) {
        return factor >= 1 && factor <= MOST_SAMPLING;
    }

    private static String size(int rows, int columns, int samples) {
        return rows + " rows × " + columns + " columns × " + samples + " samples";
    }
}
