package org.holdfast.dicom;

import java.util.Map;
import java.util.Optional;

/** Which decoder reads which transfer syntax. */
final class FrameDecoders {

    private static final FrameDecoder JPEG_LS = new JpegLsDecoder();
    private static final FrameDecoder JPEG_2000 = new Jpeg2000Decoder();

    private static final Map<String, FrameDecoder> BY_UID = Map.ofEntries(
            Map.entry(TransferSyntax.RLE_LOSSLESS, new RleDecoder()),
            Map.entry("1.2.840.10008.1.2.4.50", JpegDecoder.any()),
            Map.entry("1.2.840.10008.1.2.4.51", JpegDecoder.any()),
            Map.entry("1.2.840.10008.1.2.4.57", JpegDecoder.lossless()),
            Map.entry("1.2.840.10008.1.2.4.70", JpegDecoder.lossless()),
            Map.entry("1.2.840.10008.1.2.4.80", JPEG_LS),
            Map.entry("1.2.840.10008.1.2.4.81", JPEG_LS),
            Map.entry("1.2.840.10008.1.2.4.90", JPEG_2000),
            Map.entry("1.2.840.10008.1.2.4.91", JPEG_2000));

    private FrameDecoders() {}

    static Optional<FrameDecoder> of(TransferSyntax syntax) {
        return Optional.ofNullable(BY_UID.get(syntax.uid()));
    }

    static boolean isJpeg2000(TransferSyntax syntax) {
        return BY_UID.get(syntax.uid()) == JPEG_2000;
    }
}
