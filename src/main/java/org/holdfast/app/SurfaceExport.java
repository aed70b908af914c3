package org.holdfast.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.FileFailure;
import org.holdfast.geometry.MeshWriter;
import org.holdfast.geometry.TriangleMesh;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.StackChoice;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.IsoSurface;

/**
 * Use case: the surface of the metal in a scan as a mesh file, from which a custom body can be laid out.
 *
 * @param file the file that was written
 * @param sha256 hash of its bytes, as a construct's document asks for it
 * @param triangles number of triangles
 * @param volumeMm3 volume that the surface encloses
 */
public record SurfaceExport(Path file, String sha256, int triangles, double volumeMm3) {

    private static final double SCAN_SHARE = 0.1;
    private static final double LOAD_SHARE = 0.5;

    /**
     * Reads a scan and writes its surface.
     *
     * @param exam the exam
     * @param levelHu HU of the surface
     * @param leastMm3 smaller pieces are left out
     * @param out file to write, PLY; one that is there is kept and refused
     * @throws UseCaseException if the scan cannot be read, has no such surface, or the file cannot be written
     * @throws java.util.concurrent.CancellationException if cancelled; nothing is written then
     */
    public static SurfaceExport write(ExamArgument exam, double levelHu, double leastMm3, Path out, Progress progress)
            throws UseCaseException {
        if (Files.exists(out)) {
            throw new UseCaseException(out + ": expected a file that is not there yet, found one");
        }
        IntakeReport report = Intake.scan(java.util.List.of(exam.folder()), progress.part(0, SCAN_SHARE));
        StackChoice choice = StackChoice.of(report, exam.seriesUid());
        if (choice.stack().isEmpty()) {
            throw new UseCaseException(exam.folder() + ": expected a stack of slices, found none: "
                    + String.join(
                            "; ", choice.findings().stream().map(f -> f.text()).toList()));
        }
        try {
            TriangleMesh mesh = IsoSurface.of(
                    VolumeLoader.load(choice.stack().get(), progress.part(SCAN_SHARE, LOAD_SHARE))
                            .volume(),
                    levelHu,
                    leastMm3,
                    progress.part(LOAD_SHARE, 1));
            byte[] ply = MeshWriter.ply(mesh);
            Files.write(out, ply);
            return new SurfaceExport(out, StoredCourse.sha256(ply), mesh.triangles(), mesh.volumeMm3());
        } catch (DicomReadException | IllegalArgumentException e) {
            throw new UseCaseException(exam.folder() + ": " + e.getMessage(), e);
        } catch (IOException e) {
            throw new UseCaseException(out + ": cannot be written: " + FileFailure.words(e), e);
        }
    }
}
