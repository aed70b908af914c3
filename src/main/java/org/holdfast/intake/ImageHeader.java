package org.holdfast.intake;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.holdfast.dicom.DataSet;
import org.holdfast.dicom.DicomFile;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.dicom.PixelSource;
import org.holdfast.dicom.TransferSyntax;
import org.holdfast.finding.Finding;
import org.holdfast.volume.Acquisition;
import org.holdfast.volume.LossyCompression;
import org.holdfast.volume.PixelScale;

/**
 * What intake keeps of one file: facts, not the header itself, so that thousands of files fit. Immutable.
 *
 * @param path where the file can be read
 * @param name the file as a person knows it: its path, or {@code archive.zip!entry} for one out of an archive
 * @param transferSyntax how it is written
 * @param identity what it is and where it belongs
 * @param hasPixelData whether it holds pixel data, usable or not
 * @param pixels how to read its pixels; empty if it has none or its header does not describe them
 * @param scale what a pixel's size means
 * @param date the day of the scan
 * @param lossy how its pixels were compressed with loss; empty if the file does not say that they were
 * @param isDescribedByFrame whether the header describes its frames in functional groups
 * @param frames what the header says of each frame it describes; one for a header without functional groups
 * @param findings what was odd about the file
 */
public record ImageHeader(
        Path path,
        String name,
        TransferSyntax transferSyntax,
        Identity identity,
        boolean hasPixelData,
        Optional<PixelSource> pixels,
        PixelScale scale,
        ScanDate date,
        Optional<LossyCompression> lossy,
        boolean isDescribedByFrame,
        List<FrameFacts> frames,
        List<Finding> findings) {

    public ImageHeader {
        frames = List.copyOf(frames);
        findings = List.copyOf(findings);
    }

    static ImageHeader of(DicomFile file, String name) {
        DataSet d = file.dataSet();
        List<Finding> findings = new ArrayList<>();
        for (Finding f : file.findings()) {
            boolean here = f.where().equals(file.path().toString());
            findings.add(here ? new Finding(f.code(), f.severity(), f.text(), name) : f);
        }
        Identity identity = Identity.of(d);
        Optional<PixelSource> pixels = pixels(file, name, findings);
        Optional<LossyCompression> lossy = Losses.of(d, file.transferSyntax(), pixels);
        ScanDate[] date = new ScanDate[1];
        PixelScale[] scale = new PixelScale[1];
        Map<Acquisition, Acquisition> made = new HashMap<>();
        List<FrameFacts> frames = FunctionalGroups.frames(d)
                .map(frame -> {
                    Optional<SlicePlane> plane = SlicePlane.of(frame);
                    ScanDate day = ScanDate.of(frame);
                    if (date[0] == null) {
                        date[0] = day;
                        scale[0] = PixelSizes.of(frame, plane.isPresent() && !ImageKind.isProjection(identity));
                    }
                    Acquisition acquisition = AcquisitionFacts.of(frame, identity, day, lossy);
                    return new FrameFacts(
                            plane,
                            HuScale.of(frame, identity.modality()),
                            made.computeIfAbsent(acquisition, own -> own),
                            SplitAttribute.allOf(frame));
                })
                .toList();
        return new ImageHeader(
                file.path(),
                name,
                file.transferSyntax(),
                identity,
                file.pixels().isPresent(),
                pixels,
                scale[0],
                date[0],
                lossy,
                FunctionalGroups.isIn(d),
                frames,
                findings);
    }

    /** Its frames as slices that a stack may be made of. */
    List<Slice> slices() {
        return IntStream.range(0, frames.size())
                .mapToObj(f -> new Slice(this, f))
                .toList();
    }

    private static Optional<PixelSource> pixels(DicomFile file, String name, List<Finding> findings) {
        if (file.pixels().isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(PixelSource.of(file));
        } catch (DicomReadException e) {
            findings.add(Finding.error("PIXELS_NOT_DESCRIBED", e.reason(), name));
            return Optional.empty();
        }
    }
}
