package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.measure.FittedContact;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;

/**
 * Contact of one face in one exam by one estimator. The headline is by fit where that is stated, else by threshold.
 * Immutable.
 *
 * @param estimator how it was found
 * @param fraction contact over assessable area
 * @param low lower bound; empty where no fraction is stated
 * @param high upper bound; empty where no fraction is stated
 * @param smallestVisibleGapMm the smallest gap that is told from contact
 */
public record ContactHeadline(
        Estimator estimator, Stated fraction, OptionalDouble low, OptionalDouble high, Stated smallestVisibleGapMm) {

    /** The two ways to find contact. */
    public enum Estimator {
        BY_FIT("by fit"),
        BY_THRESHOLD("by threshold");

        private final String words;

        Estimator(String words) {
            this.words = words;
        }

        /** As it is named to a reader. */
        public String words() {
            return words;
        }
    }

    /** The headline of a face; empty where neither estimator was used. */
    public static Optional<ContactHeadline> of(InterfaceExam measured) {
        Optional<ContactHeadline> fit = byFit(measured);
        return fit.filter(ContactHeadline::isStated)
                .or(() -> byThreshold(measured))
                .or(() -> fit);
    }

    /** By fit; empty where nothing was fitted. */
    public static Optional<ContactHeadline> byFit(InterfaceExam measured) {
        return measured.byFit().value().map(ContactHeadline::of);
    }

    /** By threshold; empty where the verdict forbade it. */
    public static Optional<ContactHeadline> byThreshold(InterfaceExam measured) {
        return measured.contact().map(ContactHeadline::of);
    }

    private static ContactHeadline of(FittedContact c) {
        boolean stated = c.fraction().value().isPresent();
        return new ContactHeadline(
                Estimator.BY_FIT,
                c.fraction(),
                stated ? c.low().value() : OptionalDouble.empty(),
                stated ? c.high().value() : OptionalDouble.empty(),
                c.smallestVisibleGapMm());
    }

    private static ContactHeadline of(ThresholdContact c) {
        boolean stated = c.fraction().value().isPresent();
        return new ContactHeadline(
                Estimator.BY_THRESHOLD,
                c.fraction(),
                stated ? OptionalDouble.of(c.low()) : OptionalDouble.empty(),
                stated ? OptionalDouble.of(c.high()) : OptionalDouble.empty(),
                c.smallestVisibleGapMm());
    }

    /** Whether there is a number. */
    public boolean isStated() {
        return fraction.value().isPresent();
    }
}
