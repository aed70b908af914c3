package org.holdfast.measure;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.LossyCompression;

/** Acquisitions of which little is known. */
final class Acquisitions {

    private Acquisitions() {}

    static Acquisition on(LocalDate date) {
        return of(Optional.of(date), Known.UNKNOWN, Known.UNKNOWN);
    }

    static Acquisition of(Optional<LocalDate> date, Known artefactReduction, Known coneBeam) {
        return of(date, artefactReduction, coneBeam, Optional.empty());
    }

    static Acquisition lossy(Optional<LocalDate> date, LossyCompression lossy) {
        return of(date, Known.UNKNOWN, Known.UNKNOWN, Optional.of(lossy));
    }

    private static Acquisition of(
            Optional<LocalDate> date, Known artefactReduction, Known coneBeam, Optional<LossyCompression> lossy) {
        return new Acquisition(
                date,
                OptionalDouble.empty(),
                "",
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Known.UNKNOWN,
                artefactReduction,
                OptionalDouble.empty(),
                "",
                "",
                "",
                coneBeam,
                lossy);
    }
}
