package org.holdfast.volume;

/**
 * Stored values that mark places outside the reconstructed field and carry no tissue.
 *
 * @param lowest smallest such stored value
 * @param highest largest such stored value, ≥ lowest
 */
public record PaddingRange(int lowest, int highest) {

    public PaddingRange {
        if (lowest > highest) {
            throw new IllegalArgumentException("padding range is empty: " + lowest + " to " + highest);
        }
    }

    /** Whether a stored value is padding. */
    public boolean contains(int stored) {
        return stored >= lowest && stored <= highest;
    }
}
