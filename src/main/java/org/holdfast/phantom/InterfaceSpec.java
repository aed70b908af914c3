package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * What a scene with one interface is made of. HU: the porous face averages near 2100 HU as an effective medium of about
 * 70 % porosity in titanium that would read 7000 to 8000 HU solid (the arithmetic: 0.3 · 7000 + 0.7 · 0; common practice
 * of effective media, no published source); the rest are common textbook values.
 *
 * @param place where the face lies and looks
 * @param size how large the implant is
 * @param implant what the implant is made of
 * @param bone what lies opposite
 */
public record InterfaceSpec(Place place, Size size, Implant implant, Bone bone) {

    /**
     * Where the face lies and looks.
     *
     * @param centre centre of the face
     * @param baseNormal direction of the normal before tilting, unit; cranial = along the table
     * @param tiltUDeg the face is turned by this angle about its u axis
     * @param tiltVDeg and then about its v axis as it lay before tilting
     */
    public record Place(PatientPoint centre, PatientVector baseNormal, double tiltUDeg, double tiltVDeg) {
        public Place {
            baseNormal = baseNormal.unit();
        }
    }

    /**
     * How large the implant is.
     *
     * @param halfUMm half the face's extent along u, mm
     * @param halfVMm half the face's extent along v, mm
     * @param thicknessMm thickness of the implant, mm
     */
    public record Size(double halfUMm, double halfVMm, double thicknessMm) {
        public Size {
            Require.positive(halfUMm, "halfUMm");
            Require.positive(halfVMm, "halfVMm");
            Require.positive(thicknessMm, "thicknessMm");
        }
    }

    /**
     * What the implant is made of.
     *
     * @param porousDepthMm depth of the porous layer, which covers the implant all round, mm
     * @param porousHu HU of the porous layer
     * @param coreHu HU of the solid core
     */
    public record Implant(double porousDepthMm, double porousHu, double coreHu) {
        public Implant {
            Require.positive(porousDepthMm, "porousDepthMm");
        }
    }

    /**
     * What lies opposite the face.
     *
     * @param frontMm thickness of the bone's cortical front, mm, ≥ 0
     * @param frontHu HU of the front
     * @param trabecularHu HU of the bone behind it
     * @param fluidHu HU in the gap and beside the implant
     */
    public record Bone(double frontMm, double frontHu, double trabecularHu, double fluidHu) {
        public Bone {
            Require.notNegative(frontMm, "frontMm");
        }
    }

    /** A titanium face of 14 × 12 mm across the table, 2.5 mm porous, against bone of 160 HU with a front of 0.8 mm. */
    public static InterfaceSpec withDefaults() {
        return new InterfaceSpec(
                new Place(PatientPoint.ORIGIN, PatientVector.CRANIAL, 0, 0),
                new Size(7, 6, 10),
                new Implant(2.5, 2100, 7500),
                new Bone(0.8, 600, 160, 30));
    }

    /** The same with the face's centre elsewhere. */
    public InterfaceSpec at(PatientPoint centre) {
        return new InterfaceSpec(
                new Place(centre, place.baseNormal, place.tiltUDeg, place.tiltVDeg), size, implant, bone);
    }

    /** The same with another direction and tilt. */
    public InterfaceSpec facing(PatientVector normal, double aboutUDeg, double aboutVDeg) {
        return new InterfaceSpec(new Place(place.centre, normal, aboutUDeg, aboutVDeg), size, implant, bone);
    }

    /** The same with another size. */
    public InterfaceSpec sized(double halfUMm, double halfVMm, double thicknessMm) {
        return new InterfaceSpec(place, new Size(halfUMm, halfVMm, thicknessMm), implant, bone);
    }

    /** The same with another implant. */
    public InterfaceSpec implant(double porousDepthMm, double porousHu, double coreHu) {
        return new InterfaceSpec(place, size, new Implant(porousDepthMm, porousHu, coreHu), bone);
    }

    /** The same with other bone and fluid. */
    public InterfaceSpec bone(double frontMm, double frontHu, double trabecularHu, double fluidHu) {
        return new InterfaceSpec(place, size, implant, new Bone(frontMm, frontHu, trabecularHu, fluidHu));
    }

    /** The face with its own directions. */
    public FaceFrame face() {
        PatientVector u = place.baseNormal.anyPerpendicular();
        PatientVector v = place.baseNormal.cross(u).unit();
        RigidTransform tilt = RigidTransform.rotation(u, place.tiltUDeg, PatientPoint.ORIGIN)
                .then(RigidTransform.rotation(v, place.tiltVDeg, PatientPoint.ORIGIN));
        return new FaceFrame(
                place.centre, tilt.apply(u), tilt.apply(v), tilt.apply(place.baseNormal), size.halfUMm, size.halfVMm);
    }
}
