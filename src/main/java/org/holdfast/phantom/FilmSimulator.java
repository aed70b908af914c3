package org.holdfast.phantom;

import java.util.Arrays;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.SharedStateContinuousSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.progress.Progress;
import org.holdfast.volume.HuVolume;

/**
 * Projects a volume onto a detector: the stored value of a pixel rises with the line integral of attenuation along its
 * ray. One energy, no scatter, no blur of focus or detector; noise is that of counted photons. Good for places, lengths
 * and what a film looks like; no measure of grey holds.
 */
final class FilmSimulator {

    /**
     * Linear attenuation of water at 70 keV, 1/mm. Source: NIST, tables of X-ray mass attenuation coefficients (XCOM),
     * between 60 keV (0.2059 cm²/g) and 80 keV (0.1837 cm²/g); from memory.
     */
    private static final double WATER_PER_MM = 0.0193;

    private static final double STEP_MM = 0.7;
    /** Line integral at the largest stored value: what lets one photon in 200,000 through. */
    private static final double LARGEST_INTEGRAL = 12;

    /** Line integral over which bone and screws show; the thickest metal may be white. */
    private static final double WINDOW_INTEGRAL = 1.8;
    /** Rays with less than this passed beside the body. */
    private static final double BODY_INTEGRAL = 0.5;

    /** The body's usual ray is shown so far above black. */
    private static final double BODY_OVER_BLACK = 0.5;

    private FilmSimulator() {}

    /**
     * Takes a radiograph. The result does not depend on the number of threads.
     *
     * @param volume what is in the beam; nothing outside it weakens the beam
     * @param middle point on the central ray at {@link FilmSettings#sourceToMiddleMm}
     * @param widthMm width of the film at the detector, mm
     * @param heightMm height of the film at the detector, mm
     */
    static Film take(
            HuVolume volume,
            PatientPoint middle,
            FilmView view,
            double widthMm,
            double heightMm,
            FilmSettings settings,
            Progress progress) {
        int columns = (int) Math.round(widthMm / settings.pixelMm());
        int rows = (int) Math.round(heightMm / settings.pixelMm());
        PatientPoint source = middle.along(view.beam, -settings.sourceToMiddleMm());
        PatientPoint centre = middle.along(view.beam, settings.sourceToDetectorMm() - settings.sourceToMiddleMm());
        PatientVector down = PatientVector.CRANIAL.times(-1);
        double reachMm = reachMm(volume, middle);
        short[] stored = new short[Math.multiplyExact(columns, rows)];
        IntStream.range(0, rows).parallel().forEach(row -> {
            progress.stopIfCancelled();
            SharedStateContinuousSampler noise = ZigguratSampler.NormalizedGaussian.of(random(settings, row));
            for (int column = 0; column < columns; column++) {
                PatientPoint pixel = centre.along(view.right, (column - 0.5 * (columns - 1)) * settings.pixelMm())
                        .along(down, (row - 0.5 * (rows - 1)) * settings.pixelMm());
                double integral = integral(volume, source, pixel, middle, reachMm);
                double noiseSd = Math.sqrt(Math.exp(integral) / settings.photons());
                stored[row * columns + column] = stored(integral + noiseSd * noise.sample());
            }
        });
        short[] sorted = stored.clone();
        Arrays.sort(sorted);
        int lowest = lowest(sorted);
        return new Film(columns, rows, settings.pixelMm(), stored, lowest, lowest + stored(WINDOW_INTEGRAL));
    }

    /** Black: somewhat under the median of the rays through the body; 0 where none passed through it. */
    private static int lowest(short[] sorted) {
        int first = 0;
        while (first < sorted.length && sorted[first] < stored(BODY_INTEGRAL)) {
            first++;
        }
        return first == sorted.length ? 0 : Math.max(0, sorted[(first + sorted.length) / 2] - stored(BODY_OVER_BLACK));
    }

    private static UniformRandomProvider random(FilmSettings settings, int row) {
        return RandomSource.XO_RO_SHI_RO_128_PP.create(31 * settings.seed() + row);
    }

    /** ∫ μ ds along the ray, within the sphere round the middle that holds the volume. */
    private static double integral(
            HuVolume volume, PatientPoint source, PatientPoint pixel, PatientPoint middle, double reachMm) {
        PatientVector ray = pixel.minus(source).unit();
        double toMiddle = middle.minus(source).dot(ray);
        double sum = 0;
        for (double s = toMiddle - reachMm; s <= toMiddle + reachMm; s += STEP_MM) {
            double hu = volume.sample(source.along(ray, s));
            if (hu > HuVolume.LOWEST_TISSUE_HU) {
                sum += Math.max(0, 1 + hu / 1000);
            }
        }
        return sum * STEP_MM * WATER_PER_MM;
    }

    /** Distance from the middle to the farthest corner of the volume, mm. */
    private static double reachMm(HuVolume volume, PatientPoint middle) {
        double reach = 0;
        for (int corner = 0; corner < 4; corner++) {
            int i = (corner & 1) * (volume.grid().columns() - 1);
            int j = (corner >> 1) * (volume.grid().rows() - 1);
            for (int k : new int[] {0, volume.grid().slices() - 1}) {
                PatientPoint p = volume.grid()
                        .sliceOrigin(k)
                        .along(volume.grid().rowDirection(), i * volume.grid().columnSpacingMm())
                        .along(
                                volume.grid().columnDirection(),
                                j * volume.grid().rowSpacingMm());
                reach = Math.max(reach, p.distanceTo(middle));
            }
        }
        return reach;
    }

    private static short stored(double integral) {
        long value = Math.round(integral / LARGEST_INTEGRAL * Film.LARGEST_STORED);
        return (short) Math.max(0, Math.min(Film.LARGEST_STORED, value));
    }
}
