package org.holdfast.phantom;

import org.holdfast.geometry.PatientVector;

/** From where a radiograph is taken, of a patient whose axes are those of the scene. */
public enum FilmView {
    /** From the front to the back; the patient's left is at the picture's right. */
    FRONT("AP", PatientVector.POSTERIOR, PatientVector.LEFT, "L\\F", "front"),
    /** From the right to the left side; the back is at the picture's right. */
    SIDE("LL", PatientVector.LEFT, PatientVector.POSTERIOR, "P\\F", "side");

    final String viewPosition;
    final PatientVector beam;
    final PatientVector right;
    final String orientation;
    final String words;

    FilmView(String viewPosition, PatientVector beam, PatientVector right, String orientation, String words) {
        this.viewPosition = viewPosition;
        this.beam = beam;
        this.right = right;
        this.orientation = orientation;
        this.words = words;
    }
}
