package org.holdfast.phantom;

import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/** Simple vertebrae in the demo subject's space: an elliptic body, two pedicles along the screws' track, an arch. */
final class Vertebra {

    static final double CORTEX_MM = 0.9;
    static final double CORTEX_HU = 600;
    static final double TRABECULAR_HU = 210;
    static final double SEMI_LEFT_MM = 22.5;
    static final double SEMI_POSTERIOR_MM = 16;

    private Vertebra() {}

    /** A whole vertebra whose body reaches from one height to another. */
    static Solid whole(double lowZ, double highZ, double pedicleZ, double pedicleRadiusMm) {
        Solid solid = body(lowZ, highZ, 0);
        for (int side : new int[] {1, -1}) {
            solid = solid.or(new RoundRod(
                            List.of(
                                    new PatientPoint(12.5 * side, 8, pedicleZ),
                                    new PatientPoint(18.8 * side, 31, pedicleZ)),
                            pedicleRadiusMm))
                    .or(new RoundRod(
                            List.of(
                                    new PatientPoint(20 * side, 30, pedicleZ),
                                    new PatientPoint(40 * side, 36, pedicleZ)),
                            3.5));
        }
        return solid.or(arch(pedicleZ));
    }

    /** The body alone, its mantle and ends grown by some mm (negative: shrunk). */
    static EllipseCylinder body(double lowZ, double highZ, double grownMm) {
        return new EllipseCylinder(
                new PatientPoint(0, 0, 0.5 * (lowZ + highZ)),
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                PatientVector.CRANIAL,
                SEMI_LEFT_MM + grownMm,
                SEMI_POSTERIOR_MM + grownMm,
                0.5 * (highZ - lowZ) + grownMm);
    }

    /** Laminae and spinous process at the height of the pedicles. */
    static Solid arch(double z) {
        Solid laminae = new RoundRod(
                List.of(
                        new PatientPoint(17, 33, z - 4),
                        new PatientPoint(0, 45, z - 8),
                        new PatientPoint(-17, 33, z - 4)),
                4);
        return laminae.or(Box.upright(new PatientPoint(0, 57, z - 10), 3.5, 13, 8));
    }

    static Body bone(String name, Solid solid) {
        return Body.shelled(name, solid, CORTEX_MM, CORTEX_HU, TRABECULAR_HU);
    }
}
