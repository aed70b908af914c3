package org.holdfast.intake;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/**
 * Tells the patients of an input apart and numbers them. Two are never taken for one: one number with two names is two
 * patients until a person says otherwise. Without a number the name decides, without both the study.
 */
final class Patients {

    /** What the first series of a patient says of it. */
    private record Patient(String id, String name, String birth, String study) {}

    private final Map<Series, Integer> numbers = new IdentityHashMap<>();

    private Patients() {}

    /** @param series in the order of the report */
    static Patients of(List<Series> series) {
        Patients out = new Patients();
        List<Patient> known = new ArrayList<>();
        List<Series> nameless = new ArrayList<>();
        for (Series s : series) {
            if (PersonName.isEmpty(identity(s).patientName())) {
                nameless.add(s);
            } else {
                out.number(s, known);
            }
        }
        nameless.forEach(s -> out.number(s, known));
        out.renumber(series);
        return out;
    }

    /** 1-based number, by first appearance in the report. */
    int numberOf(Series series) {
        return numbers.get(series);
    }

    static Identity identity(Series series) {
        return series.files().get(0).identity();
    }

    private void number(Series series, List<Patient> known) {
        Identity identity = identity(series);
        String id = PersonName.isEmpty(identity.patientId()) ? "" : identity.patientId();
        Patient own = new Patient(id, identity.patientName(), birth(identity), identity.studyInstanceUid());
        List<Integer> homes = new ArrayList<>();
        for (int p = 0; p < known.size(); p++) {
            if (isSame(known.get(p), own)) {
                homes.add(p);
            }
        }
        if (homes.size() == 1) {
            numbers.put(series, homes.get(0));
            return;
        }
        // Several that fit, as for a number without a name where that number has two names: nobody's but its own.
        int exact = id.isEmpty() ? -1 : known.indexOf(own);
        if (exact < 0) {
            known.add(own);
            exact = known.size() - 1;
        }
        numbers.put(series, exact);
    }

    private static boolean isSame(Patient a, Patient b) {
        if (!a.id.equals(b.id)) {
            return false;
        }
        boolean anyNameless = PersonName.isEmpty(a.name) || PersonName.isEmpty(b.name);
        if (!anyNameless) {
            // With a number and a name a birth date that differs is rather a mistake, and is said; without a number it
            // is not.
            return PersonName.isSame(a.name, b.name) && (!a.id.isEmpty() || mayBeOne(a, b));
        }
        boolean oneStudy = !a.study.isEmpty() && a.study.equals(b.study);
        boolean bothNameless = PersonName.isEmpty(a.name) && PersonName.isEmpty(b.name);
        return mayBeOne(a, b) && (!a.id.isEmpty() || bothNameless && oneStudy);
    }

    private static boolean mayBeOne(Patient a, Patient b) {
        return a.birth.isEmpty() || b.birth.isEmpty() || a.birth.equals(b.birth);
    }

    /** The birth date in one form, or as it is written; empty if it is not said. */
    static String birth(Identity identity) {
        String written = identity.patientBirthDate();
        return ScanDate.parse(written).map(Object::toString).orElse(written);
    }

    private void renumber(List<Series> series) {
        Map<Integer, Integer> order = new HashMap<>();
        for (Series s : series) {
            int number = order.computeIfAbsent(numbers.get(s), key -> order.size() + 1);
            numbers.put(s, number);
        }
    }
}
