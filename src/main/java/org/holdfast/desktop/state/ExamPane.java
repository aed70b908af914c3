package org.holdfast.desktop.state;

/** The four pictures of a whole exam. */
public enum ExamPane {
    /** Slices as they are stored: their own rows, columns and plane. */
    ORIGINAL("Original slices"),
    AXIAL("Axial"),
    CORONAL("Coronal"),
    SAGITTAL("Sagittal");

    private final String title;

    ExamPane(String title) {
        this.title = title;
    }

    /** What the picture is called. */
    public String title() {
        return title;
    }
}
