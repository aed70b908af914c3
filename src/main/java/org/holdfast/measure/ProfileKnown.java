package org.holdfast.measure;

/**
 * What is known of a profile before it is fitted: how the scan blurs and clips, how noisy it is, and what lies inside the
 * implant. Immutable.
 *
 * @param sigmaMm standard deviation of the blur along the normal, mm; with the interpolation's own where interpolated
 *     values are fitted
 * @param sigmaSdMm how well that is known, mm; 0 holds it fixed
 * @param boxMm4 Σ (n_i · extent_i)⁴ / 120 over the voxel's axes for values that are means over voxels, 0 for none: the
 *     fourth cumulant by which a box is flatter than a Gaussian of the same variance
 * @param sigmaAcrossMm blur across the normal, mm; only for a curved surface
 * @param radiusMm radius of the surface, mm, positive where the implant is convex; infinite for a plane
 * @param fluid HU in the gap and how well they are known
 * @param plateau HU of the implant under the face where they are known beforehand, as on clipped data
 * @param edge place of the edge where it is known beforehand, as from the reference exam
 * @param layerMm depth of the porous layer; infinite where the implant is one material as far as the profile goes
 * @param coreHu HU of the solid body under the layer
 * @param ceilingHu HU at which the scale ends; infinite where it does not
 * @param noiseSdHu standard deviation of the noise of a value of weight 1
 * @param noiseInflation by how much correlation of the noise raises the variance of a mean, at least 1
 * @param placeSdMm standard deviation of the values' places, mm: roughness, and a blur that is not quite Gaussian
 */
record ProfileKnown(
        double sigmaMm,
        double sigmaSdMm,
        double boxMm4,
        double sigmaAcrossMm,
        double radiusMm,
        Prior fluid,
        Prior plateau,
        Prior edge,
        double layerMm,
        double coreHu,
        double ceilingHu,
        double noiseSdHu,
        double noiseInflation,
        double placeSdMm) {

    /**
     * A number that is known with an error. Not known at all: an infinite standard deviation.
     *
     * @param mean the number
     * @param sd its standard deviation; 0 holds it fixed
     */
    record Prior(double mean, double sd) {
        /** Nothing is known. */
        static final Prior NONE = new Prior(0, Double.POSITIVE_INFINITY);

        boolean isGiven() {
            return sd < Double.POSITIVE_INFINITY;
        }
    }

    ProfileKnown {
        requirePositive("sigmaMm", sigmaMm);
        requirePositive("noiseSdHu", noiseSdHu);
        requirePositive("layerMm", layerMm);
        if (!(noiseInflation >= 1)) {
            throw new IllegalArgumentException("noiseInflation must be at least 1, got " + noiseInflation);
        }
        if (!(sigmaSdMm >= 0 && placeSdMm >= 0 && boxMm4 >= 0)) {
            throw new IllegalArgumentException("sigmaSdMm, placeSdMm and boxMm4 must not be negative, got " + sigmaSdMm
                    + ", " + placeSdMm + ", " + boxMm4);
        }
    }

    private static void requirePositive(String name, double value) {
        if (!(value > 0)) {
            throw new IllegalArgumentException(name + " must be over 0, got " + value);
        }
    }

    /**
     * A plane face of one material with nothing known beforehand.
     *
     * @param sigmaMm blur along the normal
     * @param fluidHu HU in the gap, held fixed
     * @param noiseSdHu noise of a value
     */
    static ProfileKnown plane(double sigmaMm, double fluidHu, double noiseSdHu) {
        return new ProfileKnown(
                sigmaMm,
                0,
                0,
                sigmaMm,
                Double.POSITIVE_INFINITY,
                new Prior(fluidHu, 0),
                Prior.NONE,
                Prior.NONE,
                Double.POSITIVE_INFINITY,
                0,
                Double.POSITIVE_INFINITY,
                noiseSdHu,
                1,
                0);
    }

    /** The same with a blur that is known with an error. */
    ProfileKnown withSigma(double otherSigmaMm, double sdMm) {
        return new ProfileKnown(
                otherSigmaMm,
                sdMm,
                boxMm4,
                sigmaAcrossMm,
                radiusMm,
                fluid,
                plateau,
                edge,
                layerMm,
                coreHu,
                ceilingHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same for values that are means over a voxel's box, {@link #boxMm4()}. */
    ProfileKnown withBox(double mm4) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                mm4,
                sigmaAcrossMm,
                radiusMm,
                fluid,
                plateau,
                edge,
                layerMm,
                coreHu,
                ceilingHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same on a cylinder of a radius. */
    ProfileKnown onCylinder(double cylinderRadiusMm, double acrossMm) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                boxMm4,
                acrossMm,
                cylinderRadiusMm,
                fluid,
                plateau,
                edge,
                layerMm,
                coreHu,
                ceilingHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same with other knowledge of the gap's HU, the implant's HU and its edge. */
    ProfileKnown with(Prior otherFluid, Prior otherPlateau, Prior otherEdge) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                boxMm4,
                sigmaAcrossMm,
                radiusMm,
                otherFluid,
                otherPlateau,
                otherEdge,
                layerMm,
                coreHu,
                ceilingHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same over a porous layer on a solid body. */
    ProfileKnown layered(double depthMm, double solidHu) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                boxMm4,
                sigmaAcrossMm,
                radiusMm,
                fluid,
                plateau,
                edge,
                depthMm,
                solidHu,
                ceilingHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same on a scale that ends. */
    ProfileKnown clippedAt(double endHu) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                boxMm4,
                sigmaAcrossMm,
                radiusMm,
                fluid,
                plateau,
                edge,
                layerMm,
                coreHu,
                endHu,
                noiseSdHu,
                noiseInflation,
                placeSdMm);
    }

    /** The same with noise that is correlated, and places that are not exact. */
    ProfileKnown withErrors(double inflation, double placeMm) {
        return new ProfileKnown(
                sigmaMm,
                sigmaSdMm,
                boxMm4,
                sigmaAcrossMm,
                radiusMm,
                fluid,
                plateau,
                edge,
                layerMm,
                coreHu,
                ceilingHu,
                noiseSdHu,
                inflation,
                placeMm);
    }
}
