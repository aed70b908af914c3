package org.holdfast.desktop.render;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.holdfast.construct.ScrewShape;
import org.holdfast.desktop.state.Words;
import org.holdfast.figure.Face;
import org.holdfast.measure.ScrewLucency.Sector;
import org.holdfast.measure.ScrewLucency.Station;
import org.holdfast.measure.ScrewLucency.Zone;

/**
 * Draws the zone around a screw: its surface unrolled, from the head on the left to the tip on the right, cranial in the
 * middle and caudal at both edges; above it the mean width round the screw at each station, with the limit as a broken
 * line. Stateless.
 */
public final class ZoneMapPainter {

    /** Under this width, mm, a zone is drawn as none. */
    private static final double NONE_UNDER_MM = 0.5;
    /** Top of the scale of means, mm. */
    private static final double MEAN_SCALE_MM = 3;

    private static final double MEANS_SHARE = 0.32;
    private static final int INK = 0xE9ECEA;
    private static final int RULE = 0x6E7876;
    private static final int GAP_PIXELS = 3;
    private static final int DASH_PIXELS = 4;

    private ZoneMapPainter() {}

    /**
     * Draws a zone.
     *
     * @param zone what was found
     * @param screw where the screw lies in the construct
     * @param limits width over which a zone counts, and width at which a screw is loose
     * @param cells words of each sector, in their order
     * @param size device pixels, none of them 0
     */
    public static MapPicture paint(
            Zone zone, ScrewShape screw, Face.GapLimits limits, List<String> cells, PixelSize size) {
        if (size.isEmpty() || cells.size() != zone.sectors().size()) {
            throw new IllegalArgumentException("a map needs a size and words for each sector, got " + size + ", "
                    + cells.size() + " for " + zone.sectors().size());
        }
        LengthScale along = LengthScale.of(screw.inBoneFromMm(), screw.inBoneToMm(), size.width());
        Raster raster = new Raster(size, MapClass.WELL);
        double meansBottom = Math.rint(MEANS_SHARE * size.height());
        means(raster, zone.stations(), along, meansBottom, limits.narrowMm());
        double top = meansBottom + GAP_PIXELS;
        double bottom = size.height() - GAP_PIXELS;
        List<MapPicture.Cell> drawn = new ArrayList<>();
        for (int n = 0; n < cells.size(); n++) {
            drawn.add(sector(raster, zone.sectors().get(n), cells.get(n), along, top, bottom, limits));
        }
        boolean isWhole = limits.narrowMm() == Math.rint(limits.narrowMm());
        String limit = Words.quantity(limits.narrowMm(), isWhole ? 0 : 1, "mm");
        return new MapPicture(
                raster.picture(),
                1 / along.pixelsPerMm(),
                screw.head(),
                along.x(0),
                0,
                Optional.of(screw.direction()),
                Optional.empty(),
                drawn,
                List.of(new MapPicture.Caption(limit, along.right() + 2, meanY(limits.narrowMm(), meansBottom))));
    }

    /** The class of a width: none, up to the limit, up to loose, wider; or cannot tell. */
    static MapClass classOf(OptionalDouble zoneMm, Face.GapLimits limits) {
        if (zoneMm.isEmpty()) {
            return FaceClass.CANNOT_TELL;
        }
        return zoneMm.getAsDouble() < NONE_UNDER_MM
                ? FaceClass.CONTACT
                : FaceClass.ofWidth(zoneMm.getAsDouble(), limits);
    }

    private static MapPicture.Cell sector(
            Raster raster,
            Sector sector,
            String words,
            LengthScale along,
            double top,
            double bottom,
            Face.GapLimits limits) {
        double pixelsPerDegree = (bottom - top) / 360;
        // Cranial, 0°, in the middle: −180° at the upper edge, 180° at the lower.
        double angle = sector.angleDeg() - 360 * Math.floor((sector.angleDeg() + 180) / 360);
        double width = sector.lengthMm() * along.pixelsPerMm();
        double height = sector.widthDeg() * pixelsPerDegree;
        double x = along.x(sector.atMm());
        double y = top + (angle + 180) * pixelsPerDegree;
        MapClass mapClass = classOf(sector.zoneMm(), limits);
        MapMark.paint(raster, mapClass, x, y, width, height);
        if (y - height / 2 < top - 1) {
            // A sector that lies across the seam shows on both sides of it.
            MapMark.paint(raster, mapClass, x, y + 360 * pixelsPerDegree, width, height);
            raster.rectangle(x - width / 2, y - height / 2, x + width / 2, top, MapClass.WELL);
        }
        return new MapPicture.Cell(words, x, y, width, height);
    }

    private static void means(Raster raster, List<Station> stations, LengthScale along, double bottom, double limitMm) {
        double limitY = Math.floor(meanY(limitMm, bottom)) + 0.5;
        for (double x = along.left(); x < along.right(); x += 2 * DASH_PIXELS) {
            raster.line(x, limitY, Math.min(x + DASH_PIXELS, along.right()), limitY, 1, RULE);
        }
        raster.line(along.left(), bottom - 0.5, along.right(), bottom - 0.5, 1, RULE);
        double halfBar = Math.max(1, 0.35 * along.pixelsPerMm());
        for (Station station : stations) {
            double x = along.x(station.atMm());
            OptionalDouble mean = station.meanMm().value();
            if (mean.isPresent()) {
                double y = meanY(mean.getAsDouble(), bottom);
                raster.rectangle(
                        x - halfBar, Math.min(y, bottom - 1.5), x + halfBar, bottom, station.isApart() ? RULE : INK);
            } else {
                raster.hatch(x - halfBar, bottom - 6, x + halfBar, bottom, MapClass.STROKE);
            }
        }
    }

    private static double meanY(double mm, double bottom) {
        return bottom - Math.min(1, mm / MEAN_SCALE_MM) * (bottom - 2);
    }
}
