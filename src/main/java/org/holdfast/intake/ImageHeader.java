package org.holdfast.intake;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.Tag;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;

/**
 * What intake keeps of one file: facts, not the header itself, so that thousands of files fit. Immutable.
 *
 * @param path the file
 * @param transferSyntax how it is written
 * @param identity what it is and where it belongs
 * @param hasPixelData whether it holds pixel data, usable or not
 * @param pixels how to read its pixels; empty if it has none or its header does not describe them
 * @param plane where it lies in the patient; empty if it does not say so in full
 * @param scale what a pixel's size means
 * @param huScale how stored values become HU
 * @param acquisition how it was made
 * @param dateSource attribute that the date was taken from; empty if there is none
 * @param lossy whether the header says that the pixels were compressed with loss
 * @param variants attributes that may tell images at one position apart
 * @param findings what was odd about the file
 */
public record ImageHeader(
        Path path,
        TransferSyntax transferSyntax,
        Identity identity,
        boolean hasPixelData,
        Optional<PixelSource> pixels,
        Optional<SlicePlane> plane,
        PixelScale scale,
        HuScale huScale,
        Acquisition acquisition,
        String dateSource,
        boolean lossy,
        Map<SplitAttribute, String> variants,
        List<Finding> findings) {

    public ImageHeader {
        variants = Collections.unmodifiableMap(new EnumMap<>(variants));
        findings = List.copyOf(findings);
    }

    static ImageHeader of(DicomFile file) {
        DataSet d = file.dataSet();
        List<Finding> findings = new ArrayList<>(file.findings());
        Identity identity = Identity.of(d);
        Optional<SlicePlane> plane = SlicePlane.of(d);
        ScanDate date = ScanDate.of(d);
        return new ImageHeader(
                file.path(),
                file.transferSyntax(),
                identity,
                file.pixels().isPresent(),
                pixels(file, findings),
                plane,
                PixelScale.of(d, plane.isPresent() && !ImageKind.isProjection(identity)),
                HuScale.of(d, identity.modality()),
                AcquisitionFacts.of(d, identity, date),
                date.source(),
                d.string(Tag.LOSSY_IMAGE_COMPRESSION).orElse("").equals("01"),
                SplitAttribute.allOf(d),
                findings);
    }

    private static Optional<PixelSource> pixels(DicomFile file, List<Finding> findings) {
        if (file.pixels().isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(PixelSource.of(file));
        } catch (DicomReadException e) {
            findings.add(Finding.error(
                    "PIXELS_NOT_DESCRIBED", e.reason(), file.path().toString()));
            return Optional.empty();
        }
    }
}
