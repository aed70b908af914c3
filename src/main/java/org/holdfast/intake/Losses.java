package org.holdfast.intake;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.volume.LossyCompression;

/** Says from a header whether and how an image was compressed with loss. */
final class Losses {

    /** Transfer syntaxes that always lose detail; those of JPEG 2000 may or may not. */
    private static final Set<String> LOSSY_SYNTAXES =
            Set.of("1.2.840.10008.1.2.4.50", "1.2.840.10008.1.2.4.51", "1.2.840.10008.1.2.4.81");

    /** Defined terms of LossyImageCompressionMethod (PS3.3, section C.7.6.1.1.5.1). */
    private static final Map<String, String> METHODS = Map.of(
            "ISO_10918_1", "JPEG",
            "ISO_14495_1", "JPEG-LS near-lossless",
            "ISO_15444_1", "JPEG 2000",
            "ISO_15444_15", "high-throughput JPEG 2000",
            "ISO_18181_1", "JPEG XL");

    private Losses() {}

    static Optional<LossyCompression> of(DataSet d, TransferSyntax syntax, Optional<PixelSource> pixels) {
        boolean said = d.string(Tag.LOSSY_IMAGE_COMPRESSION).orElse("").equals("01");
        // Asked of every JPEG-LS frame: a stream may be near-lossless under the name of the lossless syntax.
        OptionalInt error = pixels.isPresent() ? pixels.get().nearLosslessError() : OptionalInt.empty();
        if (!said && !LOSSY_SYNTAXES.contains(syntax.uid()) && error.isEmpty()) {
            return Optional.empty();
        }
        List<String> methods = d.strings(Tag.LOSSY_IMAGE_COMPRESSION_METHOD);
        String method = methods.isEmpty()
                ? LOSSY_SYNTAXES.contains(syntax.uid()) || error.isPresent() ? syntax.name() : ""
                : methods.stream().map(m -> METHODS.getOrDefault(m, m)).collect(Collectors.joining(", then "));
        double ratio = 1;
        for (double step : d.decimals(Tag.LOSSY_IMAGE_COMPRESSION_RATIO)) {
            ratio *= step;
        }
        return Optional.of(
                new LossyCompression(method, ratio > 1 ? OptionalDouble.of(ratio) : OptionalDouble.empty(), error));
    }
}
