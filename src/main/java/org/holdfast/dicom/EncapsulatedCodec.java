package org.holdfast.dicom;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.StandardOpenOption;
import java.util.OptionalInt;

/** Pixels in fragments (PS3.5, section A.4): finds a frame's bytes and has them decoded by its syntax's decoder. */
final class EncapsulatedCodec implements PixelCodec {

    /** Enough for all headers of a frame, with application data. */
    private static final int HEADER_BYTES = 4096;

    @Override
    public boolean reads(PixelSource source) {
        return source.transferSyntax().encapsulated()
                && source.location().tag() == Tag.PIXEL_DATA
                && (source.layout().bitsAllocated() <= 16 || isRle(source))
                && FrameDecoders.of(source.transferSyntax()).isPresent();
    }

    @Override
    public int read(PixelSource source, int frameIndex, short[] words, PixelReader.Scratch scratch)
            throws IOException, DicomReadException {
        FrameDecoder decoder = FrameDecoders.of(source.transferSyntax()).orElseThrow();
        return decoded(source, frameIndex, scratch, frame -> decoder.decode(frame, source.layout(), words));
    }

    @Override
    public int readWide(PixelSource source, int frameIndex, int[] values, PixelReader.Scratch scratch)
            throws IOException, DicomReadException {
        int count = decoded(source, frameIndex, scratch, frame -> RleDecoder.unpack(frame, source.layout(), values));
        PixelCodec.mask(source.layout(), values, count);
        return count;
    }

    /** The only compression that is read with 32 bits allocated. */
    private static boolean isRle(PixelSource source) {
        return source.transferSyntax().uid().equals(TransferSyntax.RLE_LOSSLESS)
                && source.layout().bitsAllocated() == 32;
    }

    /** What becomes of a frame's bytes. */
    private interface Decoding {
        int of(byte[] frame) throws CorruptFrameException;
    }

    private static int decoded(PixelSource source, int frameIndex, PixelReader.Scratch scratch, Decoding decoding)
            throws IOException, DicomReadException {
        try (FileChannel channel = FileChannel.open(source.path(), StandardOpenOption.READ)) {
            EncapsulatedFrames frames = scratch.frames(source, channel);
            if (frameIndex >= frames.count()) {
                return 0;
            }
            byte[] frame = frames.read(channel, frameIndex);
            try {
                return decoding.of(frame);
            } catch (CorruptFrameException e) {
                long at = frames.offsetOf(frameIndex, Math.max(0, e.offset()));
                String got = frames.isCutShort() ? e.got() + " (the file ends before its pixel data does)" : e.got();
                throw new DicomReadException(source.path(), at, OptionalInt.of(Tag.PIXEL_DATA), e.expected(), got, e);
            }
        }
    }

    /** Error of near-lossless coding as the first frame says; see {@link PixelSource#nearLosslessError}. */
    static OptionalInt nearLosslessError(PixelSource source) {
        boolean jpegLs = FrameDecoders.of(source.transferSyntax())
                .filter(JpegLsDecoder.class::isInstance)
                .isPresent();
        if (!jpegLs || source.location().tag() != Tag.PIXEL_DATA) {
            return OptionalInt.empty();
        }
        try (FileChannel channel = FileChannel.open(source.path(), StandardOpenOption.READ)) {
            byte[] start = EncapsulatedFrames.of(source, channel).start(channel, 0, HEADER_BYTES);
            int error = JpegLsDecoder.nearLosslessError(start);
            return error > 0 ? OptionalInt.of(error) : OptionalInt.empty();
        } catch (IOException | DicomReadException | CorruptFrameException e) {
            // Whoever reads the pixels is told why they cannot be read.
            return OptionalInt.empty();
        }
    }
}
