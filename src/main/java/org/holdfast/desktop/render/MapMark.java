package org.holdfast.desktop.render;

/** Paints the mark of a class into a cell of a map. Stateless. */
final class MapMark {

    /**
     * From this cell side on, pixels, marks lie on whole pixels with a sliver of ground between. Smaller cells are painted
     * by coverage, without signs, and one hatch runs through neighbours: a sign would darken what must be the lightest
     * class.
     */
    private static final double CRISP = 6;
    /** A sign's reach from the middle and its stroke, shares of the mark's smaller side. */
    private static final double REACH = 0.35;

    private static final double STROKE = 0.12;

    private MapMark() {}

    /** Paints a mark into the cell around a middle. */
    static void paint(Raster raster, MapClass mapClass, double x, double y, double width, double height) {
        if (Math.min(width, height) < CRISP) {
            small(raster, mapClass, x, y, width * mapClass.share() / 2, height * mapClass.share() / 2);
            return;
        }
        double edgeX = edge(width, mapClass.share());
        double edgeY = edge(height, mapClass.share());
        double left = Math.rint(x - edgeX / 2);
        double top = Math.rint(y - edgeY / 2);
        raster.rectangle(left, top, left + edgeX, top + edgeY, mapClass.colour());
        sign(raster, mapClass.sign(), left + edgeX / 2, top + edgeY / 2, Math.min(edgeX, edgeY));
    }

    private static double edge(double side, double share) {
        double full = Math.floor(side) - Math.max(1, Math.rint(0.08 * side));
        return Math.max(1, Math.rint(share * full));
    }

    private static void small(Raster raster, MapClass mapClass, double x, double y, double halfX, double halfY) {
        raster.tile(x - halfX, y - halfY, x + halfX, y + halfY, mapClass.colour());
        if (mapClass.sign() == MapClass.Sign.STROKE) {
            raster.hatch(x - halfX, y - halfY, x + halfX, y + halfY, MapClass.STROKE);
        }
    }

    private static void sign(Raster raster, MapClass.Sign sign, double x, double y, double edge) {
        double reach = REACH * edge;
        double stroke = Math.max(1, STROKE * edge);
        switch (sign) {
            case NONE -> {
                // The mark's size tells it.
            }
            case DOT -> raster.disc(x, y, 0.2 * edge, MapClass.WELL);
            case STROKE -> raster.line(x - reach, y + reach, x + reach, y - reach, stroke, MapClass.STROKE);
            case MINUS -> raster.line(x - reach, y, x + reach, y, stroke, MapClass.WELL);
            case PLUS -> {
                raster.line(x - reach, y, x + reach, y, stroke, MapClass.WELL);
                raster.line(x, y - reach, x, y + reach, stroke, MapClass.WELL);
            }
        }
    }
}
