package org.holdfast.desktop.render;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.lang.ref.WeakReference;
import java.util.Arrays;
import java.util.Optional;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Slab;
import org.junit.jupiter.api.Test;

class LastCutTest {

    private final LastCut kept = new LastCut();

    private static int[] drawnAlone(CutRequest request) {
        return new LastCut().draw(request).argb();
    }

    @Test
    void drawsAnotherWindowAsIfCutAnew() {
        CutRequest first = TestVolumes.slice(TestVolumes.ramp(), 1);
        CutRequest other = new CutRequest(first.volume(), first.plane(), first.slab(), new HuWindow(40, 30));
        kept.draw(first);

        assertArrayEquals(drawnAlone(other), kept.draw(other).argb());
        assertFalse(Arrays.equals(drawnAlone(first), drawnAlone(other)));
    }

    @Test
    void cutsAnewForAnotherVolumePlaneOrSlab() {
        CutRequest first = TestVolumes.slice(TestVolumes.ramp(), 1);
        CutRequest volume = TestVolumes.slice(TestVolumes.ramp(50, 0, 1, 2, 3), 1);
        CutPlane moved = new CutPlane(
                volume.plane().pixelToPatient(3, 0),
                volume.plane().stepRight(),
                volume.plane().stepDown(),
                12,
                10);
        CutRequest plane = new CutRequest(volume.volume(), moved, Optional.empty(), first.window());
        Optional<Slab> thick = Optional.of(new Slab(2, Slab.Projection.MAXIMUM));
        CutRequest slab = new CutRequest(volume.volume(), moved, thick, first.window());
        kept.draw(first);

        assertArrayEquals(drawnAlone(volume), kept.draw(volume).argb());
        assertArrayEquals(drawnAlone(plane), kept.draw(plane).argb());
        assertArrayEquals(drawnAlone(slab), kept.draw(slab).argb());
    }

    @Test
    void letsItsVolumeGo() throws InterruptedException {
        HuVolume volume = TestVolumes.ramp();
        WeakReference<HuVolume> reference = new WeakReference<>(volume);
        kept.draw(TestVolumes.slice(volume, 1));
        assertNotNull(reference.get());

        volume = null;
        for (int n = 0; n < 50 && reference.get() != null; n++) {
            System.gc();
            Thread.sleep(10);
        }
        assertNull(reference.get());
        assertNotNull(kept.draw(TestVolumes.slice(TestVolumes.ramp(), 1)));
    }
}
