package org.holdfast.app;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.holdfast.app.TakeInPlan.Way;
import org.holdfast.app.TakeInQuestion.About;

/** What must be answered before exams are taken in; nothing of it is guessed. Stateless. */
public final class TakeInQuestions {

    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9_-]{1,64}");
    private static final int LONGEST_LABEL = 40;

    private TakeInQuestions() {}

    /** Whether a text can be a subject's code. */
    public static boolean isCode(String text) {
        return CODE.matcher(text).matches();
    }

    /** The open questions in the order in which a page asks them; none if exams can be taken in. */
    public static List<TakeInQuestion> of(IntakePatient patient, TakeInPlan plan) {
        List<TakeInQuestion> open = new ArrayList<>();
        plan.target().why().ifPresent(why -> open.add(new TakeInQuestion(About.FOLDER, "", why)));
        if (plan.subjectCode().isBlank()) {
            open.add(new TakeInQuestion(About.CODE, "", "the subject's code is missing"));
        } else if (!CODE.matcher(plan.subjectCode()).matches()) {
            open.add(new TakeInQuestion(
                    About.CODE,
                    "",
                    "a code has 1 to 64 letters, digits, - and _, no spaces: it stands in files and names"));
        }
        if (plan.surgery().isEmpty()) {
            open.add(new TakeInQuestion(About.SURGERY, "", "the day of the operation is missing"));
        }
        way(plan).ifPresent(open::add);
        List<IntakeExam> taken = plan.taken(patient);
        if (taken.isEmpty()) {
            open.add(new TakeInQuestion(About.EXAMS, "", nothing(patient, plan)));
        }
        for (IntakeExam exam : taken) {
            if (plan.dateOf(exam).isEmpty()) {
                open.add(new TakeInQuestion(About.DATE, exam.id(), "an exam has no date in its files: please give it"));
            }
        }
        open.addAll(labels(taken, plan));
        return open;
    }

    private static Optional<TakeInQuestion> way(TakeInPlan plan) {
        return plan.way() == Way.REFER
                ? plan.target().whyNotRefer().map(why -> new TakeInQuestion(About.FOLDER, "", why))
                : Optional.empty();
    }

    private static String nothing(IntakePatient patient, TakeInPlan plan) {
        boolean all = !patient.series().isEmpty() && patient.series().stream().allMatch(plan.target()::has);
        return all ? "this subject has all of it already" : "nothing is chosen to be taken in";
    }

    private static List<TakeInQuestion> labels(List<IntakeExam> taken, TakeInPlan plan) {
        List<TakeInQuestion> open = new ArrayList<>();
        Set<String> there =
                plan.target().subject().map(TakeInTarget.Subject::labels).orElse(Set.of());
        Map<String, String> first = new HashMap<>();
        Set<String> said = new HashSet<>();
        for (IntakeExam exam : taken) {
            String label = plan.labelOf(exam);
            boolean isTwice =
                    !label.isEmpty() && (there.contains(label) || first.putIfAbsent(label, exam.id()) != null);
            if (isTwice && said.add(label)) {
                String text = there.contains(label)
                        ? "the subject has an exam \"" + label + "\" already: give this one another label"
                        : "two exams would be called \"" + label + "\": give one another label";
                open.add(new TakeInQuestion(About.LABEL, exam.id(), text));
            }
            if (label.length() > LONGEST_LABEL) {
                open.add(new TakeInQuestion(
                        About.LABEL, exam.id(), "a label has at most " + LONGEST_LABEL + " characters"));
            }
        }
        return open;
    }
}
