package org.holdfast.intake;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.finding.Finding;

/** Makes one finding of many that say the same about different files, so that a series of 400 files says it once. */
public final class FindingSummary {

    private FindingSummary() {}

    /** The findings in their order; where code and text repeat, the first place with the number of further ones. */
    public static List<Finding> of(List<Finding> findings) {
        Map<String, List<Finding>> alike = new LinkedHashMap<>();
        for (Finding f : findings) {
            alike.computeIfAbsent(f.code() + "\n" + f.text(), key -> new ArrayList<>())
                    .add(f);
        }
        List<Finding> out = new ArrayList<>();
        for (List<Finding> same : alike.values()) {
            Finding first = same.get(0);
            List<String> places =
                    same.stream().map(Finding::where).distinct().sorted().toList();
            String where = places.size() == 1
                    ? places.get(0)
                    : places.get(0) + " and " + (places.size() - 1) + (places.size() == 2 ? " other" : " others");
            out.add(new Finding(first.code(), first.severity(), first.text(), where));
        }
        return List.copyOf(out);
    }
}
