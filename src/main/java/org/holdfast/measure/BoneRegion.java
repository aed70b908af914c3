package org.holdfast.measure;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.holdfast.construct.Bone;
import org.holdfast.construct.BoneInterface;
import org.holdfast.construct.Component;
import org.holdfast.construct.Construct;
import org.holdfast.construct.Patch;
import org.holdfast.construct.PatchSample;
import org.holdfast.construct.ScrewShape;
import org.holdfast.geometry.PatientPoint;
import org.holdfast.geometry.PatientVector;
import org.holdfast.volume.HuVolume;

/**
 * Where a named bone lies on the reference exam: places within the bone's reach of its interfaces and of its screws'
 * stretch in bone, nearer to these than to another bone's, at or beside something denser than soft tissue. Neighbouring
 * bones that the construct does not name may be among them.
 */
final class BoneRegion {

    private static final double SPACING_MM = 1;
    private static final double LANDMARK_SPACING_MM = 4;
    /** Something of at least this HU lies at a place or beside it; muscle stays under it. */
    private static final double DENSE_HU = 160;

    private static final double BESIDE_MM = 1.5;

    private BoneRegion() {}

    /** The places of each bone, by its id, in a fixed order; a bone without interface and screw has none. */
    static Map<String, List<PatientPoint>> of(Construct construct, HuVolume reference, double reachMm) {
        Map<String, List<PatientPoint>> landmarks = landmarks(construct);
        Map<String, List<PatientPoint>> regions = new HashMap<>();
        landmarks.forEach((bone, own) -> regions.put(bone, region(bone, landmarks, reference, reachMm)));
        return regions;
    }

    private static Map<String, List<PatientPoint>> landmarks(Construct construct) {
        Map<String, List<PatientPoint>> landmarks = new HashMap<>();
        for (Bone bone : construct.bones()) {
            List<PatientPoint> own = new ArrayList<>();
            for (BoneInterface face : construct.interfaces()) {
                if (face.bone().equals(bone.id())) {
                    for (Patch patch : face.patches()) {
                        patch.samples(LANDMARK_SPACING_MM).stream()
                                .map(PatchSample::point)
                                .forEach(own::add);
                    }
                }
            }
            for (Component part : construct.components()) {
                if (part.shape() instanceof ScrewShape screw && screw.bone().equals(bone.id())) {
                    for (double at = screw.inBoneFromMm(); at <= screw.inBoneToMm(); at += LANDMARK_SPACING_MM) {
                        own.add(screw.head().along(screw.direction(), at));
                    }
                }
            }
            landmarks.put(bone.id(), own);
        }
        return landmarks;
    }

    private static List<PatientPoint> region(
            String bone, Map<String, List<PatientPoint>> landmarks, HuVolume reference, double reachMm) {
        List<PatientPoint> own = landmarks.get(bone);
        if (own.isEmpty()) {
            return List.of();
        }
        List<PatientPoint> others = landmarks.entrySet().stream()
                .filter(entry -> !entry.getKey().equals(bone))
                .sorted(Map.Entry.comparingByKey())
                .flatMap(entry -> entry.getValue().stream())
                .toList();
        List<PatientPoint> box = MetalSurroundings.boxRound(own, reachMm);
        PatientVector size = box.get(1).minus(box.get(0));
        int layers = (int) Math.floor(size.z() / SPACING_MM) + 1;
        return IntStream.range(0, layers)
                .parallel()
                .mapToObj(k -> layer(
                        box.get(0).plus(new PatientVector(0, 0, k * SPACING_MM)),
                        size,
                        own,
                        others,
                        reference,
                        reachMm))
                .flatMap(List::stream)
                .toList();
    }

    private static List<PatientPoint> layer(
            PatientPoint corner,
            PatientVector size,
            List<PatientPoint> own,
            List<PatientPoint> others,
            HuVolume reference,
            double reachMm) {
        List<PatientPoint> places = new ArrayList<>();
        for (double y = 0; y <= size.y(); y += SPACING_MM) {
            for (double x = 0; x <= size.x(); x += SPACING_MM) {
                PatientPoint p = corner.plus(new PatientVector(x, y, 0));
                double square = nearestSquare(p, own);
                if (square <= reachMm * reachMm && isDense(p, reference) && square < nearestSquare(p, others)) {
                    places.add(p);
                }
            }
        }
        return places;
    }

    private static double nearestSquare(PatientPoint p, List<PatientPoint> points) {
        double least = Double.POSITIVE_INFINITY;
        for (PatientPoint q : points) {
            double x = p.x() - q.x();
            double y = p.y() - q.y();
            double z = p.z() - q.z();
            least = Math.min(least, x * x + y * y + z * z);
        }
        return least;
    }

    private static boolean isDense(PatientPoint p, HuVolume reference) {
        double highest = reference.sample(p);
        for (int sign = -1; sign <= 1; sign += 2) {
            double step = sign * BESIDE_MM;
            highest = Math.max(highest, orLow(reference.sample(p.x() + step, p.y(), p.z())));
            highest = Math.max(highest, orLow(reference.sample(p.x(), p.y() + step, p.z())));
            highest = Math.max(highest, orLow(reference.sample(p.x(), p.y(), p.z() + step)));
        }
        return highest >= DENSE_HU;
    }

    private static double orLow(double hu) {
        return Double.isNaN(hu) ? HuVolume.LOWEST_TISSUE_HU : hu;
    }
}
