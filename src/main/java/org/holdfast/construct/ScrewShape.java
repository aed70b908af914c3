package org.holdfast.construct;

import java.util.Locale;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;

/**
 * The shank of a screw: a cylinder with flat ends from the head point to the tip.
 *
 * @param head where the shank's axis meets the rod's lower edge, mm
 * @param tip end of the screw, apart from the head, mm
 * @param diameterMm outer diameter, mm
 * @param bone id of the bone that holds it
 * @param inBoneFromMm start of the stretch in bone along head → tip, mm, at least 0
 * @param inBoneToMm end of that stretch, mm, above its start and at most the length
 */
public record ScrewShape(
        PatientPoint head, PatientPoint tip, double diameterMm, String bone, double inBoneFromMm, double inBoneToMm)
        implements Shape {

    /** A stretch that ends at the tip may exceed the computed length by this much, mm (decimals of a document). */
    private static final double LENGTH_TOLERANCE_MM = 1e-3;

    public ScrewShape {
        Rule.apart("tipMm", head, "headMm", tip);
        Rule.positive("diameterMm", diameterMm);
        Rule.id("bone", bone);
        double length = head.distanceTo(tip);
        if (!(inBoneFromMm >= 0 && inBoneToMm > inBoneFromMm && inBoneToMm <= length + LENGTH_TOLERANCE_MM)) {
            throw new InvalidField(
                    "inBoneMm",
                    String.format(Locale.ROOT, "0 ≤ from < to ≤ length %.3f mm", length),
                    "[" + inBoneFromMm + ", " + inBoneToMm + "]");
        }
    }

    /** Distance from head to tip, mm. */
    public double lengthMm() {
        return head.distanceTo(tip);
    }

    /** Unit direction from head to tip. */
    public PatientVector direction() {
        return tip.minus(head).unit();
    }

    /** The shank's lateral surface over the stretch in bone; its p is the end nearer to the head. */
    public CylinderPatch inBonePatch() {
        PatientVector direction = direction();
        return new CylinderPatch(
                head.along(direction, inBoneFromMm), head.along(direction, inBoneToMm), 0.5 * diameterMm);
    }

    @Override
    public double signedDistanceMm(PatientPoint p) {
        return CappedCylinder.signedDistanceMm(p, head, tip, 0.5 * diameterMm);
    }
}
