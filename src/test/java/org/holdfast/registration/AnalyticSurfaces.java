package org.holdfast.registration;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Exact points and normals on simple surfaces, drawn by a seed. */
final class AnalyticSurfaces {

    private AnalyticSurfaces() {}

    /** Points on the six faces of a box round a centre, in proportion to the faces' areas. */
    static SurfacePoints box(PatientPoint centre, double halfX, double halfY, double halfZ, int count, long seed) {
        Random random = new Random(seed);
        double[] half = {halfX, halfY, halfZ};
        double[] area = {halfY * halfZ, halfX * halfZ, halfX * halfY};
        List<PatientPoint> points = new ArrayList<>();
        List<PatientVector> normals = new ArrayList<>();
        for (int n = 0; n < count; n++) {
            double draw = random.nextDouble() * (area[0] + area[1] + area[2]);
            int axis = draw < area[0] ? 0 : draw < area[0] + area[1] ? 1 : 2;
            double[] at = new double[3];
            for (int other = 0; other < 3; other++) {
                at[other] = half[other] * (2 * random.nextDouble() - 1);
            }
            int side = random.nextBoolean() ? 1 : -1;
            at[axis] = side * half[axis];
            double[] out = new double[3];
            out[axis] = side;
            points.add(centre.plus(new PatientVector(at[0], at[1], at[2])));
            normals.add(new PatientVector(out[0], out[1], out[2]));
        }
        return SurfacePoints.of(points, normals, 8 * (area[0] + area[1] + area[2]) / count);
    }

    /** Points on the round side of a cylinder along z, without its ends. */
    static SurfacePoints tube(PatientPoint centre, double radiusMm, double halfLengthMm, int count, long seed) {
        Random random = new Random(seed);
        List<PatientPoint> points = new ArrayList<>();
        List<PatientVector> normals = new ArrayList<>();
        for (int n = 0; n < count; n++) {
            double angle = 2 * Math.PI * random.nextDouble();
            PatientVector out = new PatientVector(Math.cos(angle), Math.sin(angle), 0);
            double along = halfLengthMm * (2 * random.nextDouble() - 1);
            points.add(centre.along(out, radiusMm).along(PatientVector.CRANIAL, along));
            normals.add(out);
        }
        return SurfacePoints.of(points, normals, 1);
    }

    /** A box, a smaller one askew beside it and a tube: nothing about it is symmetric. */
    static SurfacePoints construct(int count, long seed) {
        return box(PatientPoint.ORIGIN, 15, 12, 20, count / 2, seed)
                .and(box(new PatientPoint(22, 30, 12), 4, 6, 9, count / 4, seed + 1))
                .and(tube(new PatientPoint(-18, 34, -3), 3, 40, count / 4, seed + 2));
    }
}
