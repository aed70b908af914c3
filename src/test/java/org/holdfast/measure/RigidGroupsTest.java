package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.RodShape;
import org.holdfast.construct.ScrewShape;
import org.holdfast.construct.Shape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.phantom.SpineScene;
import org.holdfast.registration.SurfacePoints;
import org.junit.jupiter.api.Test;

/** Groups of parts with surfaces and poses made by hand: no scan. */
class RigidGroupsTest {

    /** Rounding of a solution that is iterated four times, mm. */
    private static final double ROUNDING_MM = 1e-3;

    private static final Construct CONSTRUCT = SpineScene.construct(RigidTransform.IDENTITY);
    private static final Set<String> UPPER = Set.of("screw-t12-left", "screw-t12-right");
    private static final RigidTransform SHIFT = RigidTransform.rotation(
                    PatientVector.LEFT, 5, new PatientPoint(0, 10, 36))
            .then(RigidTransform.translation(new PatientVector(1, 2, 2)));

    @Test
    void partsThatStayedAreOneGroup() {
        List<RigidGroups.Group> groups = groups(part -> RigidTransform.IDENTITY);
        assertEquals(1, groups.size());
        assertEquals(7, groups.get(0).ids().size());
    }

    @Test
    void aShiftedVertebrasScrewsAreAGroupOfTheirOwn() {
        List<RigidGroups.Group> groups = groups(part -> UPPER.contains(part.id()) ? SHIFT : RigidTransform.IDENTITY);
        RigidGroups.Group upper = groups.stream()
                .filter(group -> group.ids().equals(UPPER))
                .findFirst()
                .orElseThrow();
        PatientPoint p = new PatientPoint(10, 5, 37);
        // By hand: both screws moved by the same motion, so that is the group's.
        assertEquals(0, SHIFT.apply(p).distanceTo(upper.pose().apply(p)), ROUNDING_MM);
        assertEquals(2, groups.size());
    }

    @Test
    void aMotionUnderTheirErrorDoesNotSplitParts() {
        RigidTransform little = RigidTransform.translation(new PatientVector(0, 0.1, 0));
        assertEquals(
                1,
                groups(part -> part.id().equals("screw-l2-left") ? little : RigidTransform.IDENTITY)
                        .size());
        RigidTransform more = RigidTransform.translation(new PatientVector(0, 0, 1));
        assertEquals(
                2,
                groups(part -> part.id().equals("screw-l2-left") ? more : RigidTransform.IDENTITY)
                        .size());
    }

    @Test
    void aSpinThatNobodySeesDoesNotSplitParts() {
        List<RigidGroups.Group> groups = groups(part -> part.shape() instanceof ScrewShape screw
                ? RigidTransform.rotation(screw.direction(), 4, screw.head())
                : RigidTransform.IDENTITY);
        assertEquals(1, groups.size());
        // By hand: the rods and the body did not turn, and the screws' surfaces look the same.
        assertTrue(groups.get(0).pose().rotationAngleDeg() < 0.05);
    }

    @Test
    void aPartThatNothingLinksStaysAlone() {
        Construct loose = new Construct(
                CONSTRUCT.id(),
                CONSTRUCT.version(),
                CONSTRUCT.operationDate(),
                CONSTRUCT.referenceSeriesUid(),
                CONSTRUCT.frameOfReferenceUid(),
                CONSTRUCT.axes(),
                CONSTRUCT.bones(),
                CONSTRUCT.components(),
                List.of(),
                List.of());
        List<RigidGroups.Group> groups =
                RigidGroups.of(loose, own(part -> RigidTransform.IDENTITY), RigidTransform.IDENTITY);
        // By hand: without joins and faces only the two screws of each bone are linked; body and rods stand alone.
        assertEquals(5, groups.size());
    }

    private interface Pose {
        RigidTransform of(Component part);
    }

    private static List<RigidGroups.Group> groups(Pose pose) {
        return RigidGroups.of(CONSTRUCT, own(pose), RigidTransform.IDENTITY);
    }

    private static List<RigidGroups.Own> own(Pose pose) {
        return CONSTRUCT.components().stream()
                .map(part -> new RigidGroups.Own(part.id(), surface(part.shape()), pose.of(part)))
                .toList();
    }

    /** Points on the sides of a screw, rod or box. */
    private static SurfacePoints surface(Shape shape) {
        List<PatientPoint> points = new ArrayList<>();
        List<PatientVector> normals = new ArrayList<>();
        if (shape instanceof ScrewShape screw) {
            around(screw.head(), screw.tip(), 0.5 * screw.diameterMm(), points, normals);
            points.add(screw.tip());
            normals.add(screw.direction());
            points.add(screw.head());
            normals.add(screw.direction().times(-1));
        } else if (shape instanceof RodShape rod) {
            List<PatientPoint> line = rod.points();
            around(line.get(0), line.get(1), 0.5 * rod.diameterMm(), points, normals);
            around(line.get(1), line.get(2), 0.5 * rod.diameterMm(), points, normals);
        } else {
            for (PatientVector n : List.of(PatientVector.LEFT, PatientVector.POSTERIOR, PatientVector.CRANIAL)) {
                PatientVector u = n.anyPerpendicular();
                for (int k = 0; k < 40; k++) {
                    double side = k % 2 == 0 ? 12 : -12;
                    PatientPoint p = PatientPoint.ORIGIN
                            .along(n, side)
                            .along(u, 0.5 * k - 10)
                            .along(n.cross(u), (7 * k) % 20 - 10);
                    points.add(p);
                    normals.add(n.times(Math.signum(side)));
                }
            }
        }
        return SurfacePoints.of(points, normals, 1);
    }

    private static void around(
            PatientPoint from,
            PatientPoint to,
            double radiusMm,
            List<PatientPoint> points,
            List<PatientVector> normals) {
        PatientVector axis = to.minus(from).unit();
        PatientVector u = axis.anyPerpendicular();
        PatientVector v = axis.cross(u);
        for (int k = 0; k < 160; k++) {
            double angle = 2.4 * k;
            PatientVector out = u.times(Math.cos(angle)).plus(v.times(Math.sin(angle)));
            points.add(from.towards(to, (k + 0.5) / 160).along(out, radiusMm));
            normals.add(out);
        }
    }
}
