package org.holdfast.registration;

/**
 * How bone is matched by its voxels.
 *
 * @param limitMm the middle of the points may move so far from the start, mm
 * @param limitDeg and turn so far, degrees
 * @param points places that are compared on the finest level, 500 to 100,000
 * @param leastCorrelation refused under this correlation
 * @param leastOverlap refused under this share of the points inside the exam's image and outside what is left out
 */
public record IntensitySettings(
        double limitMm, double limitDeg, int points, double leastCorrelation, double leastOverlap) {

    public IntensitySettings {
        RegistrationSettings.requireWithin("limitMm", limitMm, 0, 30);
        RegistrationSettings.requireWithin("limitDeg", limitDeg, 0, 30);
        RegistrationSettings.requireWithin("points", points, 500, 100_000);
        RegistrationSettings.requireWithin("leastCorrelation", leastCorrelation, 0, 1);
        RegistrationSettings.requireWithin("leastOverlap", leastOverlap, 0, 1);
    }

    /** For a vertebra started by the construct's pose: up to 10 mm and 10° off. */
    public static IntensitySettings withDefaults() {
        return new IntensitySettings(12, 12, 20_000, 0.5, 0.4);
    }
}
