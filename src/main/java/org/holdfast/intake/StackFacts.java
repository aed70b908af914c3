package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelSource;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;
import org.holdfast.volume.LossyCompression;

/** What is to be said about the slices of a stack together, and whether they can become HU. */
final class StackFacts {

    private StackFacts() {}

    /** Why the stack cannot be loaded as HU: the first reason found, in stack order; empty if it can. */
    static Optional<String> whyNoHu(List<Slice> slices) {
        for (int k = 0; k < slices.size(); k++) {
            String which = slices.size() == 1 ? "" : String.format(Locale.ROOT, " (slice %d, 1-based)", k + 1);
            Optional<String> why = whyNoHu(slices.get(k));
            if (why.isPresent()) {
                return Optional.of(why.get() + which);
            }
        }
        return CommonFormat.of(slices).isEmpty()
                ? Optional.of("signed and full-range unsigned slices are mixed")
                : Optional.empty();
    }

    private static Optional<String> whyNoHu(Slice slice) {
        if (slice.huScale().rescale().isEmpty()) {
            return Optional.of(slice.huScale().whyNotHu());
        }
        PixelSource pixels = slice.pixels();
        PixelLayout layout = pixels.layout();
        if (pixels.whyUnreadable().isPresent()) {
            return pixels.whyUnreadable();
        }
        if (layout.bitsAllocated() == 1) {
            return Optional.of(layout.bitsAllocated() + " bits a pixel");
        }
        boolean muchIsMissing = !pixels.isComplete() && pixels.availableBytes() < layout.totalBytes() / 2;
        return muchIsMissing
                ? Optional.of(
                        "pixel data cut short: " + pixels.availableBytes() + " of " + layout.totalBytes() + " bytes")
                : Optional.empty();
    }

    static List<Finding> findings(List<Slice> slices, String where) {
        List<Finding> out = new ArrayList<>();
        Slice first = slices.get(0);
        Acquisition a = first.acquisition();
        if (first.identity().modality().equals("CT")) {
            out.add(
                    a.date().isEmpty()
                            ? Finding.warning("NO_DATE", "no date of the scan in the files", where)
                            : Finding.info(
                                    "SCAN_DATE",
                                    "scanned on " + a.date().get() + ", by "
                                            + first.file().date().source(),
                                    where));
        }
        if (!first.file().date().others().isEmpty()) {
            out.add(Finding.info(
                    "DATES_DIFFER",
                    "other dates in the header: "
                            + String.join(", ", first.file().date().others()),
                    where));
        }
        differs(slices, h -> h.acquisition().date(), "date of the scan", where, out);
        differs(slices, h -> h.acquisition().kvp(), "tube voltage", where, out);
        differs(slices, h -> h.acquisition().sliceThicknessMm(), "slice thickness", where, out);
        differs(slices, h -> h.identity().patientId(), "patient's number", where, out);
        differs(slices, h -> h.identity().frameOfReferenceUid(), "frame of reference", where, out);
        differs(slices, Slice::huScale, "line to HU or padding (each slice has its own)", where, out);
        if (slices.stream().anyMatch(h -> h.acquisition().lossy().isPresent())) {
            out.add(Finding.warning("LOSSY", lossy(slices), where));
        }
        if (a.artefactReduction() == Known.YES) {
            out.add(Finding.warning(
                    "ARTEFACT_REDUCTION",
                    "metal artefact reduction by the words of kernel, description or type",
                    where));
        }
        if (a.coneBeam() == Known.YES) {
            out.add(Finding.warning("CONE_BEAM", "a cone-beam volume: its values are not trusted as HU", where));
        }
        if (a.monoEnergyKeV().isPresent()) {
            out.add(Finding.info(
                    "MONOENERGETIC",
                    "a virtual monoenergetic image at " + a.monoEnergyKeV().getAsDouble() + " keV",
                    where));
        }
        return out;
    }

    /** How the slices lost detail, each way once. */
    private static String lossy(List<Slice> slices) {
        List<String> ways = slices.stream()
                .flatMap(h -> h.acquisition().lossy().stream())
                .map(LossyCompression::words)
                .distinct()
                .limit(3)
                .toList();
        long many =
                slices.stream().filter(h -> h.acquisition().lossy().isPresent()).count();
        return String.format(
                Locale.ROOT,
                "%d of %d slices were compressed with loss (%s): HU may be off, and fine detail may be missing or made up",
                many,
                slices.size(),
                String.join("; ", ways));
    }

    private static void differs(
            List<Slice> slices, Function<Slice, Object> fact, String name, String where, List<Finding> out) {
        long different = slices.stream().map(fact).distinct().count();
        if (different > 1) {
            out.add(Finding.warning(
                    "SLICES_DIFFER", name + " differs between slices: " + different + " values", where));
        }
    }
}
