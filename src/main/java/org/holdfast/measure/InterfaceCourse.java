package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;

/**
 * One interface through a subject's exams: the reference exam fixes edges, host bone and bone threshold, the others keep
 * them. Exams may be given one after the other, so that no two volumes need be held at once; the reference exam comes
 * first.
 */
public final class InterfaceCourse {

    private final Construct construct;
    private final BoneInterface face;
    private final Component component;
    private final MeasurementSettings settings;
    private final ContactByThreshold estimator;
    private final ContactByFit fit;
    private final FaceComparison comparison;
    private ContactByThreshold.Reference reference;
    private ContactByFit.Reference fitReference;
    private FaceComparison.Reference referenceFace;
    private String referenceSha256;
    private String referenceLabel;

    /**
     * @param construct the construct on its reference exam
     * @param face the interface
     * @param settings thresholds
     */
    public InterfaceCourse(Construct construct, BoneInterface face, MeasurementSettings settings) {
        this.construct = construct;
        this.face = face;
        this.component = construct.component(face.component());
        this.settings = settings;
        this.estimator = new ContactByThreshold(construct, face, settings);
        this.fit = new ContactByFit(construct, face, settings);
        this.comparison = new FaceComparison(construct, face, settings);
    }

    /** {@link #measure(ExamScan, Disturbance)} where nothing is known of metal that moved or broke. */
    public InterfaceExam measure(ExamScan exam) {
        return measure(exam, Disturbance.none());
    }

    /**
     * Measures one exam; the first that its verdict allows to measure is taken for the reference exam.
     *
     * @param disturbance metal that lies otherwise than on the reference exam, for the change map
     */
    public InterfaceExam measure(ExamScan exam, Disturbance disturbance) {
        String reference256 = referenceSha256 == null ? exam.seriesSha256() : referenceSha256;
        String key = StaleKey.of(settings, construct, List.of(reference256, exam.seriesSha256()));
        Verdict before = InterfaceVerdict.before(face, component, exam);
        if (before.value().compareTo(Verdict.Value.READER_ONLY) >= 0) {
            return InterfaceExam.ofThreshold(face, exam.label(), before, Optional.empty(), key);
        }
        ContactByThreshold.Measured measured =
                reference == null ? estimator.measureReference(exam) : estimator.measureFollowUp(exam, reference);
        ContactByFit.Measured fitted = fitReference == null
                ? fit.measureReference(exam, measured.reference().host())
                : fit.measureFollowUp(exam, fitReference);
        if (reference == null) {
            reference = measured.reference();
            fitReference = fitted.reference();
            referenceSha256 = exam.seriesSha256();
            referenceLabel = exam.label();
        }
        FaceComparison.Compared compared = compare(exam, measured.contact(), disturbance);
        Verdict verdict = before.and(InterfaceVerdict.after(measured.contact(), fitted.contact(), settings));
        return new InterfaceExam(
                face,
                exam.label(),
                verdict,
                Optional.of(measured.contact()),
                fitted.contact(),
                compared.fill(),
                compared.change(),
                key);
    }

    private FaceComparison.Compared compare(ExamScan exam, ThresholdContact contact, Disturbance disturbance) {
        if (referenceFace == null) {
            referenceFace = comparison.keep(exam, contact);
            return FaceComparison.Compared.not("this is the exam that others are compared with");
        }
        return comparison.compare(exam, contact, referenceFace, disturbance);
    }

    /** Label of the exam that fixed edges, host bone and threshold; empty while none could be measured. */
    public Optional<String> referenceLabel() {
        return Optional.ofNullable(referenceLabel);
    }

    /** The interface. */
    public BoneInterface face() {
        return face;
    }

    /** The courses of all interfaces of a construct. */
    public static List<InterfaceCourse> ofAll(Construct construct, MeasurementSettings settings) {
        List<InterfaceCourse> courses = new ArrayList<>();
        for (BoneInterface face : construct.interfaces()) {
            courses.add(new InterfaceCourse(construct, face, settings));
        }
        return courses;
    }
}
