package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.desktop.state.WindowPreset;
import org.holdfast.volume.VolumeStatistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WindowPresetsTest {

    private static final HuLandmarks UNMEASURED = HuLandmarks.unmeasured(30);

    private static VolumeStatistics scale(double minHu, double maxHu, OptionalDouble ceilingHu) {
        return new VolumeStatistics(minHu, maxHu, 0, 1000, 1000, ceilingHu, 1);
    }

    private static final VolumeStatistics EXTENDED = scale(-1024, 9000, OptionalDouble.empty());
    private static final VolumeStatistics CLIPPED = scale(-1000, 3071, OptionalDouble.of(3071));
    private static final VolumeStatistics EMPTY =
            new VolumeStatistics(Double.NaN, Double.NaN, Double.NaN, 0, 1000, OptionalDouble.empty(), 0);

    private static OptionalDouble known(double hu) {
        return Double.isNaN(hu) ? OptionalDouble.empty() : OptionalDouble.of(hu);
    }

    // By hand: width (white − fluid)/0.73 or (host − fluid)/0.08 if less, at least 1000, to 50; centre fluid +
    // 0.23·width,
    // to 10. Row 1: 1970/0.73 = 2698.6. 2: a plateau of 2100 is white at 1995, 2691.8. 3: at 1425, 1911 → 1900, 467. 4:
    // the
    // floor 1200, 1602.7 → 1600, 398. 5: solid metal, the roof 2000. 6: host 130, 100/0.08 = 1250, 317.5. 7: host 60
    // would
    // give 375, the floor 1000. 8: bone from 250 implies host 470, no narrower. 9: bone from 80 implies host 130.
    @ParameterizedTest
    @CsvSource({
        "30, NaN, NaN, NaN, 650, 2700",
        "30, NaN, NaN, 2100, 650, 2700",
        "30, NaN, NaN, 1500, 470, 1900",
        "30, NaN, NaN, 1000, 400, 1600",
        "30, NaN, NaN, 8000, 650, 2700",
        "30, NaN, 130, NaN, 320, 1250",
        "30, NaN, 60, NaN, 260, 1000",
        "30, 250, NaN, NaN, 650, 2700",
        "30, 80, NaN, NaN, 320, 1250",
    })
    void setsBoneBesideMetalFromTheSubject(
            double fluidHu, double boneHu, double hostHu, double plateauHu, double centreHu, double widthHu) {
        HuLandmarks landmarks = new HuLandmarks(fluidHu, known(boneHu), known(hostHu), known(plateauHu));

        HuWindow window = WindowPresets.of(WindowPreset.BONE_BESIDE_METAL, landmarks, EXTENDED);

        assertEquals(new HuWindow(centreHu, widthHu), window);
    }

    @Test
    void looksInsideMetalFromThePlateauToTheTop() {
        HuLandmarks porous = new HuLandmarks(30, known(Double.NaN), known(Double.NaN), known(2100));

        // By hand: 2100 to 9000; without a plateau from 2500; on a clipped scale 2100 to 3071 is under 1000 HU
        assertEquals(HuWindow.between(2100, 9000), WindowPresets.of(WindowPreset.INSIDE_METAL, porous, EXTENDED));
        assertEquals(HuWindow.between(2500, 9000), WindowPresets.of(WindowPreset.INSIDE_METAL, UNMEASURED, EXTENDED));
        assertEquals(HuWindow.between(2071, 3071), WindowPresets.of(WindowPreset.INSIDE_METAL, porous, CLIPPED));
    }

    @Test
    void keepsSoftTissueAsPractised() {
        // By hand: fixed
        assertEquals(new HuWindow(40, 400), WindowPresets.of(WindowPreset.SOFT_TISSUE, UNMEASURED, CLIPPED));
    }

    @Test
    void showsTheWholeScaleOfTheVolume() {
        // By hand: smallest and largest HU are black and white
        assertEquals(HuWindow.between(-1000, 3071), WindowPresets.of(WindowPreset.WHOLE_SCALE, UNMEASURED, CLIPPED));
    }

    @Test
    void hasAWindowForAVolumeWithoutTissue() {
        for (WindowPreset preset : WindowPreset.values()) {
            assertTrue(WindowPresets.of(preset, UNMEASURED, EMPTY).widthHu() >= 400, preset.words());
        }
    }
}
