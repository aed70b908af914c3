package org.holdfast.dicom;

import java.io.IOException;

/**
 * The seam for codecs: turns the pixel data of some transfer syntaxes into stored words. Implementations are stateless.
 */
interface PixelCodec {

    /** Whether this codec reads these pixels. */
    boolean reads(PixelSource source);

    /**
     * Reads one frame as 16-bit words, one for each sample in the order that is stored; the counted bits stand lowest.
     *
     * @param frameIndex 0-based
     * @param words receives the frame; at least as long as it
     * @param scratch memory to work in
     * @return words that were read; fewer than the frame has if the file is cut short
     */
    int read(PixelSource source, int frameIndex, short[] words, PixelReader.Scratch scratch)
            throws IOException, DicomReadException;

    /**
     * Reads one frame of 32 bits allocated as stored values: with their sign, unsigned ones of 32 bits as they are.
     *
     * @param values receives the frame; at least as long as it
     * @return values that were read; fewer than the frame has if the file is cut short
     */
    int readWide(PixelSource source, int frameIndex, int[] values, PixelReader.Scratch scratch)
            throws IOException, DicomReadException;

    /** Masks the bits of 32-bit values that do not count, and extends the sign. */
    static void mask(PixelLayout layout, int[] values, int count) {
        int above = 31 - layout.highBit();
        int unused = 32 - layout.bitsStored();
        for (int i = 0; i < count; i++) {
            int top = values[i] << above;
            values[i] = layout.signed() ? top >> unused : top >>> unused;
        }
    }
}
