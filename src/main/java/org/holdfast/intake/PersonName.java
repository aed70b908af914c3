package org.holdfast.intake;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Compares patients' names loosely (PS3.5, section 6.2.1.2): case, accents, punctuation and blanks do not count, titles and
 * suffixes neither. Of up to three groups (letters, ideographs, sounds) one that both names have decides.
 */
final class PersonName {

    /** Family name, given name and middle name; title and suffix come after them. */
    private static final int COMPONENTS = 3;

    /** What stands in place of a name or a number that was taken out; it tells nobody apart. */
    private static final Set<String> STAND_INS = Set.of(
            "ANON",
            "ANONYM",
            "ANONYMOUS",
            "ANONYMIZED",
            "ANONYMISED",
            "ANONYMOUS PATIENT",
            "PATIENT ANONYMOUS",
            "DEIDENTIFIED",
            "DE IDENTIFIED",
            "REMOVED",
            "UNKNOWN",
            "NONE",
            "NO NAME",
            "NN",
            "N N",
            "XXX");

    private PersonName() {}

    /** Whether two names may be one person's; an empty name is nobody's. */
    static boolean isSame(String a, String b) {
        if (isEmpty(a) || isEmpty(b)) {
            return false;
        }
        List<String> first = groups(a);
        List<String> second = groups(b);
        for (int g = 0; g < Math.min(first.size(), second.size()); g++) {
            if (!first.get(g).isEmpty() && !second.get(g).isEmpty()) {
                return first.get(g).equals(second.get(g));
            }
        }
        return false;
    }

    /** Whether it names nobody: no letter in it, or a word that stands for a name that was taken out. */
    static boolean isEmpty(String name) {
        return groups(name).stream().allMatch(group -> group.isEmpty() || STAND_INS.contains(group));
    }

    private static List<String> groups(String name) {
        List<String> out = new ArrayList<>();
        for (String group : name.split("=", -1)) {
            String[] parts = group.split("\\^", -1);
            String used = String.join(" ", List.of(parts).subList(0, Math.min(COMPONENTS, parts.length)));
            out.add(Normalizer.normalize(used, Normalizer.Form.NFKD)
                    .replaceAll("\\p{M}+", "")
                    .replaceAll("[^\\p{L}\\p{N}]+", " ")
                    .trim()
                    .toUpperCase(Locale.ROOT));
        }
        return out;
    }
}
