package org.holdfast.phantom;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.holdfast.construct.Construct;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * The invented demo subject: a vertebral body (L1) replaced by a porous titanium body after a burst fracture, with four
 * pedicle screws and two rods; five CT exams, a visit with radiographs in the full size, the construct and the truth. Every call gives the same data.
 */
public final class DemoSeries {

    /** Code of the invented subject. */
    public static final String SUBJECT_CODE = "DEMO-01";

    /** How large the demo is made. */
    public enum Size {
        /** A trunk section round the construct, 0.45 to 0.49 mm pixels, 0.6 to 0.65 mm pitch. */
        FULL,
        /** Cropped to the construct, 0.65 mm pixels, 0.6 mm pitch: small enough to be kept with the sources. */
        SMALL
    }

    /**
     * One exam of the demo subject.
     *
     * @param label column label
     * @param folder name of its folder, in order of date
     * @param date day of the scan
     * @param posture how the subject lay
     * @param seriesUid identifier of its series of slices; empty if it has none
     */
    public record Exam(String label, String folder, LocalDate date, String posture, String seriesUid) {}

    private final Size size;

    /** @param size how large the exams are made */
    public DemoSeries(Size size) {
        this.size = size;
    }

    /** Day of the operation. */
    public LocalDate surgeryDate() {
        return DemoStage.SURGERY_DAY;
    }

    /** The exams, in order of date. */
    public List<Exam> exams() {
        List<Exam> exams = new ArrayList<>();
        for (DemoStage stage : DemoStage.values()) {
            String folder =
                    String.format(Locale.ROOT, "exam-%d-%s", stage.ordinal() + 1, stage.label.replace(' ', '-'));
            exams.add(new Exam(
                    stage.label, folder, stage.date, "supine", facts(stage).seriesUid()));
        }
        return exams;
    }

    /**
     * The visit at which only radiographs were taken: label, folder, day and posture; it has no series of slices. Empty
     * in the small size, whose volumes are too narrow for a film.
     */
    public Optional<Exam> filmExam() {
        return size == Size.SMALL ? Optional.empty() : Optional.of(films());
    }

    private static Exam films() {
        return new Exam(DemoFilms.LABEL, "films-" + DemoFilms.LABEL.replace(' ', '-'), DemoFilms.DATE, "standing", "");
    }

    /**
     * Takes the radiographs of {@link #filmExam()}, if there is one, and writes them.
     *
     * @throws IOException if a file cannot be written
     */
    public void writeFilms(Path folder, Progress progress) throws IOException {
        DemoFilms.write(folder, progress);
    }

    /** The construct as laid out on the first exam. */
    public Construct construct() {
        SeriesFacts reference = facts(DemoStage.SURGERY);
        return DemoConstruct.of(reference(), reference.seriesUid(), reference.frameOfReferenceUid());
    }

    /** What is true at every exam, read from the scenes. */
    public DemoTruth truth() {
        return new DemoTruth(Arrays.stream(DemoStage.values())
                .map(stage -> DemoTruthReader.read(
                        stage, reference(), DemoScan.of(stage, size).sceneToExam()))
                .toList());
    }

    /** Scans one exam, by its place in {@link #exams()}. */
    public HuVolume scan(int examIndex, Progress progress) {
        DemoStage stage = DemoStage.values()[examIndex];
        DemoScan scan = DemoScan.of(stage, size);
        return ScanSimulator.scan(DemoScene.of(stage).moved(scan.sceneToExam()), scan.settings(), progress);
    }

    /**
     * Scans one exam and writes its series.
     *
     * @throws IOException if a file cannot be written
     */
    public void write(int examIndex, Path folder, Progress progress) throws IOException {
        HuVolume volume = scan(examIndex, progress.part(0, 0.8));
        SeriesWriter.write(folder, volume, facts(DemoStage.values()[examIndex]), progress.part(0.8, 1));
    }

    private RigidTransform reference() {
        return DemoScan.of(DemoStage.SURGERY, size).sceneToExam();
    }

    /** What the headers of an exam say. */
    SeriesFacts facts(DemoStage stage) {
        DemoScan scan = DemoScan.of(stage, size);
        return new SeriesFacts(
                SUBJECT_CODE,
                "simulated CT of the spine, " + stage.label,
                "CT, " + scan.kernel().toLowerCase(Locale.ROOT).replace("sim ", "")
                        + ", without metal artefact reduction",
                stage.date,
                scan.kernel(),
                120,
                scan.settings().pointSpread().sliceThicknessMm(),
                scan.settings().noiseSdHu(),
                scan.settings().scale(),
                "org.holdfast.demo/" + SUBJECT_CODE + "/" + size + "/" + stage.ordinal());
    }
}
