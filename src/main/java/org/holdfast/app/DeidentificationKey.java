package org.holdfast.app;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.SeekableByteChannel;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.util.Set;
import org.holdfast.finding.FileFailure;
import org.holdfast.intake.Pseudonyms;

/**
 * The secret that new UIDs and the shift of dates follow from, in a file of 32 random bytes that only its owner may read.
 * Without it exams that come later cannot be given the UIDs and dates of those before.
 *
 * @param file where it lies
 * @param isNew whether it was made just now
 * @param bytes the secret
 */
record DeidentificationKey(Path file, boolean isNew, byte[] bytes) {

    /** Where the secret lies unless told otherwise: {@code Holdfast/deidentification.key} in the person's home. */
    static Path place() {
        return Path.of(System.getProperty("user.home"), "Holdfast", "deidentification.key");
    }

    /**
     * Reads the secret; makes one if there is none.
     *
     * @throws UseCaseException if the file holds something else, or cannot be read or made
     */
    static DeidentificationKey at(Path file) throws UseCaseException {
        try {
            if (!Files.exists(file)) {
                return made(file);
            }
            if (Files.size(file) != Pseudonyms.SECRET_BYTES) {
                throw new UseCaseException(
                        file + ": a key has " + Pseudonyms.SECRET_BYTES + " bytes, this file has " + Files.size(file));
            }
            return new DeidentificationKey(file, false, Files.readAllBytes(file));
        } catch (IOException e) {
            throw new UseCaseException(file + ": the key cannot be read or made: " + FileFailure.words(e), e);
        }
    }

    private static DeidentificationKey made(Path file) throws IOException {
        byte[] secret = new byte[Pseudonyms.SECRET_BYTES];
        new SecureRandom().nextBytes(secret);
        if (file.toAbsolutePath().getParent() != null) {
            Files.createDirectories(file.toAbsolutePath().getParent());
        }
        Set<StandardOpenOption> anew = Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
        try (SeekableByteChannel out = Files.newByteChannel(file, anew, ownerOnly())) {
            ByteBuffer left = ByteBuffer.wrap(secret);
            while (left.hasRemaining()) {
                out.write(left);
            }
        }
        return new DeidentificationKey(file, true, secret);
    }

    /** Where the file system has no such permissions, those of the person's home hold. */
    private static FileAttribute<?>[] ownerOnly() {
        return FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
    }
}
