package org.holdfast.dicom;

/** Decodes single frames of one kind of compression. Implementations are stateless and may be shared between threads. */
interface FrameDecoder {

    /**
     * Decodes a frame into 16-bit words.
     *
     * @param frame the frame as it is encoded, its fragments joined; a byte may be filled in at the end
     * @param layout what the header says of the frame; rows and columns must agree with what is encoded
     * @param words receives rows × columns × samples words, the samples of a pixel together, each value in the lowest bits
     *     as two's complement if it is encoded with a sign; at least as long as the frame
     * @return words that were decoded; fewer than the frame has if it is cut short in a way that leaves whole rows
     * @throws CorruptFrameException if the frame is damaged, or is not what the header says
     */
    int decode(byte[] frame, PixelLayout layout, short[] words) throws CorruptFrameException;
}
