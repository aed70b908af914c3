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
    List<Slice> dropped(List<Slice> slices) {
        List<Slice> kept = new ArrayList<>();
        for (List<Slice> together : byPlace(slices)) {
            kept.addAll(together.size() == 1 ? together : withoutCopies(together));
        }
        noteRepeatedInstances(kept);
        return kept;
    }

    /** Groups of slices at one place in one plane; slices come sorted along their normal. */
    private static List<List<Slice>> byPlace(List<Slice> slices) {
        List<List<Slice>> groups = new ArrayList<>();
        for (Slice slice : slices) {
            List<Slice> home = null;
            for (int g = groups.size() - 1; g >= 0 && home == null; g--) {
                SlicePlane plane = groups.get(g).get(0).plane();
                SlicePlane own = slice.plane();
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

    private List<Slice> withoutCopies(List<Slice> together) {
        Map<String, List<Slice>> byPixels = new LinkedHashMap<>();
        for (Slice slice : together) {
            byPixels.computeIfAbsent(fingerprint(slice), key -> new ArrayList<>())
                    .add(slice);
        }
        Map<String, Slice> single = new LinkedHashMap<>();
        byPixels.forEach((fingerprint, copies) -> single.put(fingerprint, oneOf(copies)));
        return withoutRepeatedInstances(single);
    }

    /** Of copies the one with the smallest UID, then the smallest digest of its file, so that names do not choose. */
    private Slice oneOf(List<Slice> copies) {
        if (copies.size() == 1) {
            return copies.get(0);
        }
        Map<Slice, String> keys = new LinkedHashMap<>();
        copies.forEach(copy -> keys.put(copy, copy.instance() + " " + fileDigest(copy)));
        Slice kept = copies.stream().min(Comparator.comparing(keys::get)).orElseThrow();
        for (Slice copy : copies) {
            if (copy != kept) {
                findings.add(Finding.info(
                        "DUPLICATE_DROPPED",
                        "the same pixels at the same position as another file of the series; one is used",
                        copy.where()));
            }
        }
        return kept;
    }

    private String fingerprint(Slice slice) {
        try {
            return PixelDigest.ofStoredValues(slice);
        } catch (DicomReadException e) {
            return notCompared(slice, e);
        }
    }

    private String fileDigest(Slice slice) {
        try {
            return HexFormat.of().formatHex(PixelDigest.ofFile(slice.path()));
        } catch (DicomReadException e) {
            return notCompared(slice, e);
        }
    }

    private String notCompared(Slice slice, DicomReadException e) {
        String path = slice.where();
        findings.add(Finding.warning(
                "NOT_COMPARED", "could not be compared with others at its position: " + e.reason(), path));
        return path;
    }

    /**
     * Of one SOP instance with different pixels one is kept by a rule without file names: one that can be read, of these
     * the one with the smaller digest.
     */
    private List<Slice> withoutRepeatedInstances(Map<String, Slice> byPixels) {
        Map<String, Slice> byInstance = new LinkedHashMap<>();
        Comparator<String> readableFirst = Comparator.comparing(
                digest -> byPixels.get(digest).pixels().whyUnreadable().isPresent());
        for (String digest : byPixels.keySet().stream()
                .sorted(readableFirst.thenComparing(Comparator.naturalOrder()))
                .toList()) {
            Slice slice = byPixels.get(digest);
            String uid = slice.instance();
            Slice first = byInstance.putIfAbsent(uid.isEmpty() ? digest : uid, slice);
            if (first != null) {
                findings.add(Finding.warning(
                        "SAME_INSTANCE_OTHER_PIXELS",
                        "SOP instance " + uid + " is there twice at one position, and its pixels differ or"
                                + " cannot be compared; one is used",
                        slice.where()));
            }
        }
        return List.copyOf(byInstance.values());
    }

    private void noteRepeatedInstances(List<Slice> kept) {
        Map<String, Integer> counts = new LinkedHashMap<>();
        for (Slice slice : kept) {
            counts.merge(slice.instance(), 1, Integer::sum);
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
