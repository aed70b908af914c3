package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.QRDecomposition;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * Width and tilt of the gap between two ends that face each other. HU are read in columns along the part over its
 * cross-section. Along each column the missing metal, ∫ (1 − (h − h_gap) / (h_metal − h_gap)) ds, is the gap's width
 * whatever the blur; its middle lies on the cut, so a plane through the middles gives the cut's tilt.
 */
final class BreakGap {

    /** Step along a column, mm. */
    private static final double STEP_MM = 0.1;
    /** Distance of columns, mm. */
    private static final double COLUMN_MM = 0.3;
    /** Columns that are read where the part runs on for little only. */
    private static final double INNER_OF_RADIUS = 0.25;
    /** The metal on both sides of the gap is read over this length at a column's ends, mm. */
    private static final double PLATEAU_MM = 1;
    /** The least length of a column on each side, mm. */
    private static final double LEAST_REACH_MM = 2.5;
    /** Middles that lie off one plane by more than this (root mean square) are no plane cut, mm. */
    private static final double PLANE_MM = 0.35;
    /** Missing metal under this share of a whole gap is noise when the middle is taken. */
    private static final double MISSING_AT_LEAST = 0.04;

    private final ExamScan exam;
    private final PartTrack track;
    private final double metalHu;
    private final MeasurementSettings settings;

    BreakGap(ExamScan exam, PartTrack track, double metalHu, MeasurementSettings settings) {
        this.exam = exam;
        this.track = track;
        this.metalHu = metalHu;
        this.settings = settings;
    }

    /** Width along the part's axis and perpendicular to the cut. */
    record Width(Stated alongMm, Stated perpendicularMm) {
        static Width not(String why) {
            return new Width(Stated.not(why), Stated.not(why));
        }
    }

    /** One column: place across, missing metal along it, its middle; NaN where the image does not reach. */
    private record Column(double u, double v, double missingMm, double middleMm) {}

    /** The same place with its frame at right angles to the direction. */
    static PartAxis.Station upright(PartAxis.Station s) {
        PatientVector u = s.u().minus(s.along().times(s.u().dot(s.along()))).unit();
        return new PartAxis.Station(s.atMm(), s.point(), s.along(), u, s.along().cross(u));
    }

    /**
     * @param middle the break's middle with the mean direction of both ends
     * @param stepMm how far the ends have stepped aside
     * @param reachBeforeMm how far the part runs on before the break; inside a joint its innermost core still does
     * @param reachAfterMm the same after it
     * @param freeMm how far it runs on to both sides without a joint: the tilt needs columns near the surface
     */
    Width measure(PartAxis.Station middle, double stepMm, double reachBeforeMm, double reachAfterMm, double freeMm) {
        if (Math.min(reachBeforeMm, reachAfterMm) < LEAST_REACH_MM) {
            return Width.not("the part's end, or that of the image, lies too near");
        }
        double radius = track.axis().radiusMm();
        double full = track.axis().coreOfRadius() * radius - 0.5 * stepMm;
        boolean wide = full > INNER_OF_RADIUS * radius && freeMm > radius + LEAST_REACH_MM;
        double within = wide ? full : INNER_OF_RADIUS * radius;
        List<Column> columns = columns(middle, within, reachBeforeMm, reachAfterMm);
        if (columns.isEmpty()) {
            return Width.not("the image does not reach round the break");
        }
        double missing =
                columns.stream().mapToDouble(Column::missingMm).average().orElseThrow();
        double slope = wide ? slope(columns) : Double.NaN;
        double cosine = Double.isNaN(slope) ? 1 : 1 / Math.sqrt(1 + slope * slope);
        double along = track.isClipped() ? unclipped(missing, cosine, middle.along()) : Math.max(0, missing);
        Stated perpendicular = !wide
                ? Stated.not("too little of the part without a joint, or too large a step, to see the cut's tilt")
                : Stated.ofOrNot(along * cosine, "the break is no plane cut");
        return new Width(
                Stated.of(along),
                Double.isNaN(slope) && wide ? Stated.not("the break is no plane cut") : perpendicular);
    }

    private double unclipped(double missingMm, double cosine, PatientVector along) {
        double sigma = exam.pointSpread().sigmaAlongMm(along, exam.volume().grid());
        return GapModel.gapOfClippedIntegralMm(
                        missingMm * cosine, sigma, metalHu, settings.fluidHu(), track.plateauHu())
                / cosine;
    }

    private List<Column> columns(PartAxis.Station middle, double within, double before, double after) {
        List<Column> columns = new ArrayList<>();
        int side = (int) Math.floor(within / COLUMN_MM);
        for (int a = -side; a <= side; a++) {
            for (int b = -side; b <= side; b++) {
                if (Math.hypot(a, b) * COLUMN_MM <= within) {
                    Column column = column(middle, a * COLUMN_MM, b * COLUMN_MM, before, after);
                    if (!Double.isNaN(column.missingMm())) {
                        columns.add(column);
                    }
                }
            }
        }
        return columns;
    }

    private Column column(PartAxis.Station middle, double u, double v, double before, double after) {
        int steps = (int) Math.round((before + after) / STEP_MM);
        double[] hu = new double[steps + 1];
        for (int n = 0; n <= steps; n++) {
            PatientPoint p = middle.across(u, v).along(middle.along(), n * STEP_MM - before);
            hu[n] = exam.volume().sample(p.x(), p.y(), p.z());
        }
        double metalBefore = plateau(hu, 0);
        double metalAfter = plateau(hu, hu.length - (int) Math.round(PLATEAU_MM / STEP_MM));
        double sum = 0;
        double weights = 0;
        double moment = 0;
        for (int n = 0; n <= steps; n++) {
            double metal = metalBefore + (metalAfter - metalBefore) * n / steps;
            double missing = (metal - hu[n]) / (metal - settings.fluidHu());
            sum += missing * STEP_MM;
            double weight = missing > MISSING_AT_LEAST ? missing : 0;
            weights += weight;
            moment += weight * (n * STEP_MM - before);
        }
        return new Column(u, v, sum, weights > 0 ? moment / weights : Double.NaN);
    }

    private double plateau(double[] hu, int from) {
        if (track.isClipped()) {
            return track.plateauHu();
        }
        int count = (int) Math.round(PLATEAU_MM / STEP_MM);
        return Quantiles.median(java.util.Arrays.copyOfRange(hu, from, from + count));
    }

    /** Slope of the plane through the columns' middles, mm a mm; NaN where they lie on none. */
    private static double slope(List<Column> all) {
        List<Column> columns =
                all.stream().filter(c -> !Double.isNaN(c.middleMm())).toList();
        if (columns.size() < 6 || 2 * columns.size() < all.size()) {
            return Double.NaN;
        }
        double[][] rows =
                columns.stream().map(c -> new double[] {1, c.u(), c.v()}).toArray(double[][]::new);
        double[] middles = columns.stream().mapToDouble(Column::middleMm).toArray();
        double[] plane = new QRDecomposition(new Array2DRowRealMatrix(rows, false))
                .getSolver()
                .solve(new ArrayRealVector(middles, false))
                .toArray();
        double squares = 0;
        for (int n = 0; n < middles.length; n++) {
            double off = middles[n] - plane[0] - plane[1] * rows[n][1] - plane[2] * rows[n][2];
            squares += off * off;
        }
        return Math.sqrt(squares / middles.length) > PLANE_MM ? Double.NaN : Math.hypot(plane[1], plane[2]);
    }
}
