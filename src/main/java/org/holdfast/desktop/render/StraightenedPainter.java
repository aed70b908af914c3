package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.desktop.render.MapPicture.Caption;
import org.holdfast.desktop.render.MapPicture.Cell;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.Words;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Draws a rod or screw straightened: its image along the centre line, and under it the HU of its core as a line and the
 * area of metal across it as dots, from the part's first point on the left. Known joints are hatched at the foot; a break
 * has ticks above and below the image and a line through the profile. Stateless.
 */
public final class StraightenedPainter {

    private static final double IMAGE_SHARE = 0.46;
    private static final int GAP_PIXELS = 6;
    private static final int TICK_PIXELS = 5;
    private static final int CORE = 0xFFF1D0;
    private static final int AREA = 0x8F9895;
    private static final int RULE = 0x6E7876;
    private static final int FAULT = 0xFF7663;
    private static final int DOUBT = 0xB9A6F5;
    private static final int JOINT_PIXELS = 4;

    private StraightenedPainter() {}

    /**
     * The part as it is drawn.
     *
     * @param image HU along and across, or empty where the images are not there now
     * @param stations the profile, at least one
     * @param breaks where it is broken
     */
    public record Part(Optional<StraightenedImage> image, List<Station> stations, List<BreakAt> breaks) {

        public Part {
            stations = List.copyOf(stations);
            breaks = List.copyOf(breaks);
            if (stations.isEmpty()) {
                throw new IllegalArgumentException("a straightened part needs stations, got none");
            }
        }
    }

    /**
     * One place along the part.
     *
     * @param atMm distance along the centre line
     * @param coreHu HU in the core; NaN outside the image
     * @param areaMm2 area of metal across
     * @param isKnownJoint whether a known joint lies here
     * @param words what is said of it
     */
    public record Station(double atMm, double coreHu, double areaMm2, boolean isKnownJoint, String words) {}

    /**
     * One break.
     *
     * @param atMm distance along the centre line
     * @param isConfirmed whether it is confirmed
     */
    public record BreakAt(double atMm, boolean isConfirmed) {}

    /**
     * Draws a part.
     *
     * @param part the part
     * @param window HU from black to white
     * @param start the part's first point in the construct
     * @param direction where the picture's right lies in the construct
     * @param size device pixels, none of them 0
     */
    public static MapPicture paint(
            Part part, HuWindow window, PatientPoint start, PatientVector direction, PixelSize size) {
        LengthScale along = scale(part, size);
        Raster raster = new Raster(size, MapClass.WELL);
        double imageBottom = Math.rint(IMAGE_SHARE * size.height());
        part.image().ifPresent(image -> image(raster, image, window, along, imageBottom));
        double top = imageBottom + GAP_PIXELS;
        double bottom = size.height() - GAP_PIXELS;
        profile(raster, part.stations(), along, top, bottom);
        for (BreakAt each : part.breaks()) {
            broken(raster, each, along, imageBottom, bottom);
        }
        List<Cell> cells = new ArrayList<>();
        for (Station station : part.stations()) {
            double width = (along.right() - along.left()) / part.stations().size();
            cells.add(new Cell(station.words(), along.x(station.atMm()), size.height() / 2.0, width, size.height()));
        }
        double most = most(part.stations());
        String scale = Words.number(most, 0);
        return new MapPicture(
                raster.picture(),
                1 / along.pixelsPerMm(),
                start,
                along.x(0),
                0,
                Optional.of(direction),
                Optional.empty(),
                cells,
                List.of(new Caption(scale, 3, top + 6), new Caption("0\u2009HU", 3, bottom - 2)));
    }

    private static LengthScale scale(Part part, PixelSize size) {
        double from = part.stations().get(0).atMm();
        double to = part.stations().get(part.stations().size() - 1).atMm();
        return LengthScale.of(from, to, size.width());
    }

    private static void image(
            Raster raster, StraightenedImage image, HuWindow window, LengthScale along, double bottom) {
        int top = TICK_PIXELS + 1;
        double middle = (top + bottom - TICK_PIXELS) / 2;
        for (int y = top; y < bottom - TICK_PIXELS; y++) {
            double acrossMm = (y + 0.5 - middle) / along.pixelsPerMm();
            for (int x = (int) along.left(); x < along.right(); x++) {
                double hu = image.hu(along.atMm(x + 0.5), acrossMm);
                if (!Double.isNaN(hu)) {
                    raster.pixel(x, y, CutPainter.grey(hu, window));
                }
            }
        }
    }

    private static void profile(Raster raster, List<Station> stations, LengthScale along, double top, double bottom) {
        raster.line(along.left(), bottom + 0.5, along.right(), bottom + 0.5, 1, RULE);
        raster.line(along.left(), top + 0.5, along.right(), top + 0.5, 1, RULE);
        double mostHu = most(stations);
        double mostArea = Math.max(
                1, stations.stream().mapToDouble(Station::areaMm2).max().orElse(1));
        Station before = null;
        for (Station station : stations) {
            double x = along.x(station.atMm());
            if (station.isKnownJoint()) {
                raster.hatch(x - 1, bottom - JOINT_PIXELS, x + 1, bottom, MapClass.STROKE);
            }
            double areaY = bottom - station.areaMm2() / mostArea * (bottom - top);
            raster.disc(x, areaY, 0.8, AREA);
            if (before != null && !Double.isNaN(before.coreHu()) && !Double.isNaN(station.coreHu())) {
                raster.line(
                        along.x(before.atMm()),
                        coreY(before, mostHu, top, bottom),
                        x,
                        coreY(station, mostHu, top, bottom),
                        1.3,
                        CORE);
            }
            before = station;
        }
    }

    private static double coreY(Station station, double mostHu, double top, double bottom) {
        return bottom - Math.max(0, Math.min(1, station.coreHu() / mostHu)) * (bottom - top);
    }

    private static double most(List<Station> stations) {
        return Math.max(
                1,
                stations.stream()
                        .mapToDouble(Station::coreHu)
                        .filter(Double::isFinite)
                        .max()
                        .orElse(1));
    }

    /** Ticks off the image, so that nothing lies over the place itself; unconfirmed ones are broken lines. */
    private static void broken(Raster raster, BreakAt each, LengthScale along, double imageBottom, double bottom) {
        double x = Math.floor(along.x(each.atMm())) + 0.5;
        int colour = each.isConfirmed() ? FAULT : DOUBT;
        raster.line(x, 0, x, TICK_PIXELS, 2, colour);
        double dash = each.isConfirmed() ? bottom - imageBottom : 3;
        for (double y = imageBottom - TICK_PIXELS + 1; y < bottom; y += 2 * dash) {
            raster.line(x, y, x, Math.min(bottom, y + dash), each.isConfirmed() ? 2 : 1.4, colour);
        }
    }
}
