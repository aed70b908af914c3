package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.app.HeaderChanges;
import org.holdfast.app.IntakePatient;
import org.holdfast.app.IntakeSeries;
import org.holdfast.app.SeriesRole;
import org.holdfast.app.TakeInPlan;

/** What is taken out of the headers when images are copied, in words. Stateless. */
public final class HeaderRows {

    /**
     * One line.
     *
     * @param name what it is about
     * @param value what is done, with numbers
     * @param isWarning whether a person should look
     * @param more details; empty text for none
     */
    public record Row(String name, String value, boolean isWarning, String more) {}

    private HeaderRows() {}

    /** The lines for images that are copied. */
    public static List<Row> of(HeaderChanges changes, IntakePatient patient, TakeInPlan plan) {
        String code = plan.subjectCode().isEmpty() ? "the subject's code" : plan.subjectCode();
        boolean shifts = plan.target().subject().isEmpty()
                || plan.target().subject().get().hasShiftedDates();
        List<Row> rows = new ArrayList<>();
        rows.add(row("Name and number", "replaced by " + code));
        rows.add(row("Dates", shifts ? "shifted by one secret number of weeks" : "taken out, kept beside the files"));
        rows.add(row("Places, persons, devices, words", "removed, " + fields(changes.removed())));
        rows.add(row("Private fields", changes.privates() == 0 ? "none there" : "removed, " + changes.privates()));
        rows.add(row("Identifiers", "replaced, " + fields(changes.uids())));
        if (!changes.textsKept().isEmpty()) {
            rows.add(new Row(
                    "Words kept for measuring",
                    fields(changes.textsKept().size()),
                    false,
                    String.join(", ", changes.textsKept())));
        }
        rows.add(burnedIn(patient, plan));
        return rows;
    }

    private static Row burnedIn(IntakePatient patient, TakeInPlan plan) {
        List<String> taken = patient.series().stream()
                .filter(series -> plan.roleOf(series) != SeriesRole.LEAVE_OUT)
                .filter(IntakeSeries::mayShowText)
                .map(IntakeSeries::name)
                .toList();
        return taken.isEmpty()
                ? row("Text in pictures", "no sign of it in what is taken in")
                : new Row(
                        "Text in pictures",
                        taken.size() + " series: " + String.join(", ", taken),
                        true,
                        "Text that is burned into a picture cannot be taken out. Look at it, or leave the series out.");
    }

    private static Row row(String name, String value) {
        return new Row(name, value, false, "");
    }

    private static String fields(int count) {
        return count + (count == 1 ? " field" : " fields");
    }
}
