package org.holdfast.intake;

import java.util.List;
import java.util.Optional;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.volume.StoredFormat;

/** The one 16-bit format that holds the stored values of all slices of a stack. */
final class CommonFormat {

    private CommonFormat() {}

    /** The format; empty if signed slices stand beside unsigned ones that use all 16 bits. */
    static Optional<StoredFormat> of(List<Slice> slices) {
        List<StoredFormat> all =
                slices.stream().map(CommonFormat::of).distinct().toList();
        if (all.size() == 1) {
            return Optional.of(all.get(0));
        }
        boolean anySigned = all.stream().anyMatch(StoredFormat::signed);
        boolean anyFull = all.stream().anyMatch(f -> !f.signed() && f.bitsStored() == 16);
        return anySigned && anyFull ? Optional.empty() : Optional.of(new StoredFormat(16, anySigned));
    }

    static StoredFormat of(Slice slice) {
        PixelLayout layout = slice.layout();
        return new StoredFormat(Math.min(16, layout.bitsStored()), layout.signed());
    }
}
