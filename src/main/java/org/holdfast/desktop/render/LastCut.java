package org.holdfast.desktop.render;

import java.lang.ref.WeakReference;
import java.util.Optional;
import org.holdfast.volume.Cut;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Reslicer;
import org.holdfast.volume.Slab;

/**
 * The last cut of a cell, kept so that another window costs no new cut. It does not keep its volume in memory. Not
 * thread-safe: one worker at a time draws a cell.
 */
final class LastCut {

    private WeakReference<HuVolume> volume = new WeakReference<>(null);
    private Cut cut;
    private Optional<Slab> slab = Optional.empty();

    Picture draw(CutRequest request) {
        if (!isOf(request)) {
            cut = Reslicer.cut(request.volume(), request.plane(), request.slab());
            volume = new WeakReference<>(request.volume());
            slab = request.slab();
        }
        return CutPainter.paint(cut, request.volume().grid(), request.window());
    }

    private boolean isOf(CutRequest request) {
        CutPlane plane = request.plane();
        return volume.get() == request.volume() && cut.plane().equals(plane) && slab.equals(request.slab());
    }
}
