package org.holdfast.construct;

import java.util.EnumSet;
import java.util.Set;
import org.holdfast.construct.ComponentKind.Family;

/** How one component is held to another; the direction is from the first-named part to the second. */
public enum JoinKind implements Worded {
    /** A screw, hook or cable sits on a rod, a connector or a plate. */
    SITS_ON(
            "sits-on",
            EnumSet.of(Family.SCREW, Family.HOOK, Family.CABLE, Family.OTHER),
            EnumSet.of(Family.ROD, Family.CONNECTOR, Family.PLATE, Family.OTHER)),
    /** A rod runs in a connector. */
    RUNS_IN("runs-in", EnumSet.of(Family.ROD), EnumSet.of(Family.CONNECTOR, Family.OTHER)),
    /** Any part fixes a body, cage or strut graft. */
    FIXES("fixes", EnumSet.allOf(Family.class), EnumSet.of(Family.BODY)),
    /** A locking cap locks a screw, hook or connector. */
    LOCKS(
            "locks",
            EnumSet.of(Family.LOCKING_CAP),
            EnumSet.of(Family.SCREW, Family.HOOK, Family.CONNECTOR, Family.OTHER));

    private final String word;
    private final Set<Family> from;
    private final Set<Family> to;

    JoinKind(String word, Set<Family> from, Set<Family> to) {
        this.word = word;
        this.from = from;
        this.to = to;
    }

    @Override
    public String word() {
        return word;
    }

    /** Whether a part of this kind can be the first of such a join. */
    public boolean allowsFrom(ComponentKind kind) {
        return from.contains(kind.family());
    }

    /** Whether a part of this kind can be the second of such a join. */
    public boolean allowsTo(ComponentKind kind) {
        return to.contains(kind.family());
    }
}
