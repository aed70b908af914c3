package org.holdfast.app;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.measure.InterfaceExam;
import org.holdfast.measure.SettingsJson;
import org.holdfast.measure.StaleKey;
import org.holdfast.progress.Progress;

/** Whether stored numbers still belong to their inputs, and if not, what changed. Immutable. */
public final class Staleness {

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
     */
    public static Staleness of(ContactReport stored, ReviewSubject subject, ExamVolumes volumes, Progress progress) {
        Map<String, String> hashes = new HashMap<>();
        Map<String, String> unreadable = new HashMap<>();
        for (ReviewExam exam : subject.exams()) {
            progress.stopIfCancelled();
            double from = (double) exam.index() / subject.exams().size();
            double to = (exam.index() + 1.0) / subject.exams().size();
            try {
                hashes.put(exam.label(), volumes.seriesSha256(exam.index(), progress.part(from, Math.min(1, to))));
            } catch (UseCaseException e) {
                unreadable.put(exam.label(), e.getMessage());
            }
        }
        Map<String, String> why = new HashMap<>();
        for (ExamResult exam : stored.exams()) {
            for (InterfaceExam part : exam.parts()) {
                why(stored, subject, exam, part, hashes, unreadable)
                        .ifPresent(
                                words -> why.put(key(exam.label(), part.face().id()), words));
            }
        }
        return new Staleness(why);
    }

    /** Why the number of an interface in an exam no longer belongs to its inputs; empty if it does. */
    public Optional<String> why(String examLabel, String interfaceId) {
        return Optional.ofNullable(why.get(key(examLabel, interfaceId)));
    }

    /** Whether every number still belongs to its inputs. */
    public boolean isNone() {
        return why.isEmpty();
    }

    private static Optional<String> why(
            ContactReport stored,
            ReviewSubject subject,
            ExamResult exam,
            InterfaceExam part,
            Map<String, String> hashes,
            Map<String, String> unreadable) {
        if (unreadable.containsKey(exam.label())) {
            return Optional.of("measured, but its files can no longer be read: " + unreadable.get(exam.label()));
        }
        String now = hashes.get(exam.label());
        if (now == null) {
            return Optional.of("measured, but the exam is no longer in the subject's document");
        }
        ExamResult reference = stored.exams().stream()
                .filter(ExamResult::isReference)
                .findFirst()
                .orElse(exam);
        String referenceNow = hashes.getOrDefault(reference.label(), "");
        for (String first : List.of(referenceNow, now)) {
            if (StaleKey.of(subject.settings(), subject.construct(), List.of(first, now))
                    .equals(part.key())) {
                return Optional.empty();
            }
        }
        if (!now.equals(exam.seriesSha256()) || !referenceNow.equals(reference.seriesSha256())) {
            return Optional.of("the files of the " + (now.equals(exam.seriesSha256()) ? "reference exam" : "exam")
                    + " have changed since it was measured");
        }
        return Optional.of(documents(stored, subject));
    }

    private static String documents(ContactReport stored, ReviewSubject subject) {
        String changed = changedSettings(stored, subject);
        if (!changed.isEmpty()) {
            return "measured with other settings: " + changed;
        }
        if (!stored.construct().geometrySha256().equals(subject.construct().geometrySha256())) {
            return "measured on construct version " + stored.construct().version() + ", now version "
                    + subject.construct().version() + " with another geometry";
        }
        return "measured by an older version of the method";
    }

    /** Each changed setting with its value then and now. */
    private static String changedSettings(ContactReport stored, ReviewSubject subject) {
        var before = SettingsJson.write(stored.settings());
        var now = SettingsJson.write(subject.settings());
        StringBuilder words = new StringBuilder();
        now.fieldNames().forEachRemaining(name -> {
            if (!now.get(name).equals(before.get(name))) {
                words.append(words.isEmpty() ? "" : "; ")
                        .append(name)
                        .append(' ')
                        .append(before.get(name))
                        .append(", now ")
                        .append(now.get(name));
            }
        });
        return words.toString().replace("\"", "");
    }

    private static String key(String examLabel, String interfaceId) {
        return examLabel + "\n" + interfaceId;
    }
}
