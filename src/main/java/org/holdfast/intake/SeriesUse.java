package org.holdfast.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.intake.RoleReason.Bearing;

/**
 * What a series, or one stack of it, is used for in its exam, and why. A series of several stacks has a use for each; one
 * without stacks has a single use. Immutable.
 *
 * @param series the series
 * @param stack the stack; empty for a series without stacks
 * @param name what it is in two or three words, such as "Bone kernel" or "Dose sheet"
 * @param role what it is used for
 * @param reasons why, the weightiest first
 * @param chosenBy who chose the role
 */
public record SeriesUse(
        Series series, Optional<Stack> stack, String name, ExamRole role, List<RoleReason> reasons, ChosenBy chosenBy) {

    /** Who chose a role. */
    public enum ChosenBy {
        PROPOSAL,
        PERSON
    }

    public SeriesUse {
        Objects.requireNonNull(series, "series");
        Objects.requireNonNull(stack, "stack");
        Objects.requireNonNull(name, "name");
        Objects.requireNonNull(role, "role");
        Objects.requireNonNull(chosenBy, "chosenBy");
        reasons = List.copyOf(reasons);
        if (stack.isPresent() && !series.stacks().contains(stack.get())) {
            throw new IllegalArgumentException("the stack is none of series " + series.seriesInstanceUid());
        }
    }

    /** Whether something can be measured on it: a stack of more than one slice with HU. */
    public boolean isMeasurable() {
        return stack.isPresent()
                && stack.get().whyNoHu().isEmpty()
                && stack.get().grid().slices() > 1;
    }

    /** Slices of its stack, or images of a series without stacks. */
    public int images() {
        return stack.map(s -> s.grid().slices()).orElse(series.files().size());
    }

    /**
     * The same with the role that a person gave it.
     *
     * @throws IllegalArgumentException for {@link ExamRole#MEASURE} where nothing can be measured
     */
    public SeriesUse chosenAs(ExamRole chosen) {
        if (chosen == ExamRole.MEASURE && !isMeasurable()) {
            throw new IllegalArgumentException("nothing can be measured on series " + series.seriesInstanceUid() + ": "
                    + stack.flatMap(Stack::whyNoHu).orElse("no stack of slices with HU"));
        }
        List<RoleReason> why = new ArrayList<>();
        why.add(new RoleReason(
                Bearing.NOTE, "chosen by a person; proposed was: " + role.name().toLowerCase(Locale.ROOT)));
        why.addAll(reasons);
        return new SeriesUse(series, stack, name, chosen, why, ChosenBy.PERSON);
    }
}
