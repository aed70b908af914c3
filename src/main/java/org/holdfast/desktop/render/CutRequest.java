package org.holdfast.desktop.render;

import java.util.Objects;
import java.util.Optional;
import org.holdfast.desktop.state.HuWindow;
import org.holdfast.volume.CutPlane;
import org.holdfast.volume.HuVolume;
import org.holdfast.volume.Slab;

/**
 * A picture of a cut that is asked for.
 *
 * @param volume what is cut
 * @param plane where, one pixel of it for each device pixel
 * @param slab thickness and projection; empty for the plane alone
 * @param window HU from black to white
 */
public record CutRequest(HuVolume volume, CutPlane plane, Optional<Slab> slab, HuWindow window)
        implements PictureRequest {

    public CutRequest {
        Objects.requireNonNull(volume, "volume");
        Objects.requireNonNull(plane, "plane");
        Objects.requireNonNull(slab, "slab");
        Objects.requireNonNull(window, "window");
    }

    @Override
    public boolean mayFollow(PictureRequest other) {
        return other instanceof CutRequest cut
                && volume == cut.volume
                && plane.width() == cut.plane.width()
                && plane.height() == cut.plane.height();
    }
}
