package org.holdfast.measure;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.CholeskyDecomposition;
import org.hipparchus.linear.RealVector;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Join;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;
import org.holdfast.registration.SurfacePoints;

/**
 * Which parts moved as one. Two groups of parts are one where a join or a common bone links them and a single motion puts
 * the surface of every part of both where the part's own pose has it, within 0.2 mm root mean square along the normals.
 * Only what the surfaces show is compared, so a smooth screw that could spin unseen neither joins nor splits a group.
 */
final class RigidGroups {

    /**
     * Parts agree within this, mm: some three times what a part's own pose errs by, and under what a loose joint slips.
     * A smaller motion still shows as the part's own.
     */
    static final double AGREES_MM = 0.2;

    private static final int POINTS = 150;
    private static final int ROUNDS = 4;
    private static final double LEVER_MM = 30;
    /** Keeps a motion that no surface shows at zero without moving the others. */
    private static final double RIDGE = 1e-5;

    /**
     * A part as it was found by itself.
     *
     * @param id id of the component
     * @param samples its surface on the reference exam
     * @param pose where the part by itself lies
     */
    record Own(String id, SurfacePoints samples, RigidTransform pose) {}

    /**
     * Parts that moved as one.
     *
     * @param parts the parts, in the construct's order
     * @param pose the motion of all
     */
    record Group(List<Own> parts, RigidTransform pose) {

        Set<String> ids() {
            Set<String> ids = new LinkedHashSet<>();
            parts.forEach(part -> ids.add(part.id()));
            return ids;
        }
    }

    private final Construct construct;
    private final RigidTransform constructPose;

    private RigidGroups(Construct construct, RigidTransform constructPose) {
        this.construct = construct;
        this.constructPose = constructPose;
    }

    /**
     * Groups the parts.
     *
     * @param parts those that were found, in the construct's order
     * @param constructPose pose of all metal, which tells what no surface shows
     */
    static List<Group> of(Construct construct, List<Own> parts, RigidTransform constructPose) {
        RigidGroups groups = new RigidGroups(construct, constructPose);
        List<Group> found = new ArrayList<>();
        parts.forEach(part -> found.add(new Group(List.of(part), part.pose())));
        boolean isMerged = true;
        while (isMerged) {
            isMerged = groups.mergeOne(found);
        }
        return List.copyOf(found);
    }

    private boolean mergeOne(List<Group> found) {
        for (int a = 0; a < found.size(); a++) {
            for (int b = a + 1; b < found.size(); b++) {
                if (isLinked(found.get(a), found.get(b))) {
                    Group both = together(found.get(a), found.get(b));
                    if (worstMm(both) <= AGREES_MM) {
                        found.set(a, both);
                        found.remove(b);
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private boolean isLinked(Group a, Group b) {
        for (Join join : construct.joins()) {
            if (a.ids().contains(join.from()) && b.ids().contains(join.to())
                    || b.ids().contains(join.from()) && a.ids().contains(join.to())) {
                return true;
            }
        }
        Set<String> shared = bones(a);
        shared.retainAll(bones(b));
        return !shared.isEmpty();
    }

    private Set<String> bones(Group group) {
        Set<String> bones = new LinkedHashSet<>();
        for (String id : group.ids()) {
            Component part = construct.component(id);
            if (part.shape() instanceof ScrewShape screw) {
                bones.add(screw.bone());
            }
            for (BoneInterface face : construct.interfaces()) {
                if (face.component().equals(id)) {
                    bones.add(face.bone());
                }
            }
        }
        return bones;
    }

    private Group together(Group a, Group b) {
        Map<String, Own> byId = new HashMap<>();
        a.parts().forEach(part -> byId.put(part.id(), part));
        b.parts().forEach(part -> byId.put(part.id(), part));
        List<Own> parts = construct.components().stream()
                .map(part -> byId.get(part.id()))
                .filter(part -> part != null)
                .toList();
        return new Group(parts, joint(parts));
    }

    /** The one motion that puts all surfaces nearest to where the parts' own poses have them. */
    private RigidTransform joint(List<Own> parts) {
        RigidTransform pose = constructPose;
        for (int round = 0; round < ROUNDS; round++) {
            pose = pose.then(step(parts, pose));
        }
        return pose;
    }

    private static RigidTransform step(List<Own> parts, RigidTransform pose) {
        PatientPoint centre = centre(parts, pose);
        double[][] normal = new double[6][6];
        double[] right = new double[6];
        double count = 0;
        for (Own part : parts) {
            for (int n : chosen(part)) {
                PatientPoint at = pose.apply(part.samples().point(n));
                PatientVector out = pose.apply(part.samples().normal(n));
                double way =
                        part.pose().apply(part.samples().point(n)).minus(at).dot(out);
                PatientVector turn = at.minus(centre).times(1 / LEVER_MM).cross(out);
                double[] row = {out.x(), out.y(), out.z(), turn.x(), turn.y(), turn.z()};
                for (int a = 0; a < 6; a++) {
                    right[a] += row[a] * way;
                    for (int b = 0; b < 6; b++) {
                        normal[a][b] += row[a] * row[b];
                    }
                }
                count++;
            }
        }
        for (int a = 0; a < 6; a++) {
            normal[a][a] += RIDGE * count;
        }
        RealVector x = new CholeskyDecomposition(new Array2DRowRealMatrix(normal))
                .getSolver()
                .solve(new ArrayRealVector(right));
        PatientVector turn = new PatientVector(x.getEntry(3), x.getEntry(4), x.getEntry(5)).times(1 / LEVER_MM);
        RigidTransform turned = turn.norm() < 1e-12
                ? RigidTransform.IDENTITY
                : RigidTransform.rotation(turn, Math.toDegrees(turn.norm()), centre);
        return turned.then(RigidTransform.translation(new PatientVector(x.getEntry(0), x.getEntry(1), x.getEntry(2))));
    }

    private static PatientPoint centre(List<Own> parts, RigidTransform pose) {
        PatientVector sum = new PatientVector(0, 0, 0);
        for (Own part : parts) {
            sum = sum.plus(pose.apply(part.samples().centroid()).minus(PatientPoint.ORIGIN));
        }
        return PatientPoint.ORIGIN.plus(sum.times(1.0 / parts.size()));
    }

    /** The worst of the parts' root mean square distances along the normals, mm. */
    private static double worstMm(Group group) {
        double worst = 0;
        for (Own part : group.parts()) {
            double sum = 0;
            int[] chosen = chosen(part);
            for (int n : chosen) {
                PatientPoint at = group.pose().apply(part.samples().point(n));
                PatientVector out = group.pose().apply(part.samples().normal(n));
                double way =
                        part.pose().apply(part.samples().point(n)).minus(at).dot(out);
                sum += way * way;
            }
            worst = Math.max(worst, Math.sqrt(sum / chosen.length));
        }
        return worst;
    }

    private static int[] chosen(Own part) {
        int size = part.samples().size();
        int count = Math.min(POINTS, size);
        int[] chosen = new int[count];
        for (int n = 0; n < count; n++) {
            chosen[n] = (int) ((long) n * size / count);
        }
        return chosen;
    }
}
