package org.holdfast.dicom;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import org.holdfast.finding.FileFailure;
import org.holdfast.finding.Finding;

/**
 * The header of a DICOM file and where its pixels lie. Immutable; holds no pixels and no open file.
 *
 * @param path the file
 * @param meta file meta information; empty if the file has none
 * @param dataSet elements before the pixel data
 * @param transferSyntax how the data set is written
 * @param dataSetStart offset of the data set in the file
 * @param pixels where the pixel data lies; empty if there is none
 * @param findings what was odd about the file
 */
public record DicomFile(
        Path path,
        DataSet meta,
        DataSet dataSet,
        TransferSyntax transferSyntax,
        long dataSetStart,
        Optional<PixelLocation> pixels,
        List<Finding> findings) {

    public DicomFile {
        Objects.requireNonNull(path, "path");
        Objects.requireNonNull(meta, "meta");
        Objects.requireNonNull(dataSet, "dataSet");
        Objects.requireNonNull(transferSyntax, "transferSyntax");
        Objects.requireNonNull(pixels, "pixels");
        findings = List.copyOf(findings);
    }

    /**
     * The data set with its uncompressed pixel data, for writing.
     *
     * @throws DicomReadException if the pixels are compressed, cut short, or cannot be read
     */
    public DataSet withPixels() throws DicomReadException {
        if (pixels.isEmpty()) {
            return dataSet;
        }
        PixelLocation p = pixels.get();
        if (p.length() < 0 || p.isTruncated()) {
            throw new DicomReadException(
                    path, p.offset(), OptionalInt.of(p.tag()), "complete uncompressed pixel data", "other", null);
        }
        byte[] value = pixelBytes(0, Math.toIntExact(p.length()));
        if (transferSyntax.bigEndian()) {
            ByteOrders.swap(value, ByteOrders.unitBytes(dataSet, p.tag(), p.vr()));
        }
        return dataSet.toBuilder().add(Element.ofBytes(p.tag(), p.vr(), value)).build();
    }

    /** A part of the pixel data's value field as it is written; the caller has checked that it is there. */
    byte[] pixelBytes(long from, int length) throws DicomReadException {
        long offset = pixels.orElseThrow().offset() + from;
        try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
            ByteSource source = ByteSource.of(channel);
            if (transferSyntax.deflated()) {
                source = ByteSource.of(BoundedInflater.inflate(path, source, dataSetStart));
            }
            return source.bytes(offset, length);
        } catch (IOException e) {
            throw new DicomReadException(
                    path, offset, OptionalInt.of(Tag.PIXEL_DATA), "readable pixel data", FileFailure.words(e), e);
        }
    }
}
