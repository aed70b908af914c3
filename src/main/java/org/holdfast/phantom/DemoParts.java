package org.holdfast.phantom;

import java.util.List;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The demo subject's implants as they were put in, in the scene's own space: origin in the middle of the body, x left, y
 * posterior, z cranial, mm. Invented; the sizes are those usual at the thoracolumbar junction.
 */
final class DemoParts {

    static final double BODY_HALF_LEFT_MM = 15;
    static final double BODY_HALF_POSTERIOR_MM = 13;
    static final double BODY_HALF_CRANIAL_MM = 21;
    static final double POROUS_DEPTH_MM = 3;
    static final double POROSITY = 0.70;

    /** Solid titanium; a porous face of it (0.3 · 7000 + 0.7 · 0): common practice of effective media, no source. */
    static final double SOLID_HU = 7500;

    static final double POROUS_HU = 2100;

    /** The measured faces leave out the rim on which the body stands. */
    static final double FACE_HALF_U_MM = 12.5;

    static final double FACE_HALF_V_MM = 10.5;

    static final double ROD_DIAMETER_MM = 5.5;
    static final PatientVector CAUDAL = new PatientVector(0, 0, -1);

    static final FaceFrame CRANIAL_FACE = face(BODY_HALF_CRANIAL_MM, PatientVector.CRANIAL);
    static final FaceFrame CAUDAL_FACE = face(-BODY_HALF_CRANIAL_MM, CAUDAL);

    /** On which side of the spine a part lies. */
    enum Side {
        LEFT(1),
        RIGHT(-1);

        final int sign;

        Side(int sign) {
            this.sign = sign;
        }
    }

    /** The four screws. */
    enum Screw {
        T12_LEFT("screw-t12-left", "T12", Side.LEFT, 37, 5.5),
        T12_RIGHT("screw-t12-right", "T12", Side.RIGHT, 37, 5.5),
        L2_LEFT("screw-l2-left", "L2", Side.LEFT, -35, 6.5),
        L2_RIGHT("screw-l2-right", "L2", Side.RIGHT, -35, 6.5);

        final String id;
        final String bone;
        final Side side;
        final double diameterMm;
        final PatientPoint head;
        final PatientPoint tip;

        Screw(String id, String bone, Side side, double atZ, double diameterMm) {
            this.id = id;
            this.bone = bone;
            this.side = side;
            this.diameterMm = diameterMm;
            this.head = new PatientPoint(21 * side.sign, 39, atZ);
            this.tip = new PatientPoint(9 * side.sign, -5, atZ + 1);
        }

        /** Unit, head → tip. */
        PatientVector direction() {
            return tip.minus(head).unit();
        }

        double lengthMm() {
            return tip.distanceTo(head);
        }
    }

    private DemoParts() {}

    /** Centre line of a rod, from cranial to caudal, with a slight bend. */
    static List<PatientPoint> rodPoints(Side side) {
        return List.of(
                new PatientPoint(21.7 * side.sign, 41.3, 48),
                new PatientPoint(21.7 * side.sign, 42.4, 3),
                new PatientPoint(21.7 * side.sign, 41.3, -46));
    }

    static Box body() {
        return Box.upright(PatientPoint.ORIGIN, BODY_HALF_LEFT_MM, BODY_HALF_POSTERIOR_MM, BODY_HALF_CRANIAL_MM);
    }

    private static FaceFrame face(double z, PatientVector normal) {
        return new FaceFrame(
                new PatientPoint(0, 0, z),
                PatientVector.LEFT,
                PatientVector.POSTERIOR,
                normal,
                FACE_HALF_U_MM,
                FACE_HALF_V_MM);
    }
}
