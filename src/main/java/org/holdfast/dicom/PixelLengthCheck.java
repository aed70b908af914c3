package org.holdfast.dicom;

import java.util.Optional;
import org.holdfast.finding.Finding;

/** Compares the length of uncompressed pixel data with what rows, columns, bits and frames ask for. */
final class PixelLengthCheck {

    private PixelLengthCheck() {}

    /** What is odd about the length; empty if nothing is, or if the header does not describe the pixels. */
    static Optional<Finding> of(DicomFile file) {
        PixelLocation location = file.pixels().orElse(null);
        if (location == null || location.length() < 0 || file.transferSyntax().encapsulated()) {
            return Optional.empty();
        }
        String where = file.path().toString();
        if (location.isTruncated()) {
            return Optional.of(Finding.warning(
                    "PIXEL_DATA_SHORT",
                    "the pixel data should have " + location.length() + " bytes, the file has " + location.available(),
                    where));
        }
        long expected = expectedBytes(file);
        // A missing filling byte is as common as one too many: neither loses a value.
        long odd = location.length() - expected;
        if (expected < 0 || odd == 0 || odd == 1) {
            return Optional.empty();
        }
        return Optional.of(
                odd > 0
                        ? Finding.info(
                                "PIXEL_DATA_LONG",
                                odd + " bytes of pixel data lie behind the " + expected
                                        + " that the image takes and are not used",
                                where)
                        : Finding.warning(
                                "PIXEL_DATA_SHORT",
                                "the image takes " + expected + " bytes of pixel data, the element has "
                                        + location.length(),
                                where));
    }

    private static long expectedBytes(DicomFile file) {
        try {
            PixelLayout layout = PixelLayout.of(file);
            return layout.photometric().matches("YBR_.*_42[02]") ? -1 : layout.totalBytes();
        } catch (DicomReadException e) {
            // Who asks for the layout is told why there is none.
            return -1;
        }
    }
}
