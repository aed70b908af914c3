package org.holdfast.desktop.viewmodel;

import java.util.Optional;
import org.holdfast.app.ExamResult;
import org.holdfast.desktop.state.Words;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.volume.Comparability;

/**
 * Whether contact fell against the best earlier exam by more than can be explained. Stateless.
 *
 * <p>A fall counts where the upper bound now lies under the lower bound then by more than 1.96 · √2 · SD, SD that of
 * contact by threshold under shifts of the pose by half a voxel: what could not be assessed explains nothing of it, nor
 * does where the samples fell. That of the fit is smaller; using the threshold's is the cautious side. Exams whose HU may
 * not be compared are left out, and so is another estimator.
 */
final class ContactLoss {

    /** Limit of 95 % for the difference of two readings. */
    private static final double DIFFERENCE_SD = 1.96 * Math.sqrt(2);

    private ContactLoss() {}

    /** The fall in words; empty where there is none beyond error. */
    static Optional<String> since(String examLabel, String faceId, Known known) {
        Optional<InterfaceExam> measured = known.of(examLabel, faceId);
        Optional<ContactHeadline> now = measured.flatMap(ContactHeadline::of).filter(ContactHeadline::isStated);
        Optional<Double> sd = measured.flatMap(InterfaceExam::contact)
                .map(ThresholdContact::jitterSd)
                .filter(stated -> stated.value().isPresent())
                .map(stated -> stated.value().getAsDouble());
        if (now.isEmpty() || sd.isEmpty() || !mayBeCompared(known.exam(examLabel))) {
            return Optional.empty();
        }
        Optional<ExamResult> best = Optional.empty();
        double most = 0;
        for (ExamResult exam : known.report().orElseThrow().exams()) {
            if (exam.label().equals(examLabel)) {
                break;
            }
            double then = lowOf(known, exam, faceId, now.get().estimator());
            if (mayBeCompared(Optional.of(exam)) && then > most) {
                best = Optional.of(exam);
                most = then;
            }
        }
        double lost = most - now.get().high().orElse(1);
        double low = most;
        return best.filter(exam -> lost > DIFFERENCE_SD * sd.get())
                .map(exam -> "fell from at least " + Words.percent(low) + " at " + exam.label()
                        + ", beyond the bounds and the scatter under shifts of the pose");
    }

    private static double lowOf(Known known, ExamResult exam, String faceId, ContactHeadline.Estimator estimator) {
        return known.of(exam.label(), faceId)
                .flatMap(ContactHeadline::of)
                .filter(headline -> headline.estimator() == estimator)
                .map(headline -> headline.low().orElse(0))
                .orElse(0.0);
    }

    private static boolean mayBeCompared(Optional<ExamResult> exam) {
        return exam.map(each -> Comparability.allowsHuComparison(each.comparability()))
                .orElse(false);
    }
}
