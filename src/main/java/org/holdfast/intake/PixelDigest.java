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
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;

/** SHA-256 of pixels and files. */
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
     * Digest of the stored values of a single frame whatever the transfer syntax; of the whole file where this version
     * cannot read its pixels.
     */
    static String ofStoredValues(ImageHeader header) throws DicomReadException {
        PixelSource pixels = header.pixels().orElseThrow();
        if (pixels.whyUnreadable().isPresent() || !pixels.isComplete()) {
            return HexFormat.of().formatHex(ofFile(header.path()));
        }
        short[] words = new short[Math.toIntExact(pixels.layout().frameValues())];
        new PixelReader().read(pixels, 0, words);
        ByteBuffer bytes = ByteBuffer.allocate(Math.multiplyExact(2, words.length));
        bytes.asShortBuffer().put(words);
        return HexFormat.of().formatHex(sha256().digest(bytes.array()));
    }

    static byte[] ofFile(Path file) throws DicomReadException {
        MessageDigest digest = sha256();
        byte[] chunk = new byte[1 << 16];
        try (InputStream in = Files.newInputStream(file)) {
            for (int n = in.read(chunk); n >= 0; n = in.read(chunk)) {
                digest.update(chunk, 0, n);
            }
        } catch (IOException e) {
            throw new DicomReadException(file, -1, OptionalInt.empty(), "a readable file", e.toString(), e);
        }
        return digest.digest();
    }
}
