package org.holdfast.dicom;

import java.util.List;
import java.util.Optional;

/** The codecs that this version has; a further one is a line here. */
final class PixelCodecs {

    private static final List<PixelCodec> ALL = List.of(new UncompressedCodec(), new EncapsulatedCodec());

    private PixelCodecs() {}

    static Optional<PixelCodec> of(PixelSource source) {
        return ALL.stream().filter(codec -> codec.reads(source)).findFirst();
    }
}
