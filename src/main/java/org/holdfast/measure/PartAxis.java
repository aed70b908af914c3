package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.construct.Component;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * The laid-out centre line of a rod or screw, cut into stations of equal distance: a rod's points are joined by a smooth
 * curve that runs through all of them, a screw is straight from head to tip. Each station carries a frame (along, u, v)
 * that turns with the curve but not about it, so that a place across the part is told by the same (u, v) all along.
 * Immutable.
 *
 * @param stations in order along the part
 * @param stepMm distance of neighbours along the curve, mm
 * @param diameterMm the part's diameter, mm
 * @param coreOfRadius share of the radius that is metal clear of the blurred surface and of a screw's thread
 */
record PartAxis(List<Station> stations, double stepMm, double diameterMm, double coreOfRadius) {

    PartAxis {
        stations = List.copyOf(stations);
    }

    /**
     * A place on the laid-out centre line with its frame; along, u, v are unit, at right angles, right-handed.
     *
     * @param atMm distance along the curve from the part's first point
     */
    record Station(double atMm, PatientPoint point, PatientVector along, PatientVector u, PatientVector v) {

        /** The point so far off the centre line in the normal plane. */
        PatientPoint across(double uMm, double vMm) {
            return new PatientPoint(
                    point.x() + uMm * u.x() + vMm * v.x(),
                    point.y() + uMm * u.y() + vMm * v.y(),
                    point.z() + uMm * u.z() + vMm * v.z());
        }

        private Station moved(RigidTransform t) {
            return new Station(atMm, t.apply(point), t.apply(along), t.apply(u), t.apply(v));
        }
    }

    /** The curve between two laid-out points is first drawn with so many pieces. */
    private static final int PIECES = 60;

    private static final double ROD_CORE = 0.6;
    /** A bone screw's core is about 0.7 of its diameter (common practice, no source), and the thread's blur reaches into it. */
    private static final double SCREW_CORE = 0.35;

    /** Whether a component has a centre line. */
    static boolean isKnownFor(Component component) {
        return component.shape() instanceof RodShape || component.shape() instanceof ScrewShape;
    }

    /**
     * The centre line of a rod or screw.
     *
     * @throws IllegalArgumentException if the component is neither
     */
    static PartAxis of(Component component, double stepMm) {
        if (component.shape() instanceof RodShape rod) {
            return of(rod.points(), rod.diameterMm(), ROD_CORE, stepMm);
        }
        if (component.shape() instanceof ScrewShape screw) {
            return of(List.of(screw.head(), screw.tip()), screw.diameterMm(), SCREW_CORE, stepMm);
        }
        throw new IllegalArgumentException("continuity is that of a rod or screw, got a "
                + component.kind().word() + " (" + component.id() + ")");
    }

    private static PartAxis of(List<PatientPoint> points, double diameterMm, double coreOfRadius, double stepMm) {
        List<PatientPoint> drawn = smooth(points);
        double[] at = new double[drawn.size()];
        for (int n = 1; n < at.length; n++) {
            at[n] = at[n - 1] + drawn.get(n).distanceTo(drawn.get(n - 1));
        }
        // A part shorter than a step still has both its ends.
        double step = Math.min(stepMm, at[at.length - 1]);
        int count = (int) Math.floor(at[at.length - 1] / step + 1e-9) + 1;
        List<PatientPoint> even = new ArrayList<>();
        int piece = 0;
        for (int n = 0; n < count; n++) {
            double wanted = n * step;
            while (piece < at.length - 2 && at[piece + 1] < wanted) {
                piece++;
            }
            double share = (wanted - at[piece]) / (at[piece + 1] - at[piece]);
            even.add(drawn.get(piece).towards(drawn.get(piece + 1), share));
        }
        return new PartAxis(framed(even, step), step, diameterMm, coreOfRadius);
    }

    /** A frame that is carried along: u is what is left of the last u at right angles to the new direction. */
    private static List<Station> framed(List<PatientPoint> points, double stepMm) {
        List<Station> stations = new ArrayList<>();
        PatientVector u = null;
        for (int n = 0; n < points.size(); n++) {
            PatientPoint before = points.get(Math.max(0, n - 1));
            PatientPoint after = points.get(Math.min(points.size() - 1, n + 1));
            PatientVector along = after.minus(before).unit();
            PatientVector last = u == null ? along.anyPerpendicular() : u;
            u = last.minus(along.times(last.dot(along))).unit();
            stations.add(new Station(n * stepMm, points.get(n), along, u, along.cross(u)));
        }
        return stations;
    }

    /**
     * A curve through all points, piece by piece a cubic whose direction at a point is that of the parabola through it and
     * its two neighbours in chord length (so that unevenly set points make no loops); straight for two points.
     */
    private static List<PatientPoint> smooth(List<PatientPoint> points) {
        if (points.size() == 2) {
            return points;
        }
        List<PatientPoint> drawn = new ArrayList<>();
        drawn.add(points.get(0));
        for (int n = 0; n + 1 < points.size(); n++) {
            PatientPoint a = points.get(n);
            PatientPoint b = points.get(n + 1);
            double length = a.distanceTo(b);
            PatientVector leaving = slope(points, n).times(length);
            PatientVector arriving = slope(points, n + 1).times(length);
            for (int m = 1; m <= PIECES; m++) {
                double t = (double) m / PIECES;
                double s = 1 - t;
                PatientVector bulge = leaving.times(t * s * s).minus(arriving.times(t * t * s));
                drawn.add(a.towards(b, t * t * (3 - 2 * t)).plus(bulge));
            }
        }
        return drawn;
    }

    /** Derivative of the curve by chord length at a point. */
    private static PatientVector slope(List<PatientPoint> points, int n) {
        int last = points.size() - 1;
        if (n == 0) {
            return chord(points, 0).times(2).minus(slope(points, 1));
        }
        if (n == last) {
            return chord(points, last - 1).times(2).minus(slope(points, last - 1));
        }
        double before = points.get(n).distanceTo(points.get(n - 1));
        double after = points.get(n + 1).distanceTo(points.get(n));
        return chord(points, n - 1)
                .times(after / (before + after))
                .plus(chord(points, n).times(before / (before + after)));
    }

    private static PatientVector chord(List<PatientPoint> points, int n) {
        return points.get(n + 1).minus(points.get(n)).unit();
    }

    /** The same line in another place. */
    PartAxis moved(RigidTransform transform) {
        return new PartAxis(stations.stream().map(s -> s.moved(transform)).toList(), stepMm, diameterMm, coreOfRadius);
    }

    double radiusMm() {
        return 0.5 * diameterMm;
    }

    int size() {
        return stations.size();
    }

    Station station(int n) {
        return stations.get(n);
    }

    /** As many stations as cover a length. */
    int stationsIn(double lengthMm) {
        return (int) Math.round(lengthMm / stepMm);
    }
}
