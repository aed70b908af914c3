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
 * 7). Pixels of its own are uncompressed; those of another file are copied as they are. Stateless.
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
        whole(file, out -> write(out, dataSet, syntax, lengths));
    }

    /**
     * Writes a data set followed by the pixel data of another file, in that file's transfer syntax: every byte of the
     * frames is copied, nothing is decoded. Sequences have defined lengths. The file appears under its name only when it
     * is complete.
     *
     * @param dataSet elements before the pixel data
     * @param pixels which pixel data to copy
     * @throws IllegalArgumentException if the data set lacks its SOP class or instance, or has pixel data of its own
     */
    public static void write(Path file, DataSet dataSet, PixelCopy pixels) throws IOException {
        requireIdentified(dataSet);
        if (dataSet.tags().stream().anyMatch(Tag::isPixelData)) {
            throw new IllegalArgumentException("the data set has pixel data of its own");
        }
        whole(file, out -> write(out, dataSet, pixels.syntax(), SequenceLength.DEFINED, pixels::writeTo));
    }

    /** What is written to a file or behind a data set. */
    private interface Content {
        void writeTo(OutputStream out) throws IOException;
    }

    private static void whole(Path file, Content content) throws IOException {
        Path unfinished = file.resolveSibling(file.getFileName() + ".part");
        try {
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(unfinished), 1 << 16)) {
                content.writeTo(out);
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
        write(out, dataSet, syntax, lengths, nothing -> {});
    }

    private static void write(
            OutputStream out, DataSet dataSet, TransferSyntax syntax, SequenceLength lengths, Content after)
            throws IOException {
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
                after.writeTo(deflated);
                deflated.finish();
                if (raw.getBytesWritten() % 2 == 1) {
                    out.write(0);
                }
            } finally {
                raw.end();
            }
        } else {
            writer.write(out, dataSet);
            after.writeTo(out);
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
        requireIdentified(dataSet);
    }

    private static void requireIdentified(DataSet dataSet) {
        for (int tag : new int[] {Tag.SOP_CLASS_UID, Tag.SOP_INSTANCE_UID}) {
            if (dataSet.isBlank(tag)) {
                throw new IllegalArgumentException("a file needs " + Tag.format(tag));
            }
        }
    }
}
