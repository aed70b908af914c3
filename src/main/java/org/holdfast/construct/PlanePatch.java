package org.holdfast.construct;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * A flat rectangle or ellipse. The map coordinates (u, v) are mm from the centre along {@code u} and {@code v}.
 *
 * @param outline rectangle or ellipse
 * @param centre its centre, mm
 * @param u direction of the first half-width; unit within 1e-3
 * @param v direction of the second half-width; unit, and at right angles to u, within 1e-3
 * @param normal direction from implant to bone; unit, and at right angles to u and v, within 1e-3; may be ± u × v
 * @param halfUMm half-width along u, mm
 * @param halfVMm half-width along v, mm
 */
public record PlanePatch(
        Outline outline,
        PatientPoint centre,
        PatientVector u,
        PatientVector v,
        PatientVector normal,
        double halfUMm,
        double halfVMm)
        implements Patch {

    /** The outline of a flat patch. */
    public enum Outline implements Worded {
        RECTANGLE("rectangle"),
        ELLIPSE("ellipse");

        private final String word;

        Outline(String word) {
            this.word = word;
        }

        @Override
        public String word() {
            return word;
        }
    }

    public PlanePatch {
        Objects.requireNonNull(outline, "shape");
        Objects.requireNonNull(centre, "centreMm");
        Rule.unit("u", u);
        Rule.unit("v", v);
        Rule.unit("normal", normal);
        Rule.perpendicular("v", v, "u", u);
        Rule.perpendicular("normal", normal, "u", u);
        Rule.perpendicular("normal", normal, "v", v);
        Rule.positive("halfUMm", halfUMm);
        Rule.positive("halfVMm", halfVMm);
    }

    /** 4·halfU·halfV, or π·halfU·halfV. */
    @Override
    public double areaMm2() {
        return (outline == Outline.RECTANGLE ? 4 : Math.PI) * halfUMm * halfVMm;
    }

    /** Rows of constant v, ascending; in a row u ascends. */
    @Override
    public List<PatchSample> samples(double spacingMm) {
        EqualAreaRows.requireFewEnough(areaMm2(), spacingMm);
        Cells cells = new Cells(this);
        if (outline == Outline.RECTANGLE) {
            rectangle(cells, spacingMm);
        } else {
            ellipse(cells, spacingMm);
        }
        return cells.finished();
    }

    private void rectangle(Cells cells, double spacingMm) {
        int along = EqualAreaRows.pieces(2 * halfUMm, spacingMm);
        int rows = EqualAreaRows.pieces(2 * halfVMm, spacingMm);
        for (int row = 0; row < rows; row++) {
            for (int n = 0; n < along; n++) {
                cells.add(halfUMm * middle(n, along), halfVMm * middle(row, rows));
            }
        }
    }

    /**
     * Strips of constant v; within a strip the lines u = f·w(v), w the half-width of the ellipse, cut equal areas for
     * equally spaced f because (f, v) ↦ (f·w(v), v) has the Jacobian w(v).
     */
    private void ellipse(Cells cells, double spacingMm) {
        EqualAreaRows strips = new EqualAreaRows(
                EqualAreaRows.pieces(2 * halfVMm, spacingMm),
                EqualAreaRows.cells(areaMm2(), spacingMm),
                s -> shareOfDiscBelow(2 * s - 1));
        for (int row = 0; row < strips.rows(); row++) {
            double y = heightWithShareBelow(strips.middleShare(row));
            double halfWidth = Math.sqrt(1 - y * y);
            int along = strips.cellsInRow(row);
            for (int n = 0; n < along; n++) {
                cells.add(halfUMm * halfWidth * middle(n, along), halfVMm * y);
            }
        }
    }

    /** Middle of piece n of so many equal pieces of [−1, 1]. */
    private static double middle(int n, int pieces) {
        return (2.0 * n + 1) / pieces - 1;
    }

    /** Share of the unit disc below height y in [−1, 1]. */
    private static double shareOfDiscBelow(double y) {
        return 0.5 + (y * Math.sqrt(Math.max(0, 1 - y * y)) + Math.asin(y)) / Math.PI;
    }

    /** The inverse of {@link #shareOfDiscBelow}, by bisection to the last bit that matters. */
    private static double heightWithShareBelow(double share) {
        double low = -1;
        double high = 1;
        for (int step = 0; step < 60; step++) {
            double middle = 0.5 * (low + high);
            if (shareOfDiscBelow(middle) < share) {
                low = middle;
            } else {
                high = middle;
            }
        }
        return 0.5 * (low + high);
    }

    /** Gathers places on the map; areas are shared out equally at the end. */
    private static final class Cells {
        private final PlanePatch patch;
        private final PatientVector unitNormal;
        private final PatientVector unitU;
        private final PatientVector unitV;
        private final List<double[]> places = new ArrayList<>();

        Cells(PlanePatch patch) {
            this.patch = patch;
            this.unitNormal = patch.normal.unit();
            this.unitU =
                    patch.u.minus(unitNormal.times(patch.u.dot(unitNormal))).unit();
            PatientVector across = unitNormal.cross(unitU);
            this.unitV = across.dot(patch.v) > 0 ? across : across.times(-1);
        }

        void add(double uMm, double vMm) {
            places.add(new double[] {uMm, vMm});
        }

        List<PatchSample> finished() {
            double area = patch.areaMm2() / places.size();
            return places.stream()
                    .map(at -> new PatchSample(
                            patch.centre.along(unitU, at[0]).along(unitV, at[1]), unitNormal, area, at[0], at[1]))
                    .toList();
        }
    }
}
