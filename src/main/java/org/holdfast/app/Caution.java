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

    /** What goes with every contact result: what CT can and cannot say. */
    public static final String APPARENT_CONTACT =
            "Apparent contact: mineral next to the implant as far as this scan can tell. Clinical CT does not resolve true"
                    + " bone-implant contact; even micro-CT shows a false-bright rim at titanium (Liu et al., J Microsc 2011,"
                    + " doi 10.1111/j.1365-2818.2011.03541.x). No published HU threshold or HU change means \"ingrown\"."
                    + " Density beside a stable implant often falls; a fall alone is not loosening.";

    private Caution() {}
}
