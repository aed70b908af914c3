package org.holdfast.figure;

import java.util.List;
import java.util.Objects;

/**
 * The samples of one interface on one exam, looked at face on. Immutable.
 *
 * @param title what is shown, in one line
 * @param subtitle exam and result, in one line; may be empty
 * @param spacingMm distance of neighbouring samples, mm, above 0
 * @param samples the samples
 * @param edges words at the four edges
 * @param limits widths at which the classes of gap part
 * @param caution standing text at the foot
 */
public record Face(
        String title,
        String subtitle,
        double spacingMm,
        List<FaceSample> samples,
        Edges edges,
        GapLimits limits,
        String caution) {

    /** What lies beyond each edge of the map, such as R, L, A and P; any may be empty. Immutable. */
    public record Edges(String left, String right, String top, String bottom) {

        public Edges {
            Objects.requireNonNull(left, "left");
            Objects.requireNonNull(right, "right");
            Objects.requireNonNull(top, "top");
            Objects.requireNonNull(bottom, "bottom");
        }
    }

    /**
     * Widths at which the classes of gap part. Immutable.
     *
     * @param narrowMm a gap under this width is narrow, mm, above 0
     * @param wideMm a gap over this width is drawn like missing bone, mm, at least {@code narrowMm}
     */
    public record GapLimits(double narrowMm, double wideMm) {

        /** Under 1.5 mm, 1.5 to 2.5 mm, wider. */
        public static final GapLimits USUAL = new GapLimits(1.5, 2.5);

        public GapLimits {
            if (!(narrowMm > 0 && wideMm >= narrowMm && Double.isFinite(wideMm))) {
                throw new IllegalArgumentException(
                        "gap limits must satisfy 0 < narrow <= wide, got " + narrowMm + ", " + wideMm);
            }
        }
    }

    public Face {
        Objects.requireNonNull(title, "title");
        Objects.requireNonNull(subtitle, "subtitle");
        Objects.requireNonNull(edges, "edges");
        Objects.requireNonNull(limits, "limits");
        Objects.requireNonNull(caution, "caution");
        samples = List.copyOf(samples);
        if (!(spacingMm > 0 && Double.isFinite(spacingMm))) {
            throw new IllegalArgumentException("spacingMm must be above 0, got " + spacingMm);
        }
        if (samples.isEmpty()) {
            throw new IllegalArgumentException("a face needs at least one sample");
        }
    }
}
