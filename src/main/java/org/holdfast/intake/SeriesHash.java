package org.holdfast.intake;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.HexFormat;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.progress.Progress;

/** One number for the exact files of a stack, kept with every result that was measured on it. */
public final class SeriesHash {

    private SeriesHash() {}

    /**
     * SHA-256 over (SOP instance UID, SHA-256 of the file's bytes) of each slice in stack order, as 64 hexadecimal digits.
     * For slices out of one multi-frame file the file counts once, followed by their frame numbers.
     *
     * @throws DicomReadException if a file cannot be read
     */
    public static String of(Stack stack) throws DicomReadException {
        return of(stack, Progress.NONE);
    }

    /**
     * {@link #of(Stack)}, which can be stopped between two files.
     *
     * @throws DicomReadException if a file cannot be read
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static String of(Stack stack, Progress progress) throws DicomReadException {
        MessageDigest digest = PixelDigest.sha256();
        int done = 0;
        ImageHeader last = null;
        for (Slice slice : stack.slices()) {
            progress.stopIfCancelled();
            progress.report((double) done++ / stack.slices().size(), "checking the files");
            if (slice.file() != last) {
                digest.update(slice.identity().sopInstanceUid().getBytes(StandardCharsets.US_ASCII));
                digest.update((byte) 0);
                digest.update(PixelDigest.ofFile(slice.path()));
                last = slice.file();
            }
            if (slice.layout().frames() > 1) {
                digest.update(
                        ByteBuffer.allocate(4).putInt(slice.frameIndex() + 1).array());
            }
        }
        return HexFormat.of().formatHex(digest.digest());
    }
}
