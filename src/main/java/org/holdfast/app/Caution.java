package org.holdfast.app;

/** The standing text that goes with every result, page, export and help. */
public final class Caution {

    /** One sentence for a person, without line breaks. */
    public static final String TEXT =
            "For trained clinicians and research; not a medical device; metal artefact can hide"
                    + " or imitate breakage and loosening; a break or zone not seen is not excluded; apparent contact is not proof"
                    + " of fixation; check every automatic result on the images, on a display that meets local rules; do not scan"
                    + " a patient for this tool; imaging alone does not decide; local codes, imaging protocols and the judgement"
                    + " of licensed practitioners come first.";

    private Caution() {}
}
