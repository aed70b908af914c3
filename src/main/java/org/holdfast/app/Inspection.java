package org.holdfast.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.holdfast.app.InspectionReport.FileEntry;
import org.holdfast.app.InspectionReport.HuEntry;
import org.holdfast.app.InspectionReport.LossEntry;
import org.holdfast.app.InspectionReport.ScaleEntry;
import org.holdfast.app.InspectionReport.SeriesEntry;
import org.holdfast.app.InspectionReport.StackEntry;
import org.holdfast.app.InspectionReport.UnreadableEntry;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.finding.Finding;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.intake.ImageHeader;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.intake.ScaleReach;
import org.holdfast.intake.Series;
import org.holdfast.intake.Stack;
import org.holdfast.intake.StoredStatistics;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.LossyCompression;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.VolumeGrid;
import org.holdfast.volume.VolumeStatistics;

/** Use case: what do these files and folders hold, and what may be trusted about it. Stateless. */
public final class Inspection {

    /** Share of the progress that reading headers takes; the rest is reading pixels. */
    private static final double HEADER_SHARE = 0.2;

    /** Whether single files are described too. */
    public enum Detail {
        SERIES,
        FILES
    }

    private Inspection() {}

    /**
     * Looks through files and folders. What cannot be read is listed with the reason and stops nothing.
     *
     * @throws java.util.concurrent.CancellationException if the person stopped it
     */
    public static InspectionReport inspect(List<Path> paths, Detail detail, Progress progress) {
        IntakeReport found = Intake.scan(paths, progress.part(0, HEADER_SHARE));
        Progress pixels = progress.part(HEADER_SHARE, 1);
        List<SeriesEntry> entries = new ArrayList<>();
        Map<Stack, ScaleReach> scales = new IdentityHashMap<>();
        List<Integer> patients = found.patientNumbers();
        int done = 0;
        for (Series series : found.series()) {
            int count = found.series().size();
            Progress part = pixels.part((double) done / count, Math.min(1, (done + 1.0) / count));
            entries.add(seriesEntry(series, patients.get(done), detail, scales, part));
            done++;
        }
        return new InspectionReport(
                Caution.TEXT,
                Software.running().toString(),
                InspectionReport.FORMAT_VERSION,
                ExamEntries.of(found.exams(stack -> scales.getOrDefault(stack, ScaleReach.ofHeader(stack)))),
                entries,
                found.unreadable().stream()
                        .map(u -> new UnreadableEntry(u.path(), u.reason()))
                        .toList(),
                found.findings());
    }

    private static SeriesEntry seriesEntry(
            Series series, int patient, Detail detail, Map<Stack, ScaleReach> scales, Progress progress) {
        List<Finding> findings = new ArrayList<>(series.findings());
        List<StackEntry> stacks = new ArrayList<>();
        for (Stack stack : series.stacks()) {
            stacks.add(stackEntry(stack, findings, scales, progress));
        }
        List<FileEntry> files = null;
        if (detail == Detail.FILES) {
            files = new ArrayList<>();
            for (ImageHeader header : series.files()) {
                progress.stopIfCancelled();
                files.add(fileEntry(header));
            }
        }
        Optional<String> date = series.date().date().map(LocalDate::toString);
        Optional<Acquisition> made = series.acquisition();
        return new SeriesEntry(
                series.seriesInstanceUid(),
                series.studyInstanceUid(),
                patient,
                series.modality(),
                series.description(),
                series.kind().name().toLowerCase(Locale.ROOT),
                date.orElse(null),
                date.isPresent() ? null : ExamEntries.NO_DATE,
                date.isPresent() ? series.date().source() : null,
                date.isPresent() ? null : ExamEntries.NO_SOURCE,
                made.map(AcquisitionEntries::of).orElse(null),
                made.isPresent() ? null : "no picture",
                stacks,
                findings,
                files);
    }

    private static StackEntry stackEntry(
            Stack stack, List<Finding> findings, Map<Stack, ScaleReach> scales, Progress progress) {
        VolumeGrid grid = stack.grid();
        Optional<String> whyNoHu = stack.whyNoHu();
        HuEntry hu = null;
        if (whyNoHu.isEmpty()) {
            try {
                VolumeStatistics seen =
                        VolumeLoader.load(stack, progress).volume().statistics();
                scales.put(stack, ScaleReach.ofPixels(stack, seen));
                hu = huEntry(seen, stack, findings);
            } catch (DicomReadException e) {
                findings.add(Finding.error("PIXELS_NOT_READ", e.reason(), nameOf(e.file(), stack)));
                whyNoHu = Optional.of(nameOf(e.file(), stack) + ": " + e.reason());
            }
        }
        PatientPoint first = grid.sliceOrigin(0);
        PatientPoint last = grid.sliceOrigin(grid.slices() - 1);
        return new StackEntry(
                stack.stackNumber(),
                AcquisitionEntries.of(stack.acquisition()),
                grid.rows(),
                grid.columns(),
                grid.slices(),
                List.of(grid.rowSpacingMm(), grid.columnSpacingMm()),
                grid.pitchMm().isPresent() ? grid.pitchMm().getAsDouble() : null,
                grid.pitchMm().isPresent() ? null : "a single slice has no pitch",
                Arrays.stream(grid.positionsMm()).boxed().toList(),
                grid.shearDeg(),
                grid.isIrregular(),
                grid.holesAfter(),
                list(grid.rowDirection()),
                list(grid.columnDirection()),
                list(first),
                list(last),
                first.distanceTo(last),
                hu,
                whyNoHu.orElse(null));
    }

    /** A file out of an archive by the name that a person knows. */
    private static String nameOf(Path file, Stack stack) {
        return stack.slices().stream()
                .filter(slice -> slice.path().equals(file))
                .map(slice -> slice.file().name())
                .findFirst()
                .orElse(file.toString());
    }

    private static HuEntry huEntry(VolumeStatistics s, Stack stack, List<Finding> findings) {
        boolean clipped = s.ceilingHu().isPresent();
        if (clipped) {
            findings.add(Finding.warning(
                    "CEILING",
                    String.format(
                            Locale.ROOT,
                            "the scale is clipped at %.0f HU (%d voxels): metal cannot be told from metal by HU",
                            s.ceilingHu().getAsDouble(),
                            s.voxelsAtMaximum()),
                    stack.where()));
        }
        boolean some = s.validVoxels() > 0;
        return new HuEntry(
                some ? s.minHu() : null,
                some ? s.maxHu() : null,
                some ? s.meanHu() : null,
                some ? null : "no voxel carries tissue",
                s.validVoxels(),
                s.totalVoxels(),
                clipped ? s.ceilingHu().getAsDouble() : null,
                clipped ? null : "the scale is not clipped");
    }

    private static FileEntry fileEntry(ImageHeader header) {
        Optional<PixelLayout> layout = header.pixels().map(p -> p.layout());
        Optional<String> why = StoredStatistics.whyNot(header);
        StoredStatistics stored = null;
        if (why.isEmpty()) {
            try {
                stored = StoredStatistics.of(header);
            } catch (DicomReadException e) {
                why = Optional.of(e.reason());
            } catch (OutOfMemoryError e) {
                why = Optional.of("a frame is too large for the memory");
            }
        }
        return new FileEntry(
                header.name(),
                header.transferSyntax().uid(),
                header.transferSyntax().name(),
                layout.map(PixelLayout::frames).orElse(null),
                layout.map(PixelLayout::bitsStored).orElse(null),
                layout.map(PixelLayout::samples).orElse(null),
                layout.map(PixelLayout::photometric).orElse(null),
                layout.isPresent() ? null : "no pixel data that the header describes",
                stored == null ? null : stored.min(),
                stored == null ? null : stored.max(),
                stored == null ? null : stored.mean(),
                why.orElse(null),
                header.lossy().isPresent(),
                header.lossy().map(Inspection::lossEntry).orElse(null),
                header.lossy().isPresent() ? null : "the file does not say that detail was lost",
                scaleEntry(header.scale()));
    }

    private static LossEntry lossEntry(LossyCompression loss) {
        boolean some = !loss.method().isEmpty();
        boolean ratio = loss.ratio().isPresent();
        boolean bound = loss.largestError().isPresent();
        return new LossEntry(
                some ? loss.method() : null,
                some ? null : AcquisitionEntries.NOT_SAID,
                ratio ? loss.ratio().getAsDouble() : null,
                ratio ? null : AcquisitionEntries.NOT_SAID,
                bound ? loss.largestError().getAsInt() : null,
                bound ? null : "the codec sets no bound, or it is not said",
                loss.words());
    }

    private static ScaleEntry scaleEntry(PixelScale scale) {
        boolean none = scale.kind() == PixelScale.Kind.NONE;
        return new ScaleEntry(
                scale.kind().name().toLowerCase(Locale.ROOT),
                none ? null : scale.rowMm(),
                none ? null : scale.columnMm(),
                none ? "the file gives no usable pixel size" : null);
    }

    private static List<Double> list(PatientVector v) {
        return List.of(v.x(), v.y(), v.z());
    }

    private static List<Double> list(PatientPoint p) {
        return List.of(p.x(), p.y(), p.z());
    }
}
