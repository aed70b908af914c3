package org.holdfast.intake;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * Splits parallel slices whose positions repeat or interleave, by the attributes of {@link SplitAttribute}; never for
 * another reason.
 */
final class StackSplitter {

    /**
     * @param stacks slices of each stack, strictly ascending; empty if the slices make no volume
     * @param by what they were split by; empty if they were not
     */
    record Split(List<List<Slice>> stacks, String by) {}

    private StackSplitter() {}

    /** @param slices parallel slices, sorted along their normal */
    static Split split(List<Slice> slices) {
        if (!isStrictlyAscending(slices)) {
            return distinctPositions(slices) < 2
                    ? new Split(List.of(), "")
                    : byAttributes(slices).orElseGet(() -> new Split(List.of(), ""));
        }
        return interleaved(slices).orElseGet(() -> new Split(List.of(slices), ""));
    }

    static int distinctPositions(List<Slice> slices) {
        int count = 1;
        for (int k = 1; k < slices.size(); k++) {
            count += step(slices, k) > Duplicates.SAME_POSITION_MM ? 1 : 0;
        }
        return count;
    }

    private static Optional<Split> byAttributes(List<Slice> slices) {
        for (SplitAttribute attribute : SplitAttribute.values()) {
            Optional<Split> split = accepted(slices, EnumSet.of(attribute));
            if (split.isPresent()) {
                return split;
            }
        }
        Set<SplitAttribute> together = EnumSet.noneOf(SplitAttribute.class);
        for (SplitAttribute attribute : SplitAttribute.values()) {
            together.add(attribute);
            Optional<Split> split = accepted(slices, together);
            if (split.isPresent()) {
                return split;
            }
        }
        return Optional.empty();
    }

    /** A split counts only if no position repeats in any part and a part is more than a single slice. */
    private static Optional<Split> accepted(List<Slice> slices, Set<SplitAttribute> attributes) {
        List<List<Slice>> parts = partition(slices, attributes);
        boolean ascending = parts.stream().allMatch(StackSplitter::isStrictlyAscending);
        boolean worthwhile = parts.stream().anyMatch(part -> part.size() > 1);
        return parts.size() > 1 && ascending && worthwhile
                ? Optional.of(new Split(parts, names(attributes)))
                : Optional.empty();
    }

    /**
     * Two regular stacks whose slices lie between each other's: the values of an attribute come back after others along
     * the normal, the whole is irregular, and each part has equal steps.
     */
    private static Optional<Split> interleaved(List<Slice> slices) {
        if (slices.size() < 4 || hasEqualSteps(slices)) {
            return Optional.empty();
        }
        for (SplitAttribute attribute : List.of(SplitAttribute.ACQUISITION_NUMBER, SplitAttribute.IMAGE_TYPE)) {
            List<List<Slice>> parts = partition(slices, EnumSet.of(attribute));
            boolean regular = parts.stream().allMatch(part -> part.size() > 2 && hasEqualSteps(part));
            if (parts.size() > 1 && regular && comesBack(slices, attribute)) {
                return Optional.of(new Split(parts, attribute.keyword()));
            }
        }
        return Optional.empty();
    }

    private static boolean comesBack(List<Slice> slices, SplitAttribute attribute) {
        int changes = 0;
        Map<String, Boolean> seen = new LinkedHashMap<>();
        for (int k = 0; k < slices.size(); k++) {
            String value = slices.get(k).variants().get(attribute);
            changes += k > 0 && !value.equals(slices.get(k - 1).variants().get(attribute)) ? 1 : 0;
            seen.put(value, true);
        }
        return changes >= seen.size();
    }

    private static List<List<Slice>> partition(List<Slice> slices, Set<SplitAttribute> attributes) {
        Map<String, List<Slice>> parts = new TreeMap<>();
        for (Slice slice : slices) {
            StringBuilder key = new StringBuilder();
            attributes.forEach(a -> key.append(slice.variants().get(a)).append('\n'));
            parts.computeIfAbsent(key.toString(), k -> new ArrayList<>()).add(slice);
        }
        return List.copyOf(parts.values());
    }

    private static boolean isStrictlyAscending(List<Slice> slices) {
        return distinctPositions(slices) == slices.size();
    }

    private static boolean hasEqualSteps(List<Slice> slices) {
        double whole = 0;
        for (int k = 1; k < slices.size(); k++) {
            whole += step(slices, k);
        }
        double mean = whole / (slices.size() - 1);
        for (int k = 1; k < slices.size(); k++) {
            if (Math.abs(step(slices, k) - mean) > Math.max(0.02 * mean, 2 * Duplicates.SAME_POSITION_MM)) {
                return false;
            }
        }
        return true;
    }

    private static double step(List<Slice> slices, int k) {
        SlicePlane reference = slices.get(0).plane();
        return slices.get(k).plane().positionAlong(reference)
                - slices.get(k - 1).plane().positionAlong(reference);
    }

    private static String names(Set<SplitAttribute> attributes) {
        return String.join(
                ", ", attributes.stream().map(SplitAttribute::keyword).toList());
    }
}
