package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.cases.SampleMeshes;
import org.holdfast.geometry.MeshWriter;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.TriangleMesh;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SurfacePatchTest {

    private static final TriangleMesh BOX = SampleMeshes.box(6, 4, 2);
    private static final double RADIUS_MM = 14;
    private static final TriangleMesh SPHERE = SampleMeshes.sphere(PatientPoint.ORIGIN, RADIUS_MM, 5);

    /** A circle of latitude so many degrees from the pole +z. */
    private static List<PatientPoint> latitude(double radiusMm, double halfAngleDeg) {
        List<PatientPoint> line = new ArrayList<>();
        double angle = Math.toRadians(halfAngleDeg);
        for (int n = 0; n < 180; n++) {
            double azimuth = Math.toRadians(2 * n);
            line.add(new PatientPoint(
                    radiusMm * Math.sin(angle) * Math.cos(azimuth),
                    radiusMm * Math.sin(angle) * Math.sin(azimuth),
                    radiusMm * Math.cos(angle)));
        }
        return line;
    }

    private static double area(List<PatchSample> samples) {
        return samples.stream().mapToDouble(PatchSample::areaMm2).sum();
    }

    @Test
    void coversATopOfABoxByItsTriangles() {
        SurfacePatch top = SurfacePatch.ofTriangles("box.ply", BOX, List.of(2, 3));

        // By hand: 12 × 8 mm, facing +z
        assertEquals(96, top.areaMm2(), 1e-9);
        for (double spacing : new double[] {0.1, 0.5, 1.7}) {
            List<PatchSample> samples = top.samples(spacing);
            assertEquals(96, area(samples), 1e-9);
            for (PatchSample sample : samples) {
                // By hand: at the sharp rim of the box normals are not smoothed
                assertEquals(1, sample.normal().z(), 1e-12);
                assertEquals(2, sample.point().z(), 1e-9);
            }
        }
        // By hand: 96 / 0.25 cells, more where the lattice does not fit
        assertEquals(384, top.samples(0.5).size(), 45);
        assertEquals(PatientPoint.ORIGIN.z() + 2, top.middle().z(), 1e-9);
    }

    @Test
    void cutsACapByItsOutline() {
        SurfacePatch cap = SurfacePatch.ofOutline("sphere.ply", SPHERE, latitude(RADIUS_MM, 50));
        SpherePatch exact = new SpherePatch(PatientPoint.ORIGIN, RADIUS_MM, PatientVector.CRANIAL, 50);

        // Phantom: 2π R² (1 − cos 50°); facets of 0.25 mm along the rim are in or out as a whole, the mesh lies under
        // the sphere
        assertEquals(exact.areaMm2(), cap.areaMm2(), 0.005 * exact.areaMm2());
        double worst = 0;
        for (PatchSample sample : cap.samples(0.5)) {
            PatientVector out = sample.point().minus(PatientPoint.ORIGIN);
            worst = Math.max(worst, sample.normal().angleDegTo(out));
            // Phantom: an edge of 0.9 mm on a radius of 14 mm lies under the sphere by up to 0.9²/(8·14) = 0.007 mm
            assertEquals(RADIUS_MM, out.norm(), 0.02);
            assertTrue(out.angleDegTo(PatientVector.CRANIAL) < 52, () -> "outside the rim: " + out);
        }
        // Phantom: interpolated vertex normals of a sphere differ from its own by far less than the facets' 2°
        assertTrue(worst < 0.7, "worst normal " + worst + "°");
    }

    @Test
    void keepsThePieceUnderTheLineOnly() {
        // By hand: seen along z the line also covers the sphere's far side, which faces away
        SurfacePatch cap = SurfacePatch.ofOutline("sphere.ply", SPHERE, latitude(RADIUS_MM, 20));

        assertTrue(cap.samples(0.5).stream().allMatch(s -> s.point().z() > 0));
        assertEquals(1, cap.meanNormal().z(), 1e-3);
    }

    @Test
    void tellsWhereAPointLies() {
        SurfacePatch top = SurfacePatch.ofTriangles("box.ply", BOX, List.of(2, 3));

        // By hand: 3 mm over the face, inside it
        PatchOffset over = PatchOffset.of(top, new PatientPoint(1, 1, 5));
        assertEquals(3, over.heightMm(), 1e-9);
        assertEquals(0, over.outsideMm(), 1e-9);
        // By hand: 1 mm beside the box at half its height, 2 mm down its side from the rim
        PatchOffset beside = PatchOffset.of(top, new PatientPoint(7, 0, 0));
        assertEquals(1, beside.heightMm(), 1e-9);
        assertEquals(2, beside.outsideMm(), 1e-9);
    }

    @Test
    void isReadFromADocumentAndWrittenBack(@TempDir Path folder) throws Exception {
        byte[] ply = MeshWriter.ply(SPHERE);
        String sha256 = SampleConstruct.sha256(ply);
        Files.createDirectories(folder.resolve("meshes"));
        Files.write(folder.resolve("meshes/sacral-body.stl"), ply);
        Path document = Files.writeString(folder.resolve("construct.json"), SampleConstruct.withSurfaces(ply));

        Construct read = ConstructJson.read(document);

        SurfacePatch outlined =
                (SurfacePatch) read.interfaces().get(2).patches().get(0);
        assertEquals(4, outlined.outline().size());
        MeshShape shape = (MeshShape) read.component("sacral-part").shape();
        assertEquals(Optional.of(SPHERE), shape.mesh());
        // Phantom: the middle of the sphere lies its radius deep
        assertEquals(-RADIUS_MM, shape.signedDistanceMm(PatientPoint.ORIGIN), 0.02);
        String written = ConstructJson.write(read);
        assertEquals(read, ConstructJson.parse(written, "written", folder));
        assertEquals(
                read.geometrySha256(),
                ConstructJson.parse(written, "written", folder).geometrySha256());

        ConstructReadException alone =
                assertThrows(ConstructReadException.class, () -> ConstructJson.parse(written, "alone"));
        assertTrue(alone.getMessage().contains("interfaces[2].patches[0].mesh"), alone.getMessage());
        Files.write(folder.resolve("meshes/sacral-body.stl"), MeshWriter.ply(BOX));
        ConstructReadException changed = assertThrows(ConstructReadException.class, () -> ConstructJson.read(document));
        assertTrue(changed.getMessage().contains("mesh.sha256: expected " + sha256), changed.getMessage());
        Files.delete(folder.resolve("meshes/sacral-body.stl"));
        ConstructReadException missing = assertThrows(ConstructReadException.class, () -> ConstructJson.read(document));
        assertTrue(missing.getMessage().contains("mesh.file"), missing.getMessage());
    }

    @Test
    void refusesWhatIsNoPiece() {
        assertField("triangles[1]", () -> SurfacePatch.ofTriangles("box.ply", BOX, List.of(2, 12)));
        assertField("triangles", () -> SurfacePatch.ofTriangles("box.ply", BOX, List.of(2, 2)));
        assertField(
                "outline",
                () -> SurfacePatch.ofOutline("box.ply", BOX, latitude(1, 20).subList(0, 2)));
        // By hand: far away no part of the box lies inside the line
        List<PatientPoint> far = latitude(1, 50).stream()
                .map(p -> p.plus(new PatientVector(100, 0, 0)))
                .toList();
        assertField("outline", () -> SurfacePatch.ofOutline("box.ply", BOX, far));
    }

    private static void assertField(String field, org.junit.jupiter.api.function.Executable making) {
        assertEquals(field, assertThrows(InvalidField.class, making).field());
    }

    @Test
    void refusesAnOpenBody() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 0, 1, 0};
        TriangleMesh open = TriangleMesh.of(xyz, new int[] {0, 1, 2});

        InvalidField refused =
                assertThrows(InvalidField.class, () -> new MeshShape("body.stl", "0".repeat(64), Optional.of(open)));
        // By hand: a single triangle has three open edges
        assertTrue(refused.getMessage().contains("3 edges"), refused.getMessage());
    }

    @Test
    void turnsABodyOutwards() {
        MeshShape shape = new MeshShape("body.stl", "0".repeat(64), Optional.of(BOX.turnedOver()));

        // By hand: 1 mm under the top
        assertEquals(-1, shape.signedDistanceMm(new PatientPoint(0, 0, 1)), 1e-9);
    }
}
