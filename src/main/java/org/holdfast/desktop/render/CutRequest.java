package org.holdfast.desktop.render;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Slab;

/**
 * One picture that is asked for.
 *
 * @param volume what is cut
 * @param plane where, one pixel of it for each device pixel
 * @param slab thickness and projection; empty for the plane alone
 * @param window HU from black to white
 */
public record CutRequest(HuVolume volume, CutPlane plane, Optional<Slab> slab, HuWindow window) {

    public CutRequest {
        Objects.requireNonNull(volume, "volume");
        Objects.requireNonNull(plane, "plane");
        Objects.requireNonNull(slab, "slab");
        Objects.requireNonNull(window, "window");
    }

    /** Whether a picture of the other request may stand in for this one until it is drawn: same exam, same size. */
    boolean mayFollow(CutRequest other) {
        return volume == other.volume && plane.width() == other.plane.width() && plane.height() == other.plane.height();
    }
}
