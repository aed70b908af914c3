package org.holdfast.bench;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.concurrent.CancellationException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.holdfast.intake.Intake;
import org.holdfast.intake.IntakeReport;
import org.holdfast.progress.Progress;

/**
 * Reading the headers of many small CT files, with series, stacks and exams made of them, against pydicom's reading of the
 * same headers alone, on files that lie in the system's cache. Medians of several runs; prints rates, their ratio, how
 * often progress was told and how soon a cancel took effect. Argument: number of files (default 10000).
 */
public final class ScanBenchmark {

    private static final int FILES_PER_SERIES = 400;
    private static final int SIDE = 32;
    private static final int RUNS = 5;
    private static final double GOAL = 5;

    private ScanBenchmark() {}

    /** Runs the comparison; exit code 1 if the goal is missed. */
    public static void main(String[] arguments) throws Exception {
        int files = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 10_000;
        Path folder = Files.createTempDirectory("holdfast-scan");
        try {
            long bytes = write(folder, files);
            say("%d CT files of %.1f kB", files, bytes / 1e3 / files);
            System.exit(compare(folder, files) ? 0 : 1);
        } finally {
            LoadBenchmark.delete(folder);
        }
    }

    private static boolean compare(Path folder, int files) throws Exception {
        double[] seconds = new double[RUNS];
        AtomicInteger told = new AtomicInteger();
        for (int run = -2; run < RUNS; run++) {
            told.set(0);
            long start = System.nanoTime();
            IntakeReport report = Intake.scan(List.of(folder), counting(told));
            double taken = secondsSince(start);
            require(report.series().stream().mapToInt(s -> s.files().size()).sum() == files);
            if (run >= 0) {
                seconds[run] = taken;
            }
        }
        double own = median(seconds);
        say("headers, series and stacks     %.3f s, %.0f files a second", own, files / own);
        say("progress told                  %d times", told.get());
        say("cancelled half way             stopped after %.1f ms", 1e3 * cancelledAfter(folder, files));
        OptionalDouble pydicom = pydicomSeconds(folder);
        if (pydicom.isEmpty()) {
            say("pydicom                        not there: not compared");
            return true;
        }
        double ratio = pydicom.getAsDouble() / own;
        say(
                "pydicom, headers alone         %.3f s, %.0f files a second",
                pydicom.getAsDouble(), files / pydicom.getAsDouble());
        say("rate / pydicom's               %.1f (goal ≥ %.0f)", ratio, GOAL);
        return ratio >= GOAL;
    }

    private static Progress counting(AtomicInteger told) {
        return new Progress() {
            @Override
            public void report(double fraction, String activity) {
                told.incrementAndGet();
            }

            @Override
            public boolean isCancelled() {
                return false;
            }
        };
    }

    /** Seconds from the moment that a person cancels, with half of the files read, until the scan has stopped. */
    private static double cancelledAfter(Path folder, int files) {
        AtomicInteger told = new AtomicInteger();
        long[] asked = new long[1];
        Progress half = new Progress() {
            @Override
            public void report(double fraction, String activity) {
                if (told.incrementAndGet() == files / 2) {
                    asked[0] = System.nanoTime();
                }
            }

            @Override
            public boolean isCancelled() {
                return told.get() >= files / 2;
            }
        };
        try {
            Intake.scan(List.of(folder), half);
        } catch (CancellationException e) {
            return secondsSince(asked[0]);
        }
        throw new IllegalStateException("the scan was not cancelled");
    }

    private static OptionalDouble pydicomSeconds(Path folder) throws IOException, InterruptedException {
        String script = String.join(
                "\n",
                "import sys, time, os, pydicom",
                "names = [os.path.join(d, f) for d, _, fs in os.walk(sys.argv[1]) for f in fs]",
                "times = []",
                "for run in range(3):",
                "    start = time.perf_counter()",
                "    for name in names:",
                "        pydicom.dcmread(name, stop_before_pixels=True)",
                "    times.append(time.perf_counter() - start)",
                "print(sorted(times)[1])");
        Path python = Path.of("/usr/bin/python3");
        if (!Files.isExecutable(python)) {
            return OptionalDouble.empty();
        }
        Process process = new ProcessBuilder(python.toString(), "-c", script, folder.toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).trim();
        boolean ended = process.waitFor(10, TimeUnit.MINUTES);
        return ended && process.exitValue() == 0 ? OptionalDouble.of(Double.parseDouble(out)) : OptionalDouble.empty();
    }

    /** Series of 400 slices in folders of their own; returns the bytes of all files. */
    private static long write(Path folder, int files) throws IOException {
        long bytes = 0;
        for (int n = 0; n < files; n++) {
            int series = n / FILES_PER_SERIES;
            Path home = folder.resolve("series" + series);
            if (n % FILES_PER_SERIES == 0) {
                Files.createDirectory(home);
            }
            Path file = home.resolve("IM" + n);
            DicomWriter.write(file, slice(series, n % FILES_PER_SERIES), TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
            bytes += Files.size(file);
        }
        return bytes;
    }

    private static DataSet slice(int series, int k) {
        return DataSet.builder()
                .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                .string(Tag.SOP_INSTANCE_UID, Uid.fromName("scan " + series + " " + k))
                .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("scan " + series))
                .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("scan study " + series / 5))
                .string(Tag.FRAME_OF_REFERENCE_UID, Uid.fromName("scan frame " + series / 5))
                .string(Tag.PATIENT_ID, "BENCH")
                .string(Tag.PATIENT_NAME, "Bench^Mark")
                .string(Tag.MODALITY, "CT")
                .string(Tag.MANUFACTURER, "Simulated")
                .string(Tag.MANUFACTURER_MODEL_NAME, "Scan simulator")
                .string(Tag.SERIES_DESCRIPTION, "Spine bone 0.6")
                .string(Tag.PROTOCOL_NAME, "Spine")
                .string(Tag.IMAGE_TYPE, "ORIGINAL", "PRIMARY", "AXIAL")
                .string(Tag.STUDY_DATE, "20260115")
                .string(Tag.SERIES_DATE, "20260115")
                .string(Tag.ACQUISITION_DATE, "20260115")
                .string(Tag.CONTENT_DATE, "20260115")
                .string(Tag.CONVOLUTION_KERNEL, "BONE")
                .string(Tag.PATIENT_POSITION, "HFS")
                .integers(Tag.SERIES_NUMBER, series)
                .integers(Tag.INSTANCE_NUMBER, k + 1)
                .integers(Tag.ACQUISITION_NUMBER, 1)
                .decimals(Tag.KVP, 120)
                .decimals(Tag.SLICE_THICKNESS, 0.6)
                .decimals(Tag.RECONSTRUCTION_DIAMETER, 200)
                .integers(Tag.X_RAY_TUBE_CURRENT, 200 + k % 7)
                .decimals(Tag.IMAGE_POSITION_PATIENT, -100, -100, 0.6 * k)
                .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                .decimals(Tag.PIXEL_SPACING, 6.25, 6.25)
                .integers(Tag.SAMPLES_PER_PIXEL, 1)
                .string(Tag.PHOTOMETRIC_INTERPRETATION, "MONOCHROME2")
                .integers(Tag.ROWS, SIDE)
                .integers(Tag.COLUMNS, SIDE)
                .integers(Tag.BITS_ALLOCATED, 16)
                .integers(Tag.BITS_STORED, 16)
                .integers(Tag.HIGH_BIT, 15)
                .integers(Tag.PIXEL_REPRESENTATION, 1)
                .decimals(Tag.RESCALE_SLOPE, 1)
                .decimals(Tag.RESCALE_INTERCEPT, -1024)
                .words(Tag.PIXEL_DATA, new short[SIDE * SIDE])
                .build();
    }

    private static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static double secondsSince(long nanos) {
        return (System.nanoTime() - nanos) / 1e9;
    }

    private static void require(boolean holds) {
        if (!holds) {
            throw new IllegalStateException("the benchmark did not do its work");
        }
    }

    private static void say(String format, Object... values) {
        System.out.println(String.format(Locale.ROOT, format, values));
    }
}
