package org.holdfast.dicom;

import java.io.IOException;

/**
 * JPEG 2000 frames (ISO/IEC 15444-1), bare or as a JP2 file, by the library's own steps up to the samples: no colour
 * model comes between. The codestream's bits are taken: one that is signed gives signed words; one that is not, in a file
 * that says signed, is read as two's complement of its own precision. Stateless.
 */
final class Jpeg2000Decoder implements FrameDecoder {

    @Override
    public int decode(byte[] encoded, PixelLayout layout, short[] words) throws CorruptFrameException {
        byte[] frame = Jpeg2000Repair.repaired(encoded, layout);
        Jpeg2000Size size = Jpeg2000Size.peek(frame)
                .orElseThrow(() -> new CorruptFrameException(
                        0, "a JPEG 2000 codestream or JP2 file", "other bytes, or an end before its size"));
        size.require(layout, frame.length);
        Jpeg2000TileParts.require(frame, size);
        boolean signExtended = layout.signed() && !size.signed();
        try {
            new Jpeg2000Samples(frame, size).read(words, signExtended);
        } catch (OutOfMemoryError e) {
            throw new CorruptFrameException(
                    size.start(), "a codestream that can be decoded in the memory there is", "one that needs more", e);
        } catch (IOException | RuntimeException | Error e) {
            // The library gives up on damage with whatever comes, ThreadDeath included, which nobody else throws here.
            throw new CorruptFrameException(size.start(), "a codestream that can be decoded", words(e), e);
        }
        return Math.toIntExact(layout.frameValues());
    }

    private static String words(Throwable e) {
        String message = e.getMessage() == null ? "" : ": " + e.getMessage().strip();
        return "damage (" + e.getClass().getSimpleName() + message + ")";
    }
}
