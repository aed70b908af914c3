package org.holdfast.app;

import java.util.Arrays;
import java.util.Optional;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelReader;
import org.holdfast.dicom.PixelSource;
import org.holdfast.intake.SeriesUse;
import org.holdfast.intake.Slice;
import org.holdfast.volume.PixelScale;
import org.holdfast.volume.Rescale;
import org.holdfast.volume.StoredFormat;

/**
 * A small grey picture of a series, to know it again: the middle slice of a stack, else the first image that has pixels. HU
 * are drawn from −700 to 2000, other values from their 1st to their 99th percentile. One frame is read, nothing else.
 */
final class SmallPicture {

    private static final double BLACK_HU = -700;
    private static final double WHITE_HU = 2000;
    private static final double LOW_SHARE = 0.01;
    private static final double HIGH_SHARE = 0.99;

    /** Percentiles are taken of so many values at least, spread over the picture. */
    private static final int SAMPLES = 20_000;

    private SmallPicture() {}

    /**
     * Makes the picture.
     *
     * @param use the series or stack
     * @param mostWidth pixels a row at most, at least 1
     * @param mostHeight rows at most, at least 1
     * @throws UseCaseException if no picture can be made of it; says why
     */
    static GreyPicture of(SeriesUse use, int mostWidth, int mostHeight) throws UseCaseException {
        try {
            if (use.stack().isPresent()) {
                Slice slice = use.stack()
                        .get()
                        .slices()
                        .get(use.stack().get().slices().size() / 2);
                Optional<Rescale> toHu = slice.huScale().rescale();
                float[] values = values(slice.pixels(), slice.frameIndex());
                toHu.ifPresent(line -> apply(line, values));
                double low = toHu.isPresent() ? BLACK_HU : percentile(values, LOW_SHARE);
                double high = toHu.isPresent() ? WHITE_HU : percentile(values, HIGH_SHARE);
                double aspect = use.stack().get().grid().rowSpacingMm()
                        / use.stack().get().grid().columnSpacingMm();
                return scaled(slice.pixels().layout(), values, low, high, aspect, mostWidth, mostHeight);
            }
            return ofImage(use, mostWidth, mostHeight);
        } catch (DicomReadException e) {
            throw new UseCaseException(e.getMessage(), e);
        }
    }

    private static GreyPicture ofImage(SeriesUse use, int mostWidth, int mostHeight)
            throws UseCaseException, DicomReadException {
        var header = use.series().files().stream()
                .filter(file -> file.pixels().isPresent())
                .findFirst()
                .orElseThrow(() -> new UseCaseException("it holds no picture"));
        PixelSource pixels = header.pixels().orElseThrow();
        float[] values = values(pixels, pixels.layout().frames() / 2);
        boolean isColour = pixels.layout().samples() > 1;
        double low = isColour ? 0 : percentile(values, LOW_SHARE);
        double high = isColour ? 255 : percentile(values, HIGH_SHARE);
        boolean inverted = pixels.layout().photometric().equals("MONOCHROME1");
        PixelScale scale = header.scale();
        double aspect = scale.kind() == PixelScale.Kind.NONE ? 1 : scale.rowMm() / scale.columnMm();
        return scaled(
                pixels.layout(), values, inverted ? high : low, inverted ? low : high, aspect, mostWidth, mostHeight);
    }

    private static float[] values(PixelSource pixels, int frameIndex) throws DicomReadException, UseCaseException {
        if (pixels.whyUnreadable().isPresent()) {
            throw new UseCaseException(pixels.whyUnreadable().get());
        }
        PixelLayout layout = pixels.layout();
        short[] words = new short[Math.toIntExact(layout.frameValues())];
        new PixelReader().read(pixels, frameIndex, words);
        StoredFormat format = new StoredFormat(Math.min(16, layout.bitsStored()), layout.signed());
        float[] grey = new float[layout.rows() * layout.columns()];
        int samples = layout.samples();
        for (int n = 0; n < grey.length; n++) {
            float sum = 0;
            for (int s = 0; s < samples; s++) {
                sum += format.valueOf(words[n * samples + s]);
            }
            grey[n] = sum / samples;
        }
        return grey;
    }

    private static void apply(Rescale line, float[] values) {
        for (int n = 0; n < values.length; n++) {
            values[n] = (float) line.hu((int) values[n]);
        }
    }

    private static double percentile(float[] values, double share) {
        int step = Math.max(1, values.length / SAMPLES);
        float[] some = new float[(values.length + step - 1) / step];
        for (int n = 0; n < some.length; n++) {
            some[n] = values[n * step];
        }
        Arrays.sort(some);
        return some[(int) Math.round(share * (some.length - 1))];
    }

    /** Each pixel is the mean of what it covers; nothing is magnified. */
    private static GreyPicture scaled(
            PixelLayout layout,
            float[] values,
            double black,
            double white,
            double aspect,
            int mostWidth,
            int mostHeight) {
        double factor =
                Math.min(1, Math.min((double) mostWidth / layout.columns(), mostHeight / (layout.rows() * aspect)));
        int width = Math.max(1, Math.min(mostWidth, (int) Math.round(layout.columns() * factor)));
        int height = Math.max(1, Math.min(mostHeight, (int) Math.round(layout.rows() * aspect * factor)));
        byte[] grey = new byte[width * height];
        double range = white == black ? 1 : white - black;
        for (int y = 0; y < height; y++) {
            int fromRow = (int) ((long) y * layout.rows() / height);
            int toRow = Math.max(fromRow + 1, (int) ((y + 1L) * layout.rows() / height));
            for (int x = 0; x < width; x++) {
                int fromColumn = (int) ((long) x * layout.columns() / width);
                int toColumn = Math.max(fromColumn + 1, (int) ((x + 1L) * layout.columns() / width));
                double mean = mean(values, layout.columns(), fromRow, toRow, fromColumn, toColumn);
                grey[x + width * y] = (byte) Math.round(255 * Math.max(0, Math.min(1, (mean - black) / range)));
            }
        }
        return new GreyPicture(width, height, grey);
    }

    private static double mean(float[] values, int columns, int fromRow, int toRow, int fromColumn, int toColumn) {
        double sum = 0;
        for (int j = fromRow; j < toRow; j++) {
            for (int i = fromColumn; i < toColumn; i++) {
                sum += values[i + columns * j];
            }
        }
        return sum / ((toRow - fromRow) * (toColumn - fromColumn));
    }
}
