package org.holdfast.phantom;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.VolumeGrid;

/**
 * The demo subject's visit between two CT scans, at which only radiographs were taken, standing: what is broken at twelve
 * months is broken here.
 */
final class DemoFilms {

    static final String LABEL = "18 mo";
    static final LocalDate DATE = LocalDate.of(2025, 9, 10);

    private static final DemoStage SCENE = DemoStage.MONTH_12;
    private static final PatientPoint MIDDLE = new PatientPoint(0, 17, 0);
    /** A pixel in the middle plane is about as large as a voxel. */
    private static final double VOXEL_MM = 0.65;

    private static final double SIDE_MM = 180;
    private static final double HEIGHT_MM = 134;
    private static final double FILM_WIDTH_MM = 200;
    private static final double FILM_HEIGHT_MM = 150;

    private DemoFilms() {}

    /**
     * Takes a view from the front and one from the side and writes each as a series.
     *
     * @throws IOException if a file cannot be written
     */
    static void write(Path folder, Progress progress) throws IOException {
        HuVolume volume = volume(progress.part(0, 0.5));
        FilmSettings settings = new FilmSettings(1150, 1000, 0.3, 4e5, 7101);
        FilmFacts facts = new FilmFacts(
                DemoSeries.SUBJECT_CODE,
                "simulated X-ray of the spine, " + LABEL,
                DATE,
                "org.holdfast.demo/" + DemoSeries.SUBJECT_CODE + "/films");
        FilmView[] views = FilmView.values();
        for (int n = 0; n < views.length; n++) {
            Progress part = progress.part(0.5 + 0.5 * n / views.length, 0.5 + 0.5 * (n + 1) / views.length);
            Film film = FilmSimulator.take(volume, MIDDLE, views[n], FILM_WIDTH_MM, FILM_HEIGHT_MM, settings, part);
            String name = "film-" + views[n].words.toLowerCase(Locale.ROOT) + ".dcm";
            FilmWriter.write(folder.resolve(name), film, views[n], settings, facts, n + 1);
        }
    }

    /** A block of the scene round the middle, unblurred but for its voxels. */
    private static HuVolume volume(Progress progress) {
        int pixels = (int) Math.round(SIDE_MM / VOXEL_MM);
        int slices = (int) Math.round(HEIGHT_MM / VOXEL_MM);
        double half = 0.5 * (pixels - 1) * VOXEL_MM;
        PatientPoint corner = MIDDLE.along(PatientVector.LEFT, -half).along(PatientVector.POSTERIOR, -half);
        List<PatientPoint> origins = new ArrayList<>();
        for (int k = 0; k < slices; k++) {
            origins.add(corner.along(PatientVector.CRANIAL, (k - 0.5 * (slices - 1)) * VOXEL_MM));
        }
        VolumeGrid grid = new VolumeGrid(
                pixels, pixels, VOXEL_MM, VOXEL_MM, PatientVector.LEFT, PatientVector.POSTERIOR, origins);
        ScanSettings settings = new ScanSettings(grid, new PointSpread(0.2, 0.2), 0, 1, HuScale.EXTENDED_30710);
        return ScanSimulator.scan(DemoScene.of(SCENE), settings, progress);
    }
}
