package org.holdfast.dicom;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;

/**
 * Reads the headers of DICOM files (PS3.10): everything before the pixel data, usually in one small read. The pixels stay
 * in the file until {@link PixelSource} asks for them. Files without preamble, without file meta information, or with a
 * transfer syntax that is not the one they are written in are read as they are. Stateless.
 */
public final class DicomReader {

    private static final String DIRECTORY_CLASS = "1.2.840.10008.1.3.10";

    private DicomReader() {}

    /**
     * Reads the header of a file.
     *
     * @throws DicomReadException if the file cannot be read, is not DICOM, or is damaged before its pixel data
     */
    public static DicomFile read(Path file) throws DicomReadException {
        if (!Files.isRegularFile(file)) {
            throw new DicomReadException(file, -1, OptionalInt.empty(), "a regular file", "none", null);
        }
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
            return read(file, ByteSource.of(channel));
        } catch (IOException e) {
            throw new DicomReadException(file, -1, OptionalInt.empty(), "a readable file", FileFailure.words(e), e);
        } catch (OutOfMemoryError e) {
            // The limits keep one header well inside the heap; what else is in it is not known here.
            throw new DicomReadException(
                    file, 0, OptionalInt.empty(), "a header that fits the memory", "too little memory", e);
        }
    }

    /** Reads the header of a DICOM file that lies in memory; the name stands in messages. */
    static DicomFile read(Path name, byte[] bytes) throws DicomReadException {
        try {
            return read(name, ByteSource.of(bytes));
        } catch (IOException e) {
            throw new DicomReadException(name, -1, OptionalInt.empty(), "a longer file", FileFailure.words(e), e);
        }
    }

    private static DicomFile read(Path file, ByteSource source) throws IOException, DicomReadException {
        List<Finding> findings = new ArrayList<>();
        long start = FormatSniffer.start(source);
        if (start < 0) {
            throw new DicomReadException(
                    file, 0, OptionalInt.empty(), "a DICOM file", "bytes that start no DICOM data set", null);
        }
        ElementParser metaParser = new ElementParser(file, source, start, findings, new HeaderBudget());
        DataSet meta = metaParser.meta();
        if (meta.tags().isEmpty()) {
            findings.add(Finding.info(
                    "NO_FILE_META", "no file meta information; the layout was found from the bytes", file.toString()));
        }
        long from = metaParser.position();
        Optional<String> uid = meta.string(Tag.TRANSFER_SYNTAX_UID);
        if (isDirectory(meta)) {
            return directory(file, source, from, meta, syntax(file, source, from, uid, findings), findings);
        }
        if (uid.isPresent() && TransferSyntax.of(uid.get()).deflated()) {
            ByteSource inflated = ByteSource.of(BoundedInflater.inflate(file, source, from));
            return parse(file, inflated, 0, meta, TransferSyntax.of(uid.get()), from, findings);
        }
        return parse(file, source, from, meta, syntax(file, source, from, uid, findings), from, findings);
    }

    private static DicomFile parse(
            Path file,
            ByteSource source,
            long from,
            DataSet meta,
            TransferSyntax syntax,
            long dataSetStart,
            List<Finding> findings)
            throws IOException, DicomReadException {
        ElementParser parser = new ElementParser(file, source, from, findings, new HeaderBudget());
        DataSet dataSet = parser.dataSet(syntax);
        if (dataSet.tags().isEmpty() && parser.pixels() == null) {
            throw new DicomReadException(file, from, OptionalInt.empty(), "a data set", "no element", null);
        }
        Optional<PixelLocation> pixels = Optional.ofNullable(parser.pixels());
        DicomFile read = new DicomFile(file, meta, dataSet, syntax, dataSetStart, pixels, findings);
        Optional<Finding> length = PixelLengthCheck.of(read);
        if (length.isEmpty()) {
            return read;
        }
        findings.add(length.get());
        return new DicomFile(file, meta, dataSet, syntax, dataSetStart, pixels, findings);
    }

    private static boolean isDirectory(DataSet meta) {
        return meta.string(Tag.MEDIA_STORAGE_SOP_CLASS_UID).orElse("").equals(DIRECTORY_CLASS);
    }

    /** A directory's records are hints; one whose offsets or lengths are broken is returned without them. */
    private static DicomFile directory(
            Path file, ByteSource source, long from, DataSet meta, TransferSyntax syntax, List<Finding> findings)
            throws IOException {
        try {
            return parse(file, source, from, meta, syntax, from, findings);
        } catch (DicomReadException e) {
            findings.add(Finding.warning("DIRECTORY_DAMAGED", e.reason(), file.toString()));
            return new DicomFile(file, meta, DataSet.builder().build(), syntax, from, Optional.empty(), findings);
        }
    }

    /** The syntax in which the data set is really written. */
    private static TransferSyntax syntax(
            Path file, ByteSource source, long from, Optional<String> uid, List<Finding> findings) throws IOException {
        TransferSyntax seen = FormatSniffer.syntaxAt(source, from);
        if (uid.isEmpty()) {
            return seen == null ? TransferSyntax.IMPLICIT_LITTLE_ENDIAN : seen;
        }
        TransferSyntax said = TransferSyntax.of(uid.get());
        boolean differs = seen != null && (seen.explicit() != said.explicit() || seen.bigEndian() != said.bigEndian());
        if (!differs) {
            return said;
        }
        findings.add(Finding.warning(
                "TRANSFER_SYNTAX_MISMATCH",
                "the file says " + said.describe() + " but is written as " + seen.describe(),
                file.toString()));
        return said.encapsulated()
                ? new TransferSyntax(said.uid(), said.name(), seen.explicit(), seen.bigEndian(), false, true)
                : seen;
    }
}
