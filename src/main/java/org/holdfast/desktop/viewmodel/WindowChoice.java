package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.desktop.render.HuLandmarks;
import org.holdfast.desktop.render.WindowPresets;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.HuVolume;

/** The windows named by purpose, computed from what is known of the subject now. */
public final class WindowChoice {

    private final ReviewViewModel review;

    /** @param review whose subject */
    public WindowChoice(ReviewViewModel review) {
        this.review = review;
    }

    /** The window in which a subject opens, before anything was measured. */
    public static HuWindow first(MeasurementSettings settings) {
        return WindowPresets.boneBesideMetal(HuLandmarks.unmeasured(settings.fluidHu()));
    }

    /** The window for a purpose; empty where it needs a volume and none is there. */
    public Optional<HuWindow> window(WindowPreset preset) {
        if (preset == WindowPreset.BONE_BESIDE_METAL) {
            return Optional.of(WindowPresets.boneBesideMetal(landmarks()));
        }
        return volume().map(volume -> WindowPresets.of(preset, landmarks(), volume.statistics()));
    }

    /** The purpose whose window this is; empty for a window of the person's own. */
    public Optional<WindowPreset> presetOf(HuWindow window) {
        if (window.equals(first(review.subject().settings()))) {
            return Optional.of(WindowPreset.BONE_BESIDE_METAL);
        }
        for (WindowPreset preset : WindowPreset.values()) {
            if (window(preset).filter(window::equals).isPresent()) {
                return Optional.of(preset);
            }
        }
        return Optional.empty();
    }

    private Optional<HuVolume> volume() {
        return review.columns().get(review.stateProperty().get().exam()).volume();
    }

    private HuLandmarks landmarks() {
        double fluid = review.subject().settings().fluidHu();
        Optional<ThresholdContact> contact = review.results()
                .knownProperty()
                .get()
                .report()
                .flatMap(report -> report.exams().stream()
                        .flatMap(exam -> exam.parts().stream())
                        .map(InterfaceExam::contact)
                        .flatMap(Optional::stream)
                        .findFirst());
        return contact.map(c -> new HuLandmarks(
                        fluid,
                        OptionalDouble.of(c.boneHu()),
                        c.hostHu().value(),
                        c.plateauHu().value()))
                .orElseGet(() -> HuLandmarks.unmeasured(fluid));
    }
}
