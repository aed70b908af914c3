package org.holdfast.regions;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.holdfast.volume.Cut;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Region statistics against numpy on noise, with pixels without value. */
@Tag("outside-tool")
class NumpyRegionTest {

    private static final Path PYTHON = Path.of("/usr/bin/python3");
    private static final int WIDTH = 64;
    private static final int HEIGHT = 48;
    private static final int NUMBERS = 7;

    /** Inside by a definition of its own: the ellipse's equation, and crossings counted for all pixels at once. */
    private static final String SCRIPT =
            """
            import sys, numpy
            hu = numpy.loadtxt(sys.argv[1] + '/hu').reshape(48, 64)
            y, x = numpy.mgrid[0:48, 0:64]
            corners = numpy.loadtxt(sys.argv[1] + '/corners').reshape(-1, 2)
            inside = numpy.zeros(hu.shape, bool)
            for (ax, ay), (bx, by) in zip(corners, numpy.roll(corners, -1, axis=0)):
                with numpy.errstate(divide='ignore', invalid='ignore'):
                    inside ^= ((ay > y) != (by > y)) & (x < ax + (y - ay) * (bx - ax) / (by - ay))
            for mask in ((x - 30.3) ** 2 / 17.2 ** 2 + (y - 20.7) ** 2 / 9.4 ** 2 <= 1, inside):
                values = hu[mask]
                known = values[~numpy.isnan(values)]
                print(known.size, values.size - known.size, known.mean(), known.std(ddof=1), known.min(), known.max(),
                      numpy.median(known))
            """;

    @TempDir
    private Path folder;

    @BeforeEach
    void requireNumpy() throws IOException, InterruptedException {
        assumeTrue(Files.isExecutable(PYTHON), "skipped: no /usr/bin/python3");
        assumeTrue(python("-c", "import numpy").exitCode() == 0, "skipped: /usr/bin/python3 has no numpy");
    }

    private record Answer(int exitCode, String output) {}

    private static Answer python(String... arguments) throws IOException, InterruptedException {
        List<String> command = new ArrayList<>(List.of(PYTHON.toString()));
        command.addAll(List.of(arguments));
        Process process = new ProcessBuilder(command)
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assumeTrue(process.waitFor(120, TimeUnit.SECONDS), "skipped: python3 did not answer within 120 s");
        return new Answer(process.exitValue(), output);
    }

    @Test
    void readsWhatNumpyReads() throws IOException, InterruptedException {
        Random random = new Random(47);
        Cut cut = Cuts.of(WIDTH, HEIGHT, (x, y) -> random.nextInt(20) == 0 ? Cuts.NONE : random.nextInt(4096) - 1024);
        List<PixelPoint> corners = List.of(
                new PixelPoint(-6.2, 3.1),
                new PixelPoint(33, 10),
                new PixelPoint(58.4, 2.2),
                new PixelPoint(70, 30.5),
                new PixelPoint(41.7, 25.3),
                new PixelPoint(20.1, 55));
        Files.writeString(folder.resolve("hu"), numbers(cut));
        StringBuilder places = new StringBuilder();
        corners.forEach(at -> places.append(at.x()).append(' ').append(at.y()).append('\n'));
        Files.writeString(folder.resolve("corners"), places);

        // Computed: numpy mean, std(ddof=1), min, max, median over its own masks, see the script
        Answer answer = python("-c", SCRIPT, folder.toString());
        assertEquals(0, answer.exitCode());
        String[] expected = answer.output().trim().split("\\s+");

        assertEquals(2 * NUMBERS, expected.length);
        requireSame(expected, 0, cut, new Outline.Ellipse(new PixelPoint(30.3, 20.7), 17.2, 9.4));
        requireSame(expected, NUMBERS, cut, new Outline.Polygon(corners));
    }

    private static String numbers(Cut cut) {
        StringBuilder text = new StringBuilder();
        for (float hu : cut.toArray()) {
            text.append(Float.isNaN(hu) ? "nan" : Float.toString(hu)).append('\n');
        }
        return text.toString();
    }

    private static void requireSame(String[] expected, int from, Cut cut, Outline outline) {
        RegionStatistics found = assertInstanceOf(RegionStatistics.class, RegionStatistics.of(cut, outline));
        // Floats are written with all their digits; sums of some thousand numbers up to 4096 in double.
        double rounding = 1e-6;
        assertEquals(Integer.parseInt(expected[from]), found.pixels());
        assertEquals(Integer.parseInt(expected[from + 1]), found.pixelsWithoutValue());
        assertEquals(Double.parseDouble(expected[from + 2]), found.meanHu(), rounding);
        assertEquals(Double.parseDouble(expected[from + 3]), found.sdHu().getAsDouble(), rounding);
        assertEquals(Double.parseDouble(expected[from + 4]), found.minHu(), rounding);
        assertEquals(Double.parseDouble(expected[from + 5]), found.maxHu(), rounding);
        assertEquals(Double.parseDouble(expected[from + 6]), found.medianHu(), rounding);
    }
}
