package org.holdfast.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Join;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;

/**
 * Where other parts of the construct meet a rod or screw, by the construct alone: heads, connectors, caps, crossing parts.
 * All places are in patient space of the reference exam. Immutable.
 */
final class KnownJoints {

    /** Parts laid out no further than this from each other touch, mm: the error of a layout by hand. */
    private static final double TOUCH_MM = 0.3;
    /** A place so near to another part's surface is taken for that part, mm. */
    private static final double FOREIGN_MARGIN_MM = 0.3;

    private static final int RIM_POINTS = 12;

    private final double radiusMm;
    private final double reachMm;
    private final List<PartJoint> joints = new ArrayList<>();
    private final List<Component> others;

    /** One meeting: its name, and how far a place lies from it. */
    private record PartJoint(String name, Reach reach) {}

    private interface Reach {
        /** Distance from the meeting part (its head, or its surface less this part's radius), mm. */
        double distanceMm(PatientPoint p);
    }

    KnownJoints(Construct construct, Component part, double radiusMm, ContinuitySettings settings) {
        this.radiusMm = radiusMm;
        this.reachMm = settings.jointReachMm();
        this.others = construct.components().stream()
                .filter(c -> !c.id().equals(part.id()) && c.material().hasMetalEdge())
                .toList();
        if (part.shape() instanceof ScrewShape own) {
            joints.add(new PartJoint("its own head", own.head()::distanceTo));
        }
        for (Join join : construct.joins()) {
            otherOf(join, part.id()).ifPresent(id -> add(construct.component(id)));
        }
    }

    private static Optional<String> otherOf(Join join, String id) {
        return join.from().equals(id)
                ? Optional.of(join.to())
                : join.to().equals(id) ? Optional.of(join.from()) : Optional.empty();
    }

    private void add(Component other) {
        if (other.shape() instanceof ScrewShape screw) {
            joints.add(new PartJoint("the head of " + other.label(), screw.head()::distanceTo));
        }
        if (other.shape().hasDistance()) {
            joints.add(new PartJoint(other.label(), p -> other.shape().signedDistanceMm(p) - radiusMm));
        } else {
            // A mesh's place is only in its file: metal anywhere beside this part may be it.
            joints.add(new PartJoint(other.label(), p -> 0));
        }
    }

    /** The nearest known joint that could explain metal beside the part at a place. */
    Optional<String> near(PatientPoint p) {
        String nearest = null;
        double best = reachMm;
        for (PartJoint joint : joints) {
            double distance = joint.reach().distanceMm(p);
            if (distance <= best) {
                best = distance;
                nearest = joint.name();
            }
        }
        return Optional.ofNullable(nearest);
    }

    /** A part of the construct, joined or not, that is laid out across this part's cross-section or against its rim. */
    Optional<String> touching(PartAxis.Station laidOut) {
        return others.stream()
                .filter(c -> c.shape().hasDistance())
                .filter(c -> c.shape().signedDistanceMm(laidOut.point()) <= radiusMm + TOUCH_MM)
                .filter(c -> reaches(c, laidOut))
                .map(Component::label)
                .findFirst();
    }

    private boolean reaches(Component other, PartAxis.Station laidOut) {
        if (other.shape().signedDistanceMm(laidOut.point()) <= 0) {
            return true;
        }
        for (int n = 0; n < RIM_POINTS; n++) {
            double angle = 2 * Math.PI * n / RIM_POINTS;
            PatientPoint rim = laidOut.across(radiusMm * Math.cos(angle), radiusMm * Math.sin(angle));
            if (other.shape().signedDistanceMm(rim) <= TOUCH_MM) {
                return true;
            }
        }
        return false;
    }

    /** Places round a station that lie in another laid-out part. */
    CrossSection.Foreign foreignAt(PartAxis.Station laidOut, double reachMm) {
        List<Component> near = others.stream()
                .filter(c -> c.shape().hasDistance())
                .filter(c -> c.shape().signedDistanceMm(laidOut.point()) <= reachMm)
                .toList();
        if (near.isEmpty()) {
            return CrossSection.Foreign.NONE;
        }
        return (u, v) -> {
            PatientPoint p = laidOut.across(u, v);
            return near.stream().anyMatch(c -> c.shape().signedDistanceMm(p) <= FOREIGN_MARGIN_MM);
        };
    }
}
