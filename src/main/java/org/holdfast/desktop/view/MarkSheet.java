package org.holdfast.desktop.view;

import java.util.List;
import org.holdfast.desktop.state.ImageMark;
import org.holdfast.desktop.state.MarkPlace;
import org.holdfast.desktop.viewmodel.FlatPicture;
import org.holdfast.desktop.viewmodel.MarkReading;

/** The marks that a picture shows, and what can be done to them. */
interface MarkSheet {

    /** The marks that lie on a picture's plane, in the order in which they were drawn. */
    List<ImageMark> on(FlatPicture picture);

    /** What a mark measures. */
    MarkReading read(ImageMark mark);

    /** The cut that a picture shows. */
    MarkPlace place(FlatPicture picture);

    /** Whether a picture shows the cut on which something is being drawn. */
    boolean shows(FlatPicture picture, MarkPlace place);

    /** Adds a mark. */
    void add(ImageMark mark);

    /** Changes a mark's shape; changes with an equal gesture are taken back together. */
    void change(ImageMark changed, Object gesture);

    /** Removes a mark. */
    void remove(ImageMark mark);
}
