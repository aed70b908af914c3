package org.holdfast.phantom;

import java.util.Objects;

/**
 * A solid of one material, or of a core under a shell of another.
 *
 * @param name what it is, for truth that asks what lies at a place
 * @param solid its region
 * @param coreHu HU inside (under the shell, where it has one)
 * @param shellMm thickness of the shell, mm, ≥ 0; 0 for none
 * @param shellHu HU of the shell; ignored where there is none
 */
public record Body(String name, Solid solid, double coreHu, double shellMm, double shellHu) {

    public Body {
        Objects.requireNonNull(solid, "solid");
        Require.finite(coreHu, "coreHu");
        Require.notNegative(shellMm, "shellMm");
        Require.finite(shellHu, "shellHu");
        if (name == null || name.isBlank()) {
            throw new IllegalArgumentException("a body needs a name");
        }
    }

    /** A body of one HU. */
    public static Body of(String name, Solid solid, double hu) {
        return new Body(name, solid, hu, 0, hu);
    }

    /** A body with a shell under its whole surface, such as cortex over trabecular bone. */
    public static Body shelled(String name, Solid solid, double shellMm, double shellHu, double coreHu) {
        return new Body(name, solid, coreHu, shellMm, shellHu);
    }

    /** This body painted over a value: blurred by an isotropic Gaussian of {@code blurMm}. */
    double over(double valueHu, double x, double y, double z, double blurMm) {
        double inside = solid.insideShare(x, y, z, blurMm, 0);
        if (inside == 0) {
            return valueHu;
        }
        if (shellMm == 0) {
            return valueHu + inside * (coreHu - valueHu);
        }
        double core = solid.insideShare(x, y, z, blurMm, shellMm);
        return (1 - inside) * valueHu + (inside - core) * shellHu + core * coreHu;
    }

    /** A body that looks the same within reach of a point, made of as little as may be. */
    Body near(double x, double y, double z, double reachMm) {
        Solid simpler = solid.near(x, y, z, reachMm + shellMm);
        return simpler == solid ? this : new Body(name, simpler, coreHu, shellMm, shellHu);
    }

    /** What lies under the shell, as a body of its own. */
    Body core() {
        return new Body(name, new Inset(solid, shellMm), coreHu, 0, coreHu);
    }

    /** HU right under the surface. */
    double outerHu() {
        return shellMm == 0 ? coreHu : shellHu;
    }

    /** Smallest of its HU. */
    double lowestHu() {
        return shellMm == 0 ? coreHu : Math.min(coreHu, shellHu);
    }

    /** Largest of its HU. */
    double highestHu() {
        return shellMm == 0 ? coreHu : Math.max(coreHu, shellHu);
    }

    /** HU at a distance inside the surface (negative = inside), without blur. */
    double huAtDepth(double signedDistanceMm) {
        return signedDistanceMm > -shellMm ? shellHu : coreHu;
    }
}
