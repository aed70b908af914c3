package org.holdfast.cases;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.app.ContactReport;
import org.holdfast.app.ExamArgument;
import org.holdfast.app.Measurement;
import org.holdfast.app.PoseFile;
import org.holdfast.app.SimulationTruth;
import org.holdfast.app.SubjectFolder;
import org.holdfast.app.UseCaseException;
import org.holdfast.construct.Construct;
import org.holdfast.construct.ConstructJson;
import org.holdfast.construct.ConstructReadException;
import org.holdfast.measure.MeasurementSettings;
import org.holdfast.progress.Progress;

/** The invented subject that is kept with the sources, and its measured course; measured once for all tests. */
public final class SampleSubject {

    private static ContactReport report;

    private SampleSubject() {}

    public static Path folder() {
        return Path.of("sample-images", "demo-subject");
    }

    public static Path constructFile() {
        return folder().resolve("construct.json");
    }

    public static Path truthFile() {
        return folder().resolve(SimulationTruth.DOCUMENT);
    }

    public static Construct construct() {
        try {
            return ConstructJson.read(constructFile());
        } catch (ConstructReadException e) {
            throw new AssertionError(e);
        }
    }

    /** The five exams under their labels. */
    public static List<ExamArgument> exams() {
        try {
            List<ExamArgument> exams = new ArrayList<>();
            for (SubjectFolder.Exam exam : SubjectFolder.read(folder()).exams()) {
                exams.add(new ExamArgument(exam.folder(), Optional.empty(), Optional.of(exam.label()), exam.date()));
            }
            return exams;
        } catch (UseCaseException e) {
            throw new AssertionError(e);
        }
    }

    /** Interfaces of exams, registered and measured with default settings. */
    public static ContactReport measure(Construct construct, List<ExamArgument> exams) throws UseCaseException {
        return measure(construct, exams, Measurement.Scope.CONTACT);
    }

    private static ContactReport measure(Construct construct, List<ExamArgument> exams, Measurement.Scope scope)
            throws UseCaseException {
        return new Measurement(construct, MeasurementSettings.withDefaults(), PoseFile.NONE, scope, Progress.NONE)
                .measure(exams);
    }

    /** The measured course of all five exams. */
    public static synchronized ContactReport report() {
        if (report == null) {
            try {
                report = measure(construct(), exams(), Measurement.Scope.ALL);
            } catch (UseCaseException e) {
                throw new AssertionError(e);
            }
        }
        return report;
    }
}
