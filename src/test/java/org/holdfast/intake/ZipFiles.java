package org.holdfast.intake;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/** Zip archives for tests, good and hostile. */
final class ZipFiles {

    private static final int CENTRAL = 0x02014b50;
    private static final int FLAGS_IN_CENTRAL = 8;

    private ZipFiles() {}

    /** An archive of entries whatever their names, deflated. */
    static Path write(Path archive, Map<String, byte[]> entries) {
        return write(archive, entries, ZipEntry.DEFLATED);
    }

    static Path write(Path archive, Map<String, byte[]> entries, int method) {
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(archive), StandardCharsets.UTF_8)) {
            for (Map.Entry<String, byte[]> e : entries.entrySet()) {
                ZipEntry entry = new ZipEntry(e.getKey());
                entry.setMethod(method);
                if (method == ZipEntry.STORED) {
                    CRC32 crc = new CRC32();
                    crc.update(e.getValue());
                    entry.setCrc(crc.getValue());
                    entry.setSize(e.getValue().length);
                }
                out.putNextEntry(entry);
                out.write(e.getValue());
                out.closeEntry();
            }
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return archive;
    }

    /** Sets the bit that says "encrypted" of every entry in the list. */
    static void markEncrypted(Path archive) throws IOException {
        change(archive, FLAGS_IN_CENTRAL, (short) 1);
    }

    /** Sets the two bytes at a place of every entry in the list. */
    static void change(Path archive, int at, short value) throws IOException {
        ByteBuffer all = ByteBuffer.wrap(Files.readAllBytes(archive)).order(ByteOrder.LITTLE_ENDIAN);
        for (int i = 0; i + 46 <= all.limit(); i++) {
            if (all.getInt(i) == CENTRAL) {
                all.putShort(i + at, value);
            }
        }
        Files.write(archive, all.array());
    }

    /** Zeros that compress a thousand times. */
    static byte[] bomb(int bytes) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream(bytes);
        out.write(new byte[bytes]);
        return out.toByteArray();
    }
}
