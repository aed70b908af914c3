package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.ContactHeadline.Estimator;
import org.holdfast.desktop.viewmodel.NumberUnder.Bar;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.ThresholdContact;

/** The number under a face: by fit where stated, by threshold under it, each with bounds and limit. */
final class FaceNumber {

    private FaceNumber() {}

    static NumberUnder of(InterfaceExam measured, PartCell cell) {
        Optional<ContactHeadline> headline = ContactHeadline.of(measured);
        if (headline.isEmpty()) {
            return NumberUnder.without(cell, cell.cause());
        }
        if (!headline.get().isStated()) {
            return NumberUnder.without(cell, headline.get().fraction().why());
        }
        ContactHeadline h = headline.get();
        String how = h.estimator().words();
        double low = h.low().orElseThrow();
        double high = h.high().orElseThrow();
        double at = h.fraction().value().orElseThrow();
        return new NumberUnder(
                cell.state(),
                cell.words(),
                Words.percentRange(low, high),
                Bar.of(low, at, high),
                how + ": " + reads(h) + doubt(h, measured),
                (h.estimator() == Estimator.BY_FIT ? "fit: " : "") + reads(h).replace("a gap", "gap"),
                second(h, measured),
                second(h, measured).replace("\u2009%", ""));
    }

    /** What a number of contact says: bone, or a gap that this scan cannot tell from none. */
    private static String reads(ContactHeadline h) {
        OptionalDouble gap = h.smallestVisibleGapMm().value();
        return "bone, or a gap "
                + (gap.isPresent() ? "< " + Words.quantity(gap.getAsDouble(), 1, "mm") : "of any width");
    }

    private static String doubt(ContactHeadline h, InterfaceExam measured) {
        boolean settled = h.estimator() != Estimator.BY_THRESHOLD
                || measured.contact().map(ThresholdContact::isLimitSettled).orElse(true);
        return settled ? "" : " (hinges on the blur)";
    }

    private static String second(ContactHeadline headline, InterfaceExam measured) {
        if (headline.estimator() == Estimator.BY_THRESHOLD) {
            return "by fit: not stated";
        }
        Optional<ContactHeadline> other = ContactHeadline.byThreshold(measured);
        if (other.isEmpty() || !other.get().isStated()) {
            return "by threshold: not stated";
        }
        ContactHeadline o = other.get();
        return "threshold " + Words.percent(o.fraction().value().orElseThrow()) + " ("
                + Words.percentRange(o.low().orElseThrow(), o.high().orElseThrow()) + "):\n" + reads(o);
    }
}
