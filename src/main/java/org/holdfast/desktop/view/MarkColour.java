package org.holdfast.desktop.view;

import org.holdfast.desktop.state.PartState;

/** Style classes of words that stand beside a mark: findings have a hue, all else is neutral. */
final class MarkColour {

    private MarkColour() {}

    /** The style class of a state's words. */
    static String of(PartState state) {
        return switch (state) {
            case NO_FINDING -> "soft";
            case CHANGED -> "ink-change";
            case FAULT -> "ink-fault";
            case UNCONFIRMED -> "ink-doubt";
            case NOT_ASSESSABLE -> "ink-na";
            case NOT_MEASURED, STALE -> "faint";
        };
    }
}
