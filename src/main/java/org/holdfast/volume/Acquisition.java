package org.holdfast.volume;

import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How a CT stack was made: the facts that decide whether its HU may be compared with another's. Immutable; what a file
 * does not say is empty or {@code UNKNOWN}, never guessed. {@link #unknown()} is the start for filling in.
 *
 * @param date day of the scan
 * @param kvp tube voltage, kV
 * @param kernel convolution kernel as written by the scanner; empty if not said
 * @param reconstruction iterative or learned reconstruction as written by the scanner; empty if none is named
 * @param sliceThicknessMm nominal slice thickness, mm
 * @param fieldOfViewMm diameter of the reconstructed field, mm
 * @param contrastAgent whether a contrast agent was given
 * @param artefactReduction whether the reconstruction reduces metal artefacts
 * @param monoEnergyKeV energy of a virtual monoenergetic image, keV
 * @param detector kind of detector as written (energy integrating or photon counting); empty if not said
 * @param scannerModel manufacturer and model; empty if not said
 * @param posture patient position as written, such as HFS; empty if not said
 * @param coneBeam whether the volume is known to come from a cone-beam or C-arm device
 * @param lossy how the images were compressed with loss; empty if no file says that they were
 */
public record Acquisition(
        Optional<LocalDate> date,
        OptionalDouble kvp,
        String kernel,
        String reconstruction,
        OptionalDouble sliceThicknessMm,
        OptionalDouble fieldOfViewMm,
        Known contrastAgent,
        Known artefactReduction,
        OptionalDouble monoEnergyKeV,
        String detector,
        String scannerModel,
        String posture,
        Known coneBeam,
        Optional<LossyCompression> lossy) {

    /** Yes, no, or not said by the files. */
    public enum Known {
        YES,
        NO,
        UNKNOWN
    }

    public Acquisition {
        Objects.requireNonNull(date, "date");
        Objects.requireNonNull(kvp, "kvp");
        Objects.requireNonNull(kernel, "kernel");
        Objects.requireNonNull(reconstruction, "reconstruction");
        Objects.requireNonNull(sliceThicknessMm, "sliceThicknessMm");
        Objects.requireNonNull(fieldOfViewMm, "fieldOfViewMm");
        Objects.requireNonNull(contrastAgent, "contrastAgent");
        Objects.requireNonNull(artefactReduction, "artefactReduction");
        Objects.requireNonNull(monoEnergyKeV, "monoEnergyKeV");
        Objects.requireNonNull(detector, "detector");
        Objects.requireNonNull(scannerModel, "scannerModel");
        Objects.requireNonNull(posture, "posture");
        Objects.requireNonNull(coneBeam, "coneBeam");
        Objects.requireNonNull(lossy, "lossy");
    }

    /** An acquisition of which nothing is known. */
    public static Acquisition unknown() {
        return new Acquisition(
                Optional.empty(),
                OptionalDouble.empty(),
                "",
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                Known.UNKNOWN,
                Known.UNKNOWN,
                OptionalDouble.empty(),
                "",
                "",
                "",
                Known.UNKNOWN,
                Optional.empty());
    }
}
