package org.holdfast.dicom;

import java.util.Map;
import java.util.Optional;

/** Which decoder reads which transfer syntax. */
final class FrameDecoders {

    private static final Map<String, FrameDecoder> BY_UID =
            Map.ofEntries(Map.entry(TransferSyntax.RLE_LOSSLESS, new RleDecoder()));

    private FrameDecoders() {}

    static Optional<FrameDecoder> of(TransferSyntax syntax) {
        return Optional.ofNullable(BY_UID.get(syntax.uid()));
    }
}
