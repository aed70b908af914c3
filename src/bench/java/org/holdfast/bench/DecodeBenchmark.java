package org.holdfast.bench;

import java.nio.file.Path;
import java.util.Locale;
import org.holdfast.dicom.DicomReader;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;

/**
 * Time to read and decode the first frame of DICOM files, warm, on one thread: median and 95th percentile of many runs.
 * Arguments: files.
 */
public final class DecodeBenchmark {

    private static final int WARM_UP = 60;
    private static final int RUNS = 60;

    private DecodeBenchmark() {}

    /** Prints a line for each file. */
    public static void main(String[] arguments) throws Exception {
        if (arguments.length == 0) {
            System.err.println("name files: -Dbench.class='org.holdfast.bench.DecodeBenchmark FILE...'");
            System.exit(2);
        }
        for (String argument : arguments) {
            PixelSource source = PixelSource.of(DicomReader.read(Path.of(argument)));
            short[] words = new short[Math.toIntExact(source.layout().frameValues())];
            PixelReader reader = new PixelReader();
            double[] times = new double[RUNS];
            for (int run = -WARM_UP; run < RUNS; run++) {
                long start = System.nanoTime();
                reader.read(source, 0, words);
                if (run >= 0) {
                    times[run] = Times.millisSince(start);
                }
            }
            System.out.printf(
                    Locale.ROOT,
                    "%-40s %d × %d × %d, %s: %.1f ms (95 %%: %.1f)%n",
                    Path.of(argument).getFileName(),
                    source.layout().rows(),
                    source.layout().columns(),
                    source.layout().samples(),
                    source.transferSyntax().name(),
                    Times.median(times),
                    Times.quantile(times, 0.95));
        }
    }
}
