package org.holdfast.measure;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;

/** Acquisitions of which little is known. */
final class Acquisitions {

    private Acquisitions() {}

    static Acquisition on(LocalDate date) {
        return of(Optional.of(date), Known.UNKNOWN, Known.UNKNOWN);
    }

    static Acquisition of(Optional<LocalDate> date, Known artefactReduction, Known coneBeam) {
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
                Optional.empty());
    }
}
