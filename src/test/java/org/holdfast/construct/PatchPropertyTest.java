package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.DoubleRange;
import org.holdfast.construct.PlanePatch.Outline;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

class PatchPropertyTest {

    @Property(tries = 200, seed = "20310203", edgeCases = EdgeCasesMode.NONE)
    void areasAddUpAndNormalsHaveLengthOne(
            @ForAll("patches") Patch patch, @ForAll @DoubleRange(min = 0.3, max = 2) double spacing) {
        List<PatchSample> samples = patch.samples(spacing);

        double sum = samples.stream().mapToDouble(PatchSample::areaMm2).sum();
        assertEquals(patch.areaMm2(), sum, 1e-9 * patch.areaMm2());
        for (PatchSample s : samples) {
            assertEquals(1, s.normal().norm(), 1e-12);
            assertEquals(samples.get(0).areaMm2(), s.areaMm2());
        }
        assertEquals(samples, patch.samples(spacing));
    }

    /** Patches at least two spacings wide: a cell is about spacing² and neighbours are about a spacing apart. */
    @Property(tries = 100, seed = "20310204", edgeCases = EdgeCasesMode.NONE)
    void neighboursAreAboutASpacingApart(@ForAll("patches") Patch patch) {
        double spacing = 0.5;
        List<PatchSample> samples = patch.samples(spacing);

        double cell = samples.get(0).areaMm2();
        assertTrue(cell > 0.6 * spacing * spacing && cell < 1.6 * spacing * spacing, "cell of " + cell + " mm²");
        for (int n = 0; n < samples.size(); n += Math.max(1, samples.size() / 20)) {
            PatientPoint at = samples.get(n).point();
            double nearest = Double.POSITIVE_INFINITY;
            for (PatchSample other : samples) {
                if (other != samples.get(n)) {
                    nearest = Math.min(nearest, at.distanceTo(other.point()));
                }
            }
            assertTrue(nearest > 0.4 * spacing && nearest < 1.5 * spacing, "nearest at " + nearest + " mm");
        }
    }

    @Provide
    Arbitrary<Patch> patches() {
        Arbitrary<Double> length = Arbitraries.doubles().between(1.5, 12);
        Arbitrary<RigidTransform> poses = Combinators.combine(
                        Arbitraries.doubles().between(-1, 1),
                        Arbitraries.doubles().between(-1, 1),
                        Arbitraries.doubles().between(-180, 180))
                .as((x, y, angle) -> RigidTransform.rotation(
                        new PatientVector(x, y, 0.5), angle, new PatientPoint(100 * x, 50 * y, 300)));
        return Combinators.combine(
                        Arbitraries.integers().between(0, 3),
                        poses,
                        length,
                        length,
                        Arbitraries.doubles().between(20, 180))
                .as(PatchPropertyTest::patch);
    }

    private static Patch patch(int kind, RigidTransform pose, double a, double b, double angle) {
        PatientPoint centre = pose.apply(PatientPoint.ORIGIN);
        PatientVector u = pose.apply(PatientVector.LEFT);
        PatientVector v = pose.apply(PatientVector.POSTERIOR);
        PatientVector w = pose.apply(PatientVector.CRANIAL);
        return switch (kind) {
            case 0 -> new PlanePatch(Outline.RECTANGLE, centre, u, v, w, a, b);
            case 1 -> new PlanePatch(Outline.ELLIPSE, centre, u, v, w.times(-1), a, b);
            case 2 -> new CylinderPatch(centre, centre.along(w, a), b);
            default -> new SpherePatch(centre, 1.5 + b, w, angle);
        };
    }
}
