package org.holdfast.construct;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.IntStream;
import org.holdfast.construct.SurfaceFacets.Facet;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;

/**
 * A piece of a mesh, told by its triangles or by a closed line drawn on the surface; normals are the surface's own. Immutable.
 *
 * <p>Map coordinates: the sample's place seen along the piece's mean normal, from its middle; what is steep against that is
 * foreshortened on the map, not in the areas.
 */
public final class SurfacePatch implements Patch {

    private final String mesh;
    private final TriangleMesh surface;
    private final List<Integer> triangles;
    private final List<PatientPoint> outline;
    private final List<Facet> facets;
    private final TriangleMesh piece;
    private final double areaMm2;
    private final PatientPoint middle;
    private final PatientVector meanNormal;

    private SurfacePatch(
            String mesh,
            TriangleMesh surface,
            List<Integer> triangles,
            List<PatientPoint> outline,
            List<Facet> facets,
            String field) {
        if (facets.isEmpty()) {
            throw new InvalidField(field, "a piece of the surface in " + mesh, "none");
        }
        this.mesh = mesh;
        this.surface = surface;
        this.triangles = triangles;
        this.outline = outline;
        this.facets = facets;
        this.piece = pieceOf(facets);
        double area = 0;
        PatientVector normals = new PatientVector(0, 0, 0);
        PatientVector places = new PatientVector(0, 0, 0);
        for (Facet facet : facets) {
            area += facet.areaMm2();
            normals = normals.plus(facet.normal().times(facet.areaMm2()));
            places = places.plus(facet.middle().minus(PatientPoint.ORIGIN).times(facet.areaMm2()));
        }
        this.areaMm2 = area;
        this.meanNormal =
                normals.norm() > 1e-6 * area ? normals.unit() : facets.get(0).normal();
        this.middle = PatientPoint.ORIGIN.plus(places.times(1 / area));
    }

    /**
     * A piece told by its triangles.
     *
     * @param mesh file of the mesh as the construct's component names it
     * @param surface the mesh
     * @param triangles 0-based indices in the order of the file, degenerate ones not counted; at least one, none twice
     */
    public static SurfacePatch ofTriangles(String mesh, TriangleMesh surface, List<Integer> triangles) {
        List<Integer> chosen = Rule.notEmpty("triangles", triangles);
        for (int n = 0; n < chosen.size(); n++) {
            int triangle = chosen.get(n);
            if (triangle < 0 || triangle >= surface.triangles()) {
                throw new InvalidField(
                        "triangles[" + n + "]",
                        "a triangle of " + mesh + ", 0 to " + (surface.triangles() - 1),
                        triangle);
            }
        }
        if (chosen.stream().distinct().count() != chosen.size()) {
            throw new InvalidField("triangles", "each triangle once", "one that is named twice");
        }
        SurfaceFacets cutting = new SurfaceFacets(surface);
        List<Facet> facets = chosen.stream()
                .flatMap(n -> cutting.of(n, SurfaceFacets.LONGEST_MM).stream())
                .toList();
        return new SurfacePatch(mesh, surface, chosen, List.of(), facets, "triangles");
    }

    /**
     * A piece told by a closed line on the surface or near to it: what lies inside it, seen along the line's normal.
     *
     * @param mesh file of the mesh as the construct's component names it
     * @param surface the mesh
     * @param outline at least three points, mm; the last is joined with the first
     */
    public static SurfacePatch ofOutline(String mesh, TriangleMesh surface, List<PatientPoint> outline) {
        if (outline.size() < 3) {
            throw new InvalidField("outline", "at least 3 points", outline.size());
        }
        if (OutlineOnSurface.doubleArea(outline, outline.get(0)).norm() < 1e-9) {
            throw new InvalidField("outline", "a line that goes round an area", "points on one line");
        }
        List<Facet> facets = new OutlineOnSurface(surface, outline).facets(new SurfaceFacets(surface));
        return new SurfacePatch(mesh, surface, List.of(), List.copyOf(outline), facets, "outline");
    }

    private static TriangleMesh pieceOf(List<Facet> facets) {
        double[] xyz = new double[9 * facets.size()];
        int at = 0;
        for (Facet facet : facets) {
            for (PatientPoint p : List.of(facet.a(), facet.b(), facet.c())) {
                xyz[at++] = p.x();
                xyz[at++] = p.y();
                xyz[at++] = p.z();
            }
        }
        return TriangleMesh.of(xyz, IntStream.range(0, 3 * facets.size()).toArray());
    }

    /** File of the mesh as the construct's component names it. */
    public String mesh() {
        return mesh;
    }

    /** Triangles of the piece as they were given; empty if it was told by an outline. */
    public List<Integer> triangles() {
        return triangles;
    }

    /** The closed line round the piece as it was given; empty if it was told by triangles. */
    public List<PatientPoint> outline() {
        return outline;
    }

    /** Area-weighted middle of the piece, mm; on a curved piece beside the surface. */
    public PatientPoint middle() {
        return middle;
    }

    /** Unit mean of the normals, weighted by area. */
    public PatientVector meanNormal() {
        return meanNormal;
    }

    /** Direction of the map's first coordinate; the second is {@code meanNormal × uDirection}. */
    public PatientVector uDirection() {
        return meanNormal.anyPerpendicular();
    }

    @Override
    public double areaMm2() {
        return areaMm2;
    }

    /** Where a point lies in front of the piece. */
    PatchOffset offset(PatientPoint p) {
        PatientPoint foot = surface.nearest(p).point();
        return new PatchOffset(
                surface.signedDistanceMm(p), foot.distanceTo(piece.nearest(foot).point()));
    }

    /** Facets whose middles share a cube of the spacing's width and a side to which they face. */
    private record Cell(long x, long y, long z, int side) {}

    /** Sums of one cell. */
    private static final class Sum {
        private double area;
        private PatientVector place = new PatientVector(0, 0, 0);
        private PatientVector normal = new PatientVector(0, 0, 0);

        void add(Facet facet) {
            double a = facet.areaMm2();
            area += a;
            place = place.plus(facet.middle().minus(PatientPoint.ORIGIN).times(a));
            normal = normal.plus(facet.normal().times(a));
        }
    }

    /** Cells of about the spacing's width, not of equal area; their areas add up to the piece's. */
    @Override
    public List<PatchSample> samples(double spacingMm) {
        EqualAreaRows.requireFewEnough(areaMm2, spacingMm);
        Map<Cell, Sum> cells = new LinkedHashMap<>();
        for (Facet facet : fine(spacingMm)) {
            PatientVector d = facet.middle().minus(middle);
            Cell cell = new Cell(
                    Math.round(d.x() / spacingMm),
                    Math.round(d.y() / spacingMm),
                    Math.round(d.z() / spacingMm),
                    side(facet.normal()));
            cells.computeIfAbsent(cell, c -> new Sum()).add(facet);
        }
        PatientVector u = uDirection();
        PatientVector v = meanNormal.cross(u);
        List<PatchSample> samples = new ArrayList<>(cells.size());
        for (Sum sum : cells.values()) {
            PatientPoint mean = PatientPoint.ORIGIN.plus(sum.place.times(1 / sum.area));
            PatientPoint point = piece.nearest(mean).point();
            PatientVector d = point.minus(middle);
            samples.add(new PatchSample(point, sum.normal.unit(), sum.area, d.dot(u), d.dot(v)));
        }
        return List.copyOf(samples);
    }

    /** Facets of at most half the spacing. */
    private List<Facet> fine(double spacingMm) {
        int pieces = (int) Math.ceil(2 * SurfaceFacets.LONGEST_MM / spacingMm - 1e-9);
        if (pieces <= 1) {
            return facets;
        }
        List<Facet> finer = new ArrayList<>();
        for (Facet facet : facets) {
            TriangleMesh alone = pieceOf(List.of(facet));
            for (Facet part : new SurfaceFacets(alone).of(0, 0.5 * spacingMm)) {
                finer.add(new Facet(facet.triangle(), part.a(), part.b(), part.c(), facet.normal()));
            }
        }
        return finer;
    }

    /** Which of six sides a normal looks to, so that the two faces of a thin plate do not share a cell. */
    private static int side(PatientVector n) {
        double x = Math.abs(n.x());
        double y = Math.abs(n.y());
        double z = Math.abs(n.z());
        if (x >= y && x >= z) {
            return n.x() > 0 ? 0 : 1;
        }
        return y >= z ? n.y() > 0 ? 2 : 3 : n.z() > 0 ? 4 : 5;
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof SurfacePatch o
                && mesh.equals(o.mesh)
                && surface.equals(o.surface)
                && triangles.equals(o.triangles)
                && outline.equals(o.outline);
    }

    @Override
    public int hashCode() {
        return Objects.hash(mesh, triangles, outline);
    }

    @Override
    public String toString() {
        return "piece of " + mesh + " with " + facets.size() + " facets";
    }
}
