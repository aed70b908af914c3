package org.holdfast.registration;

import java.util.ArrayList;
import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/** Rotations spread over all axes and angles up to a largest one. */
final class TurnLattice {

    private TurnLattice() {}

    /**
     * Rotations about the origin whose rotation vectors lie on a cubic lattice; no rotation comes first.
     *
     * @param largestDeg largest angle, ≥ 0
     * @param stepDeg lattice spacing, &gt; 0
     */
    static List<RigidTransform> upTo(double largestDeg, double stepDeg) {
        List<RigidTransform> turns = new ArrayList<>(List.of(RigidTransform.IDENTITY));
        int steps = (int) Math.floor(largestDeg / stepDeg + 1e-9);
        for (int a = -steps; a <= steps; a++) {
            for (int b = -steps; b <= steps; b++) {
                for (int c = -steps; c <= steps; c++) {
                    PatientVector turn = new PatientVector(a, b, c).times(stepDeg);
                    double angle = turn.norm();
                    if (angle > 0 && angle <= largestDeg + 1e-9) {
                        turns.add(RigidTransform.rotation(turn, angle, PatientPoint.ORIGIN));
                    }
                }
            }
        }
        return turns;
    }
}
