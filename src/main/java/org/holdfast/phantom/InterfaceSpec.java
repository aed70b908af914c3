package org.holdfast.phantom;

import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.geometry.RigidTransform;

/**
 * What a scene with one interface is made of. HU: the porous face averages near 2100 HU as an effective medium of about
 * 70 % porosity in titanium that would read 7000 to 8000 HU solid (the arithmetic: 0.3 · 7000 + 0.7 · 0; common practice
 * of effective media, no published source); the rest are common textbook values.
 *
 * @param centre centre of the face
 * @param baseNormal direction of the normal before tilting, unit; cranial = along the table
 * @param tiltUDeg the face is turned by this angle about its u axis
 * @param tiltVDeg and then about its v axis as it lay before tilting
 * @param halfUMm half the face's extent along u, mm
 * @param halfVMm half the face's extent along v, mm
 * @param thicknessMm thickness of the implant, mm
 * @param porousDepthMm depth of the porous layer, which covers the implant all round, mm
 * @param porousHu HU of the porous layer
 * @param coreHu HU of the solid core
 * @param frontMm thickness of the bone's cortical front, mm, ≥ 0
 * @param frontHu HU of the front
 * @param trabecularHu HU of the bone behind it
 * @param fluidHu HU in the gap and beside the implant
 */
public record InterfaceSpec(
        PatientPoint centre,
        PatientVector baseNormal,
        double tiltUDeg,
        double tiltVDeg,
        double halfUMm,
        double halfVMm,
        double thicknessMm,
        double porousDepthMm,
        double porousHu,
        double coreHu,
        double frontMm,
        double frontHu,
        double trabecularHu,
        double fluidHu) {

    public InterfaceSpec {
        baseNormal = baseNormal.unit();
        Require.positive(halfUMm, "halfUMm");
        Require.positive(halfVMm, "halfVMm");
        Require.positive(thicknessMm, "thicknessMm");
        Require.positive(porousDepthMm, "porousDepthMm");
        Require.notNegative(frontMm, "frontMm");
    }

    /** A titanium face of 14 × 12 mm across the table, 2.5 mm porous, against bone of 160 HU with a front of 0.8 mm. */
    public static InterfaceSpec withDefaults() {
        return new InterfaceSpec(
                PatientPoint.ORIGIN, PatientVector.CRANIAL, 0, 0, 7, 6, 10, 2.5, 2100, 7500, 0.8, 600, 160, 30);
    }

    /** The same with the face's centre elsewhere. */
    public InterfaceSpec at(PatientPoint newCentre) {
        return new InterfaceSpec(
                newCentre,
                baseNormal,
                tiltUDeg,
                tiltVDeg,
                halfUMm,
                halfVMm,
                thicknessMm,
                porousDepthMm,
                porousHu,
                coreHu,
                frontMm,
                frontHu,
                trabecularHu,
                fluidHu);
    }

    /** The same with another direction and tilt. */
    public InterfaceSpec facing(PatientVector normal, double aboutUDeg, double aboutVDeg) {
        return new InterfaceSpec(
                centre,
                normal,
                aboutUDeg,
                aboutVDeg,
                halfUMm,
                halfVMm,
                thicknessMm,
                porousDepthMm,
                porousHu,
                coreHu,
                frontMm,
                frontHu,
                trabecularHu,
                fluidHu);
    }

    /** The same with another size. */
    public InterfaceSpec sized(double newHalfUMm, double newHalfVMm, double newThicknessMm) {
        return new InterfaceSpec(
                centre,
                baseNormal,
                tiltUDeg,
                tiltVDeg,
                newHalfUMm,
                newHalfVMm,
                newThicknessMm,
                porousDepthMm,
                porousHu,
                coreHu,
                frontMm,
                frontHu,
                trabecularHu,
                fluidHu);
    }

    /** The same with another implant. */
    public InterfaceSpec implant(double newPorousDepthMm, double newPorousHu, double newCoreHu) {
        return new InterfaceSpec(
                centre,
                baseNormal,
                tiltUDeg,
                tiltVDeg,
                halfUMm,
                halfVMm,
                thicknessMm,
                newPorousDepthMm,
                newPorousHu,
                newCoreHu,
                frontMm,
                frontHu,
                trabecularHu,
                fluidHu);
    }

    /** The same with other bone and fluid. */
    public InterfaceSpec bone(double newFrontMm, double newFrontHu, double newTrabecularHu, double newFluidHu) {
        return new InterfaceSpec(
                centre,
                baseNormal,
                tiltUDeg,
                tiltVDeg,
                halfUMm,
                halfVMm,
                thicknessMm,
                porousDepthMm,
                porousHu,
                coreHu,
                newFrontMm,
                newFrontHu,
                newTrabecularHu,
                newFluidHu);
    }

    /** The face with its own directions. */
    public FaceFrame face() {
        PatientVector u = baseNormal.anyPerpendicular();
        PatientVector v = baseNormal.cross(u).unit();
        RigidTransform tilt = RigidTransform.rotation(u, tiltUDeg, PatientPoint.ORIGIN)
                .then(RigidTransform.rotation(v, tiltVDeg, PatientPoint.ORIGIN));
        return new FaceFrame(centre, tilt.apply(u), tilt.apply(v), tilt.apply(baseNormal), halfUMm, halfVMm);
    }
}
