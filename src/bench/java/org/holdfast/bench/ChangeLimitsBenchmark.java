package org.holdfast.bench;

import java.util.Locale;
import org.holdfast.progress.Progress;
import org.holdfast.validation.ChangeValidation;

/** Prints the smallest change of mineral and the smallest porous fill that are seen, by blur and noise. */
public final class ChangeLimitsBenchmark {

    private static final int SCENES_EACH = 3;

    private ChangeLimitsBenchmark() {}

    public static void main(String[] args) {
        System.out.println("| blur σ, mm | noise, HU | smallest change, HU | smallest fill |");
        System.out.println("| --- | --- | --- | --- |");
        for (ChangeValidation.Visible row : ChangeValidation.visible(SCENES_EACH, Progress.NONE)) {
            System.out.printf(
                    Locale.ROOT,
                    "| %.1f | %.0f | %.0f | %.2f |%n",
                    row.sigmaMm(),
                    row.noiseHu(),
                    row.smallestChangeHu(),
                    row.smallestFill());
        }
    }
}
