package org.holdfast.measure;

/**
 * Bone in the pores of a face between two comparable exams; exploratory, no clinical threshold exists.
 *
 * @param value share of the pores filled with bone since the reference exam, or why it is not stated
 * @param se its standard error over the blocks of the patch
 * @param driftHu change of HU in the internal reference between the exams, already taken off
 * @param reference what served as internal reference, in words; empty where nothing is stated
 */
public record PorousFill(Stated value, Stated se, Stated driftHu, String reference) {

    /** Not stated. */
    public static PorousFill not(String why) {
        return new PorousFill(Stated.not(why), Stated.not(why), Stated.not(why), "");
    }
}
