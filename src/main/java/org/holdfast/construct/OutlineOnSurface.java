package org.holdfast.construct;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.holdfast.construct.SurfaceFacets.Facet;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;

/**
 * The part of a surface inside a closed line that was drawn on it. The line and the surface are seen along the line's own
 * normal: what lies inside the line, faces the viewer and hangs together belongs to it. A piece that bends round by more
 * than a right angle cannot be seen as a whole and is drawn as two.
 */
final class OutlineOnSurface {

    private final TriangleMesh mesh;
    private final List<PatientPoint> outline;
    private final PatientPoint middle;
    private final PatientVector normal;
    private final PatientVector u;
    private final PatientVector v;

    OutlineOnSurface(TriangleMesh mesh, List<PatientPoint> outline) {
        this.mesh = mesh;
        this.outline = outline;
        this.middle = middle(outline);
        this.normal = outwards(doubleArea(outline, middle));
        this.u = normal.anyPerpendicular();
        this.v = normal.cross(u);
    }

    private static PatientPoint middle(List<PatientPoint> points) {
        PatientVector sum = new PatientVector(0, 0, 0);
        for (PatientPoint p : points) {
            sum = sum.plus(p.minus(PatientPoint.ORIGIN));
        }
        return PatientPoint.ORIGIN.plus(sum.times(1.0 / points.size()));
    }

    /** Twice the area that a closed line goes round, along the normal of its mean plane. */
    static PatientVector doubleArea(List<PatientPoint> outline, PatientPoint from) {
        PatientVector sum = new PatientVector(0, 0, 0);
        for (int n = 0; n < outline.size(); n++) {
            PatientVector here = outline.get(n).minus(from);
            sum = sum.plus(here.cross(outline.get((n + 1) % outline.size()).minus(from)));
        }
        return sum;
    }

    /** The line's normal on the side to which the surface faces under it. */
    private PatientVector outwards(PatientVector doubleArea) {
        PatientVector n = doubleArea.unit();
        double facing = 0;
        for (PatientPoint p : outline) {
            facing += mesh.normal(mesh.nearest(p).triangle()).dot(n);
        }
        return facing < 0 ? n.times(-1) : n;
    }

    /** The facets inside the line. */
    List<Facet> facets(SurfaceFacets cutting) {
        double reach =
                outline.stream().mapToDouble(p -> p.distanceTo(middle)).max().orElseThrow();
        Map<Integer, List<Facet>> inside = new TreeMap<>();
        for (int n = 0; n < mesh.triangles(); n++) {
            if (mesh.normal(n).dot(normal) > 0 && mayReach(n, reach)) {
                List<Facet> found = cutting.of(n, SurfaceFacets.LONGEST_MM).stream()
                        .filter(facet -> isInside(facet.middle()))
                        .toList();
                if (!found.isEmpty()) {
                    inside.put(n, found);
                }
            }
        }
        List<Facet> largest = List.of();
        double largestArea = 0;
        for (List<Integer> piece : cutting.connected(inside.keySet())) {
            List<Facet> facets = new ArrayList<>();
            piece.stream().sorted().forEach(n -> facets.addAll(inside.get(n)));
            double area = facets.stream().mapToDouble(Facet::areaMm2).sum();
            if (area > largestArea) {
                largestArea = area;
                largest = facets;
            }
        }
        return largest;
    }

    private boolean mayReach(int triangle, double reach) {
        double size = 0;
        double distance = Double.POSITIVE_INFINITY;
        for (int which = 0; which < 3; which++) {
            PatientPoint p = mesh.point(triangle, which);
            distance = Math.min(distance, p.distanceTo(middle));
            size = Math.max(size, p.distanceTo(mesh.point(triangle, (which + 1) % 3)));
        }
        // A cap may stand as high over its outline as the outline is wide.
        return distance <= 2 * reach + size;
    }

    /** Even-odd rule in the line's plane. */
    private boolean isInside(PatientPoint p) {
        double x = p.minus(middle).dot(u);
        double y = p.minus(middle).dot(v);
        boolean inside = false;
        for (int n = 0; n < outline.size(); n++) {
            PatientVector a = outline.get(n).minus(middle);
            PatientVector b = outline.get((n + 1) % outline.size()).minus(middle);
            double ay = a.dot(v);
            double by = b.dot(v);
            if (ay > y != by > y) {
                double ax = a.dot(u);
                inside ^= x < ax + (y - ay) / (by - ay) * (b.dot(u) - ax);
            }
        }
        return inside;
    }
}
