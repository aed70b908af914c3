package org.holdfast.desktop.render;

/** One picture that is asked for: a cut of a volume, or a radiograph. */
public sealed interface PictureRequest permits CutRequest, FilmRequest {

    /** Whether a picture of the other request may stand in for this one until it is drawn: same images, same size. */
    boolean mayFollow(PictureRequest other);
}
