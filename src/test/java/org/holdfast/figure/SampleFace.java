package org.holdfast.figure;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.app.Caution;

/** An invented elliptic face of 28 x 20 mm at 0.5 mm with every class on it. */
final class SampleFace {

    private static final double SPACING_MM = 0.5;

    private SampleFace() {}

    static Face face() {
        List<FaceSample> samples = new ArrayList<>();
        for (double v = -9.75; v < 10; v += SPACING_MM) {
            for (double u = -13.75; u < 14; u += SPACING_MM) {
                double radius = Math.hypot(u / 14, v / 10);
                if (radius < 1) {
                    samples.add(new FaceSample(u, v, SPACING_MM * SPACING_MM, state(u, v, radius)));
                }
            }
        }
        return new Face(
                "Cranial interface, face on",
                "24 mo: contact 64.1 % (55.0 – 69.2), smallest visible gap 1.35 mm",
                SPACING_MM,
                samples,
                new Face.Edges("R", "L", "A", "P"),
                Face.GapLimits.USUAL,
                Caution.TEXT);
    }

    private static FaceState state(double u, double v, double radius) {
        if (u > 9) {
            return new FaceState.NotAssessable("artefact");
        }
        if (u < -11) {
            return new FaceState.NotAssessable("no metal");
        }
        if (Math.hypot(u, v) < 1.5) {
            return new FaceState.NotAssessable("outside the image");
        }
        double widthMm = 6 * (radius - 0.55);
        if (widthMm > 2.3 && v < 0) {
            return new FaceState.NoBone();
        }
        if (widthMm > 0) {
            return new FaceState.Gap(1.3 * widthMm);
        }
        return v > 2 ? new FaceState.Contact() : new FaceState.Bridged();
    }
}
