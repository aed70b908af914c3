package org.holdfast.desktop.state;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.construct.CutAxes;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.volume.Slab;

/**
 * The cut on which a mark was drawn, in the space of its exam. Immutable.
 *
 * @param partId the part that was looked at
 * @param exam index of the exam
 * @param origin a point of the plane
 * @param axes how the cut lies
 * @param slab the layer that was drawn into the picture; empty for the plane alone
 */
public record MarkPlace(String partId, int exam, PatientPoint origin, CutAxes axes, Optional<Slab> slab) {

    /** Cosine of 1°: planes that lean less are the same. */
    private static final double PARALLEL = Math.cos(Math.toRadians(1));

    public MarkPlace {
        Objects.requireNonNull(partId, "partId");
        Objects.requireNonNull(origin, "origin");
        Objects.requireNonNull(axes, "axes");
        Objects.requireNonNull(slab, "slab");
    }

    /**
     * Whether a picture shows the plane of the mark.
     *
     * @param onExam exam of the picture
     * @param point a point of the picture's plane
     * @param other how the picture lies
     * @param withinMm largest distance of the planes
     */
    public boolean isShownBy(int onExam, PatientPoint point, CutAxes other, double withinMm) {
        return onExam == exam
                && Math.abs(axes.normal().dot(other.normal())) >= PARALLEL
                && Math.abs(point.minus(origin).dot(axes.normal())) <= withinMm;
    }

    /** The point of the plane that is nearest to another: a mark stays flat when it is changed on a plane beside its own. */
    public PatientPoint onto(PatientPoint point) {
        return point.along(axes.normal(), -point.minus(origin).dot(axes.normal()));
    }
}
