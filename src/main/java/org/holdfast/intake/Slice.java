package org.holdfast.intake;

import java.nio.file.Path;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelSource;
import org.holdfast.volume.Acquisition;

/**
 * One frame of one file that may be a slice of a stack. Immutable.
 *
 * @param file the file, whose header describes its pixels
 * @param frameIndex 0-based frame; 0 for a file of one frame
 */
public record Slice(ImageHeader file, int frameIndex) {

    public Slice {
        Objects.requireNonNull(file, "file");
        if (frameIndex < 0 || frameIndex >= file.frames().size()) {
            throw new IllegalArgumentException(
                    "frameIndex must be 0 to " + (file.frames().size() - 1) + ", got " + frameIndex);
        }
    }

    /** The file that holds it. */
    public Path path() {
        return file.path();
    }

    /** What the object is and where it belongs. */
    public Identity identity() {
        return file.identity();
    }

    /** How to read the pixels of its file. */
    public PixelSource pixels() {
        return file.pixels().orElseThrow();
    }

    PixelLayout layout() {
        return pixels().layout();
    }

    Optional<SlicePlane> placed() {
        return facts().plane();
    }

    /** Where it lies; only for frames that say so, which those of a stack do. */
    public SlicePlane plane() {
        return placed().orElseThrow();
    }

    /** How stored values become HU. */
    public HuScale huScale() {
        return facts().huScale();
    }

    /** How it was made. */
    public Acquisition acquisition() {
        return facts().acquisition();
    }

    Map<SplitAttribute, String> variants() {
        return facts().variants();
    }

    /** SOP instance, and the frame of one with several; empty text if not said. */
    String instance() {
        String uid = identity().sopInstanceUid();
        return uid.isEmpty() || file.frames().size() == 1 ? uid : uid + ", frame " + (frameIndex + 1);
    }

    /** The file, and the frame of a file with several, for messages. */
    public String where() {
        return file.frames().size() == 1 ? file.name() : file.name() + ", frame " + (frameIndex + 1);
    }

    private FrameFacts facts() {
        return file.frames().get(frameIndex);
    }
}
