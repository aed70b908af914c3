package org.holdfast.phantom;

/** How far a Gaussian is followed. */
final class BlurReach {

    /**
     * Standard deviations after which a Gaussian is taken for finished: 3.4e-6 of its mass lies beyond on one side, 0.03
     * HU of a step from air to an extended scale's end.
     */
    static final double DEVIATIONS = 4.5;

    private BlurReach() {}
}
