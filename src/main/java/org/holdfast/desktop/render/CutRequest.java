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
 * @param outline the construct's outline over it; empty for none
 */
public record CutRequest(
        HuVolume volume, CutPlane plane, Optional<Slab> slab, HuWindow window, Optional<ConstructOutline> outline)
        implements PictureRequest {

    /** A picture without outline. */
    public CutRequest(HuVolume volume, CutPlane plane, Optional<Slab> slab, HuWindow window) {
        this(volume, plane, slab, window, Optional.empty());
    }

    public CutRequest {
        Objects.requireNonNull(volume, "volume");
        Objects.requireNonNull(plane, "plane");
        Objects.requireNonNull(slab, "slab");
        Objects.requireNonNull(window, "window");
        Objects.requireNonNull(outline, "outline");
    }

    @Override
    public boolean mayFollow(PictureRequest other) {
        return other instanceof CutRequest cut
                && volume == cut.volume
                && plane.width() == cut.plane.width()
                && plane.height() == cut.plane.height();
    }
}
