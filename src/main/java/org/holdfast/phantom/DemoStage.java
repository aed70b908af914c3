package org.holdfast.phantom;

import java.time.LocalDate;

/**
 * What has become of the demo subject at one exam: the story's own numbers, from which the scene is built. What is true
 * at an exam is read from the scene ({@link DemoTruth}), not from here.
 */
enum DemoStage {
    SURGERY("surgery", LocalDate.of(2024, 3, 14), 0, 0, false, false),
    MONTH_3("3 mo", LocalDate.of(2024, 6, 12), 0.3, 0, false, false),
    MONTH_6("6 mo", LocalDate.of(2024, 9, 10), 0.6, 0.8, false, false),
    MONTH_12("12 mo", LocalDate.of(2025, 3, 12), 1.1, 1.5, true, false),
    MONTH_24("24 mo", LocalDate.of(2026, 3, 10), 2.2, 2.0, true, true);

    /** Day of the operation. */
    static final LocalDate SURGERY_DAY = LocalDate.of(2024, 3, 11);

    /** Order in which areas of the cranial face are bridged: stage by whose exam it is; 5 = stays open. [u][v]. */
    private static final int[][] BRIDGED_AT = {
        {5, 4, 2, 1, 0}, {5, 3, 1, 0, 0}, {5, 3, 2, 1, 0}, {5, 4, 3, 1, 0}, {5, 5, 3, 2, 2}, {5, 5, 5, 5, 4}
    };

    private static final int CAUDAL_AREAS_U = 5;
    private static final int CAUDAL_AREAS_V = 4;

    final String label;
    final LocalDate date;
    /** How far the body has sunk into the caudal vertebra since surgery, mm. */
    final double settledMm;
    /** Width of the zone around the caudal left screw, mm. */
    final double zoneMm;
    /** Whether the caudal left screw is broken. */
    final boolean isScrewBroken;
    /** Whether the right rod is broken. */
    final boolean isRodBroken;

    DemoStage(
            String label, LocalDate date, double settledMm, double zoneMm, boolean isScrewBroken, boolean isRodBroken) {
        this.label = label;
        this.date = date;
        this.settledMm = settledMm;
        this.zoneMm = zoneMm;
        this.isScrewBroken = isScrewBroken;
        this.isRodBroken = isRodBroken;
    }

    /**
     * Gaps of the cranial face: bone reaches it area by area from the back. An open area is 2.0 to 2.4 mm wide; every
     * other one is half as wide at the exam before it is bridged, too narrow to be told from contact by a threshold.
     */
    GapPattern cranialGaps(FaceFrame face) {
        double[][] gaps = new double[BRIDGED_AT.length][BRIDGED_AT[0].length];
        for (int a = 0; a < gaps.length; a++) {
            for (int b = 0; b < gaps[a].length; b++) {
                double open = 2.0 + 0.1 * ((3 * a + 2 * b) % 5);
                int exams = BRIDGED_AT[a][b] - ordinal();
                boolean isNarrowing = exams == 1 && BRIDGED_AT[a][b] < values().length && (a + b) % 2 == 0;
                gaps[a][b] = exams <= 0 ? 0 : isNarrowing ? 0.5 * open : open;
            }
        }
        return new GapPattern(
                GapPattern.evenLines(face.halfUMm(), gaps.length),
                GapPattern.evenLines(face.halfVMm(), gaps[0].length),
                gaps);
    }

    /**
     * Gaps of the caudal face: open everywhere and slowly widening, 1.2 mm at the narrowest after surgery, in one area,
     * and 2.5 mm at the widest at last.
     */
    GapPattern caudalGaps(FaceFrame face) {
        double[][] gaps = new double[CAUDAL_AREAS_U][CAUDAL_AREAS_V];
        for (int a = 0; a < CAUDAL_AREAS_U; a++) {
            for (int b = 0; b < CAUDAL_AREAS_V; b++) {
                int mixed = (3 * a + 4 * b) % 10;
                gaps[a][b] = 1.85 + 0.025 * mixed + 0.1 * ordinal();
            }
        }
        gaps[2][1] = 1.2 + 0.1 * ordinal();
        gaps[3][0] = 2.1 + 0.1 * ordinal();
        return new GapPattern(
                GapPattern.evenLines(face.halfUMm(), CAUDAL_AREAS_U),
                GapPattern.evenLines(face.halfVMm(), CAUDAL_AREAS_V),
                gaps);
    }
}
