package org.holdfast.app;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.measure.ComponentExam;
import org.holdfast.measure.ExamScan.PoseKind;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.StaleKey;
import org.holdfast.progress.Progress;

/**
 * Whether stored numbers still belong to their inputs, and if not, what changed: settings, construct, files, method, and
 * poses set by hand. A registered pose follows from what makes a result's key; one that was set by hand does not, so it is
 * compared by itself. Immutable.
 */
public final class Staleness {

    private static final String EXAM = "the exam";
    private static final String REFERENCE = "the reference exam";
    private static final String PRESET = "preset";

    private final Map<String, String> why;

    private Staleness(Map<String, String> why) {
        this.why = Map.copyOf(why);
    }

    /**
     * Compares a stored report with its inputs as they are now.
     *
     * @param stored what was measured
     * @param subject documents as they are now
     * @param volumes files of the exams as they are now
     * @param progress how far it is; hashing reads all files
     * @throws java.util.concurrent.CancellationException if cancelled
     */
    public static Staleness of(ContactReport stored, ReviewSubject subject, ExamVolumes volumes, Progress progress) {
        FilesNow files = FilesNow.of(subject, volumes, progress);
        Map<String, String> why = new HashMap<>();
        for (ExamResult exam : stored.exams()) {
            for (InterfaceExam part : exam.parts()) {
                why(stored, subject, exam, part.key(), files)
                        .ifPresent(
                                words -> why.put(key(exam.label(), part.face().id()), words));
            }
            for (ComponentExam part : exam.components()) {
                why(stored, subject, exam, part.key(), files)
                        .ifPresent(words ->
                                why.put(key(exam.label(), part.component().id()), words));
            }
        }
        return new Staleness(why);
    }

    /**
     * Why what was measured on an interface or component in an exam no longer belongs to its inputs; empty if it does, or if
     * nothing was.
     */
    public Optional<String> why(String examLabel, String partId) {
        return Optional.ofNullable(why.get(key(examLabel, partId)));
    }

    /** Whether every number still belongs to its inputs. */
    public boolean isNone() {
        return why.isEmpty();
    }

    /**
     * The files of a subject's exams as they are now.
     *
     * @param sha256 hashes by label; two exams may have one label
     * @param unreadable why an exam cannot be read, by label
     */
    private record FilesNow(Map<String, List<String>> sha256, Map<String, String> unreadable) {

        static FilesNow of(ReviewSubject subject, ExamVolumes volumes, Progress progress) {
            FilesNow files = new FilesNow(new HashMap<>(), new HashMap<>());
            int count = subject.exams().size();
            for (int n = 0; n < count; n++) {
                progress.stopIfCancelled();
                ReviewExam exam = subject.exams().get(n);
                Progress part = progress.part((double) n / count, (n + 1.0) / count);
                try {
                    String hash = volumes.seriesSha256(exam.index(), part);
                    files.sha256
                            .computeIfAbsent(exam.label(), label -> new ArrayList<>())
                            .add(hash);
                } catch (UseCaseException e) {
                    files.unreadable.put(exam.label(), e.getMessage());
                }
            }
            return files;
        }

        /** Why the files of a measured exam are not those that were measured; empty if they are. */
        Optional<String> changed(ExamResult exam, String name) {
            if (sha256.getOrDefault(exam.label(), List.of()).contains(exam.seriesSha256())) {
                return Optional.empty();
            }
            if (unreadable.containsKey(exam.label())) {
                String whose = name.equals(EXAM) ? "its files" : "the files of " + name;
                return Optional.of(
                        "measured, but " + whose + " can no longer be read: " + unreadable.get(exam.label()));
            }
            return Optional.of(
                    sha256.containsKey(exam.label())
                            ? "the files of " + name + " have changed since it was measured"
                            : "measured, but " + name + " is no longer in the subject's document");
        }
    }

    private static Optional<String> why(
            ContactReport stored, ReviewSubject subject, ExamResult exam, String key, FilesNow files) {
        Optional<String> changed = files.changed(exam, EXAM);
        if (changed.isPresent()) {
            return changed;
        }
        Optional<ExamResult> reference = referenceOf(stored, exam, key);
        if (reference.isEmpty()) {
            return Optional.of("measured by an older version of the method");
        }
        return files.changed(reference.get(), REFERENCE)
                .or(() -> documents(stored, subject, exam))
                .or(() -> pose(subject, exam, EXAM))
                .or(() -> pose(subject, reference.get(), REFERENCE));
    }

    /**
     * The exam that fixed threshold and edges of a part: the one whose hash makes the part's key under the settings and the
     * construct it was measured with. It need not be the report's reference exam, where the part could not be measured
     * there. None makes the key if the method was another one.
     */
    private static Optional<ExamResult> referenceOf(ContactReport stored, ExamResult exam, String key) {
        return stored.exams().stream()
                .filter(first -> StaleKey.of(
                                stored.settings(),
                                stored.construct(),
                                List.of(first.seriesSha256(), exam.seriesSha256()))
                        .equals(key))
                .findFirst();
    }

    private static Optional<String> documents(ContactReport stored, ReviewSubject subject, ExamResult exam) {
        List<String> same = List.of(exam.seriesSha256());
        if (StaleKey.of(stored.settings(), stored.construct(), same)
                .equals(StaleKey.of(subject.settings(), subject.construct(), same))) {
            return Optional.empty();
        }
        String changed = changedSettings(stored, subject);
        return Optional.of(
                changed.isEmpty()
                        ? changedConstruct(stored.construct(), subject.construct())
                        : "measured with other settings: " + changed);
    }

    private static String changedConstruct(Construct before, Construct now) {
        if (!before.id().equals(now.id())) {
            return "measured on construct " + before.id() + ", now " + now.id();
        }
        String measured = "measured on construct version " + before.version();
        if (before.version() == now.version()) {
            return measured + ", whose geometry has changed since";
        }
        boolean sameGeometry = before.geometrySha256()
                .equals(withVersion(now, before.version()).geometrySha256());
        return measured + ", now version " + now.version() + (sameGeometry ? "" : " with another geometry");
    }

    private static Construct withVersion(Construct c, int version) {
        return new Construct(
                c.id(),
                version,
                c.operationDate(),
                c.referenceSeriesUid(),
                c.frameOfReferenceUid(),
                c.axes(),
                c.bones(),
                c.components(),
                c.joins(),
                c.interfaces());
    }

    private static Optional<String> pose(ReviewSubject subject, ExamResult exam, String name) {
        Optional<RigidTransform> now = subject.poses().of(exam.label(), exam.seriesUid());
        if (now.isPresent()) {
            return now.get().equals(exam.referenceToExam()) && exam.poseKind() != PoseKind.REFUSED
                    ? Optional.empty()
                    : Optional.of("measured with another pose of " + name + " than is given now");
        }
        return exam.poseKind() == PoseKind.NUDGED
                ? Optional.of("measured with a pose of " + name + " that was set by hand and is given no longer")
                : Optional.empty();
    }

    /** Each changed setting with its value then and now. */
    private static String changedSettings(ContactReport stored, ReviewSubject subject) {
        List<String> changed = new ArrayList<>();
        addChanged("", SettingsJson.write(stored.settings()), SettingsJson.write(subject.settings()), changed);
        // Another preset comes with the values that make it another; it is told where nothing else is.
        List<String> values = changed.stream()
                .filter(words -> !words.startsWith(PRESET + " "))
                .toList();
        return String.join("; ", values.isEmpty() ? changed : values);
    }

    private static void addChanged(String path, JsonNode before, JsonNode now, List<String> changed) {
        now.fieldNames().forEachRemaining(name -> {
            JsonNode then = before.path(name);
            JsonNode value = now.get(name);
            if (value.isObject()) {
                addChanged(path + name + ".", then, value, changed);
            } else if (!value.equals(then)) {
                changed.add(path + name + " " + then.asText() + ", now " + value.asText());
            }
        });
    }

    private static String key(String examLabel, String interfaceId) {
        return examLabel + "\n" + interfaceId;
    }
}
