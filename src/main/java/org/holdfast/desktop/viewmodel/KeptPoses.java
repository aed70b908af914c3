package org.holdfast.desktop.viewmodel;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.app.PoseNudge;
import org.holdfast.app.ReviewExam;
import org.holdfast.app.ReviewSubject;
import org.holdfast.app.UseCaseException;
import org.holdfast.geometry.RigidTransform;

/**
 * The poses set by hand as they stand in the subject's folder. Written at once, since the document is small. Used on the
 * thread of the window only.
 */
final class KeptPoses {

    private final ReviewSubject subject;
    private Map<Integer, RigidTransform> kept;
    private String failure = "";

    KeptPoses(ReviewSubject subject) {
        this.subject = subject;
        Map<Integer, RigidTransform> found = new HashMap<>();
        try {
            Map<String, RigidTransform> byLabel =
                    PoseNudge.read(subject.folder().folder());
            for (ReviewExam exam : subject.exams()) {
                Optional.ofNullable(byLabel.get(exam.label())).ifPresent(pose -> found.put(exam.index(), pose));
            }
        } catch (UseCaseException e) {
            failure = e.getMessage();
        }
        kept = Map.copyOf(found);
    }

    /** Poses by exam. */
    Map<Integer, RigidTransform> all() {
        return kept;
    }

    /** Why they could not be read or written last; empty if they could. */
    String failure() {
        return failure;
    }

    /** Keeps other poses; tells whether anything was written. */
    boolean keep(Map<Integer, RigidTransform> wanted) {
        if (wanted.equals(kept)) {
            return false;
        }
        Map<String, RigidTransform> byLabel = new HashMap<>();
        List<ReviewExam> exams = subject.exams();
        wanted.forEach((exam, pose) -> byLabel.put(exams.get(exam).label(), pose));
        try {
            PoseNudge.write(subject.folder().folder(), byLabel, LocalDate.now());
            kept = Map.copyOf(wanted);
            failure = "";
            return true;
        } catch (UseCaseException e) {
            failure = e.getMessage();
            return false;
        }
    }
}
