package org.holdfast.dicom;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * Whether pixels are signed though their header says that they are not: files exist whose header was never told what the
 * encoder took. Only the first bytes of the first frame are read, and only of JPEG 2000.
 */
final class Jpeg2000Sign {

    /** Enough for the boxes of a JP2 file before its codestream. */
    private static final int BYTES = 1 << 16;

    private Jpeg2000Sign() {}

    static boolean overrules(PixelSource source) {
        if (source.layout().signed() || !FrameDecoders.isJpeg2000(source.transferSyntax())) {
            return false;
        }
        try (FileChannel channel = FileChannel.open(source.path(), StandardOpenOption.READ)) {
            byte[] start = EncapsulatedFrames.of(source, channel).start(channel, 0, BYTES);
            Optional<Jpeg2000Size> size = Jpeg2000Size.peek(start);
            return size.isPresent() && size.get().signed();
        } catch (IOException | DicomReadException e) {
            // Damage is reported where the pixels are read; the header is still worth having.
            return false;
        }
    }
}
