package org.holdfast.registration;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;

/** Look-ups agree with a search of all points. */
class PointTreeTest {

    private static int exhaustive(SurfacePoints points, double[] p, double[] q, double leastCosine, double reachMm) {
        int best = -1;
        double bestMm = reachMm;
        PatientPoint from = new PatientPoint(p[0], p[1], p[2]);
        PatientVector normal = new PatientVector(q[0], q[1], q[2]);
        for (int n = 0; n < points.size(); n++) {
            double mm = points.point(n).distanceTo(from);
            if (mm < bestMm && points.normal(n).dot(normal) >= leastCosine) {
                bestMm = mm;
                best = n;
            }
        }
        return best;
    }

    @Test
    void findsWhatASearchOfAllFinds() {
        Random random = new Random(5);
        for (int size : new int[] {1, 2, 7, 8, 9, 63, 1000}) {
            SurfacePoints points = AnalyticSurfaces.box(new PatientPoint(3, -2, 8), 6, 5, 9, size, size);
            PointTree.Search search = new PointTree(points).search();
            for (int n = 0; n < 300; n++) {
                double[] p = {20 * random.nextDouble() - 7, 20 * random.nextDouble() - 12, 20 * random.nextDouble()};
                PatientVector q =
                        new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian()).unit();
                double[] normal = {q.x(), q.y(), q.z()};
                double leastCosine = n % 3 == 0 ? -2 : 0.5;
                double reachMm = n % 2 == 0 ? 100 : 3;
                int found = search.nearest(p[0], p[1], p[2], q.x(), q.y(), q.z(), leastCosine, reachMm);
                assertEquals(exhaustive(points, p, normal, leastCosine, reachMm), found, "size " + size);
            }
        }
    }

    @Test
    void findsAmongPointsInOnePlace() {
        SurfacePoints same = SurfacePoints.of(
                java.util.Collections.nCopies(40, new PatientPoint(1, 2, 3)),
                java.util.Collections.nCopies(40, PatientVector.LEFT),
                1);
        PointTree.Search search = new PointTree(same).search();
        int found = search.nearest(1, 2, 5, 1, 0, 0, 0.9, 10);
        assertEquals(new PatientPoint(1, 2, 3), same.point(found));
        // By hand: (1, 2, 5) lies 2 mm from (1, 2, 3).
        assertEquals(2, search.distanceMm(), 1e-12);
    }

    @Test
    void findsNothingAmongNothing() {
        SurfacePoints none = SurfacePoints.of(List.of(), List.of(), 1);
        assertEquals(-1, new PointTree(none).search().nearest(0, 0, 0, 1, 0, 0, -2, 1000));
    }
}
