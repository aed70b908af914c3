package org.holdfast.figure;

import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import org.holdfast.figure.FaceClasses.FaceClass;

/**
 * Draws an interface face on: a cell a sample, by class, with a legend that gives each class its share of the area, and
 * a scale bar. Both directions have one scale. Stateless.
 */
public final class FaceMap {

    private static final double MARGIN = 28;
    private static final double MAP_SIDE = 460;
    private static final double EDGE_SPACE = 26;
    private static final double LEGEND_WIDTH = 330;
    private static final double ROW = 15;
    private static final double LEGEND_ROW = 24;
    private static final double LEGEND_CELL = 15;
    private static final double TITLE_BASE = 40;
    private static final double MAP_TOP = 104;
    /** Rounding up a bar's length to these leading digits gives a length that a reader can halve and compare. */
    private static final double[] ROUND_LENGTHS = {1, 2, 5};

    private static final TextStyle TITLE = TextStyle.of(17, Palette.INK).strong();
    private static final TextStyle SUBTITLE = TextStyle.of(12, Palette.INK_SOFT);
    private static final TextStyle EDGE = TextStyle.of(13, Palette.INK).strong().at(TextStyle.Anchor.MIDDLE);
    private static final TextStyle BODY = TextStyle.of(13, Palette.INK);
    private static final TextStyle SMALL = TextStyle.of(11, Palette.INK_SOFT);

    private final Face face;
    private final List<FaceClass> classes;
    private final double leftMm;
    private final double topMm;
    private final double widthMm;
    private final double heightMm;
    private final double pxPerMm;
    private final Drawing.Builder pen = new Drawing.Builder();

    private FaceMap(Face face) {
        this.face = face;
        this.classes = FaceClasses.of(face);
        double half = face.spacingMm() / 2;
        this.leftMm = least(FaceSample::uMm) - half;
        this.topMm = greatest(FaceSample::vMm) + half;
        this.widthMm = greatest(FaceSample::uMm) + half - leftMm;
        this.heightMm = topMm - least(FaceSample::vMm) + half;
        this.pxPerMm = MAP_SIDE / Math.max(widthMm, heightMm);
    }

    /** The map of a face. */
    public static Drawing draw(Face face) {
        return new FaceMap(face).draw();
    }

    private Drawing draw() {
        double left = MARGIN + EDGE_SPACE;
        double mapWidth = widthMm * pxPerMm;
        double mapHeight = heightMm * pxPerMm;
        double legendLeft = left + mapWidth + EDGE_SPACE + MARGIN;
        double width = legendLeft + LEGEND_WIDTH + MARGIN;
        pen.words(MARGIN, TITLE_BASE, face.title(), TITLE);
        pen.words(MARGIN, TITLE_BASE + 21, face.subtitle(), SUBTITLE);
        drawCells(left, mapWidth, mapHeight);
        drawEdges(left, mapWidth, mapHeight);
        double legendBottom = drawLegend(legendLeft);
        double barBottom = drawScaleBar(left, MAP_TOP + mapHeight + EDGE_SPACE + 20);
        double y = Math.max(legendBottom, barBottom) + 2 * ROW;
        for (String line : Lettering.lines(face.caution(), SMALL.sizePx(), width - 2 * MARGIN)) {
            pen.words(MARGIN, y, line, SMALL);
            y += ROW;
        }
        return pen.build(width, y + MARGIN - ROW, face.title(), Palette.PAPER);
    }

    private void drawCells(double left, double mapWidth, double mapHeight) {
        pen.fill(left - 6, MAP_TOP - 6, mapWidth + 12, mapHeight + 12, Palette.WELL);
        double side = face.spacingMm() * pxPerMm;
        for (FaceSample sample : face.samples()) {
            double x = left + (sample.uMm() - leftMm) * pxPerMm;
            double y = MAP_TOP + (topMm - sample.vMm()) * pxPerMm;
            FaceClasses.classOf(sample.state(), classes).mark().paint(pen, x, y, side);
        }
    }

    private void drawEdges(double left, double mapWidth, double mapHeight) {
        double middleX = left + mapWidth / 2;
        double middleY = MAP_TOP + mapHeight / 2 + 5;
        pen.words(left - 18, middleY, face.edges().left(), EDGE);
        pen.words(left + mapWidth + 18, middleY, face.edges().right(), EDGE);
        pen.words(middleX, MAP_TOP - 13, face.edges().top(), EDGE);
        pen.words(middleX, MAP_TOP + mapHeight + 22, face.edges().bottom(), EDGE);
    }

    private double drawLegend(double left) {
        double y = MAP_TOP + LEGEND_CELL / 2;
        double total = areaMm2(face.samples());
        pen.words(left + LEGEND_WIDTH, y - 12, "share of area", SMALL.at(TextStyle.Anchor.END));
        y += 12;
        for (FaceClass each : classes) {
            double area = areaMm2(face.samples().stream()
                    .filter(sample -> each.holds().test(sample.state()))
                    .toList());
            pen.fill(left, y - LEGEND_CELL / 2 - 2, LEGEND_CELL + 4, LEGEND_CELL + 4, Palette.WELL);
            each.mark().paint(pen, left + LEGEND_CELL / 2 + 2, y, LEGEND_CELL);
            pen.words(left + LEGEND_CELL + 14, y + 5, each.words(), BODY);
            pen.words(left + LEGEND_WIDTH, y + 5, share(area, total), BODY.at(TextStyle.Anchor.END));
            y += LEGEND_ROW;
        }
        pen.words(left, y + 8, String.format(Locale.ROOT, "whole face %.0f mm²", total), SMALL);
        return y + 8;
    }

    private double drawScaleBar(double left, double y) {
        double lengthMm = roundLengthMm(widthMm / 3);
        double length = lengthMm * pxPerMm;
        Stroke stroke = Stroke.of(Palette.INK, 1.5);
        pen.line(left, y, left + length, y, stroke);
        pen.line(left, y - 5, left, y + 5, stroke);
        pen.line(left + length, y - 5, left + length, y + 5, stroke);
        pen.words(left + length + 10, y + 4, millimetres(lengthMm), SMALL);
        return y + 5;
    }

    /** The greatest length 1, 2 or 5 times a power of ten that is not longer than the given one. */
    static double roundLengthMm(double longestMm) {
        double power = Math.pow(10, Math.floor(Math.log10(longestMm)));
        double length = power;
        for (double digit : ROUND_LENGTHS) {
            if (digit * power <= longestMm * (1 + 1e-9)) {
                length = digit * power;
            }
        }
        return length;
    }

    private static String millimetres(double lengthMm) {
        return lengthMm >= 1
                ? String.format(Locale.ROOT, "%.0f mm", lengthMm)
                : String.format(Locale.ROOT, "%.2f mm", lengthMm);
    }

    private static String share(double areaMm2, double totalMm2) {
        return totalMm2 == 0 ? "no area" : String.format(Locale.ROOT, "%.1f %%", 100 * areaMm2 / totalMm2);
    }

    private static double areaMm2(List<FaceSample> samples) {
        return samples.stream().mapToDouble(FaceSample::areaMm2).sum();
    }

    private double least(ToDoubleFunction<FaceSample> coordinate) {
        return face.samples().stream().mapToDouble(coordinate).min().getAsDouble();
    }

    private double greatest(ToDoubleFunction<FaceSample> coordinate) {
        return face.samples().stream().mapToDouble(coordinate).max().getAsDouble();
    }
}
