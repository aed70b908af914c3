package org.holdfast.desktop.viewmodel;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamResult;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.cases.SampleSubject;
import org.holdfast.construct.ConstructPart;
import org.holdfast.desktop.viewmodel.CourseResults.Known;
import org.holdfast.desktop.viewmodel.CourseResults.Place;
import org.holdfast.desktop.viewmodel.CourseResults.Status;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.Stated;
import org.holdfast.measure.ThresholdContact;
import org.holdfast.measure.Verdict;

/** What is known of the sample subject's cranial face, as measured or changed by hand. */
final class SampleKnown {

    static final String FACE = "cranial-face";
    static final Status IDLE = new Status.Idle();

    private SampleKnown() {}

    static ReviewSubject subject() {
        try {
            return ReviewSubject.open(SampleSubject.folder());
        } catch (UseCaseException e) {
            throw new AssertionError(e);
        }
    }

    static ReviewExam exam(int index) {
        return subject().exams().get(index);
    }

    static ConstructPart part(String id) {
        return ConstructPart.of(SampleSubject.construct()).stream()
                .filter(part -> part.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    /** As measured by threshold alone. */
    static Known measured() {
        return changed(part -> part);
    }

    static Known stale(Known known, int exam, String why) {
        return new Known(known.report(), Map.of(new Place(exam(exam).label(), FACE), why), known.status());
    }

    static Known nothing(Status status) {
        return new Known(Optional.empty(), Map.of(), status);
    }

    /** As measured by threshold alone, but for what every exam says of the face. */
    static Known changed(UnaryOperator<InterfaceExam> change) {
        ContactReport all = SampleSubject.report();
        List<ExamResult> exams = all.exams().stream()
                .map(exam -> new ExamResult(
                        exam.label(),
                        exam.seriesUid(),
                        exam.seriesSha256(),
                        exam.daysSinceSurgery(),
                        exam.isReference(),
                        exam.comparability(),
                        exam.poseKind(),
                        exam.poseSource(),
                        exam.referenceToExam(),
                        exam.pointSpread(),
                        exam.parts().stream()
                                .map(part -> with(part, part.verdict(), part.contact()))
                                .map(part -> part.face().id().equals(FACE) ? change.apply(part) : part)
                                .toList(),
                        exam.findings()))
                .toList();
        return new Known(
                Optional.of(new ContactReport(all.construct(), all.settings(), exams, all.findings())), Map.of(), IDLE);
    }

    static InterfaceExam with(InterfaceExam part, Verdict verdict, Optional<ThresholdContact> contact) {
        return InterfaceExam.ofThreshold(part.face(), part.examLabel(), verdict, contact, part.key());
    }

    /** A measurement with another fraction and limit, all else as it was. */
    static ThresholdContact with(ThresholdContact c, Stated fraction, Stated limitMm, boolean isLimitSettled) {
        return new ThresholdContact(
                fraction,
                c.low(),
                c.high(),
                c.ofOppositeBone(),
                c.bridged(),
                c.notAssessable(),
                c.obstacles(),
                limitMm,
                c.smallestVisibleGapIfBlurrierMm(),
                isLimitSettled,
                c.sensitivity(),
                c.jitterSd(),
                c.boneHu(),
                c.boneRule(),
                c.hostHu(),
                c.noiseSdHu(),
                c.gapMm(),
                c.beyondGuardHu(),
                c.guardMm(),
                c.plateauHu(),
                c.frontHu(),
                c.areaMm2(),
                c.readings());
    }
}
