package org.holdfast.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PoseFileTest {

    private static final String MOVED = "[1, 0, 0, 4, 0, 1, 0, 5, 0, 0, 1, 6, 0, 0, 0, 1]";

    @TempDir
    Path folder;

    private PoseFile read(String json) throws Exception {
        Path file = folder.resolve("poses.json");
        Files.writeString(file, json, StandardCharsets.UTF_8);
        return PoseFile.read(file);
    }

    private static String pose(String exam, String numbers) {
        return "{\"exam\": " + exam + ", \"referenceToExam\": " + numbers + "}";
    }

    private void assertRefused(String json, String... words) {
        UseCaseException refusal = assertThrows(UseCaseException.class, () -> read(json));
        assertTrue(refusal.getMessage().startsWith(folder.resolve("poses.json") + ": "), refusal.getMessage());
        for (String word : words) {
            assertTrue(refusal.getMessage().contains(word), refusal.getMessage());
        }
    }

    @Test
    void findsPosesByLabelThenBySeries() throws Exception {
        PoseFile poses = read("{\"poses\": [" + pose("\"6 mo\"", MOVED) + "," + pose("\"1.2.3\"", MOVED) + "]}");
        // By hand: the last column of the matrix is the translation.
        assertEquals(
                new PatientPoint(4, 5, 6), poses.of("6 mo", "").orElseThrow().apply(PatientPoint.ORIGIN));
        assertTrue(poses.of("other", "1.2.3").isPresent());
        assertEquals(Optional.empty(), poses.of("other", "1.2.4"));
        assertEquals("pose given in poses.json", poses.source());
        assertEquals(Optional.empty(), PoseFile.NONE.of("6 mo", "1.2.3"));
    }

    @Test
    void saysWhereThePosesComeFrom() throws Exception {
        assertEquals(
                "by eye", read("{\"poseSource\": \"by eye\", \"poses\": []}").source());
    }

    @Test
    void readsBackWhatAPersonSetAndWhy() throws Exception {
        RigidTransform moved = RigidTransform.translation(new PatientVector(0, 0, 0.5));
        PoseFile set = PoseFile.ofSubject(folder)
                .with("6 mo", moved, new PoseFile.Remark("reader 1", "2030-01-31", "edges half a voxel off"))
                .with("12 mo", moved, new PoseFile.Remark("", "", ""));
        set.write(folder.resolve(PoseFile.DOCUMENT));
        PoseFile read = PoseFile.ofSubject(folder);
        assertEquals(set, read);
        assertEquals(
                "pose given in poses.json by reader 1 on 2030-01-31: edges half a voxel off",
                read.sourceOf("6 mo", "1.2.3"));
        assertEquals("pose given in poses.json", read.sourceOf("12 mo", "1.2.3"));
        assertEquals(Optional.empty(), read.without("6 mo").of("6 mo", "1.2.3"));
    }

    @Test
    void refusesWhatIsNoPoseDocument() {
        assertRefused("{", "not JSON");
        assertRefused("{\"poses\": []} more", "not JSON");
        assertRefused("{\"poses\": [], \"poses\": []}", "not JSON", "poses");
        assertRefused("", "poses: expected an array, found nothing");
        assertRefused("[]", "poses: expected an array, found nothing");
        assertRefused("{\"poses\": {}}", "poses: expected an array, found {}");
    }

    @Test
    void refusesAPoseWithoutExam() {
        assertRefused(
                "{\"poses\": [{\"referenceToExam\": " + MOVED + "}]}",
                "poses[0].exam: expected a label or SeriesInstanceUID, found nothing");
        assertRefused("{\"poses\": [" + pose("6", MOVED) + "]}", "poses[0].exam", "found 6");
        assertRefused("{\"poses\": [7]}", "poses[0].exam");
        assertRefused(
                "{\"poses\": [" + pose("\"6 mo\"", MOVED) + "," + pose("\"6 mo\"", MOVED) + "]}",
                "poses[1].exam: a second pose of \"6 mo\"");
    }

    @Test
    void refusesWhatIsNoRigidMatrix() {
        assertRefused(
                "{\"poses\": [{\"exam\": \"6 mo\"}]}", "poses[0].referenceToExam: expected 16 numbers", "nothing");
        assertRefused("{\"poses\": [" + pose("\"6 mo\"", "[1, 2]") + "]}", "found 2 entries");
        assertRefused(
                "{\"poses\": [" + pose("\"6 mo\"", MOVED.replace("5", "\"5\"")) + "]}",
                "poses[0].referenceToExam[7]: expected a number, found \"5\"");
        String stretched = MOVED.replaceFirst("1", "2");
        assertRefused("{\"poses\": [" + pose("\"6 mo\"", stretched) + "]}", "poses[0].referenceToExam: ");
        String mirrored = MOVED.replaceFirst("1", "-1");
        assertRefused("{\"poses\": [" + pose("\"6 mo\"", mirrored) + "]}", "poses[0].referenceToExam: ");
        assertRefused("{\"poses\": [" + pose("\"6 mo\"", MOVED.replace("4", "1e999")) + "]}", "referenceToExam");
    }

    @Test
    void refusesAFileThatIsNotThere() {
        UseCaseException refusal =
                assertThrows(UseCaseException.class, () -> PoseFile.read(folder.resolve("none.json")));
        assertTrue(
                refusal.getMessage().contains("none.json: cannot be read: no such file or folder"),
                refusal.getMessage());
    }
}
