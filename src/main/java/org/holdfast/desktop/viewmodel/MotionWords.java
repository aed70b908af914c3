package org.holdfast.desktop.viewmodel;

import java.util.Comparator;
import java.util.List;
import java.util.OptionalDouble;
import org.holdfast.desktop.state.Words;
import org.holdfast.geometry.PatientVector;
import org.holdfast.measure.Migration;
import org.holdfast.measure.Migration.Motion;

/** Motions of a component in its bone, in words. */
final class MotionWords {

    private MotionWords() {}

    /** The motions that are stated: those beyond error first, among them the deepest subsidence. */
    static List<Migration> gravestFirst(List<Migration> all) {
        return all.stream()
                .filter(each -> each.motion().value().isPresent())
                .sorted(Comparator.comparing((Migration each) ->
                                each.motion().value().orElseThrow().isWithinError())
                        .thenComparing(each -> -each.motion()
                                .value()
                                .orElseThrow()
                                .intoBoneMm()
                                .value()
                                .orElse(0)))
                .toList();
    }

    /** The motion beyond error in few words: subsidence first, then the way, then the turn. */
    static String shortly(Motion motion) {
        OptionalDouble into = motion.intoBoneMm().value();
        if (into.isPresent() && into.getAsDouble() > motion.repeatabilityMm()) {
            return "subsided " + Words.quantity(into.getAsDouble(), 1, "mm");
        }
        OptionalDouble angle = motion.screwAngleChangeDeg().value();
        if (angle.isPresent() && Math.abs(angle.getAsDouble()) > motion.repeatabilityDeg()) {
            return "angle " + signed(angle.getAsDouble(), 1) + "°";
        }
        if (largest(motion.translationMm()) > motion.repeatabilityMm()) {
            return "moved " + Words.quantity(motion.translationMm().norm(), 1, "mm");
        }
        return "turned " + Words.number(motion.rotationDeg().norm(), 1) + "°";
    }

    /** The way in the trade's directions, such as "0.2 mm left, 0.1 mm anterior, 0.5 mm caudal". */
    static String way(PatientVector mm) {
        return direction(mm.x(), "left", "right") + ", " + direction(mm.y(), "posterior", "anterior") + ", "
                + direction(mm.z(), "cranial", "caudal");
    }

    /** A number with its sign. */
    static String signed(double value, int decimals) {
        String words = Words.number(value, decimals);
        return value > 0 && !Words.number(0, decimals).equals(words) ? "+" + words : words;
    }

    private static String direction(double mm, String positive, String negative) {
        return Words.quantity(Math.abs(mm), 1, "mm") + " " + (mm >= 0 ? positive : negative);
    }

    private static double largest(PatientVector v) {
        return Math.max(Math.abs(v.x()), Math.max(Math.abs(v.y()), Math.abs(v.z())));
    }
}
