package org.holdfast.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class DipRuleTest {

    private static final int SIZE = 121;
    private static final ContinuitySettings SETTINGS = ContinuitySettings.withDefaults();

    private static List<DipRule.Dip> dips(double[] core, double[] area, boolean isClipped, int... joints) {
        boolean[] assessable = new boolean[SIZE];
        Arrays.fill(assessable, true);
        Arrays.stream(joints).forEach(n -> assessable[n] = false);
        return new DipRule(
                        new DipRule.Profile(0.25, core, area, assessable, isClipped ? 3071 : 7000, isClipped, 20),
                        SETTINGS)
                .dips();
    }

    private static double[] filled(double value) {
        double[] values = new double[SIZE];
        Arrays.fill(values, value);
        return values;
    }

    @Test
    void takesADipOverFifteenPerCentOfThePlateau() {
        double[] core = filled(7000);
        // By hand: 15 % of 7000 is 1050
        core[60] = 7000 - 1051;
        assertEquals(List.of(new DipRule.Dip(60, 60)), dips(core, filled(20), false));
        // By hand: 15 % of 7000 is 1050
        core[60] = 7000 - 1049;
        assertEquals(List.of(), dips(core, filled(20), false));
    }

    @Test
    void takesNoDipWithinFiveStandardDeviations() {
        double[] core = filled(7000);
        for (int n = 0; n < SIZE; n++) {
            core[n] += 400 * (n % 3 - 1);
        }
        // By hand: a third lies on the median of 7000, the rest 400 from it, so SD = 1.4826 · 400 = 593 and five of
        // them are 2965
        core[60] = 7000 - 2900;
        assertEquals(List.of(), dips(core, filled(20), false));
        core[60] = 7000 - 3400;
        assertEquals(1, dips(core, filled(20), false).size());
    }

    @Test
    void takesALossOfAreaOverHalfAMillimetreOnAClippedScale() {
        double[] area = filled(20);
        area[60] = 9.9;
        assertEquals(List.of(), dips(filled(3071), area, true));
        area[61] = 9.9;
        assertEquals(List.of(new DipRule.Dip(60, 61)), dips(filled(3071), area, true));
        assertEquals(List.of(), dips(filled(7000), area, false));
    }

    @Test
    void takesACoreUnderTheCeilingOnAClippedScale() {
        double[] core = filled(3071);
        // By hand: 5 % of 3071 is 153.6
        core[60] = 3071 - 154;
        assertEquals(List.of(new DipRule.Dip(60, 60)), dips(core, filled(20), true));
        // By hand: 5 % of 3071 is 153.6
        core[60] = 3071 - 153;
        assertEquals(List.of(), dips(core, filled(20), true));
    }

    @Test
    void leavesOutJointsAndJoinsDipsThatTouch() {
        double[] core = filled(7000);
        core[40] = 3000;
        core[60] = 3000;
        core[63] = 3000;
        assertEquals(List.of(new DipRule.Dip(60, 63)), dips(core, filled(20), false, 40));
    }

    @Test
    void aMissingStretchDoesNotLowerItsOwnPlateau() {
        double[] core = filled(7000);
        Arrays.fill(core, 40, 80, 40);
        assertEquals(List.of(new DipRule.Dip(40, 79)), dips(core, filled(20), false));
    }
}
