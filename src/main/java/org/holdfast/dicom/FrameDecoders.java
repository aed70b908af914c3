package org.holdfast.dicom;

import java.util.Map;
import java.util.Optional;

/** Which decoder reads which transfer syntax. */
final class FrameDecoders {

    private static final FrameDecoder JPEG_LS_DECODER = new JpegLsDecoder();

    private static final Map<String, FrameDecoder> BY_UID = Map.ofEntries(
            Map.entry(TransferSyntax.RLE_LOSSLESS, new RleDecoder()),
            Map.entry("1.2.840.10008.1.2.4.80", JPEG_LS_DECODER),
            Map.entry("1.2.840.10008.1.2.4.81", JPEG_LS_DECODER));

    private FrameDecoders() {}

    static Optional<FrameDecoder> of(TransferSyntax syntax) {
        return Optional.ofNullable(BY_UID.get(syntax.uid()));
    }
}
