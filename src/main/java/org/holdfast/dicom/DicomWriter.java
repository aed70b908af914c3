package org.holdfast.dicom;

import java.io.BufferedOutputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

/**
 * Writes complete DICOM Part 10 files: preamble, file meta information with its true length, data set (PS3.10, section
 * 7). Uncompressed pixels only. Stateless.
 */
public final class DicomWriter {

    /** Identifies this application as the writer (PS3.10, section 7.1). */
    public static final String IMPLEMENTATION_CLASS_UID = Uid.fromName("org.holdfast.dicom");

    static final String IMPLEMENTATION_VERSION_NAME = "HOLDFAST_1";

    /** How the lengths of sequences and items are written; readers must take both. */
    public enum SequenceLength {
        /** Lengths are given. */
        DEFINED,
        /** Ends are marked by delimiters. */
        UNDEFINED
    }

    private DicomWriter() {}

    /** Writes a file with sequences of defined length; see {@link #write(Path, DataSet, TransferSyntax, SequenceLength)}. */
    public static void write(Path file, DataSet dataSet, TransferSyntax syntax) throws IOException {
        write(file, dataSet, syntax, SequenceLength.DEFINED);
    }

    /**
     * Writes a file. It appears under its name only when it is complete.
     *
     * @throws IllegalArgumentException if the syntax compresses pixels, or the data set lacks its SOP class or instance
     */
    public static void write(Path file, DataSet dataSet, TransferSyntax syntax, SequenceLength lengths)
            throws IOException {
        requireWritable(dataSet, syntax);
        Path unfinished = file.resolveSibling(file.getFileName() + ".part");
        try {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(unfinished), 1 << 16)) {
                write(out, dataSet, syntax, lengths);
            }
            Files.move(unfinished, file, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(unfinished);
        }
    }

    /** Writes a complete file to a stream, which stays open. */
    static void write(OutputStream out, DataSet dataSet, TransferSyntax syntax, SequenceLength lengths)
            throws IOException {
        requireWritable(dataSet, syntax);
        out.write(new byte[128]);
        out.write(new byte[] {'D', 'I', 'C', 'M'});
        ElementWriter metaWriter = new ElementWriter(TransferSyntax.EXPLICIT_LITTLE_ENDIAN, SequenceLength.DEFINED);
        DataSet meta = meta(dataSet, syntax);
        ByteArrayOutputStream rest = new ByteArrayOutputStream();
        metaWriter.write(rest, meta);
        metaWriter.write(
                out,
                DataSet.builder()
                        .integers(Tag.FILE_META_GROUP_LENGTH, rest.size())
                        .build());
        rest.writeTo(out);
        ElementWriter writer = new ElementWriter(syntax, lengths);
        if (syntax.deflated()) {
            Deflater raw = new Deflater(Deflater.DEFAULT_COMPRESSION, true);
            try {
                DeflaterOutputStream deflated = new DeflaterOutputStream(out, raw, 1 << 16);
                writer.write(deflated, dataSet);
                deflated.finish();
                if (raw.getBytesWritten() % 2 == 1) {
                    out.write(0);
                }
            } finally {
                raw.end();
            }
        } else {
            writer.write(out, dataSet);
        }
    }

    private static DataSet meta(DataSet dataSet, TransferSyntax syntax) {
        return DataSet.builder()
                .bytes(Tag.FILE_META_VERSION, Vr.OB, new byte[] {0, 1})
                .string(
                        Tag.MEDIA_STORAGE_SOP_CLASS_UID,
                        dataSet.string(Tag.SOP_CLASS_UID).orElseThrow())
                .string(
                        Tag.MEDIA_STORAGE_SOP_INSTANCE_UID,
                        dataSet.string(Tag.SOP_INSTANCE_UID).orElseThrow())
                .string(Tag.TRANSFER_SYNTAX_UID, syntax.uid())
                .string(Tag.IMPLEMENTATION_CLASS_UID, IMPLEMENTATION_CLASS_UID)
                .string(Tag.IMPLEMENTATION_VERSION_NAME, IMPLEMENTATION_VERSION_NAME)
                .build();
    }

    private static void requireWritable(DataSet dataSet, TransferSyntax syntax) {
        if (syntax.encapsulated()) {
            throw new IllegalArgumentException("compressed pixels cannot be written, got " + syntax.describe());
        }
        for (int tag : new int[] {Tag.SOP_CLASS_UID, Tag.SOP_INSTANCE_UID}) {
            if (dataSet.isBlank(tag)) {
                throw new IllegalArgumentException("a file needs " + Tag.format(tag));
            }
        }
    }
}
