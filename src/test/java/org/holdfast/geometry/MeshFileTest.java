package org.holdfast.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.holdfast.cases.SampleMeshes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MeshFileTest {

    private static final TriangleMesh BOX = SampleMeshes.box(3, 2, 1);

    private static List<byte[]> allForms() {
        return List.of(
                SampleMeshes.binaryStl(BOX), SampleMeshes.textStl(BOX), SampleMeshes.textPly(BOX), MeshWriter.ply(BOX));
    }

    @Test
    void readsEveryForm() throws MeshReadException {
        for (byte[] form : allForms()) {
            TriangleMesh read = MeshFile.parse(form, "box");

            // By hand: the box of 6 × 4 × 2 mm
            assertEquals(48, read.volumeMm3(), 1e-9);
            assertEquals(12, read.triangles());
            assertEquals(8, read.vertices());
            assertEquals(0, read.openEdges());
        }
    }

    @Test
    void readsBigEndianAndFacesOfFourCorners() throws MeshReadException {
        byte[] header = ("ply\nformat binary_big_endian 1.0\nelement vertex 4\nproperty double x\nproperty double y\n"
                        + "property double z\nelement face 1\nproperty list uchar ushort vertex_indices\nend_header\n")
                .getBytes(StandardCharsets.US_ASCII);
        ByteBuffer out = ByteBuffer.allocate(header.length + 96 + 9)
                .order(ByteOrder.BIG_ENDIAN)
                .put(header);
        for (double c : new double[] {0, 0, 0, 2, 0, 0, 2, 3, 0, 0, 3, 0}) {
            out.putDouble(c);
        }
        out.put((byte) 4)
                .putShort((short) 0)
                .putShort((short) 1)
                .putShort((short) 2)
                .putShort((short) 3);

        // By hand: a rectangle of 2 × 3 mm
        assertEquals(6, MeshFile.parse(out.array(), "face").areaMm2(), 1e-12);
    }

    @Test
    void readsAFileAndNamesOneThatIsNotThere(@TempDir Path folder) throws Exception {
        Path file = Files.write(folder.resolve("box.stl"), SampleMeshes.binaryStl(BOX));
        assertEquals(12, MeshFile.read(file).triangles());
        Path none = folder.resolve("none.stl");
        assertTrue(assertThrows(MeshReadException.class, () -> MeshFile.read(none))
                .getMessage()
                .contains("none.stl"));
    }

    @Test
    void saysWhereAFileIsWrong() {
        byte[] stl = SampleMeshes.textStl(BOX);
        String text = new String(stl, StandardCharsets.US_ASCII);
        assertMessage(text.replaceFirst("vertex \\S+", "vertex 1,5"), "line 4", "1,5");
        assertMessage(text.replaceFirst("   vertex .*\n", ""), "line 7", "3 vertices a facet");
        assertMessage(text.replace("endsolid sample\n", ""), "endsolid", "end of the file");
        String ply = new String(SampleMeshes.textPly(BOX), StandardCharsets.US_ASCII);
        assertMessage(ply.replace("element vertex 8", "element vertex 80000000"), "line 3", "80000000");
        assertMessage(ply.replace("property float z\r\n", ""), "property z", "none");
        assertMessage(ply.replace("end_header", "ended"), "end_header", "ended");
    }

    private static void assertMessage(String file, String... parts) {
        MeshReadException refused = assertThrows(
                MeshReadException.class, () -> MeshFile.parse(file.getBytes(StandardCharsets.US_ASCII), "body.x"));
        for (String part : parts) {
            assertTrue(refused.getMessage().contains(part), refused.getMessage());
        }
        assertTrue(refused.getMessage().startsWith("body.x: "), refused.getMessage());
    }

    @Test
    void givesAMeshOrAMessageForWhateverIsCutOffOrDamaged() {
        Random random = new Random(13);
        int read = 0;
        int refused = 0;
        for (byte[] form : allForms()) {
            for (int n = 0; n < 2000; n++) {
                byte[] bad = random.nextBoolean() ? Arrays.copyOf(form, random.nextInt(form.length)) : form.clone();
                for (int flips = random.nextInt(4); flips > 0 && bad.length > 0; flips--) {
                    bad[random.nextInt(bad.length)] = (byte) random.nextInt(256);
                }
                try {
                    MeshFile.parse(bad, "damaged");
                    read++;
                } catch (MeshReadException e) {
                    refused++;
                }
            }
        }
        assertTrue(read > 500 && refused > 500, read + " read, " + refused + " refused");
    }
}
