package org.holdfast.intake;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.OptionalInt;
import java.util.zip.CRC32;
import java.util.zip.CRC32C;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.finding.FileFailure;

/** Check sums of pixels and files. */
final class PixelDigest {

    private PixelDigest() {}

    static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /**
     * Fingerprint of the stored values of a frame whatever the transfer syntax: two different 32-bit check sums,
     * enough to tell images apart that nobody forged. The SHA-256 of the whole file where this version cannot read the
     * pixels.
     */
    static String ofStoredValues(Slice slice) throws DicomReadException {
        PixelSource pixels = slice.pixels();
        if (pixels.whyUnreadable().isPresent() || !pixels.isComplete()) {
            return HexFormat.of().formatHex(ofFile(slice.path()));
        }
        short[] words = new short[Math.toIntExact(pixels.layout().frameValues())];
        new PixelReader().read(pixels, slice.frameIndex(), words);
        ByteBuffer bytes = ByteBuffer.allocate(Math.multiplyExact(2, words.length));
        bytes.asShortBuffer().put(words);
        CRC32 first = new CRC32();
        first.update(bytes.array());
        CRC32C second = new CRC32C();
        second.update(bytes.array());
        return HexFormat.of().toHexDigits(first.getValue() << 32 | second.getValue());
    }

    static byte[] ofFile(Path file) throws DicomReadException {
        MessageDigest digest = sha256();
        byte[] chunk = new byte[1 << 16];
        try (InputStream in = Files.newInputStream(file)) {
            for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
                digest.update(chunk, 0, n);
            }
        } catch (IOException e) {
            throw new DicomReadException(file, -1, OptionalInt.empty(), "a readable file", FileFailure.words(e), e);
        }
        return digest.digest();
    }
}
