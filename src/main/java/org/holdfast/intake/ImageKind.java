package org.holdfast.intake;

import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.holdfast.dicom.PixelLayout;
import org.holdfast.dicom.PixelSource;
import org.holdfast.finding.Finding;

/**
 * What one file is for intake, and why it is not a slice of a stack if it is none.
 *
 * @param seriesKind the kind that a series of such files has
 * @param whyNoSlice says why it is kept out of stacks; empty for a slice
 */
record ImageKind(SeriesKind seriesKind, Optional<Finding> whyNoSlice) {

    private static final Set<String> CROSS_SECTIONAL = Set.of("CT", "MR", "PT");
    private static final Set<String> RADIOGRAPHS = Set.of("CR", "DX", "DR", "RG", "RF", "XA", "MG", "PX", "IO");
    private static final Set<String> NO_PICTURES = Set.of(
            "SEG", "SR", "KO", "PR", "REG", "RTDOSE", "RTSTRUCT", "RTPLAN", "RTRECORD", "RWV", "DOC", "FID", "PLAN");

    private static final Set<String> LOCALIZER_TYPES = Set.of("LOCALIZER", "SCOUT", "TOPOGRAM", "SURVIEW", "SCANOGRAM");
    private static final Set<String> VOLUME_RENDERINGS =
            Set.of("3D", "VRT", "VR", "SSD", "VOLUME_RENDERED", "VOLUME RENDERED", "MIP", "MINIP");
    private static final Set<String> PROJECTIONS = Set.of("PROJECTION IMAGE", "PROJECTION_IMAGE");
    private static final Set<String> RENDERED_TYPES =
            Stream.concat(VOLUME_RENDERINGS.stream(), PROJECTIONS.stream()).collect(Collectors.toUnmodifiableSet());
    private static final Set<String> SCREEN_TYPES =
            Set.of("DOSE", "DOSE_INFO", "DOSE INFO", "SCREEN SAVE", "SCREEN_SAVE", "SCREENSAVE", "SCREENSHOT");

    /** X-ray 3-D angiographic, craniofacial and tomosynthesis images. */
    private static final String VOLUME_OF_PROJECTIONS = "1.2.840.10008.5.1.4.1.1.13.1";

    private static final String SECONDARY_CAPTURE = "1.2.840.10008.5.1.4.1.1.7";

    static ImageKind of(ImageHeader header) {
        Identity identity = header.identity();
        if (!header.hasPixelData() || NO_PICTURES.contains(identity.modality())) {
            String what = identity.modality().isEmpty() ? "no modality" : "modality " + identity.modality();
            String pixels = header.hasPixelData() ? "its pixels are no picture" : "no pixels";
            return none(SeriesKind.OTHER, header, "NOT_AN_IMAGE", "an object of " + what + ": " + pixels);
        }
        if (isRadiograph(identity)) {
            Optional<String> why = RadiographLoader.whyNot(header);
            return none(
                    SeriesKind.RADIOGRAPH,
                    header,
                    "RADIOGRAPH",
                    why.map(reason -> "a radiograph that cannot be shown: " + reason)
                            .orElse("a radiograph, read by eye; scale: "
                                    + header.scale().words()));
        }
        return header.pixels().isPresent()
                ? sectionKind(header, header.pixels().get())
                : image(header, "PIXELS_UNUSABLE", "the header does not describe its pixels in a possible way");
    }

    private static ImageKind sectionKind(ImageHeader header, PixelSource pixels) {
        Identity identity = header.identity();
        PixelLayout layout = pixels.layout();
        if (layout.samples() != 1 || !layout.photometric().startsWith("MONOCHROME")) {
            String what = layout.photometric().isEmpty() ? layout.samples() + " samples" : layout.photometric();
            return image(header, "COLOUR_IMAGE", what + " pixels: a capture or report, not a slice");
        }
        if (has(identity, SCREEN_TYPES) || identity.sopClassUid().startsWith(SECONDARY_CAPTURE)) {
            return image(header, "SCREEN_CAPTURE", "a screen or secondary capture, not a slice");
        }
        if (has(identity, LOCALIZER_TYPES)) {
            return image(header, "LOCALIZER", "a localizer is a projection, not a slice; its values are not HU");
        }
        if (has(identity, RENDERED_TYPES)) {
            return image(
                    header,
                    "RENDERED_IMAGE",
                    "a derived rendering (" + String.join("\\", identity.imageType())
                            + ") shows no slice; neither HU nor mm hold in it");
        }
        if (layout.frames() != header.frames().size()) {
            return image(
                    header,
                    "FRAMES_NOT_DESCRIBED",
                    header.isDescribedByFrame()
                            ? layout.frames() + " frames, of which "
                                    + header.frames().size() + " are described"
                            : layout.frames() + " frames without functional groups that would place them");
        }
        if (!CROSS_SECTIONAL.contains(identity.modality())) {
            return image(
                    header, "NOT_CROSS_SECTIONAL", "modality " + identity.modality() + " makes no stack of slices");
        }
        return header.frames().stream().anyMatch(frame -> frame.plane().isPresent())
                ? new ImageKind(SeriesKind.VOLUME, Optional.empty())
                : image(
                        header,
                        "NO_GEOMETRY",
                        "position, orientation (orthonormal within 1e-3) or pixel spacing is missing: not placed in the"
                                + " patient");
    }

    /** Whether it is a projection radiograph, by its modality; volumes that were made of projections are none. */
    static boolean isRadiograph(Identity identity) {
        return RADIOGRAPHS.contains(identity.modality())
                && !identity.sopClassUid().startsWith(VOLUME_OF_PROJECTIONS);
    }

    /**
     * Whether its pixels do not lie in a plane of the patient even where a plane is written: localizers, renderings, and
     * radiographs but for captures that were given a place.
     */
    static boolean isProjection(Identity identity) {
        boolean captured = identity.sopClassUid().startsWith(SECONDARY_CAPTURE);
        return has(identity, LOCALIZER_TYPES) || has(identity, RENDERED_TYPES) || isRadiograph(identity) && !captured;
    }

    /** Whether a value of ImageType names a picture that a program or a screen made. */
    static boolean isRenderingOrScreen(String imageType) {
        return VOLUME_RENDERINGS.contains(imageType) || SCREEN_TYPES.contains(imageType);
    }

    private static boolean has(Identity identity, Set<String> words) {
        return identity.imageType().stream().anyMatch(words::contains);
    }

    private static ImageKind image(ImageHeader header, String code, String text) {
        return none(SeriesKind.IMAGE, header, code, text);
    }

    private static ImageKind none(SeriesKind kind, ImageHeader header, String code, String text) {
        return new ImageKind(kind, Optional.of(Finding.info(code, text, header.name())));
    }
}
