package org.holdfast.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.holdfast.geometry.MeshFile;
import org.holdfast.geometry.TriangleMesh;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExportSurfaceCommandTest {

    private static final String EXAM = "sample-images/demo-subject/exam-1-surgery";

    @TempDir
    Path folder;

    @Test
    void writesTheMetalOfAScanAndRefusesToWriteOverIt() throws Exception {
        Path out = folder.resolve("metal.ply");
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.DONE,
                terminal.run(CapturedTerminal::commands, "export", "surface", EXAM, out.toString(), "--level", "1100"),
                terminal.messages());

        TriangleMesh mesh = MeshFile.read(out);
        assertEquals(0, mesh.openEdges());
        // Phantom: the body alone is 30 × 26 × 42 mm; two rods of 95 mm and 5.5 mm, four shanks of 46 mm and 6 mm and
        // four
        // heads of 14 mm and 12 mm add 16,000 mm³, and solid metal reaches 1100 HU some tenths of a mm outside its
        // surface
        double body = 30 * 26 * 42;
        assertTrue(mesh.volumeMm3() > body + 16_000 && mesh.volumeMm3() < body + 20_000, mesh.volumeMm3() + " mm³");
        assertTrue(terminal.result().contains("\"sha256\""), terminal.result());

        CapturedTerminal again = new CapturedTerminal();
        assertEquals(
                ExitCode.NOT_POSSIBLE,
                again.run(CapturedTerminal::commands, "export", "surface", EXAM, out.toString()));
        assertTrue(again.messages().contains("metal.ply"), again.messages());
    }

    @Test
    void saysThatNothingIsSoBright() {
        CapturedTerminal terminal = new CapturedTerminal();
        assertEquals(
                ExitCode.NOT_POSSIBLE,
                terminal.run(
                        CapturedTerminal::commands,
                        "export",
                        "surface",
                        EXAM,
                        folder.resolve("none.ply").toString(),
                        "--level",
                        "30000"));
        assertTrue(terminal.messages().contains("30000"), terminal.messages());
    }
}
