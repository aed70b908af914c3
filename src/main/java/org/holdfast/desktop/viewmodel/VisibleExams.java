package org.holdfast.desktop.viewmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;

/** Which exams have a column where not all fit: the first, the chosen one, and its neighbours. */
public final class VisibleExams {

    private VisibleExams() {}

    /**
     * Indices of the exams in sight, ascending.
     *
     * @param count how many exams there are, at least 1
     * @param chosen index of the chosen one
     * @param room how many columns fit, at least 1
     */
    public static List<Integer> of(int count, int chosen, int room) {
        TreeSet<Integer> seen = new TreeSet<>(List.of(chosen));
        if (room > 1) {
            seen.add(0);
        }
        for (int away = 1; seen.size() < Math.min(room, count); away++) {
            for (int exam : new int[] {chosen - away, chosen + away}) {
                if (exam >= 0 && exam < count && seen.size() < room) {
                    seen.add(exam);
                }
            }
        }
        return new ArrayList<>(seen);
    }
}
