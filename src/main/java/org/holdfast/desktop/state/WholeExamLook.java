package org.holdfast.desktop.state;

import java.util.EnumMap;
import java.util.Map;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;

/**
 * What is shown of a whole exam, in the exam's own space. Immutable.
 *
 * @param crossing the place that all four pictures go through
 * @param window HU from black to white, for all four
 * @param frames how near each picture is; a picture without one is fitted
 */
public record WholeExamLook(PatientPoint crossing, HuWindow window, Map<ExamPane, PaneFrame> frames) {

    public WholeExamLook {
        Objects.requireNonNull(crossing, "crossing");
        Objects.requireNonNull(window, "window");
        frames = Map.copyOf(frames);
    }

    /** All pictures fitted. */
    public static WholeExamLook fitted(PatientPoint crossing, HuWindow window) {
        return new WholeExamLook(crossing, window, Map.of());
    }

    /** How near a picture is. */
    public PaneFrame frame(ExamPane pane) {
        return frames.getOrDefault(pane, PaneFrame.FITTED);
    }

    /** This look through another place. */
    public WholeExamLook at(PatientPoint other) {
        return new WholeExamLook(other, window, frames);
    }

    /** This look through another window. */
    public WholeExamLook through(HuWindow other) {
        return new WholeExamLook(crossing, other, frames);
    }

    /** This look with one picture framed otherwise. */
    public WholeExamLook framed(ExamPane pane, PaneFrame frame) {
        Map<ExamPane, PaneFrame> changed = new EnumMap<>(ExamPane.class);
        changed.putAll(frames);
        changed.put(pane, frame);
        return new WholeExamLook(crossing, window, changed);
    }
}
