package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.holdfast.cases.SampleMeshes;
import org.junit.jupiter.api.Test;

class TriangleMeshTest {

    /** Double arithmetic on numbers up to some thousand. */
    private static final double ROUNDING = 1e-9;

    @Test
    void addsUpAreaAndVolumeOfABox() {
        TriangleMesh box = SampleMeshes.box(3, 2, 1);

        // By hand: 2 · (6 · 4 + 6 · 2 + 4 · 2) = 88; 6 · 4 · 2 = 48
        assertEquals(88, box.areaMm2(), ROUNDING);
        assertEquals(48, box.volumeMm3(), ROUNDING);
        assertEquals(-48, box.turnedOver().volumeMm3(), ROUNDING);
        assertEquals(0, box.openEdges());
        assertEquals(8, box.vertices());
    }

    @Test
    void measuresDistanceFromABoxAsItsClosedForm() {
        TriangleMesh box = SampleMeshes.box(3, 2, 1);
        Random random = new Random(11);
        for (int n = 0; n < 2000; n++) {
            PatientPoint p = new PatientPoint(
                    8 * random.nextDouble() - 4, 8 * random.nextDouble() - 4, 6 * random.nextDouble() - 3);
            double x = Math.abs(p.x()) - 3;
            double y = Math.abs(p.y()) - 2;
            double z = Math.abs(p.z()) - 1;
            double outside = new PatientVector(Math.max(x, 0), Math.max(y, 0), Math.max(z, 0)).norm();

            // Phantom: outside the norm of what lies beyond each face, inside the distance of the nearest face
            assertEquals(
                    outside > 0 ? outside : Math.max(x, Math.max(y, z)),
                    box.signedDistanceMm(p),
                    ROUNDING,
                    p.toString());
        }
    }

    @Test
    void measuresDistanceFromASphereWithinItsFacets() {
        PatientPoint centre = new PatientPoint(10, -20, 30);
        TriangleMesh sphere = SampleMeshes.sphere(centre, 15, 6);
        // Phantom: a facet of a sphere of radius R with edge e lies under it by at most e²/(2R) or so
        double edge = 15 * Math.PI / 2 / 64 * 1.6;
        double sagitta = edge * edge / (2 * 15);
        Random random = new Random(12);
        for (int n = 0; n < 500; n++) {
            PatientVector way =
                    new PatientVector(random.nextGaussian(), random.nextGaussian(), random.nextGaussian()).unit();
            double at = 25 * random.nextDouble();
            assertEquals(at - 15, sphere.signedDistanceMm(centre.along(way, at)), sagitta);
        }
        // Phantom: 4/3 π R³ less what the facets cut off, under twice the sagitta over the whole surface
        assertEquals(4.0 / 3 * Math.PI * 15 * 15 * 15, sphere.volumeMm3(), 2 * sagitta * 4 * Math.PI * 225);
        assertEquals(0, sphere.openEdges());
    }

    @Test
    void keepsDistancesWhenItIsMoved() {
        TriangleMesh box = SampleMeshes.box(3, 2, 1);
        RigidTransform move = RigidTransform.rotation(new PatientVector(1, 2, 3), 40, new PatientPoint(5, 5, 5))
                .then(RigidTransform.translation(new PatientVector(-7, 8, 9)));
        PatientPoint p = new PatientPoint(1, 1, 0.5);

        // By hand: 0.5 mm under the face z = 1
        assertEquals(-0.5, box.signedDistanceMm(p), ROUNDING);
        assertEquals(-0.5, box.moved(move).signedDistanceMm(move.apply(p)), ROUNDING);
    }

    @Test
    void countsOpenEdges() {
        TriangleMesh whole = SampleMeshes.box(3, 2, 1);
        int[] corners = new int[33];
        double[] xyz = new double[24];
        for (int v = 0; v < 8; v++) {
            xyz[3 * v] = whole.vertex(v).x();
            xyz[3 * v + 1] = whole.vertex(v).y();
            xyz[3 * v + 2] = whole.vertex(v).z();
        }
        for (int n = 0; n < 33; n++) {
            corners[n] = whole.corner(n / 3, n % 3);
        }
        // By hand: without one of its triangles three edges are open
        assertEquals(3, TriangleMesh.of(xyz, corners).openEdges());
    }

    @Test
    void weldsVerticesAndDropsTrianglesWithoutArea() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 0, 1, 0, -0.0, 0, 0, 2, 0, 0, 3, 0, 0};
        TriangleMesh mesh = TriangleMesh.of(xyz, new int[] {0, 1, 2, 3, 1, 2, 0, 4, 5, 1, 1, 2});

        assertEquals(2, mesh.triangles());
        assertEquals(mesh.corner(0, 0), mesh.corner(1, 0));
    }

    @Test
    void refusesWhatIsNoMesh() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 0, 1, 0};
        assertTrue(assertThrows(IllegalArgumentException.class, () -> TriangleMesh.of(xyz, new int[] {0, 1, 3}))
                .getMessage()
                .contains("vertex 3"));
        assertThrows(IllegalArgumentException.class, () -> TriangleMesh.of(xyz, new int[] {0, 1, 1}));
        double[] broken = xyz.clone();
        broken[4] = Double.NaN;
        assertThrows(IllegalArgumentException.class, () -> TriangleMesh.of(broken, new int[] {0, 1, 2}));
    }
}
