package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * A flat face of an implant and its own coordinates: u and v in the face, t along the normal.
 *
 * @param centre centre of the face
 * @param u unit direction in the face
 * @param v unit direction in the face, at right angles to u
 * @param normal unit normal, implant → bone
 * @param halfUMm half the face's extent along u, mm, &gt; 0
 * @param halfVMm half the face's extent along v, mm, &gt; 0
 */
public record FaceFrame(
        PatientPoint centre, PatientVector u, PatientVector v, PatientVector normal, double halfUMm, double halfVMm) {

    public FaceFrame {
        Require.orthonormal(u, v, normal);
        Require.positive(halfUMm, "halfUMm");
        Require.positive(halfVMm, "halfVMm");
    }

    /** The point at (u, v) on the face, mm from its centre, raised by t mm along the normal. */
    public PatientPoint point(double uMm, double vMm, double tMm) {
        return centre.along(u, uMm).along(v, vMm).along(normal, tMm);
    }

    /** Area of the face, mm². */
    public double areaMm2() {
        return 4 * halfUMm * halfVMm;
    }

    /** The face in another place. */
    public FaceFrame moved(RigidTransform hereToThere) {
        return new FaceFrame(
                hereToThere.apply(centre),
                hereToThere.apply(u),
                hereToThere.apply(v),
                hereToThere.apply(normal),
                halfUMm,
                halfVMm);
    }
}
