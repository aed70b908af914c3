package org.holdfast.construct;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.holdfast.cases.SampleMeshes;
import org.holdfast.geometry.MeshWriter;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ConstructJsonTest {

    @Test
    void readsEveryField() {
        Construct c = SampleConstruct.construct();

        assertEquals("invented-subject", c.id());
        assertEquals(3, c.version());
        assertEquals(LocalDate.of(2031, 2, 3), c.operationDate());
        assertEquals(new PatientPoint(1.5, -20, 310.25), c.axes().origin());
        assertEquals(new PatientVector(0, -0.6, 0.8), c.axes().cranial());
        assertEquals("T12", c.bone("t12").label());

        Component body = c.component("body");
        assertEquals(ComponentKind.VERTEBRAL_BODY, body.kind());
        assertEquals(Material.TITANIUM_POROUS, body.material());
        assertEquals(Optional.of(new Porous(0.7, 2.5)), body.porous());
        assertEquals(new CylinderShape(new PatientPoint(0, 0, 300), new PatientPoint(0, 0, 330), 13), body.shape());

        Component screw = c.component("screw-t12-left");
        assertEquals(Optional.of(LocalDate.of(2032, 2, 10)), screw.removedOn());
        assertEquals(
                new ScrewShape(new PatientPoint(25, 40, 345), new PatientPoint(10, 0, 345), 6.5, "t12", 5, 40),
                screw.shape());
        assertEquals(3, ((RodShape) c.component("rod-left").shape()).points().size());
        assertEquals(13.0, ((BoxShape) c.component("cage").shape()).halfMm().get(1));
        assertEquals(
                "meshes/sacral-body.stl",
                ((MeshShape) c.component("sacral-part").shape()).file());
        assertEquals(new Join("rod-left", "body", JoinKind.FIXES), c.joins().get(1));

        BoneInterface caudal = c.interfaceById("body-caudal");
        assertEquals(Filler.AUTOGRAFT, caudal.filler());
        assertEquals(2, caudal.patches().size());
        PlanePatch plane = (PlanePatch) caudal.patches().get(0);
        assertEquals(PlanePatch.Outline.RECTANGLE, plane.outline());
        assertEquals(new PatientVector(0, 0, -1), plane.normal());
        assertEquals(40, ((SpherePatch) caudal.patches().get(1)).halfAngleDeg());
    }

    @Test
    void readsBackWhatItWrote() throws ConstructReadException {
        Construct c = SampleConstruct.construct();
        String written = ConstructJson.write(c);

        Construct again = ConstructJson.parse(written, "written");

        assertEquals(c, again);
        assertEquals(written, ConstructJson.write(again));
    }

    @Test
    void writesNumbersAsTheShortestDecimal() {
        Construct c = SampleConstruct.construct();
        Component cage = c.component("cage");
        BoxShape box = (BoxShape) cage.shape();
        Construct moved = withComponent(
                c,
                3,
                new Component(
                        cage.id(),
                        cage.number(),
                        cage.label(),
                        cage.kind(),
                        cage.material(),
                        cage.implantedOn(),
                        cage.removedOn(),
                        cage.porous(),
                        new BoxShape(new PatientPoint(0.1, 2e23, 0.001), box.axes(), box.halfMm())));

        String written = ConstructJson.write(moved);

        // By hand: the shortest decimals that read back as themselves; Double.toString of Java 17 writes the second as
        // 1.9999999999999998E23.
        assertTrue(written.contains("\"centreMm\" : [ 0.1, 2.0E23, 0.001 ]"), written);
    }

    @Test
    void endsLinesByLineFeedOnEverySystem() {
        String written = ConstructJson.write(SampleConstruct.construct());

        assertFalse(written.contains("\r"));
        assertTrue(written.endsWith("}\n"));
    }

    @Test
    void hashLeavesLabelsOut() throws ConstructReadException {
        String other = SampleConstruct.json().replace("\"label\": \"Rod left\"", "\"label\": \"Left main rod\"");
        Construct renamed = ConstructJson.parse(other, "renamed");

        assertNotEquals(SampleConstruct.construct(), renamed);
        assertEquals(SampleConstruct.construct().geometrySha256(), renamed.geometrySha256());
    }

    @Test
    void hashTakesEveryNumberIn() throws ConstructReadException {
        String reference = SampleConstruct.construct().geometrySha256();
        assertEquals(64, reference.length());
        String json = SampleConstruct.json();
        for (String[] change : new String[][] {
            {"\"halfVMm\": 11", "\"halfVMm\": 11.000000000000002"},
            {"\"porosity\": 0.7", "\"porosity\": 0.7000000000000001"},
            {"\"filler\": \"none\"", "\"filler\": \"ceramic\""},
            {"\"version\": 3", "\"version\": 4"},
            {"[25, 44, 315]", "[25, 44.5, 315]"}
        }) {
            assertTrue(json.contains(change[0]), change[0]);
            Construct changed = ConstructJson.parse(json.replace(change[0], change[1]), "changed");
            assertNotEquals(reference, changed.geometrySha256(), change[1]);
        }
    }

    @Test
    void hashIsTheSameForEverySpellingOfANumber() throws ConstructReadException {
        String json = SampleConstruct.json()
                .replace("\"halfVMm\": 11", "\"halfVMm\": 1.1e1")
                .replace("\"centreMm\": [0, 0, 330]", "\"centreMm\": [-0.0, 0.00, 330.0]");

        assertEquals(
                SampleConstruct.construct().geometrySha256(),
                ConstructJson.parse(json, "spelled").geometrySha256());
    }

    @Test
    void hashIsSha256OfSortedJsonWithoutWhiteSpace() throws ConstructReadException {
        String json =
                """
                {"format":"holdfast-construct","formatVersion":1,"id":"c","version":1,"operationDate":"2031-02-03",
                 "referenceSeriesUid":"1.2","frameOfReferenceUid":"1.3",
                 "axes":{"originMm":[0,0,0],"left":[1,0,0],"posterior":[0,1,0],"cranial":[0,0,1]},
                 "bones":[{"id":"b","label":"B"}],
                 "components":[{"id":"r","number":1,"label":"R","kind":"main-rod","material":"steel",
                   "implantedOn":"2031-02-03","rod":{"pointsMm":[[0,0,0],[0,0,10.5]],"diameterMm":5.5}}],
                 "joins":[],"interfaces":[]}
                """;
        // Computed: GNU coreutils 9.1, printf '%s' followed by the text below on one line | sha256sum
        // {"axes":{"cranial":[0.0,0.0,1.0],"left":[1.0,0.0,0.0],"originMm":[0.0,0.0,0.0],"posterior":[0.0,1.0,0.0]},
        // "bones":[{"id":"b"}],"components":[{"id":"r","implantedOn":"2031-02-03","kind":"main-rod","material":"steel",
        // "number":1,"rod":{"diameterMm":5.5,"pointsMm":[[0.0,0.0,0.0],[0.0,0.0,10.5]]}}],"format":"holdfast-construct",
        // "formatVersion":1,"frameOfReferenceUid":"1.3","id":"c","interfaces":[],"joins":[],
        // "operationDate":"2031-02-03","referenceSeriesUid":"1.2","version":1}
        assertEquals(
                "c8bd6139ec2c4e69aa090758d7290f03ba48d4116d6a936c2bfc1847b7ea5cd0",
                ConstructJson.parse(json, "small").geometrySha256());
    }

    @Test
    void readsAFile(@TempDir Path folder) throws IOException, ConstructReadException {
        Path file = folder.resolve("construct.json");
        byte[] mesh = MeshWriter.ply(SampleMeshes.box(3, 2, 1));
        Files.createDirectory(folder.resolve("meshes"));
        Files.write(folder.resolve("meshes/sacral-body.stl"), mesh);
        String json = SampleConstruct.withMesh(mesh);
        Files.writeString(file, json);

        assertEquals(ConstructJson.parse(json, "text", folder), ConstructJson.read(file));
        // By hand: of a box of 6 × 4 × 2 mm the middle lies 1 mm deep
        assertEquals(
                -1,
                ConstructJson.read(file).component("sacral-part").shape().signedDistanceMm(PatientPoint.ORIGIN),
                1e-12);
    }

    @Test
    void namesAFileThatIsMissing(@TempDir Path folder) {
        Path file = folder.resolve("absent.json");

        ConstructReadException e = assertThrows(ConstructReadException.class, () -> ConstructJson.read(file));

        assertTrue(e.getMessage().startsWith(file + ": expected a readable file"), e.getMessage());
    }

    @Test
    void refusesBytesThatAreNotUtf8(@TempDir Path folder) throws IOException {
        Path file = folder.resolve("latin.json");
        Files.write(file, SampleConstruct.json().replace("Rod left", "Stäbchen").getBytes(StandardCharsets.ISO_8859_1));

        ConstructReadException e = assertThrows(ConstructReadException.class, () -> ConstructJson.read(file));

        assertEquals(file + ": expected text in UTF-8, got other bytes", e.getMessage());
    }

    private static Construct withComponent(Construct c, int index, Component component) {
        java.util.List<Component> components = new java.util.ArrayList<>(c.components());
        components.set(index, component);
        return new Construct(
                c.id(),
                c.version(),
                c.operationDate(),
                c.referenceSeriesUid(),
                c.frameOfReferenceUid(),
                c.axes(),
                c.bones(),
                components,
                c.joins(),
                c.interfaces());
    }
}
