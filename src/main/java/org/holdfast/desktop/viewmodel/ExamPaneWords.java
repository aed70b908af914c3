package org.holdfast.desktop.viewmodel;

import java.util.Locale;
import org.holdfast.desktop.state.ExamPane;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.WholeExamLook;

/** What is written on the pictures of a whole exam. Stateless. */
public final class ExamPaneWords {

    /** Thin space, before units. */
    private static final String THIN = "\u2009";

    private static final String MINUS = "\u2212";

    private ExamPaneWords() {}

    /** Where a picture lies: "slice 120 of 412", or its distance from the origin of the exam's frame, "H 53.0 mm". */
    public static String position(ExamPane pane, ExamPlanes planes, WholeExamLook look) {
        return switch (pane) {
            case ORIGINAL -> slice(planes, planes.sliceAt(look.crossing()));
            case AXIAL -> distance(look.crossing().z(), "H", "F");
            case CORONAL -> distance(look.crossing().y(), "P", "A");
            case SAGITTAL -> distance(look.crossing().x(), "L", "R");
        };
    }

    private static String slice(ExamPlanes planes, int slice) {
        String place = String.format(Locale.ROOT, "slice %d of %d", slice + 1, planes.slices());
        return planes.isHoleAfter(slice) ? place + ", slices missing after it" : place;
    }

    private static String distance(double mm, String above, String below) {
        // Rounded first, so that nothing is called 0.0 mm to the feet.
        double rounded = Math.rint(10 * mm) / 10;
        return String.format(Locale.ROOT, "%s %.1f%smm", rounded < 0 ? below : above, Math.abs(rounded), THIN);
    }

    /** The window: "C 650 W 2700". */
    public static String window(HuWindow window) {
        return "C " + whole(window.centreHu()) + " W " + whole(window.widthHu());
    }

    private static String whole(double hu) {
        long rounded = Math.round(hu);
        return rounded < 0 ? MINUS + -rounded : Long.toString(rounded);
    }
}
