package org.holdfast.app;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.holdfast.app.InspectionReport.AcquisitionEntry;
import org.holdfast.intake.KernelSharpness;
import org.holdfast.volume.Acquisition;

/** Turns the facts of an acquisition into their entry of the inspection's document. */
final class AcquisitionEntries {

    static final String NOT_SAID = "the files do not say";

    private final Map<String, String> why = new LinkedHashMap<>();

    private AcquisitionEntries() {}

    static AcquisitionEntry of(Acquisition made) {
        AcquisitionEntries e = new AcquisitionEntries();
        return new AcquisitionEntry(
                e.number("kvp", made.kvp(), NOT_SAID),
                e.text("kernel", made.kernel()),
                KernelSharpness.of(made.kernel()).name().toLowerCase(Locale.ROOT),
                e.text("reconstruction", made.reconstruction()),
                e.number("sliceThicknessMm", made.sliceThicknessMm(), NOT_SAID),
                e.number("fieldOfViewMm", made.fieldOfViewMm(), NOT_SAID),
                e.number("monoEnergyKeV", made.monoEnergyKeV(), "not named as virtual monoenergetic"),
                word(made.artefactReduction()),
                word(made.contrastAgent()),
                word(made.coneBeam()),
                e.text("detector", made.detector()),
                e.text("scannerModel", made.scannerModel()),
                e.text("posture", made.posture()),
                e.why);
    }

    private static String word(Acquisition.Known known) {
        return known.name().toLowerCase(Locale.ROOT);
    }

    private String text(String name, String value) {
        if (value.isEmpty()) {
            why.put(name + "Why", NOT_SAID);
        }
        return value.isEmpty() ? null : value;
    }

    private Double number(String name, OptionalDouble value, String whyNot) {
        if (value.isEmpty()) {
            why.put(name + "Why", whyNot);
        }
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
