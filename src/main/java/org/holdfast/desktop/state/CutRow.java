package org.holdfast.desktop.state;

import org.holdfast.construct.CutAxes;
import org.holdfast.construct.PartFrame;

/** Which of the cuts through a part, each with a row of its own in the time strip. */
public enum CutRow {
    ALONG("Along"),
    ACROSS("Across");

    private final String title;

    CutRow(String title) {
        this.title = title;
    }

    /** What the row is called. */
    public String title() {
        return title;
    }

    /** How this cut lies in a part's frame. */
    public CutAxes axes(PartFrame frame) {
        return this == ALONG ? frame.along() : frame.across();
    }
}
