package org.holdfast.intake;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Stream;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.Acquisition.Known;

/** Says what a series is in two or three words, by its contents. */
final class SeriesName {

    private static final Set<String> FRONT = Set.of("AP", "PA");
    private static final Set<String> SIDE = Set.of("LL", "RL", "LAT", "LATERAL");
    private static final List<String> DOSE_WORDS = List.of("DOSE", "DOSIS");

    private SeriesName() {}

    static String of(Series series, Stack stack) {
        Acquisition made = stack.acquisition();
        if (stack.whyNoHu().isPresent()) {
            return modality(series) + (series.modality().equals("CT") ? " slices, no HU" : " slices");
        }
        if (made.coneBeam() == Known.YES) {
            return "Cone beam";
        }
        if (made.artefactReduction() == Known.YES) {
            return "Artefact reduced";
        }
        if (made.monoEnergyKeV().isPresent()) {
            return String.format(
                    Locale.ROOT, "Monoenergetic, %.0f keV", made.monoEnergyKeV().getAsDouble());
        }
        Reformat cut = Reformat.of(stack);
        if (cut.isReformatted()) {
            return capital(cut.words());
        }
        if (StackPreference.isThick(stack)) {
            return "Thick slices";
        }
        KernelSharpness sharpness = StackPreference.sharpness(stack);
        return sharpness == KernelSharpness.UNKNOWN ? "CT slices" : capital(sharpness.words());
    }

    static String of(Series series) {
        if (series.kind() == SeriesKind.RADIOGRAPH) {
            String view = series.files().get(0).identity().viewPosition();
            return FRONT.contains(view) ? "X-ray, front" : SIDE.contains(view) ? "X-ray, side" : "X-ray";
        }
        if (series.kind() == SeriesKind.OTHER) {
            return modality(series) + " object";
        }
        if (series.says("LOCALIZER")) {
            return "Overview";
        }
        if (isDose(series)) {
            return "Dose sheet";
        }
        if (series.says("SCREEN_CAPTURE") || series.says("COLOUR_IMAGE")) {
            return "Capture";
        }
        if (series.says("RENDERED_IMAGE")) {
            return "Rendering";
        }
        return series.says("SEVERAL_IMAGES_AT_ONE_POSITION") ? "Images at one place" : modality(series) + " images";
    }

    private static boolean isDose(Series series) {
        Identity identity = series.files().get(0).identity();
        String words =
                AcquisitionFacts.words(Stream.of(identity.description(), String.join(" ", identity.imageType())));
        boolean picture = series.says("SCREEN_CAPTURE") || series.says("COLOUR_IMAGE");
        return picture && DOSE_WORDS.stream().anyMatch(word -> words.contains(" " + word + " "));
    }

    private static String modality(Series series) {
        return series.modality().isEmpty() ? "Unnamed" : series.modality();
    }

    private static String capital(String words) {
        return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }
}
