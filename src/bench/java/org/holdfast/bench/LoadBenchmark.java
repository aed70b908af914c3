package org.holdfast.bench;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.DicomWriter;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.dicom.Uid;
import org.holdfast.intake.Intake;
import org.holdfast.intake.LoadedVolume;
import org.holdfast.intake.Stack;
import org.holdfast.intake.VolumeLoader;
import org.holdfast.progress.Progress;

/**
 * Loading 400 slices of 512 × 512 uncompressed 16-bit pixels against reading the same bytes plainly and against pydicom
 * with numpy, all on files that lie in the system's cache. Medians of several runs in one process; prints ratios and the
 * goals. Argument: number of slices (default 400).
 */
public final class LoadBenchmark {

    private static final int SIDE = 512;
    private static final int RUNS = 7;
    private static final double GOAL_AGAINST_PLAIN = 2;
    private static final double GOAL_AGAINST_NUMPY = 0.5;

    private LoadBenchmark() {}

    /** Runs the comparison; exit code 1 if a goal is missed. */
    public static void main(String[] arguments) throws Exception {
        int slices = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 400;
        Path folder = Files.createTempDirectory("holdfast-load");
        try {
            writeSeries(folder, slices);
            System.exit(compare(folder, slices) ? 0 : 1);
        } finally {
            delete(folder);
        }
    }

    private static boolean compare(Path folder, int slices) throws Exception {
        Stack stack = Intake.scan(List.of(folder), Progress.NONE)
                .series()
                .get(0)
                .stacks()
                .get(0);
        List<Path> files = stack.slices().stream().map(s -> s.path()).toList();
        double[] plain = new double[RUNS];
        double[] scan = new double[RUNS];
        double[] load = new double[RUNS];
        LoadedVolume kept = null;
        for (int run = -2; run < RUNS; run++) {
            kept = null;
            // Both sides start with an empty heap, so that neither pays for collecting what the other left.
            System.gc();
            long start = System.nanoTime();
            byte[][] bytes = readPlainly(files);
            double plainSeconds = secondsSince(start);
            require(bytes.length == slices);
            bytes = null;
            start = System.nanoTime();
            Intake.scan(List.of(folder), Progress.NONE);
            double scanSeconds = secondsSince(start);
            System.gc();
            start = System.nanoTime();
            kept = VolumeLoader.load(stack, Progress.NONE);
            double loadSeconds = secondsSince(start);
            if (run >= 0) {
                plain[run] = plainSeconds;
                scan[run] = scanSeconds;
                load[run] = loadSeconds;
            }
        }
        long volumeBytes = kept.volume().voxelBytes();
        kept = null;
        long peak = peakHeapOfOneLoad(stack);
        double plainSeconds = median(plain);
        double loadSeconds = median(load);
        double scanSeconds = median(scan);
        say("slices %d, volume %.0f MB", slices, volumeBytes / 1e6);
        say("plain read of the same bytes   %.3f s", plainSeconds);
        say("headers of all files           %.3f s", scanSeconds);
        say("load into HU                   %.3f s", loadSeconds);
        say("load / plain                   %.2f (goal ≤ %.1f)", loadSeconds / plainSeconds, GOAL_AGAINST_PLAIN);
        say("(headers + load) / plain       %.2f", (scanSeconds + loadSeconds) / plainSeconds);
        double allowed = 1.3 * volumeBytes + 150e6;
        say("peak heap while loading        %.0f MB (goal ≤ %.0f)", peak / 1e6, allowed / 1e6);
        boolean reached = loadSeconds <= GOAL_AGAINST_PLAIN * plainSeconds && peak <= allowed;
        OptionalDouble numpy = pydicomSeconds(folder);
        if (numpy.isEmpty()) {
            say("pydicom + numpy                not there: not compared");
            return reached;
        }
        double ratio = (scanSeconds + loadSeconds) / numpy.getAsDouble();
        say("pydicom + numpy                %.3f s", numpy.getAsDouble());
        say("(headers + load) / pydicom     %.2f (goal ≤ %.1f)", ratio, GOAL_AGAINST_NUMPY);
        return reached && ratio <= GOAL_AGAINST_NUMPY;
    }

    /** Whole files into arrays that are kept, as a volume keeps its voxels. */
    private static byte[][] readPlainly(List<Path> files) throws IOException {
        byte[][] all = new byte[files.size()][];
        for (int i = 0; i < all.length; i++) {
            try (FileChannel channel = FileChannel.open(files.get(i), StandardOpenOption.READ)) {
                ByteBuffer buffer = ByteBuffer.allocate(Math.toIntExact(channel.size()));
                while (buffer.hasRemaining() && channel.read(buffer) >= 0) {}
                all[i] = buffer.array();
            }
        }
        return all;
    }

    /** Largest use of the heap above what was there before, during one load after a collection. */
    private static long peakHeapOfOneLoad(Stack stack) throws DicomReadException {
        System.gc();
        List<MemoryPoolMXBean> heap = ManagementFactory.getMemoryPoolMXBeans().stream()
                .filter(pool -> pool.getType() == MemoryType.HEAP)
                .toList();
        long before = heap.stream().mapToLong(pool -> pool.getUsage().getUsed()).sum();
        heap.forEach(MemoryPoolMXBean::resetPeakUsage);
        LoadedVolume loaded = VolumeLoader.load(stack, Progress.NONE);
        long peak =
                heap.stream().mapToLong(pool -> pool.getPeakUsage().getUsed()).sum();
        require(loaded.volume().voxelBytes() > 0);
        return peak - before;
    }

    private static OptionalDouble pydicomSeconds(Path folder) throws IOException, InterruptedException {
        String script = String.join(
                "\n",
                "import sys, time, glob, pydicom, numpy",
                "def load():",
                "    files = [pydicom.dcmread(f) for f in glob.glob(sys.argv[1] + '/*')]",
                "    files.sort(key=lambda d: float(d.ImagePositionPatient[2]))",
                "    return numpy.stack([(d.pixel_array * float(d.RescaleSlope)",
                "            + float(d.RescaleIntercept)).astype('int16') for d in files])",
                "times = []",
                "for run in range(4):",
                "    start = time.perf_counter()",
                "    load()",
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
        boolean ended = process.waitFor(5, TimeUnit.MINUTES);
        return ended && process.exitValue() == 0 ? OptionalDouble.of(Double.parseDouble(out)) : OptionalDouble.empty();
    }

    static void writeSeries(Path folder, int slices) throws IOException {
        Random random = new Random(1);
        short[] words = new short[SIDE * SIDE];
        for (int k = 0; k < slices; k++) {
            for (int v = 0; v < words.length; v++) {
                words[v] = (short) (k % 8 == 0 ? 900 + random.nextInt(400) : words[v] + 1);
            }
            DataSet slice = DataSet.builder()
                    .string(Tag.SOP_CLASS_UID, "1.2.840.10008.5.1.4.1.1.2")
                    .string(Tag.SOP_INSTANCE_UID, Uid.fromName("benchmark " + k))
                    .string(Tag.SERIES_INSTANCE_UID, Uid.fromName("benchmark"))
                    .string(Tag.STUDY_INSTANCE_UID, Uid.fromName("benchmark study"))
                    .string(Tag.MODALITY, "CT")
                    .decimals(Tag.IMAGE_POSITION_PATIENT, 0, 0, 0.6 * k)
                    .decimals(Tag.IMAGE_ORIENTATION_PATIENT, 1, 0, 0, 0, 1, 0)
                    .decimals(Tag.PIXEL_SPACING, 0.4, 0.4)
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
                    .words(Tag.PIXEL_DATA, words)
                    .build();
            DicomWriter.write(folder.resolve("slice" + k), slice, TransferSyntax.EXPLICIT_LITTLE_ENDIAN);
        }
    }

    static void delete(Path folder) throws IOException {
        List<Path> all = new ArrayList<>();
        try (Stream<Path> files = Files.walk(folder)) {
            files.sorted(Comparator.reverseOrder()).forEach(all::add);
        }
        for (Path path : all) {
            Files.delete(path);
        }
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
