package org.holdfast.desktop.state;

import org.holdfast.geometry.PatientVector;

/**
 * Letters at the edges of a picture that say which way it looks: R right, L left, A anterior, P posterior, H head, F foot
 * of the patient, as the patient orientation of DICOM writes them (PS3.3 C.7.6.1.1.1). Where a direction leans by more than
 * 20° a second letter follows, the lesser one.
 */
public final class Orientation {

    /** Sine of 20°: a lesser lean is not told. */
    private static final double LEAN = Math.sin(Math.toRadians(20));

    private static final char[] POSITIVE = {'L', 'P', 'H'};
    private static final char[] NEGATIVE = {'R', 'A', 'F'};

    private Orientation() {}

    /**
     * The letters of a direction, one or two.
     *
     * @param direction in patient space, any length above 0
     */
    public static String letters(PatientVector direction) {
        PatientVector unit = direction.unit();
        double[] along = {unit.x(), unit.y(), unit.z()};
        int first = largest(along, -1);
        int second = largest(along, first);
        String letters = String.valueOf(letter(along, first));
        return Math.abs(along[second]) > LEAN ? letters + letter(along, second) : letters;
    }

    private static int largest(double[] along, int but) {
        int best = but == 0 ? 1 : 0;
        for (int axis = 0; axis < along.length; axis++) {
            if (axis != but && Math.abs(along[axis]) > Math.abs(along[best])) {
                best = axis;
            }
        }
        return best;
    }

    private static char letter(double[] along, int axis) {
        return along[axis] > 0 ? POSITIVE[axis] : NEGATIVE[axis];
    }
}
