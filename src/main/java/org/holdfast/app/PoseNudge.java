package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import org.holdfast.geometry.RigidTransform;

/**
 * Use case: poses that a person set by hand are kept in the subject's folder with their day, so that the next measurement
 * uses them and says so.
 */
public final class PoseNudge {

    private PoseNudge() {}

    /**
     * The poses that were set by hand, by label of the exam or its series; none if there are none.
     *
     * @throws UseCaseException if the document is damaged; names file and field
     */
    public static Map<String, RigidTransform> read(Path folder) throws UseCaseException {
        return PoseFile.ofSubject(folder).byExam();
    }

    /**
     * Keeps the poses set by hand in place of earlier ones; of those that stay, who set them and when stays too.
     *
     * @param byExam pose by label of the exam, from the reference exam's patient space to the exam's
     * @param day day on which those that are new were set
     * @throws UseCaseException if the earlier document is damaged or the new one cannot be written
     */
    public static void write(Path folder, Map<String, RigidTransform> byExam, LocalDate day) throws UseCaseException {
        PoseFile poses = PoseFile.ofSubject(folder);
        for (String exam : poses.byExam().keySet()) {
            poses = byExam.containsKey(exam) ? poses : poses.without(exam);
        }
        for (Map.Entry<String, RigidTransform> pose : byExam.entrySet()) {
            if (!pose.getValue().equals(poses.byExam().get(pose.getKey()))) {
                PoseFile.Remark remark = new PoseFile.Remark("", day.toString(), "nudged");
                poses = poses.with(pose.getKey(), pose.getValue(), remark);
            }
        }
        poses.write(folder.resolve(PoseFile.DOCUMENT));
    }
}
