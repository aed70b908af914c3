package org.holdfast.desktop.render;

import java.util.Objects;
import org.holdfast.construct.PatchSample;

/**
 * What a map of a face shows at one sample. Immutable.
 *
 * @param sample the place on the face
 * @param mapClass which mark
 * @param words what is said of it
 */
public record MapCell(PatchSample sample, MapClass mapClass, String words) {

    public MapCell {
        Objects.requireNonNull(sample, "sample");
        Objects.requireNonNull(mapClass, "mapClass");
        Objects.requireNonNull(words, "words");
    }
}
