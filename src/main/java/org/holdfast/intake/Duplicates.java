package org.holdfast.intake;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.holdfast.dicom.DicomReadException;
import org.holdfast.finding.Finding;

/**
 * Drops copies of a slice: the same SOP instance at the same place, or other instances with the same pixels at the same
 * place. Pixels are compared only where places repeat.
 */
final class Duplicates {

    /** Positions nearer than this are one position, mm. */
    static final double SAME_POSITION_MM = 0.01;

    private final List<Finding> findings;

    Duplicates(List<Finding> findings) {
        this.findings = findings;
    }

    /** The slices without copies, in their order. */
    List<ImageHeader> dropped(List<ImageHeader> slices) {
        List<ImageHeader> kept = new ArrayList<>();
        for (List<ImageHeader> together : byPlace(slices)) {
            kept.addAll(together.size() == 1 ? together : withoutCopies(together));
        }
        noteRepeatedInstances(kept);
        return kept;
    }

    /** Groups of slices at one place in one plane; slices come sorted along their normal. */
    private static List<List<ImageHeader>> byPlace(List<ImageHeader> slices) {
        List<List<ImageHeader>> groups = new ArrayList<>();
        for (ImageHeader slice : slices) {
            List<ImageHeader> home = null;
            for (int g = groups.size() - 1; g >= 0 && home == null; g--) {
                SlicePlane plane = groups.get(g).get(0).plane().orElseThrow();
                SlicePlane own = slice.plane().orElseThrow();
                if (own.positionAlong(plane) - plane.positionAlong(plane) > SAME_POSITION_MM) {
                    break;
                }
                home = plane.position().distanceTo(own.position()) <= SAME_POSITION_MM ? groups.get(g) : null;
            }
            if (home == null) {
                home = new ArrayList<>();
                groups.add(home);
            }
            home.add(slice);
        }
        return groups;
    }

    private List<ImageHeader> withoutCopies(List<ImageHeader> together) {
        Map<String, List<ImageHeader>> byPixels = new LinkedHashMap<>();
        for (ImageHeader slice : together) {
            byPixels.computeIfAbsent(fingerprint(slice), key -> new ArrayList<>())
                    .add(slice);
        }
        Map<String, ImageHeader> single = new LinkedHashMap<>();
        byPixels.forEach((fingerprint, copies) -> single.put(fingerprint, oneOf(copies)));
        return withoutRepeatedInstances(single);
    }

    /** Of copies the one with the smallest UID, then the smallest digest of its file, so that names do not choose. */
    private ImageHeader oneOf(List<ImageHeader> copies) {
        if (copies.size() == 1) {
            return copies.get(0);
        }
        Map<ImageHeader, String> keys = new LinkedHashMap<>();
        copies.forEach(copy -> keys.put(copy, copy.identity().sopInstanceUid() + " " + fileDigest(copy)));
        ImageHeader kept = copies.stream().min(Comparator.comparing(keys::get)).orElseThrow();
        for (ImageHeader copy : copies) {
            if (copy != kept) {
                findings.add(Finding.info(
                        "DUPLICATE_DROPPED",
                        "the same pixels at the same position as another file of the series; one is used",
                        copy.path().toString()));
            }
        }
        return kept;
    }

    private String fingerprint(ImageHeader slice) {
        try {
            return PixelDigest.ofStoredValues(slice);
        } catch (DicomReadException e) {
            return notCompared(slice, e);
        }
    }

    private String fileDigest(ImageHeader slice) {
        try {
            return HexFormat.of().formatHex(PixelDigest.ofFile(slice.path()));
        } catch (DicomReadException e) {
            return notCompared(slice, e);
        }
    }

    private String notCompared(ImageHeader slice, DicomReadException e) {
        String path = slice.path().toString();
        findings.add(Finding.warning(
                "NOT_COMPARED", "could not be compared with others at its position: " + e.reason(), path));
        return path;
    }

    /**
     * Of one SOP instance with different pixels one is kept by a rule without file names: one that can be read, of these
     * the one with the smaller digest.
     */
    private List<ImageHeader> withoutRepeatedInstances(Map<String, ImageHeader> byPixels) {
        Map<String, ImageHeader> byInstance = new LinkedHashMap<>();
        Comparator<String> readableFirst = Comparator.comparing(digest ->
                byPixels.get(digest).pixels().orElseThrow().whyUnreadable().isPresent());
        for (String digest : byPixels.keySet().stream()
                .sorted(readableFirst.thenComparing(Comparator.naturalOrder()))
                .toList()) {
            ImageHeader slice = byPixels.get(digest);
            String uid = slice.identity().sopInstanceUid();
            ImageHeader first = byInstance.putIfAbsent(uid.isEmpty() ? digest : uid, slice);
            if (first != null) {
                findings.add(Finding.warning(
                        "SAME_INSTANCE_OTHER_PIXELS",
                        "SOP instance " + uid + " is there twice at one position, and its pixels differ or"
                                + " cannot be compared; one is used",
                        slice.path().toString()));
            }
        }
        return List.copyOf(byInstance.values());
    }

    private void noteRepeatedInstances(List<ImageHeader> kept) {
        Map<String, Integer> counts = new LinkedHashMap<>();
        for (ImageHeader slice : kept) {
            counts.merge(slice.identity().sopInstanceUid(), 1, Integer::sum);
        }
        counts.forEach((uid, count) -> {
            if (count > 1 && !uid.isEmpty()) {
                findings.add(Finding.warning(
                        "SAME_INSTANCE_OTHER_POSITION",
                        count + " slices at different positions carry one SOP instance UID, " + uid,
                        uid));
            }
        });
    }
}
